package drawing

import (
	"context"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// buttoned is an answer about a back of that size.
func buttoned(t testing.TB, size panel.Size, change func(*service.ButtoningRequest)) *service.ButtoningAnswer {
	t.Helper()
	req := service.ButtoningRequest{
		Name:  "inside back",
		Panel: buttoning.Panel{Size: size, Edges: buttoning.Edges{Side: 8 * cm, Top: 8 * cm, Bottom: 8 * cm}, Allow: panel.Sides{Top: 6 * cm, Bottom: 9 * cm, Left: 4 * cm, Right: 3 * cm}},
		Grid:  buttoning.Wish{How: buttoning.Spacing, Width: 13 * cm, Height: 19 * cm},
		Depth: 3 * cm,
		Cloth: cloth.Cloth{Name: "Quayside trellis", Width: 140 * cm, Pattern: cloth.Pattern{
			LengthRepeat: 32 * cm, WidthRepeat: 28 * cm, Motifs: []cloth.Motif{{Name: "crossing", Across: 14 * cm}},
		}},
		Aim:     &service.ButtoningAim{},
		Join:    true,
		Shop:    practice.Defaults().With(practice.ButtonCloth.Give(length.Millimetre)),
		Buttons: service.ButtonWish{Lines: 28, Offcuts: []panel.Size{{Across: 20 * cm, Along: 9 * cm}}},
	}
	if change != nil {
		change(&req)
	}
	if l := service.Faults(service.PrepareButtoning(req)); l.Len() > 0 {
		t.Fatalf("faults: %+v", l.Faults())
	}
	ans, err := service.Buttoning(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func TestButtoningGolden(t *testing.T) {
	back := buttoned(t, size(56*cm, 78*cm), nil)
	golden(t, "buttoning.svg", ButtoningPicture(back).SVG())
	golden(t, "buttoning.txt", []byte(ButtoningText(back)))
	wide := buttoned(t, size(240*cm, 60*cm), func(r *service.ButtoningRequest) { r.Units = length.Imperial })
	golden(t, "buttoning-joined.svg", ButtoningPicture(wide).SVG())
	golden(t, "buttoning-joined.txt", []byte(ButtoningText(wide)))
}

// What is drawn is what is answered: a ring for every button, and the three fates
// by shape.
func TestButtoningIsDrawn(t *testing.T) {
	back := buttoned(t, size(56*cm, 78*cm), nil)
	rings := 0
	for _, n := range read(t, ButtoningPicture(back).SVG()) {
		if n.name == "circle" {
			rings++
		}
	}
	if want := back.Work.Buttons() + 2; rings != want { // and two in the key
		t.Errorf("%d rings, %d buttons", rings, back.Work.Buttons())
	}
	shapes := map[int]bool{}
	for _, f := range []buttoning.Fate{buttoning.Shown, buttoning.Partly, buttoning.Swallowed} {
		points := 0
		for _, l := range fateGlyph(f, Pt{}, 10) {
			points += len(l.Pts)
		}
		shapes[points] = true
	}
	if len(shapes) != 3 {
		t.Error("two fates have one shape")
	}
}

// Both marking grids stand on the page row by row, with every mark.
func TestButtoningText(t *testing.T) {
	ans := buttoned(t, size(56*cm, 78*cm), nil)
	page := ButtoningText(ans)
	checkPage(t, page)
	flat := strings.Join(strings.Fields(page), " ")
	for i, row := range append(ans.Work.OnWork(), ans.Work.OnCloth()...) {
		var xs []string
		for _, x := range row.Across {
			xs = append(xs, tape(x, length.Metric))
		}
		want := strconv.Itoa(i%ans.Work.Rows+1) + " " + tape(row.Along, length.Metric) + " " + strings.Join(xs, ", ")
		if !strings.Contains(flat, want) {
			t.Errorf("no %q on the page", want)
		}
	}
	for _, want := range []string{"ON THE WORK", "ON THE WRONG SIDE OF THE CLOTH", "THE WELLS", "PLEATS", "THE PATTERN", "BUTTONS AND TWINE", "EVERY MOTIF", "LOOK OUT"} {
		if !strings.Contains(page, want) {
			t.Errorf("no %q", want)
		}
	}
}

// Any grid is drawn in reason, whatever its names say.
func TestButtoningHostile(t *testing.T) {
	for _, tc := range []struct{ rows, columns int }{{2, 2}, {2, 60}, {60, 2}, {60, 60}} {
		ans := buttoned(t, size(6*length.Metre, 6*length.Metre), func(r *service.ButtoningRequest) {
			r.Grid = buttoning.Wish{Rows: tc.rows, Columns: tc.columns}
			if tc.rows == 2 {
				r.Panel.Size.Along = 80 * cm
			}
			if tc.columns == 2 {
				r.Panel.Size.Across = 80 * cm
			}
			r.Aim, r.Name, r.Cloth.Name = nil, "\x1b[31m<b>&\u202e", strings.Repeat("W", 80)
		})
		svg, page := ButtoningPicture(ans).SVG(), ButtoningText(ans)
		read(t, svg)
		checkPage(t, page)
		if strings.Contains(page, "\x1b") || strings.Contains(string(svg), "<b>") || len(svg) > 16_000_000 {
			t.Errorf("%+v: %d bytes", tc, len(svg))
		}
	}
}

// Figures that would run into one another are left out, the outermost kept.
func TestSparedFigures(t *testing.T) {
	for n := 1; n <= 60; n++ {
		for _, apart := range []float64{3, 10, 40, 200} {
			last := -1
			for i := range n {
				if !spared(i, n, apart, 85) {
					continue
				}
				if last >= 0 && float64(i-last)*apart < 85 && float64(n)*apart >= 2*85 {
					t.Errorf("%d of %d and %d are %v apart", last, n, i, float64(i-last)*apart)
				}
				last = i
			}
			if !spared(0, n, apart, 85) && n > 1 && float64(n-1)*apart >= 85 {
				t.Errorf("the first of %d, %v apart, is left out", n, apart)
			}
		}
	}
}
