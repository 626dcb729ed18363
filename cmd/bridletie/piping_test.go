package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// The demo's piping is answered in every form, out of the offcuts alone.
func TestRunPiping(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "jobs", "wing-chair-piping.json")
	for as, want := range map[string]string{"text": "it is all in the offcuts", "json": `"way":"offcuts"`, "svg": "it is all in the offcuts"} {
		code, out, stderr := call(t, "", "run", "--op", "piping", "--as", as, file)
		if code != exitOK || !strings.Contains(out, want) {
			t.Errorf("as %s: code %d, %s%.200s", as, code, stderr, out)
		}
	}
}
