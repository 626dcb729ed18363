package drawing

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
)

// pagesOf are the pages of a picture on paper, with their numbers.
func pagesOf(p *Picture, paper Paper) []*pdfSheet {
	all := paginate(p, printScale(p, paper), paper.Height-2*pageMargin-pageFoot)
	for i, s := range all {
		s.page = i + 1
	}
	return all
}

// drawnPictures are pictures of every shape that a page has to deal with.
func drawnPictures(t *testing.T) map[string]*Picture {
	all := map[string]*Picture{"foam": FoamPicture(bench(t, "window bench")), "relief": ReliefPicture(carverSeat()), "pleats": PleatsPicture(armFront())}
	for _, s := range samples {
		all[s.name] = PlanPicture(s.make())
	}
	return all
}

// The pages show all of a picture, from its top to its bottom, and nothing twice
// but for the overlaps of a length of cloth.
func TestPagesShowEverything(t *testing.T) {
	for name, p := range drawnPictures(t) {
		for _, paper := range []Paper{A4(), Letter()} {
			high := paper.Height - 2*pageMargin - pageFoot
			at := 0.0
			for i, s := range pagesOf(p, paper) {
				if s.to < s.from || (s.to-s.from)/s.scale > high+1e-6 {
					t.Errorf("%s: page %d is %v high, of %v", name, i+1, (s.to-s.from)/s.scale, high)
				}
				if s.from > at+1e-6 || s.last == nil && s.from < at-1e-6 {
					t.Errorf("%s: page %d begins at %v, the last one ended at %v", name, i+1, s.from, at)
				}
				at = max(at, s.to)
			}
			if end := drawnTo(p, at); at < end-1e-6 {
				t.Errorf("%s: the last page ends at %v of %v", name, at, end)
			}
		}
	}
}

// drawnTo is how far down a picture its pages must go: to what is drawn lowest but
// for a closing line that stands below what they show.
func drawnTo(p *Picture, shown float64) float64 {
	low := 0.0
	for _, m := range extents(p.Items, 0) {
		if c := p.Closing; c.Text == "" || m.from < c.From-1e-6 || shown > c.From {
			low = max(low, m.to)
		}
	}
	return low
}

// The closing line stands once, and neither it nor the margin below it makes a
// page. Sheets of every length come to every place of a page.
func TestClosingLineMakesNoPage(t *testing.T) {
	feet := 0
	for lines := 1; lines <= 130; lines++ {
		s := &paper{sys: length.Metric, k: 1, page: usualWidth + 2*marginPage}
		s.title("Sheet", "of so many lines")
		for range lines {
			s.body(tPlain, "A line.")
		}
		s.closing(nil, nil)
		p := s.picture("Sheet", "", planStyles(1))
		if p.Closing.Text == "" {
			t.Fatal("no closing line")
		}
		at, stands := 0.0, 0
		for i, page := range pagesOf(p, A4()) {
			marks := 0
			for _, m := range extents(p.Items, 0) {
				if m.to > page.from+1e-6 && m.to <= page.to+1e-6 && m.to < p.Closing.From {
					marks++
				}
			}
			if marks == 0 {
				t.Errorf("%d lines: page %d has nothing, or the closing line alone", lines, i+1)
			}
			if page.closing != "" {
				stands++
				feet++
			}
			at = page.to
		}
		if at > p.Closing.From+1 {
			stands++
		}
		if stands != 1 {
			t.Errorf("%d lines: the closing line stands %d times", lines, stands)
		}
	}
	if feet == 0 {
		t.Error("no closing line came to a foot")
	}
}

// What should stay whole does, where it fits on a page.
func TestPagesKeepThingsWhole(t *testing.T) {
	kept := 0
	for name, p := range drawnPictures(t) {
		pages := pagesOf(p, A4())
		high := (A4().Height - 2*pageMargin - pageFoot) * pages[0].scale
		for _, w := range p.Whole {
			if w.To-w.From > high {
				continue
			}
			kept++
			for i, s := range pages[:len(pages)-1] {
				if s.next == nil && s.to > w.From+1e-6 && s.to < w.To-1e-6 && !overLong(p, w, high) {
					t.Errorf("%s: page %d ends at %v, in what lies from %v to %v", name, i+1, s.to, w.From, w.To)
				}
			}
		}
	}
	if kept < 100 {
		t.Errorf("only %d things were to stay whole", kept)
	}
}

