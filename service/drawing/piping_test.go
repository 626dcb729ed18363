package drawing

import (
	"context"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// pipingRequest is the piping of a wing chair, out of a few offcuts and a cloth.
func pipingRequest() service.PipingRequest {
	r := service.PipingRequest{
		Cord: 4 * pipedMM, Angle: piping.TrueBias,
		Shop:  practice.Defaults().With(practice.PipingLeast.Give(20*cm), practice.PipingStepInch.Give(5*pipedMM)),
		Cloth: cloth.Cloth{Name: "Heron and sedge", Width: 137 * cm}, Sold: &cloth.Sold{Step: 10 * cm},
	}
	for _, o := range [][2]length.Length{{26, 120}, {48, 26}, {90, 8}} {
		r.Offcuts = append(r.Offcuts, service.PipingOffcut{Rect: piping.Rect{Across: o[0] * cm, Along: o[1] * cm}})
	}
	r.Runs = []service.PipingRun{
		{Name: "cushion seam", Count: 2, Run: piping.Run{Length: 232 * cm, Closed: true, MaxJoins: 7,
			Corners: []length.Length{0, 56 * cm, 116 * cm, 172 * cm}, NoJoin: []piping.Span{{From: 15 * cm, To: 41 * cm}}}},
		{Name: "arm facing", Count: 2, Run: piping.Run{Length: 100 * cm, MaxJoins: 2, Radius: 3 * cm, NoJoin: []piping.Span{{From: 20 * cm, To: 80 * cm}}}},
		{Count: 1, Run: piping.Run{Length: 60 * cm, MaxJoins: 1}},
	}
	return r
}

const pipedMM = length.Millimetre

func pipingAnswer(t testing.TB, change func(*service.PipingRequest)) *service.PipingAnswer {
	t.Helper()
	req := pipingRequest()
	change(&req)
	if l := service.Faults(service.PreparePiping(req)); l.Len() > 0 {
		t.Fatal(l.Faults())
	}
	ans, err := service.Piping(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func asked(way piping.Way) func(*service.PipingRequest) {
	return func(r *service.PipingRequest) { r.Way = &way }
}

var pipingSamples = []struct {
	name   string
	change func(*service.PipingRequest)
}{
	{"piping", asked(piping.FromRects)},
	{"piping-cloth", func(r *service.PipingRequest) {
		r.Offcuts, r.Units, r.Angle, r.Double = nil, length.Imperial, 60, true
		asked(piping.FullBias)(r)
	}},
	{"piping-tube", asked(piping.Continuous)},
	{"piping-along", func(r *service.PipingRequest) { r.Cut = piping.Along; asked(piping.LongCuts)(r) }},
	{"piping-none", func(r *service.PipingRequest) { r.Sold, r.Offcuts, r.Cloth = nil, r.Offcuts[2:], cloth.Cloth{} }},
}

func TestPipingGolden(t *testing.T) {
	for _, s := range pipingSamples {
		ans := pipingAnswer(t, s.change)
		read(t, PipingPicture(ans).SVG())
		checkPage(t, PipingText(ans))
		golden(t, s.name+".svg", PipingPicture(ans).SVG())
		golden(t, s.name+".txt", []byte(PipingText(ans)))
	}
}

// Every strip that is used stands in the drawing with its number, and every join
// of a run with its place on the page.
func TestPipingShowsStripsAndJoins(t *testing.T) {
	ans := pipingAnswer(t, asked(piping.FromRects))
	texts := map[string]int{}
	for _, n := range read(t, PipingPicture(ans).SVG()) {
		if n.name == "text" {
			texts[n.text]++
		}
	}
	for i := range ans.Plan().Strips {
		if texts[strconv.Itoa(i+1)] == 0 {
			t.Errorf("strip %d has no number", i+1)
		}
	}
	page := strings.Join(strings.Fields(PipingText(ans)), " ")
	for _, l := range ans.Plan().Runs {
		for _, j := range l.Joins {
			if !strings.Contains(page, tape(j, length.Metric)) {
				t.Errorf("the join at %v is not on the page", j)
			}
		}
	}
}

// What is hatched as forbidden is what the check forbids, at every millimetre.
func TestForbiddenIsWhatIsChecked(t *testing.T) {
	for _, r := range []piping.Run{
		{Length: 200 * pipedMM, NoJoin: []piping.Span{{From: 20 * pipedMM, To: 50 * pipedMM}, {From: 40 * pipedMM, To: 60 * pipedMM}}},
		{Length: 200 * pipedMM, Corners: []length.Length{0, 100 * pipedMM, 200 * pipedMM}},
		{Length: 200 * pipedMM, Closed: true, Corners: []length.Length{5 * pipedMM}, NoJoin: []piping.Span{{From: 180 * pipedMM, To: 10 * pipedMM}}},
	} {
		spans := pipedForbidden(r, 15*pipedMM)
		for at := pipedMM / 2; at < r.Length; at += pipedMM {
			drawn := false
			for _, s := range spans {
				drawn = drawn || s.From < at && at < s.To
			}
			j := piping.Job{Margin: 15 * pipedMM, Runs: []piping.Run{r}, Shape: piping.Shape{Cut: piping.Across}}
			j.Runs[0].MaxJoins = 1
			p := piping.Plan{Possible: true, Joins: 1, Shape: j.Shape, Tube: &piping.Tube{},
				Strips: []piping.Strip{{Long: length.Metre}},
				Runs:   []piping.Laid{{Pieces: []piping.Piece{{Long: at}, {From: at, Long: r.Length - at}}, Joins: []length.Length{at}}}}
			checked := strings.Contains(strings.Join(piping.Check(j, p), " "), "join 1 lies at")
			if drawn != checked {
				t.Errorf("at %v: drawn %v, checked %v", at, drawn, checked)
			}
		}
	}
}

// Any answer is drawn: names meant to do harm, thousands of runs, tiny strips.
func TestAnyPipingIsDrawn(t *testing.T) {
	for seed := range uint64(40) {
		r := rand.New(rand.NewPCG(seed, 5))
		ans := pipingAnswer(t, func(q *service.PipingRequest) {
			q.Cloth.Name = hostile[r.IntN(len(hostile))]
			q.Offcuts[0].Name = hostile[r.IntN(len(hostile))]
			q.Runs[0].Name = hostile[r.IntN(len(hostile))]
			q.Runs[1].Count = 1 + r.IntN(300)
			q.Runs[2].Length = length.Length(1+r.IntN(900)) * cm
			q.Width = length.Length(5+r.IntN(100)) * pipedMM
			q.Cut = piping.Cut(r.IntN(3))
			q.Units = length.System(r.IntN(2))
			q.Offcuts[1].Rect.Along = length.Length(1+r.IntN(9000)) * pipedMM
		})
		svg := PipingPicture(ans).SVG()
		read(t, svg)
		checkPage(t, PipingText(ans))
		if len(svg) > 3_000_000 {
			t.Errorf("%d bytes", len(svg))
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
