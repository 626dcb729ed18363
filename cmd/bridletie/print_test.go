package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// Whatever is drawn can be printed from the command line.
func TestRunPrints(t *testing.T) {
	for op, file := range map[string]string{
		"yardage-check": "carver-pair-check.json", "buttoning": "wing-chair-back.json", "piping": "wing-chair-piping.json",
		"repeat": "curtains-repeat.json", "relief-cuts": "carver-seat-relief.json", "pleats": "sofa-skirt-pleats.json",
		"wadding": "wadding.json", "foundation": "wing-chair-foundation.json", "fire-check": "banquette-fire.json", "foam": "settee-foam.json",
	} {
		code, out, stderr := call(t, "", "run", "--op", op, "--as", "pdf", filepath.Join("..", "..", "testdata", "jobs", file))
		if code != exitOK || !strings.HasPrefix(out, "%PDF-") {
			t.Errorf("%s: code %d, %s%.100q", op, code, stderr, out)
		}
	}
}
