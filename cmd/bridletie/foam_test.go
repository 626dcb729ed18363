package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// The settee's cushions are answered in every form.
func TestRunFoam(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "jobs", "settee-foam.json")
	for as, want := range map[string]string{"text": "Foam for 3 cushions\n", "json": `{"groups":`, "svg": "<svg "} {
		if code, out, stderr := call(t, "", "run", "--op", "foam", "--as", as, file); code != exitOK || !strings.HasPrefix(out, want) {
			t.Errorf("as %s: code %d, %s%.200s", as, code, stderr, out)
		}
	}
}
