package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
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

// The job sheet is one sound document: its pages are numbered through, and every
// panel and everything to order is found in it.
func TestJobSheetIsPrinted(t *testing.T) {
	file := filepath.Join("..", "..", "testdata", "jobs", "wing-chair-job.json")
	sheet := filepath.Join(t.TempDir(), "job.pdf")
	if code, _, stderr := call(t, "", "run", "--op", "job", "--as", "pdf", "--out", sheet, file); code != exitOK {
		t.Fatalf("code %d, %s", code, stderr)
	}
	code, out, stderr := call(t, "", "run", "--op", "job", "--as", "json", file)
	if code != exitOK {
		t.Fatalf("code %d, %s", code, stderr)
	}
	var answer struct {
		CuttingLists []struct {
			List struct {
				Covers []struct {
					Panels []struct{ ID, Name string }
				}
			}
		}
	}
	if err := json.Unmarshal([]byte(out), &answer); err != nil {
		t.Fatal(err)
	}
	tool(t, "qpdf", "--check", sheet)
	words := strings.Join(strings.Fields(tool(t, "pdftotext", "-raw", sheet, "-")), " ")
	n := 0
	for _, l := range answer.CuttingLists {
		for _, c := range l.List.Covers {
			for _, p := range c.Panels {
				n++
				if !strings.Contains(words, p.ID+" "+p.Name) {
					t.Errorf("%s %s is not to be read", p.ID, p.Name)
				}
			}
		}
	}
	pages := regexp.MustCompile(`Pages: +(\d+)`).FindStringSubmatch(tool(t, "pdfinfo", sheet))
	if n < 15 || pages == nil || !strings.Contains(words, "page "+pages[1]+" of "+pages[1]) {
		t.Errorf("%d panels, pages %q", n, pages)
	}
}

// The demo plan takes the pages that README says: its key, the cloth over three,
// the lists.
func TestPlanIsPrinted(t *testing.T) {
	sheet := filepath.Join(t.TempDir(), "plan.pdf")
	if code, _, stderr := call(t, "", "run", "--as", "pdf", "--out", sheet, filepath.Join("..", "..", "testdata", "jobs", "wing-chair.json")); code != exitOK {
		t.Fatalf("code %d, %s", code, stderr)
	}
	words := tool(t, "pdftotext", "-raw", sheet, "-")
	for want, times := range map[string]int{
		"page 6 of 6": 1, "Drawn at 1:9 when": 1, "Pages of the cloth": 1, "begins at the line of dots and dashes": 2, "ends at the line of dots and dashes": 2,
	} {
		if n := strings.Count(words, want); n != times {
			t.Errorf("%q stands %d times on the pages, wanted %d", want, n, times)
		}
	}
}

// tool is what a program prints. Where it is not installed the test is skipped, and
// says so; but for CI, which installs it.
func tool(t *testing.T, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skipf("%v: the document is not read back", err)
	}
	out, err := exec.CommandContext(t.Context(), name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", name, err, out)
	}
	return string(out)
}
