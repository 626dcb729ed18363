package drawing

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

var update = flag.Bool("update", false, "write the golden files anew")

var samples = []struct {
	name string
	make func() *service.YardageAnswer
}{
	{"wing-chair", wingChair},
	{"turned", turned},
	{"joined", joined},
	{"bolts", bolts},
}

func TestGolden(t *testing.T) {
	for _, s := range samples {
		t.Run(s.name, func(t *testing.T) {
			golden(t, s.name+".svg", PlanPicture(s.make()).SVG())
			golden(t, s.name+".txt", []byte(PlanText(s.make())))
		})
	}
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s differs from what is drawn (%d bytes, drawn %d); look at it, then use -update", name, len(want), len(got))
	}
}

// node is an element of a drawing as a reader of XML sees it.
type node struct {
	name  string
	attrs map[string]string
	text  string
}

var allowedNames = []string{"svg", "title", "desc", "g", "rect", "circle", "path", "text"}

var allowedAttrs = []string{
	"xmlns", "width", "height", "viewBox", "role", "font-family", "font-size", "font-weight", "x", "y", "cx", "cy", "r", "d",
	"fill", "fill-opacity", "stroke", "stroke-width", "stroke-dasharray", "stroke-linejoin", "paint-order", "text-anchor", "transform",
}

// read takes a drawing apart; anything that is no plain drawing is an error.
func read(t *testing.T, svg []byte) []node {
	t.Helper()
	if !utf8.Valid(svg) {
		t.Fatal("not UTF-8")
	}
	dec := xml.NewDecoder(bytes.NewReader(svg))
	var nodes []node
	var open []int
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return nodes
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch e := tok.(type) {
		case xml.StartElement:
			n := node{name: e.Name.Local, attrs: map[string]string{}}
			if !slices.Contains(allowedNames, n.name) {
				t.Fatalf("element %q", n.name)
			}
			for _, a := range e.Attr {
				if !slices.Contains(allowedAttrs, a.Name.Local) {
					t.Fatalf("attribute %q", a.Name.Local)
				}
				if strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") || strings.Contains(a.Value, "e+") {
					t.Fatalf("%s=%q", a.Name.Local, a.Value)
				}
				n.attrs[a.Name.Local] = a.Value
			}
			open = append(open, len(nodes))
			nodes = append(nodes, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				nodes[open[len(open)-1]].text += string(e)
			}
		case xml.Comment, xml.ProcInst, xml.Directive:
			t.Fatalf("unexpected %T", tok)
		}
	}
}

func TestNothingButADrawing(t *testing.T) {
	for _, s := range samples {
		svg := PlanPicture(s.make()).SVG()
		nodes := read(t, svg)
		for _, word := range []string{"script", "href", "foreignObject", "url(", "data:", "<style", "<!"} {
			if bytes.Contains(svg, []byte(word)) {
				t.Errorf("%s: holds %q", s.name, word)
			}
		}
		root := nodes[0]
		if root.name != "svg" || root.attrs["role"] != "img" || !strings.HasSuffix(root.attrs["width"], "mm") || !strings.HasSuffix(root.attrs["height"], "mm") {
			t.Errorf("%s: root %v", s.name, root)
		}
		if nodes[1].name != "title" || nodes[1].text != PlanTitle(s.make()) || nodes[2].name != "desc" || nodes[2].text == "" {
			t.Errorf("%s: title %q, description %q", s.name, nodes[1].text, nodes[2].text)
		}
	}
}

func layoutsOf(ans *service.YardageAnswer) []plan.Layout {
	all := slices.Clone(ans.Result.Cut)
	if ans.Pieces != nil {
		for _, u := range ans.Pieces.Uses {
			all = append(all, u.Layout)
		}
	}
	return all
}

func num(v float64) string { return string(appendNum(nil, v)) }

