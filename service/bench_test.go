package service_test

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/verify"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
)

const (
	benchMM = length.Millimetre
	benchCM = length.Centimetre
)

// wingChairFrames is the wing chair of the demo, rebuilt traditionally.
func wingChairFrames() service.FoundationRequest {
	return service.FoundationRequest{Job: foundation.Job{Frames: []foundation.Frame{
		{ID: "SEAT", Count: 1, Shape: foundation.Trapezoid, Front: 64 * benchCM, Back: 56 * benchCM, Depth: 62 * benchCM, EdgeRows: -1, ShowWood: true},
		{ID: "IB", Part: foundation.Back, Count: 1, Front: 56 * benchCM, Depth: 76 * benchCM, EdgeRows: -1},
		{ID: "ARM", Part: foundation.Arm, Count: 2, Front: 54 * benchCM, Depth: 34 * benchCM, EdgeRows: -1},
		{ID: "WING", Part: foundation.Arm, Count: 2, Front: 24 * benchCM, Depth: 48 * benchCM},
	}}}
}

func setteeWadding() service.WaddingRequest {
	return service.WaddingRequest{Job: wadding.Job{Items: []wadding.Item{
		{ID: "CUSHION", Count: 3, Layers: 1, Width: 60 * benchCM, Depth: 64 * benchCM, Thickness: 12 * benchCM, Ends: true},
		{ID: "BACK", Kind: wadding.Back, Count: 3, Layers: 2, Width: 60 * benchCM, Depth: 50 * benchCM, Thickness: 6 * benchCM, Material: wadding.CottonFelt},
		{ID: "SEAT", Kind: wadding.Seats, Count: 6, Layers: 1, Material: wadding.Hair},
	}}}
}

