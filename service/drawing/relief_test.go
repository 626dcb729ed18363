package drawing

import (
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// carverSeat has every kind of cut but the V, and an obstacle that none passes.
func carverSeat() *service.ReliefAnswer {
	return service.Relief(service.ReliefRequest{ID: "SEAT", Name: "carver seat", Job: relief.Job{
		Size: panel.Size{Across: 50 * cm, Along: 46 * cm}, Allow: panel.Sides{Top: 9 * cm, Bottom: 7 * cm, Left: 7 * cm, Right: 7 * cm},
		Most: 3 * cloth.Percent,
		Obstacles: []relief.Obstacle{
			{ID: "POST-L", Corner: relief.TopLeft, Width: 45 * length.Millimetre, Deep: 5 * cm, Stuffing: 5 * cm, EdgeThickness: cm},
			{ID: "POST-R", Corner: relief.TopRight, Round: true, Width: 7 * cm, Deep: 7 * cm, Stuffing: 5 * cm},
			{ID: "SPLAT", What: relief.Rail, At: 25 * cm, Width: 16 * length.Millimetre, Deep: 3 * cm, Margin: cm},
			{ID: "ARM-R", What: relief.Upright, Edge: relief.RightEdge, At: 28 * cm, Width: 6 * cm, Deep: 4 * cm, Stuffing: 16 * cm},
			{ID: "ARM-L", What: relief.Upright, Edge: relief.LeftEdge, At: 28 * cm, Width: 6 * cm, Deep: 4 * cm, Lean: 25, Stuffing: 3 * cm},
			{ID: "LEG-L", What: relief.Leg, Corner: relief.BottomLeft, Width: 5 * cm, Deep: 5 * cm},
			{ID: "LEG-M", What: relief.Leg, Edge: relief.BottomEdge, Round: true, At: 25 * cm, Width: 8 * cm, Deep: 5 * cm, Stuffing: 2 * cm},
			{ID: "PIN", Edge: relief.BottomEdge, At: 47 * cm, Width: 4 * length.Millimetre, Deep: 2 * cm},
		},
	}})
}

func armFront() *service.PleatsAnswer {
	return service.Pleats(service.PleatsRequest{Name: "scroll arm", Job: pleat.Job{
		From: pleat.From{How: pleat.ScrollArm, Radius: 9 * cm, Angle: 180, TurnOver: 6 * cm}, Count: 7}})
}

func TestReliefGolden(t *testing.T) {
	golden(t, "relief.svg", ReliefPicture(carverSeat()).SVG())
	golden(t, "relief.txt", []byte(ReliefText(carverSeat())))
	checkPage(t, ReliefText(carverSeat()))
}

func TestPleatsGolden(t *testing.T) {
	golden(t, "pleats.svg", PleatsPicture(armFront()).SVG())
	golden(t, "pleats.txt", []byte(PleatsText(armFront())))
	checkPage(t, PleatsText(armFront()))
}

// Every stop is drawn where it lies on the panel, every obstacle is named, and
// every stop has its number and its row.
func TestReliefShowsEveryStop(t *testing.T) {
	ans := carverSeat()
	circles, texts := map[[2]string]bool{}, map[string]bool{}
	for _, n := range read(t, ReliefPicture(ans).SVG()) {
		switch n.name {
		case "circle":
			circles[[2]string{n.attrs["cx"], n.attrs["cy"]}] = true
		case "text":
			texts[n.text] = true
		}
	}
	stops := 0
	for i, c := range ans.Cuts {
		if id := ans.Request.Obstacles[i].ID; !texts[id] {
			t.Errorf("%s is not named", id)
		}
		for _, s := range c.Stops {
			stops++
			if !circles[[2]string{num(s.At.Across.MM()), num(s.At.Along.MM())}] {
				t.Errorf("the stop at %v is not drawn", s.At)
			}
			if !texts[strconv.Itoa(stops)] {
				t.Errorf("stop %d has no number", stops)
			}
		}
	}
	if stops < 12 {
		t.Errorf("only %d stops", stops)
	}
	if page := strings.Join(strings.Fields(ReliefText(ans)), " "); !strings.Contains(page, "PIN: no cut can keep the show side whole") || !strings.Contains(page, "Do not cut.") || !strings.Contains(page, "too short by") {
		t.Errorf("what is wrong is not said:\n%s", page)
	}
}

// Each mark on the cloth is drawn at its place from the centre line.
func TestPleatsShowEveryMark(t *testing.T) {
	ans := armFront()
	pic := PleatsPicture(ans)
	at := map[string]bool{}
	for _, it := range pic.Items {
		if g, ok := it.(Group); ok && g.Title == "the edge on the cloth" {
			for _, s := range g.Items {
				if l, ok := s.(Line); ok {
					at[num(l.A.X-pic.Width/2)] = true
				}
			}
		}
	}
	for _, m := range ans.Result.Marks {
		for _, on := range m.On {
			if !at[num(on.MM())] {
				t.Errorf("the mark at %v is not drawn", on)
			}
		}
	}
}

// Any names and figures that a request may have are drawn.
func TestAnyReliefIsDrawn(t *testing.T) {
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 21))
		any := func(most length.Length) length.Length { return length.Length(r.Int64N(int64(most) + 1)) }
		req := service.ReliefRequest{Units: length.System(r.IntN(2)), ID: hostile[r.IntN(len(hostile))], Name: hostile[r.IntN(len(hostile))]}
		req.Size = panel.Size{Across: length.Millimetre + any(100*length.Metre), Along: length.Millimetre + any(length.Metre)}
		req.Allow = panel.Sides{Top: any(20 * cm), Left: any(20 * cm), Right: any(20 * cm), Bottom: any(20 * cm)}
		req.Most = cloth.Share(r.IntN(500_001))
		for range 1 + r.IntN(40) {
			half := min(req.Size.Across, req.Size.Along) / 2
			o := relief.Obstacle{ID: hostile[r.IntN(len(hostile))], Round: r.IntN(2) == 0, Edge: relief.Edge(r.IntN(4)), Corner: relief.Corner(r.IntN(5)), What: relief.What(r.IntN(4)),
				Width: 1 + any(half/2), Deep: any(half * 9 / 10), At: half, Stuffing: any(length.Metre), Covered: any(5 * cm)}
			req.Obstacles = append(req.Obstacles, o)
		}
		ans := service.Relief(req)
		svg := ReliefPicture(ans).SVG()
		read(t, svg)
		checkPage(t, ReliefText(ans))
		if len(svg) > 2_000_000 {
			t.Errorf("%d bytes", len(svg))
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func TestAnyPleatsAreDrawn(t *testing.T) {
	styles := []pleat.Style{pleat.Box, pleat.Inverted, pleat.Fan, pleat.Darts, pleat.Pairs}
	for seed := range uint64(150) {
		r := rand.New(rand.NewPCG(seed, 22))
		req := service.PleatsRequest{Units: length.System(r.IntN(2)), Name: hostile[r.IntN(len(hostile))]}
		req.Finished = length.Millimetre + length.Length(r.Int64N(int64(200*length.Metre)))
		req.How, req.Cloth, req.TurnOver = pleat.Lengths, req.Finished+length.Length(r.Int64N(int64(100*length.Metre))), 10*cm
		req.Style, req.Count = styles[r.IntN(len(styles))], 2*(1+r.IntN(200))
		if r.IntN(4) == 0 {
			req.Cloth, req.Style = req.Finished/2, pleat.AnyStyle
		}
		ans := service.Pleats(req)
		svg := PleatsPicture(ans).SVG()
		read(t, svg)
		checkPage(t, PleatsText(ans))
		if len(svg) > 2_000_000 {
			t.Errorf("%d bytes", len(svg))
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}
