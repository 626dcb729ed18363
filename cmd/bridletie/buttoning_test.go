package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// The demo requests about buttoning are answered in every form.
func TestRunButtoning(t *testing.T) {
	for name, first := range map[string]string{
		"wing-chair-back.json": "25 buttons in 7 rows; cut 68.4 cm across",
		"banquette-back.json":  "58 buttons in 4 rows; cut 2.799 m across",
	} {
		file := filepath.Join("..", "..", "testdata", "jobs", name)
		for as, want := range map[string]string{"text": first, "json": `{"cut":`, "svg": "<svg "} {
			code, out, stderr := call(t, "", "run", "--op", "buttoning", "--as", as, file)
			if code != exitOK || !strings.HasPrefix(out, want) || as == "svg" && !strings.Contains(out, first) {
				t.Errorf("%s as %s: code %d, %s%.200s", name, as, code, stderr, out)
			}
		}
		if code, _, stderr := call(t, "", "run", file); code != exitFail || !strings.Contains(stderr, "#/panels") {
			t.Errorf("%s as a job: code %d, %s", name, code, stderr)
		}
	}
}
