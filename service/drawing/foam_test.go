package drawing

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// bench are the cushions of a window bench, one of each shape, with a top.
func bench(t testing.TB, name string) *service.FoamAnswer {
	t.Helper()
	const mm = length.Millimetre
	gbp, _ := money.ParseCurrency("GBP")
	req := service.FoamRequest{Job: foam.Job{
		Foams: []foam.Foam{{ID: "FIRM", Density: 40_000, Hardness: 120, At: 40}, {ID: "SOFT", Density: 22_000}},
		Stock: []foam.Stock{
			{ID: "F75", Across: 2000 * mm, Along: 1200 * mm, Thickness: 75 * mm, Trim: 5 * mm, Price: decimal.New(70, 0)},
			{ID: "S25", Foam: 1, Across: 1200 * mm, Along: 2000 * mm, Thickness: 25 * mm, Price: decimal.New(20, 0)},
		},
		Shop: practice.Defaults().With(practice.FoamKerf.Give(3 * mm)), Currency: gbp,
	}}
	shapes := []foam.Shape{
		{Across: 500 * mm, Along: 450 * mm},
		{Form: foam.Trapezoid, Across: 550 * mm, Along: 480 * mm, Back: 400 * mm},
		{Form: foam.TShape, Across: 700 * mm, Along: 550 * mm, EarAcross: 90 * mm, EarAlong: 140 * mm},
		{Form: foam.LShape, Across: 800 * mm, Along: 600 * mm, EarAcross: 300 * mm, EarAlong: 200 * mm},
		{Form: foam.Rounded, Across: 480 * mm, Along: 480 * mm, Radius: 60 * mm},
		{Form: foam.Circle, Across: 380 * mm, Along: 380 * mm},
		{Form: foam.DShape, Across: 440 * mm, Along: 460 * mm},
		{Form: foam.Outline, Points: []geom.Point{{}, {Across: 500 * mm}, {Across: 600 * mm, Along: 400 * mm}, {Across: 100 * mm, Along: 300 * mm}}},
	}
	for i, s := range shapes {
		it := foam.Item{ID: fmt.Sprintf("C%d", i+1), Name: name, Count: 1 + i%2, Shape: s, Thickness: 90 * mm}
		if i%2 == 0 {
			it.Top = &foam.Top{Foam: 1, Thickness: 25 * mm}
		}
		req.Items = append(req.Items, it)
	}
	ans, err := service.Foam(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func TestFoamGolden(t *testing.T) {
	golden(t, "foam.svg", FoamPicture(bench(t, "window bench")).SVG())
	golden(t, "foam.txt", []byte(FoamText(bench(t, "window bench"))))
}

// Every piece of every sheet stands on the page, whose lines fit.
func TestFoamPage(t *testing.T) {
	for _, name := range []string{"", "window bench", strings.Repeat("long ", 16), "نافذة", "<b>&\x1b"} {
		ans := bench(t, name)
		text := FoamText(ans)
		checkPage(t, text)
		for _, g := range ans.Result.Groups {
			for i, pc := range g.Pieces {
				if one := foamPieceName(ans, pc); !strings.Contains(text, one) {
					t.Errorf("piece %d, %q, is not on the page", i, one)
				}
			}
		}
		read(t, FoamPicture(ans).SVG())
	}
}

// Every piece lies inside its sheet and every label inside its piece, whichever way
// sheet and piece are turned.
func TestFoamPiecesStayOnTheSheet(t *testing.T) {
	ans := bench(t, "")
	p := FoamPicture(ans)
	pieces := 0
	var walk func(items []Shape, within box)
	walk = func(items []Shape, within box) {
		for _, it := range items {
			switch s := it.(type) {
			case Group:
				if len(s.Items) > 0 {
					if r, ok := s.Items[0].(Rect); ok {
						within = box{r.X, r.Y, r.W, r.H}
					}
				}
				if s.Title != "" {
					pieces++
				}
				walk(s.Items, within)
			case Path:
				for _, l := range s.Lines {
					for _, q := range l.Pts {
						if within.w > 0 && (q.X < within.x-0.01 || q.Y < within.y-0.01 || q.X > within.x+within.w+0.01 || q.Y > within.y+within.h+0.01) {
							t.Errorf("%v lies off %v", q, within)
						}
					}
				}
			}
		}
	}
	walk(p.Items, box{})
	want := 0
	for _, g := range ans.Result.Groups {
		want += len(g.Pieces)
	}
	if pieces == 0 || pieces > want {
		t.Errorf("%d pieces drawn, there are %d", pieces, want)
	}
}
