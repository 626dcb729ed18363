package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// A job is known by what it holds: it is read as text unless another form is
// asked for, and its drawings go to a folder under names that tell them apart.
func TestRunJob(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "jobs", "banquette-job.json")
	folder := filepath.Join(t.TempDir(), "not", "there", "yet")
	code, out, stderr := call(t, "", "run", file, "--drawings", folder)
	if code != exitOK || !strings.HasPrefix(out, "Job sheet: Banquette") || !strings.Contains(out, "ORDER LIST") {
		t.Fatalf("code %d, %s%.200s", code, stderr, out)
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
		text, err := os.ReadFile(filepath.Join(folder, e.Name()))
		want := "<svg "
		if strings.HasSuffix(e.Name(), ".pdf") {
			want = "%PDF"
		}
		if err != nil || !strings.HasPrefix(string(text), want) {
			t.Errorf("%s: %v, %.40q", e.Name(), err, text)
		}
	}
	for _, want := range []string{"01-cover.svg", "02-cutting-list-LONG.svg", "05-cloth-STRIPE.svg", "08-piping-PLAIN.svg", "15-cautions.svg", "job-sheet.pdf"} {
		if !slices.Contains(names, want) {
			t.Errorf("%q is not among %q", want, names)
		}
	}
	for as, want := range map[string]string{"json": "{", "svg": "<svg ", "pdf": "%PDF"} {
		if code, out, stderr := call(t, "", "run", "--as", as, file); code != exitOK || !strings.HasPrefix(out, want) {
			t.Errorf("as %s: code %d, %s%.100s", as, code, stderr, out)
		}
	}
	if code, _, stderr := call(t, request, "run", "--drawings", folder, "-"); code != exitUsage || !strings.Contains(stderr, "for a job") {
		t.Errorf("drawings of a plan: code %d, %s", code, stderr)
	}
	if code, out, _ := call(t, request, "run", "-"); code != exitOK || !strings.HasPrefix(out, "{") {
		t.Errorf("a plan without a form: code %d, %.100s", code, out)
	}
}
