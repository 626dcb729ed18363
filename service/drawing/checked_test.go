package drawing

import (
	"context"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
	"github.com/bridletie/bridletie/service"
)

// checked is the plan of an answer taken for one made by hand, with a change.
func checked(t testing.TB, ans *service.YardageAnswer, change func(*service.CheckRequest)) *service.CheckAnswer {
	t.Helper()
	req := service.CheckRequest{YardageRequest: ans.Request}
	for k, l := range ans.Result.Cut {
		start := l.Start
		req.Lengths = append(req.Lengths, service.HandLength{Piece: k, Start: &start})
		for _, p := range l.Placements {
			across, along := p.Across, p.Along
			req.Placements = append(req.Placements, service.HandPlacement{
				Panel: ans.Request.Panels[p.Panel].ID, Copy: p.Copy, Piece: k, Part: p.Part, Parts: p.Parts, From: p.From,
				X: p.X, Y: p.Y, Across: &across, Along: &along, Turn: p.Turn,
			})
		}
	}
	change(&req)
	got, err := service.Check(context.Background(), req, func(context.Context, service.YardageRequest) (*service.YardageAnswer, error) {
		engine := *ans
		engine.Result.Bound = 0
		return &engine, nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// spoilt has a back that is moved by 2 cm, and one button cover over another.
func spoilt(t testing.TB) *service.CheckAnswer {
	return checked(t, wingChair(), func(r *service.CheckRequest) {
		var cover *service.HandPlacement
		for k := range r.Placements {
			p := &r.Placements[k]
			switch {
			case p.Panel == "IB":
				p.X += 2 * cm
			case p.Panel == "BC" && cover == nil:
				cover = p
			case p.Panel == "BC" && p.Copy == cover.Copy+1:
				p.X, p.Y = cover.X+1*cm, cover.Y+1*cm
			}
		}
	})
}

func TestCheckGolden(t *testing.T) {
	golden(t, "checked.svg", CheckPicture(spoilt(t)).SVG())
	golden(t, "checked.txt", []byte(CheckText(spoilt(t))))
}

// The page says first whether the plan is right, then its faults, its lengths,
// the saving and what to check.
func TestCheckText(t *testing.T) {
	for _, ans := range []*service.CheckAnswer{checked(t, wingChair(), func(*service.CheckRequest) {}), spoilt(t)} {
		page := CheckText(ans)
		checkPage(t, page)
		first, _, _ := strings.Cut(page, "\n")
		want := "Right: every panel is there, in its place, with its pattern."
		if n := len(ans.Faults); n > 0 {
			want = "Wrong: " + strconv.Itoa(n) + " faults."
		}
		if first != want {
			t.Errorf("the first line is %q, want %q", first, want)
		}
	}
	page := CheckText(spoilt(t))
	at := 0
	for _, want := range []string{"Wrong: ", "FAULTS", "overlap by 5 cm: BC", "motif off by 2 cm: IB copy 1", "LENGTHS", "By hand ", "The engine's plan takes ", "only once the plan is right", "LOOK OUT"} {
		next := strings.Index(strings.ReplaceAll(page[at:], "\n", " "), want)
		if next < 0 {
			t.Errorf("no %q in its place in\n%s", want, page)
			break
		}
		at += next
	}
}

// What the engine would save, or what it takes more, is said as it is.
func TestSavingText(t *testing.T) {
	for _, tc := range []struct {
		engine length.Length
		want   string
	}{
		{90 * cm, "The engine's plan takes 90 cm, to buy 1 m; it would save 10 cm."},
		{length.Metre, "The engine's plan takes 1 m, to buy 1 m; it saves nothing."},
		{110 * cm, "The engine's plan takes 1.1 m, to buy 1 m; the plan made by hand is shorter by 10 cm."},
	} {
		ans := &service.CheckAnswer{Hand: []plan.Layout{{Length: length.Metre}}, Orders: []length.Length{length.Metre},
			Engine: &service.YardageAnswer{Order: length.Metre, Result: plan.Result{Cut: []plan.Layout{{Length: tc.engine}}}}}
		if got := savingText(ans); got != tc.want {
			t.Errorf("%q, want %q", got, tc.want)
		}
	}
}

// Panels with faults, and those with which they do not go together, are hatched,
// framed and numbered; others are not.
func TestFaultsAreMarked(t *testing.T) {
	ans := spoilt(t)
	marks := map[string]int{}
	for _, n := range read(t, CheckPicture(ans).SVG()) {
		if n.name == "text" && strings.HasPrefix(n.text, "fault ") {
			marks[n.text]++
		}
	}
	want := map[string]int{}
	for layout := range ans.Hand {
		numbers := map[int][]string{}
		for i, f := range ans.Faults {
			for _, side := range [][2]int{{f.Layout, f.Placement}, {f.OtherLayout, f.Other}} {
				if side[0] == layout && side[1] >= 0 {
					numbers[side[1]] = append(numbers[side[1]], strconv.Itoa(i+1))
				}
			}
		}
		for _, list := range numbers {
			want["fault "+strings.Join(list, ", ")]++
		}
	}
	if len(want) < 3 {
		t.Fatalf("the sample has only the marks %v", want)
	}
	for text, n := range want {
		if marks[text] != n {
			t.Errorf("%q stands %d times, want %d", text, marks[text], n)
		}
	}
	if len(marks) != len(want) {
		t.Errorf("marks %v, want %v", marks, want)
	}
	for _, n := range read(t, PlanPicture(wingChair()).SVG()) {
		if strings.HasPrefix(n.text, "fault ") || n.text == "a panel with a fault" {
			t.Errorf("an answer shows %q", n.text)
		}
	}
}

// Only so many faults are listed and marked, and the rest are counted.
func TestManyFaultsAreClipped(t *testing.T) {
	ans := checked(t, largest(), func(r *service.CheckRequest) {
		for k := range r.Placements {
			r.Placements[k].Piece, r.Placements[k].X, r.Placements[k].Y = 0, 0, 0
		}
	})
	if len(ans.Faults) < 6000 {
		t.Fatalf("only %d faults", len(ans.Faults))
	}
	more := "And " + strconv.Itoa(len(ans.Faults)-100) + " more"
	svg, page := CheckPicture(ans).SVG(), CheckText(ans)
	read(t, svg)
	checkPage(t, page)
	if !strings.Contains(string(svg), more) || !strings.Contains(page, more) || strings.Contains(page, "\n101  ") || !strings.Contains(page, "\n100  ") {
		t.Errorf("the rest is not counted: %q", more)
	}
	if len(svg) > 14_000_000 || len(page) > 100_000 {
		t.Errorf("a drawing of %d bytes, a page of %d", len(svg), len(page))
	}
}

// Any plan is drawn: names that are meant to do harm, and figures without sense.
func TestAnyCheckIsDrawn(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 11))
		engine := random(r)
		ans := &service.CheckAnswer{Request: service.CheckRequest{YardageRequest: engine.Request}, Hand: engine.Result.Cut, Engine: engine,
			Warnings: say(hostile[r.IntN(len(hostile))])}
		ans.Orders = make([]length.Length, len(ans.Hand))
		for range r.IntN(150) {
			f := service.PlanFault{At: -1, With: -1, Flaw: verify.Flaw{Kind: verify.FlawOverlap, Layout: -1, Placement: -1, OtherLayout: -1, Other: -1,
				By: length.Length(r.Uint64()), Detail: hostile[r.IntN(len(hostile))]}}
			if n := len(ans.Hand); n > 0 {
				f.Layout = r.IntN(n)
				if on := len(ans.Hand[f.Layout].Placements); on > 0 {
					f.Placement, f.At = r.IntN(on), 0
					f.OtherLayout, f.Other = f.Layout, r.IntN(on)
				}
			}
			ans.Faults = append(ans.Faults, f)
		}
		svg := CheckPicture(ans).SVG()
		read(t, svg)
		checkPage(t, CheckText(ans))
		if len(svg) > 2_000_000 {
			t.Errorf("%d bytes", len(svg))
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
