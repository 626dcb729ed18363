package drawing

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/panel"
)

// printedPlan is a long plan on paper, with the words of its panels.
func printedPlan(t testing.TB, paper Paper) []byte {
	t.Helper()
	pdf, err := PlanPicture(wingChair()).PDF(paper)
	if err != nil {
		t.Fatal(err)
	}
	return pdf
}

// The same picture gives the same bytes, on either paper.
func TestPDFIsTheSameEveryTime(t *testing.T) {
	a4, letter := printedPlan(t, A4()), printedPlan(t, Letter())
	if !bytes.HasPrefix(a4, []byte("%PDF-")) || !bytes.Equal(a4, printedPlan(t, A4())) {
		t.Error("two documents of one picture")
	}
	if bytes.Equal(a4, letter) {
		t.Error("the papers make no difference")
	}
}

// What reads a PDF finds every panel, whole, and the pages in order; what checks
// one finds nothing.
func TestPDFReads(t *testing.T) {
	for _, program := range []string{"qpdf", "pdftotext", "pdfinfo"} {
		if _, err := exec.LookPath(program); err != nil {
			t.Skipf("%v: the document is not read back", err)
		}
	}
	file := filepath.Join(t.TempDir(), "plan.pdf")
	if err := os.WriteFile(file, printedPlan(t, A4()), 0o600); err != nil {
		t.Fatal(err)
	}
	run := func(name string, args ...string) string {
		out, err := exec.CommandContext(t.Context(), name, args...).CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v: %s", name, err, out)
		}
		return string(out)
	}
	run("qpdf", "--check", file)
	words := strings.Join(strings.Fields(run("pdftotext", "-layout", file, "-")), " ")
	ans := wingChair()
	for _, p := range ans.Request.Panels {
		if !strings.Contains(words, p.ID) {
			t.Errorf("panel %s is not to be read", p.ID)
		}
	}
	info := run("pdfinfo", file)
	if !strings.Contains(info, "Title:           "+PlanTitle(ans)) {
		t.Errorf("no title: %s", info)
	}
	_, after, _ := strings.Cut(info, "Pages:")
	pages, err := strconv.Atoi(strings.Fields(after)[0])
	if err != nil || pages < 2 || !strings.Contains(words, "page "+strconv.Itoa(pages)+" of "+strconv.Itoa(pages)) {
		t.Errorf("%d pages, %v", pages, err)
	}
}

// Letters that the font does not have, and turns, do not spoil the document.
func TestPDFOfStrangeNames(t *testing.T) {
	ans := wingChair()
	ans.Request.Cloth.Name = "綸子 שלום \u202e x"
	ans.Request.Panels = append([]panel.Panel{}, ans.Request.Panels...)
	ans.Request.Panels[0].Name = "Größe ½ × 💺"
	if _, err := PlanPicture(ans).PDF(A4()); err != nil {
		t.Error(err)
	}
	if _, err := PDF(A4(), "nothing"); err != nil {
		t.Error(err)
	}
}

func BenchmarkPDF(b *testing.B) {
	p := PlanPicture(wingChair())
	for b.Loop() {
		if _, err := p.PDF(A4()); err != nil {
			b.Fatal(err)
		}
	}
}
