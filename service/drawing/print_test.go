package drawing

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// printedOf writes a picture to a file as PDF.
func printedOf(t *testing.T, p *Picture) (file string) {
	t.Helper()
	pdf, err := p.PDF(A4())
	if err != nil {
		t.Fatal(err)
	}
	file = filepath.Join(t.TempDir(), "picture.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	return file
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

// pictures that a workroom prints, by name.
func printable(t *testing.T) map[string]*Picture {
	all := drawnPictures(t)
	all["buttoning"] = ButtoningPicture(buttoned(t, size(56*cm, 78*cm), nil))
	all["banquette"] = ButtoningPicture(buttoned(t, size(240*cm, 60*cm), func(r *service.ButtoningRequest) { r.Units = length.Imperial }))
	k, ok := furniture.Find("wing-chair")
	if !ok {
		t.Fatal("no wing chair")
	}
	all["guide"] = MeasuringPicture(k, length.Metric)
	return all
}

// What checks a PDF finds nothing in any picture; its fonts are in it.
func TestPDFIsSound(t *testing.T) {
	for name, p := range printable(t) {
		file := printedOf(t, p)
		if out := tool(t, "qpdf", "--check", file); strings.Contains(strings.ToLower(out), "warning") {
			t.Errorf("%s: %s", name, out)
		}
		fonts := tool(t, "pdffonts", file)
		rows := strings.Split(strings.TrimSpace(fonts), "\n")[2:]
		for _, row := range rows {
			if f := strings.Fields(row); len(f) < 7 || f[4] != "yes" || f[6] != "yes" {
				t.Errorf("%s: a font that is not in the document, or whose text cannot be copied: %s", name, row)
			}
		}
		if len(rows) == 0 {
			t.Errorf("%s: no fonts: %s", name, fonts)
		}
	}
}

// A document says what it is, in which language, and how many pages it has.
func TestPDFSaysWhatItIs(t *testing.T) {
	p := PlanPicture(wingChair())
	file := printedOf(t, p)
	info := tool(t, "pdfinfo", file)
	if !strings.Contains(info, "Title:           "+p.Title+"\n") || !strings.Contains(info, "Subject:         "+p.Desc[:20]) {
		t.Errorf("%s", info)
	}
	pages := regexp.MustCompile(`Pages: +(\d+)`).FindStringSubmatch(info)
	if want := strconv.Itoa(len(pagesOf(p, A4()))); pages == nil || pages[1] != want {
		t.Errorf("pages %q, wanted %s", pages, want)
	}
	if pdf, _ := p.PDF(A4()); !bytes.Contains(pdf, []byte("/Lang (en-GB)")) {
		t.Error("no language")
	}
	words := tool(t, "pdftotext", "-raw", file, "-")
	for i := range pagesOf(p, A4()) {
		if want := p.Title + ", page " + strconv.Itoa(i+1) + " of " + pages[1] + "\n"; strings.Count(words, want) != 1 {
			t.Errorf("page %d says its number %d times", i+1, strings.Count(words, want))
		}
	}
}

// Text comes in the order in which it is read: what it is, the figures, the key,
// the cloth from its start with every panel, the lists; and each word once.
func TestPDFReadsInOrder(t *testing.T) {
	ans := wingChair()
	file := printedOf(t, PlanPicture(ans))
	words := strings.Join(strings.Fields(tool(t, "pdftotext", "-raw", file, "-")), " ")
	at := 0
	next := func(want string) {
		t.Helper()
		i := strings.Index(words[at:], want)
		if i < 0 {
			t.Fatalf("%q does not come after %.60q", want, words[max(at-60, 0):at])
		}
		at += i + len(want)
	}
	next(PlanTitle(ans))
	next("TO BUY")
	next("Pages of the cloth")
	next("left selvedge")
	for _, pl := range inOrder(ans.Result.Cut[0].Placements) {
		if min(pl.Across, pl.Along) > 12*cm { // a smaller one has its number
			next(ans.Request.Panels[pl.Panel].ID)
		}
	}
	next("Panels No. Id Name")
	for i, p := range ans.Request.Panels {
		next(strconv.Itoa(i+1) + " " + p.ID + " ")
	}
	next("Check before you cut")
	if n := strings.Count(words, "right selvedge"); n != 1 {
		t.Errorf("the right selvedge is named %d times", n)
	}
}

// Every panel of every plan is found by its name.
func TestPDFNamesEveryPanel(t *testing.T) {
	for _, s := range samples {
		ans := s.make()
		words := strings.Join(strings.Fields(tool(t, "pdftotext", "-raw", printedOf(t, PlanPicture(ans)), "-")), " ")
		for _, p := range ans.Request.Panels {
			if !strings.Contains(words, strings.Join(strings.Fields(p.ID+" "+p.Name), " ")) {
				t.Errorf("%s: %s %s is not to be read", s.name, p.ID, p.Name)
			}
		}
	}
}

// The pages of a long cloth say where they overlap.
func TestPDFSaysWherePagesOverlap(t *testing.T) {
	p := PlanPicture(wingChair())
	words := tool(t, "pdftotext", "-raw", printedOf(t, p), "-")
	n := 0
	for _, s := range pagesOf(p, A4()) {
		if s.next != nil {
			n++
			for _, want := range []string{"Page " + strconv.Itoa(s.next.page) + " begins at", "Page " + strconv.Itoa(s.page) + " ends at", "Page " + strconv.Itoa(s.page) + ": "} {
				if strings.Count(words, want) != 1 {
					t.Errorf("%q is said %d times", want, strings.Count(words, want))
				}
			}
		}
	}
	if n < 2 {
		t.Errorf("%d overlaps", n)
	}
}

// Letters of other scripts do not spoil the document.
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

// One document holds many pictures, each with a bookmark, its pages numbered
// through.
func TestPDFOfManyPictures(t *testing.T) {
	plan, foam := PlanPicture(wingChair()), FoamPicture(bench(t, "window bench"))
	pdf, err := PDF(Letter(), "A job", plan, foam)
	if err != nil {
		t.Fatal(err)
	}
	again, _ := PDF(Letter(), "A job", plan, foam)
	if !bytes.Equal(pdf, again) {
		t.Error("another document the second time")
	}
	file := filepath.Join(t.TempDir(), "job.pdf")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	tool(t, "qpdf", "--check", file)
	words := tool(t, "pdftotext", "-raw", file, "-")
	n := len(pagesOf(plan, Letter())) + len(pagesOf(foam, Letter()))
	for _, want := range []string{
		"A job: " + plan.Title + ", page 1 of " + strconv.Itoa(n),
		"A job: " + foam.Title + ", page " + strconv.Itoa(n) + " of " + strconv.Itoa(n),
	} {
		if !strings.Contains(words, want) {
			t.Errorf("%q is not to be read", want)
		}
	}
	if n := bytes.Count(pdf, []byte("/Dest [")); n != 2 {
		t.Errorf("%d bookmarks", n)
	}
}