func foundationOf(t testing.TB, req service.FoundationRequest) *service.FoundationAnswer {
	t.Helper()
	if l := service.Faults(service.PrepareFoundation(req)); l.Len() > 0 {
		t.Fatalf("the request has faults: %+v", l.Faults())
	}
	a, err := service.Foundation(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func waddingOf(t testing.TB, req service.WaddingRequest) *service.WaddingAnswer {
	t.Helper()
	if l := service.Faults(service.PrepareWadding(req)); l.Len() > 0 {
		t.Fatalf("the request has faults: %+v", l.Faults())
	}
	a, err := service.Wadding(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// soundPlan puts a plan to the check once more, and wants every copy of every
// panel in it.
func soundPlan(t testing.TB, a *service.YardageAnswer) {
	t.Helper()
	job := plan.Job{Cloth: a.Request.Cloth, Panels: a.Request.Panels, Bolt: a.Request.Sold.Bolt}
	if flaws := verify.Check(job, a.Result.Cut...); len(flaws) > 0 {
		t.Errorf("%s: %v", a.Request.Cloth.Name, flaws[0])
	}
	if a.Result.Bound > a.Result.Needed() || a.Order < a.Result.Needed() {
		t.Errorf("%s: bound %v, needed %v, order %v", a.Request.Cloth.Name, a.Result.Bound, a.Result.Needed(), a.Order)
	}
}

func TestFoundationOfAWingChair(t *testing.T) {
	a := foundationOf(t, wingChairFrames())
	var names []string
	panels := 0
	for _, c := range a.Cloths {
		names = append(names, c.Plan.Request.Cloth.Name)
		panels += len(c.Plan.Request.Panels)
		soundPlan(t, c.Plan)
		if !c.Plan.Result.Proven {
			t.Errorf("the %v is not proven", c.Use)
		}
	}
	if got := strings.Join(names, ", "); got != "hessian, scrim, calico, bottoming cloth" {
		t.Errorf("cloths: %s", got)
	}
	if panels != len(a.Work.Panels) {
		t.Errorf("%d panels are cut of %d", panels, len(a.Work.Panels))
	}
	tot := a.Work.Totals
	if tot.Springs == 0 || tot.Lashing == 0 || tot.Stuffing == 0 || tot.Gimp == 0 || len(tot.Fixed) != 4 {
		t.Errorf("totals: %+v", tot)
	}
	if len(a.Warnings) != 0 || len(a.Cautions) == 0 {
		t.Errorf("warnings %q, cautions %q", a.Warnings, a.Cautions)
	}
}

func TestFoundationWarns(t *testing.T) {
	req := wingChairFrames()
	req.Frames = []foundation.Frame{
		{ID: "A", Count: 1, Shape: foundation.Trapezoid, Front: 100 * benchCM, Back: 30 * benchCM, Depth: 60 * benchCM, WebsAlong: 10, EdgeRows: -1, Sprung: foundation.No},
		{ID: "B", Count: 1, Shape: foundation.Trapezoid, Front: 60 * benchCM, Back: 50 * benchCM, Depth: 60 * benchCM, UnderSprings: true, EdgeRows: -1},
		{ID: "C", Count: 1, Front: 60 * benchCM, Depth: 60 * benchCM, Springs: []int{9, 9}, EdgeRows: -1},
		{ID: "D", Count: 1, Front: 60 * benchCM, Depth: 60 * benchCM, WebsAcross: 2, EdgeRows: -1},
		{ID: "E", Count: 1, Front: 60 * benchCM, Depth: 60 * benchCM, Rail: 30 * benchCM, EdgeRows: -1},
	}
	a := foundationOf(t, req)
	for _, want := range []note.Note{
		note.New(note.WebsOverlap, note.Name("frame", "A"), note.Count("webs", 10)), note.New(note.WebsEven, note.Name("frame", "B")),
		note.New(note.SpringsOver, note.Name("frame", "C")), note.New(note.WebsFew, note.Name("frame", "D")),
		note.New(note.SpringsNotMade, note.Name("frame", "E"), note.Length("height", 60*benchCM, length.Nearest), note.Name("least", "3"), note.Name("most", "14")),
	} {
		if !slices.ContainsFunc(a.Warnings, want.Same) {
			t.Errorf("no warning %+v in %+v", want, a.Warnings)
		}
	}
}

func TestFoundationCautions(t *testing.T) {
	req := wingChairFrames()
	req.Build, req.Fixing = foundation.Modern, foundation.Staples
	cautions := foundationOf(t, req).Cautions
	for _, code := range []note.Code{note.StapleGun, note.SprayAdhesive, note.FoamBurns, note.OldStuffing, note.FireRules} {
		if !slices.ContainsFunc(cautions, note.New(code).Same) {
			t.Errorf("nothing of %s", code)
		}
	}
	if slices.ContainsFunc(cautions, note.New(note.SpringFlies).Same) {
		t.Error("springs where there are none")
	}
}

// A frame wider than its cloth both ways is joined; the plan says where.
func TestFoundationJoinsWhatIsWide(t *testing.T) {
	req := service.FoundationRequest{Job: foundation.Job{Frames: []foundation.Frame{
		{ID: "DIVAN", Place: foundation.Divan, Count: 1, Front: 195 * benchCM, Depth: 200 * benchCM, EdgeRows: -1},
	}}}
	a := foundationOf(t, req)
	for _, c := range a.Cloths {
		soundPlan(t, c.Plan)
		if len(c.Plan.Joins) != 1 {
			t.Errorf("%v: %d joins", c.Use, len(c.Plan.Joins))
		}
	}
	req.Given = []practice.Given{{Name: "cloth-bolt", Value: int64(length.Metre)}}
	l := service.Faults(service.PrepareFoundation(req))
	if l.Len() == 0 || l.Faults()[0].Pointer() != "#/frames/0" || l.Faults()[0].Code != "longer-than-bolt" {
		t.Errorf("a bolt of 1 m: %+v", l.Faults())
	}
}

// Nobody waits for a thousand scraps.
func TestFoundationRefusesScraps(t *testing.T) {
	req := service.FoundationRequest{Job: foundation.Job{Frames: []foundation.Frame{
		{ID: "A", Count: 50, Front: 4 * length.Metre, Depth: 4 * length.Metre, EdgeRows: -1},
		{ID: "B", Count: 50, Front: 4 * length.Metre, Depth: 4 * length.Metre, EdgeRows: -1},
	}, Given: []practice.Given{{Name: "hessian-width", Value: int64(50 * benchCM)}, {Name: "seam", Value: int64(10 * benchCM)}}}}
	l := service.Faults(service.PrepareFoundation(req))
	if l.Len() != 1 || l.Faults()[0].Pointer() != "#/frames" || l.Faults()[0].Code != "too-many" {
		t.Errorf("%+v", l.Faults())
	}
}

func TestWaddingOfASettee(t *testing.T) {
	a := waddingOf(t, setteeWadding())
	if len(a.Rolls) != 2 || len(a.Work.Loose) != 1 {
		t.Fatalf("%d rolls, %d loose", len(a.Rolls), len(a.Work.Loose))
	}
	for _, r := range a.Rolls {
		soundPlan(t, r.Plan)
		if r.Rolls != 1 {
			t.Errorf("%d rolls of %v", r.Rolls, r.Sheet.Material)
		}
	}
	if len(a.Cautions) < 4 {
		t.Errorf("cautions %q", a.Cautions)
	}
}

// Rolls are counted by what comes off each: three lengths of 1.4 m take two rolls
// of 3 m, and three of 2 m.
func TestRollsToOrder(t *testing.T) {
	for roll, want := range map[length.Length]int64{3 * length.Metre: 2, 2 * length.Metre: 3, 5 * length.Metre: 1} {
		req := setteeWadding()
		req.Items = req.Items[:1]
		req.Items[0].Ends = false // 60 by 140 cm
		req.Given = []practice.Given{{Name: "polyester-roll", Value: int64(roll)}}
		a := waddingOf(t, req)
		soundPlan(t, a.Rolls[0].Plan)
		if got := a.Rolls[0].Rolls; got != want {
			t.Errorf("rolls of %v: %d, want %d", roll, got, want)
		}
	}
}

func TestWaddingJoins(t *testing.T) {
	req := service.WaddingRequest{Job: wadding.Job{Items: []wadding.Item{
		{ID: "BED", Kind: wadding.Pad, Count: 1, Layers: 1, Width: 140 * benchCM, Depth: 100 * benchCM},
	}}}
	a := waddingOf(t, req)
	soundPlan(t, a.Rolls[0].Plan)
	if len(a.Rolls[0].Plan.Joins) != 1 || len(a.Warnings) != 1 {
		t.Errorf("joins %+v, warnings %q", a.Rolls[0].Plan.Joins, a.Warnings)
	}
	req.Items[0].Whole = true
	if l := service.Faults(service.PrepareWadding(req)); l.Len() != 1 || l.Faults()[0].Code != "wider-than-cloth" {
		t.Errorf("whole: %+v", l.Faults())
	}
}

// ids are such as make the ids of two pieces alike.
var ids = []string{"A", "A-end", "A-end-2", "A-end-end", "B", "A-VERY-LONG-ID-OF-A-CUSHION-1", "A-VERY-LONG-ID-OF-A-CUSHION-2"}

// Pieces that would have one id are all planned, each under an id of its own.
func TestPiecesWithOneID(t *testing.T) {
	var req service.WaddingRequest
	for _, id := range ids {
		req.Items = append(req.Items, wadding.Item{ID: id, Count: 1, Layers: 1, Width: 50 * benchCM, Depth: 40 * benchCM, Thickness: 10 * benchCM, Ends: true})
	}
	seen := make(map[string]bool)
	for _, p := range waddingOf(t, req).Rolls[0].Plan.Request.Panels {
		if seen[p.ID] {
			t.Errorf("two pieces are called %s", p.ID)
		}
		seen[p.ID] = true
	}
	if len(seen) != 2*len(ids) {
		t.Errorf("%d pieces, want %d", len(seen), 2*len(ids))
	}
}

// given are some settings of a book at the ends of their ranges.
func given(t *rapid.T, book *practice.Book, label string) []practice.Given {
	var out []practice.Given
	for _, s := range rapid.SliceOfNDistinct(rapid.SampledFrom(book.Settings()), 0, 4, func(s practice.Setting) string { return s.Name }).Draw(t, label) {
		out = append(out, practice.Given{Name: s.Name, Kind: s.Kind, Value: rapid.SampledFrom([]int64{s.Least, s.Default, s.Most}).Draw(t, s.Name)})
	}
	return out
}

// Whatever has no faults is answered, soundly; the answers are the same again.
func TestBenchAnswersWhateverIsRight(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		mm := func(name string, least, most int) length.Length {
			return length.Length(rapid.IntRange(least, most).Draw(rt, name)) * benchMM
		}
		var req service.WaddingRequest
		req.Given = given(rt, wadding.Book(), "wadding")
		for _, id := range rapid.SliceOfN(rapid.SampledFrom(ids), 1, 4).Draw(rt, "ids") {
			req.Items = append(req.Items, wadding.Item{
				ID: id, Count: rapid.IntRange(1, 6).Draw(rt, "count"), Layers: rapid.IntRange(1, 2).Draw(rt, "layers"),
				Kind: wadding.Kind(rapid.IntRange(0, 3).Draw(rt, "kind")), Material: wadding.Material(rapid.IntRange(0, 2).Draw(rt, "material")),
				Width: mm("width", 10, 2500), Depth: mm("depth", 10, 2500), Thickness: mm("thickness", 1, 400), Ends: rapid.Bool().Draw(rt, "ends"),
			})
		}
		if l := service.Faults(service.PrepareWadding(req)); l.Len() == 0 {
			a := waddingOf(t, req)
			for _, r := range a.Rolls {
				soundPlan(t, r.Plan)
			}
		}
		f := service.FoundationRequest{Job: foundation.Job{Given: given(rt, foundation.Book(), "foundation")}}
		for _, id := range rapid.SliceOfN(rapid.SampledFrom(ids), 1, 3).Draw(rt, "frames") {
			f.Frames = append(f.Frames, foundation.Frame{
				ID: id, Count: rapid.IntRange(1, 6).Draw(rt, "frame count"), Front: mm("front", 100, 4000), Depth: mm("deep", 100, 4000), EdgeRows: -1,
			})
		}
		if l := service.Faults(service.PrepareFoundation(f)); l.Len() == 0 {
			for _, c := range foundationOf(t, f).Cloths {
				soundPlan(t, c.Plan)
			}
		}
	})
}

func TestBenchEndsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := service.Foundation(ctx, wingChairFrames()); !errors.Is(err, context.Canceled) {
		t.Errorf("foundation: %v", err)
	}
	if _, err := service.Wadding(ctx, setteeWadding()); !errors.Is(err, context.Canceled) {
		t.Errorf("wadding: %v", err)
	}
}

func BenchmarkFoundation(b *testing.B) {
	req := wingChairFrames()
	for b.Loop() {
		if _, err := service.Foundation(context.Background(), req); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWadding(b *testing.B) {
	req := setteeWadding()
	for b.Loop() {
		if _, err := service.Wadding(context.Background(), req); err != nil {
			b.Fatal(err)
		}
	}
}