// Every placement is drawn, once, where it lies, in millimetres of the cloth.
func TestEveryPlacementIsDrawn(t *testing.T) {
	for _, s := range samples {
		ans := s.make()
		have := map[[4]string]int{}
		for _, n := range read(t, PlanPicture(ans).SVG()) {
			if n.name == "rect" && n.attrs["stroke"] == "#1b2430" {
				have[[4]string{n.attrs["x"], n.attrs["y"], n.attrs["width"], n.attrs["height"]}]++
			}
		}
		want := map[[4]string]int{}
		for _, l := range layoutsOf(ans) {
			for _, p := range l.Placements {
				want[[4]string{num(p.X.MM()), num(p.Y.MM()), num(p.Across.MM()), num(p.Along.MM())}]++
			}
		}
		for k, n := range want {
			if have[k] != n {
				t.Errorf("%s: rectangle %v is drawn %d times, wanted %d", s.name, k, have[k], n)
			}
		}
		if len(have) != len(want) {
			t.Errorf("%s: %d different rectangles, wanted %d", s.name, len(have), len(want))
		}
	}
}

func TestEveryNameIsFound(t *testing.T) {
	for _, s := range samples {
		ans := s.make()
		var titles, texts []string
		for _, n := range read(t, PlanPicture(ans).SVG()) {
			switch n.name {
			case "title":
				titles = append(titles, n.text)
			case "text":
				texts = append(texts, n.text)
			}
		}
		page := PlanText(ans)
		for _, l := range layoutsOf(ans) {
			for _, pl := range l.Placements {
				name := placedName(ans.Request.Panels, pl)
				if !slices.ContainsFunc(titles, func(t string) bool { return strings.HasPrefix(t, name) }) {
					t.Errorf("%s: no title for %q", s.name, name)
				}
				if !strings.Contains(strings.Join(strings.Fields(page), " "), name) {
					t.Errorf("%s: %q is not on the page", s.name, name)
				}
			}
		}
		for _, p := range ans.Request.Panels {
			if !slices.Contains(texts, p.ID) {
				t.Errorf("%s: %q is not in the table", s.name, p.ID)
			}
		}
		for _, m := range ans.Request.Cloth.Pattern.Motifs {
			if !slices.Contains(texts, m.Name) {
				t.Errorf("%s: motif %q is not in the legend", s.name, m.Name)
			}
		}
	}
}

// Labels stay inside their panels, as broad as the font's letters are.
func TestLabelsStayInside(t *testing.T) {
	checked := 0
	for _, s := range samples {
		p := PlanPicture(s.make())
		for _, it := range p.Items {
			strip, ok := it.(Group)
			if !ok {
				continue
			}
			for _, it := range strip.Items {
				if g, ok := it.(Group); ok {
					checked += insideOne(t, p, g)
				}
			}
		}
	}
	if checked < 60 {
		t.Errorf("only %d labels were checked", checked)
	}
}

func insideOne(t *testing.T, p *Picture, g Group) (checked int) {
	t.Helper()
	r := g.Items[0].(Rect)
	for _, it := range g.Items {
		text, ok := it.(Text)
		if !ok {
			continue
		}
		checked++
		half := advance(t, text.S, p.Classes[text.Class].Bold) * text.Size / 2
		b := box{text.At.X - half, text.At.Y - text.Size*0.8, 2 * half, text.Size}
		if text.Turn != 0 {
			b = box{text.At.X - text.Size*0.8, text.At.Y - half, text.Size, 2 * half}
		}
		if b.x < r.X || b.y < r.Y || b.x+b.w > r.X+r.W || b.y+b.h > r.Y+r.H {
			t.Errorf("%q at %v reaches out of %v", text.S, b, r)
		}
	}
	return checked
}

// checkPage reports what a terminal would not show well.
func checkPage(t *testing.T, page string) {
	t.Helper()
	if !utf8.ValidString(page) {
		t.Error("the page is not UTF-8")
	}
	for line := range strings.Lines(page) {
		line = strings.TrimSuffix(line, "\n")
		if n := max(cells(line), utf8.RuneCountInString(line)); n > 78 {
			t.Errorf("%d columns: %q", n, line)
		}
		if strings.ContainsFunc(line, unicode.IsControl) || strings.ContainsAny(line, "\u2028\u202e\u2066\u2068") {
			t.Errorf("control characters in %q", line)
		}
	}
}

func TestPageFits(t *testing.T) {
	for _, s := range samples {
		page := PlanText(s.make())
		checkPage(t, page)
		if !strings.Contains(page, "To buy") || strings.Index(page, "To buy") > strings.Index(page, "THE PLAN") && strings.Contains(page, "THE PLAN") {
			t.Errorf("%s: what to buy does not come first", s.name)
		}
	}
}
