package service_test

import (
	"context"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// pipingRequest asks for a cushion and two facings from new cloth.
func pipingRequest() service.PipingRequest {
	return service.PipingRequest{
		Cord: 4 * length.Millimetre, Angle: piping.TrueBias, Sold: &cloth.Sold{}, Cloth: cloth.Cloth{Width: 137 * length.Centimetre},
		Runs: []service.PipingRun{
			{Count: 2, Run: piping.Run{Length: 232 * length.Centimetre, Closed: true, MaxJoins: 4}},
			{Count: 2, Run: piping.Run{Length: length.Metre, MaxJoins: 4}},
		},
	}
}

func pipingAnswer(t testing.TB, req service.PipingRequest) *service.PipingAnswer {
	t.Helper()
	if l := service.Faults(service.PreparePiping(req)); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	a, err := service.Piping(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The way shown keeps the wishes at the least cost among those that do.
func TestPipingShowsTheCheapest(t *testing.T) {
	for _, tc := range []struct {
		name   string
		change func(*service.PipingRequest)
		want   piping.Way
		keeps  bool
	}{
		// 6.8 m of 4 cm strips: one tube of 137 by 24 cm.
		{"joins anywhere", func(*service.PipingRequest) {}, piping.Continuous, true},
		{"a corner", func(r *service.PipingRequest) { r.Runs[0].Corners = []length.Length{0} }, piping.BiasPiece, true},
		{"no joins, no way but straight", func(r *service.PipingRequest) { r.Runs[0].MaxJoins, r.Cut = 0, piping.Along }, piping.LongCuts, true},
		// What covers all runs with too many joins goes before what leaves one uncovered.
		{"no joins on the bias", func(r *service.PipingRequest) { r.Runs[0].MaxJoins = 0 }, piping.Continuous, false},
		{"across", func(r *service.PipingRequest) { r.Cut = piping.Across }, piping.StraightCuts, true},
		{"a curve too tight for straight strips", func(r *service.PipingRequest) { r.Cut, r.Runs[1].Radius = piping.Across, 5*length.Centimetre }, piping.StraightCuts, false},
		{"an angle that no tube has", func(r *service.PipingRequest) { r.Angle = 50 }, piping.BiasPiece, true},
		{"offcuts that hold it", func(r *service.PipingRequest) {
			r.Offcuts = []service.PipingOffcut{{Rect: piping.Rect{Across: length.Metre, Along: length.Metre}}}
		}, piping.FromRects, true},
	} {
		req := pipingRequest()
		tc.change(&req)
		a := pipingAnswer(t, req)
		p := a.Plan()
		if p.Way != tc.want || p.Keeps != tc.keeps {
			t.Errorf("%s: way %d keeps %v (%v), want %d and %v", tc.name, p.Way, p.Keeps, p.Because, tc.want, tc.keeps)
		}
		for _, w := range a.Ways {
			if p.Keeps && w.Keeps && w.Order < p.Order {
				t.Errorf("%s: way %d takes %v and is not shown, %v is", tc.name, w.Way, w.Order, p.Order)
			}
		}
		if !p.Keeps && len(a.Warnings) == 0 {
			t.Errorf("%s: no warning", tc.name)
		}
	}
}

// Each thing worth knowing is said.
func TestPipingWarns(t *testing.T) {
	for _, tc := range []struct {
		want   string
		change func(*service.PipingRequest)
	}{
		{"narrower than cord", func(r *service.PipingRequest) { r.Width = 3 * length.Centimetre }},
		{"tighter than strips at this angle", func(r *service.PipingRequest) { r.Runs[1].Radius = 2 * length.Centimetre }},
		{"a curve wants strips on the bias", func(r *service.PipingRequest) { r.Runs[1].Curved, r.Cut = true, piping.Along }},
		{"longer than a bolt", func(r *service.PipingRequest) { r.Sold.Bolt = 10 * length.Centimetre }},
		{"no way is possible", func(r *service.PipingRequest) {
			r.Cloth.Width = 3 * length.Centimetre
			r.Shop = r.Shop.With(practice.PipingLeast.Give(length.Metre))
		}},
		{"uncovered", func(r *service.PipingRequest) {
			r.Sold = nil
			r.Offcuts = []service.PipingOffcut{{Rect: piping.Rect{Across: 60 * length.Centimetre, Along: 60 * length.Centimetre}}}
		}},
	} {
		req := pipingRequest()
		tc.change(&req)
		if got := strings.Join(note.Texts(pipingAnswer(t, req).Warnings, length.Metric), "\n"); !strings.Contains(got, tc.want) {
			t.Errorf("want %q in\n%s", tc.want, got)
		}
	}
	a := pipingAnswer(t, pipingRequest())
	if len(a.Cautions) < 4 || len(a.Warnings) != 0 {
		t.Errorf("%d cautions, warnings %q", len(a.Cautions), a.Warnings)
	}
}

// More offcuts never leave more uncovered by themselves, and never cost more cloth.
func TestOffcutsNeverCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := pipingRequest()
		full := pipingOf(t, req)
		for range rapid.IntRange(1, 4).Draw(t, "offcuts") {
			req.Offcuts = append(req.Offcuts, service.PipingOffcut{Rect: piping.Rect{
				Across: length.Length(rapid.IntRange(50, 900).Draw(t, "across")) * length.Millimetre,
				Along:  length.Length(rapid.IntRange(50, 900).Draw(t, "along")) * length.Millimetre,
			}})
		}
		with := pipingOf(t, req)
		if with.Plan().Order > full.Plan().Order {
			t.Errorf("%v with offcuts, %v without", with.Plan().Order, full.Plan().Order)
		}
	})
}

func pipingOf(t *rapid.T, req service.PipingRequest) *service.PipingAnswer {
	a, err := service.Piping(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func BenchmarkPiping(b *testing.B) {
	few := pipingRequest()
	few.Offcuts = []service.PipingOffcut{{Rect: piping.Rect{Across: 40 * length.Centimetre, Along: length.Metre}}}
	many := few
	many.Runs = nil
	for i := range length.Length(piping.MaxRuns) {
		many.Runs = append(many.Runs, service.PipingRun{Count: 1, Run: piping.Run{
			Length: (30 + i*7919%270) * length.Centimetre, Closed: i%3 == 0, MaxJoins: 5, Corners: []length.Length{0, 15 * length.Centimetre}}})
	}
	for _, job := range []struct {
		name string
		req  service.PipingRequest
	}{{"typical", few}, {"10000 runs", many}} {
		b.Run(job.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := service.Piping(context.Background(), job.req); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