// overLong reports whether a span reaches into a strip that no page holds, as a
// heading's does that stands before one.
func overLong(p *Picture, w Span, high float64) bool {
	for _, s := range p.Strips {
		if s.Above+s.H+s.Below > high && w.From < s.Y && w.To > s.Y-s.Above {
			return true
		}
	}
	return false
}

// A length of cloth that no page holds begins on a page of its own behind its
// key, and its pages overlap by the same share each.
func TestLongClothIsBroken(t *testing.T) {
	p := PlanPicture(wingChair())
	pages := pagesOf(p, A4())
	strip := &p.Strips[0]
	var parts []*pdfSheet
	for _, s := range pages {
		if s.strip == strip {
			parts = append(parts, s)
		}
		if s.key == strip && len(s.keyed) < 3 {
			t.Errorf("the key knows %d pages", len(s.keyed))
		}
	}
	if len(parts) < 3 || parts[0].last != nil || parts[len(parts)-1].next != nil {
		t.Fatalf("%d pages of cloth", len(parts))
	}
	for i, s := range parts[1:] {
		before := parts[i]
		if s.last != before || before.next != s {
			t.Errorf("page %d does not know its neighbours", s.page)
		}
		shared := (before.to - s.from) / s.scale
		if want := (A4().Height - 2*pageMargin - pageFoot) * overlap; shared < want-1e-6 || shared > want+1e-6 {
			t.Errorf("pages %d and %d share %v of paper, wanted %v", before.page, s.page, shared, want)
		}
	}
	seen := make(map[string]bool)
	for _, s := range parts {
		for _, part := range strip.Parts {
			if strings.Contains(onPage(strip, s), part.Name) {
				seen[part.Name] = true
			}
		}
	}
	for _, part := range strip.Parts {
		if !seen[part.Name] {
			t.Errorf("%s is on no page of the key", part.Name)
		}
	}
}

// The scale that a drawing says it has is that at which it is printed.
func TestPrintedAtItsScale(t *testing.T) {
	for name, p := range drawnPictures(t) {
		for _, paper := range []Paper{A4(), Letter()} {
			if got := printScale(p, paper); got != p.Scale {
				t.Errorf("%s is printed at 1:%v and says 1:%v", name, got, p.Scale)
			}
			if broad := p.Width / p.Scale; broad > paper.Width-2*pageMargin || broad < 0.6*(paper.Width-2*pageMargin) {
				t.Errorf("%s is %v mm broad", name, broad)
			}
		}
	}
}

// Whatever an answer holds, it is printed, on as many pages as are allowed.
func TestAnyAnswerIsPrinted(t *testing.T) {
	for seed := range uint64(60) {
		p := PlanPicture(random(rand.New(rand.NewPCG(seed, 7))))
		if n := len(pagesOf(p, A4())); n > 3*mostPages {
			t.Errorf("seed %d: %d pages", seed, n)
		}
		if seed%4 == 0 {
			if _, err := p.Printed(); err != nil {
				t.Errorf("seed %d: %v", seed, err)
			}
		}
	}
	if n := len(pagesOf(PlanPicture(largest()), Letter())); n > 3*mostPages {
		t.Errorf("%d pages of the largest", n)
	}
}

// What is drawn off a picture makes no pages.
func TestPagesEndWithThePicture(t *testing.T) {
	p := &Picture{Width: 190, Height: 100, Classes: planStyles(1), Items: []Shape{Rect{X: 0, Y: 10, W: 20, H: 1e9}}}
	if n := len(pagesOf(p, A4())); n != 1 {
		t.Errorf("%d pages", n)
	}
}
