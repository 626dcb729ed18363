package piping_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
)

// usual is the table.
var usual = practice.Defaults()

// wingChair is the piping of a wing chair, out of offcuts and new cloth.
func wingChair() piping.Job {
	j := piping.Job{
		Shape:    piping.Shape{Angle: piping.TrueBias, Width: 40 * mm, Least: 20 * cm},
		JoinSeam: usual.Length(practice.PipingJoin), Overlap: usual.Length(practice.PipingOverlap),
		Ends: usual.Length(practice.PipingEnds), Margin: usual.Length(practice.PipingCorner), Cloth: 137 * cm,
	}
	for _, r := range [][2]length.Length{{263, 1480}, {278, 865}, {242, 525}, {262, 480}, {242, 475}, {315, 315}, {315, 315}, {717, 125}, {718, 90}, {687, 80}, {227, 235}, {228, 230}} {
		j.Rects = append(j.Rects, piping.Rect{Across: r[0] * mm, Along: r[1] * mm})
	}
	corners := []length.Length{0, 56 * cm, 116 * cm, 172 * cm}
	for range 2 {
		j.Runs = append(j.Runs,
			piping.Run{Length: 232 * cm, Closed: true, Corners: corners, MaxJoins: 9, NoJoin: []piping.Span{{From: 15 * cm, To: 41 * cm}}},
			piping.Run{Length: 100 * cm, MaxJoins: 9, NoJoin: []piping.Span{{From: 34 * cm, To: 66 * cm}}},
			piping.Run{Length: 90 * cm, MaxJoins: 9, Radius: 12 * cm})
	}
	j.Runs = append(j.Runs, piping.Run{Length: 232 * cm, MaxJoins: 9, Corners: []length.Length{82 * cm, 150 * cm}},
		piping.Run{Length: 60 * cm, MaxJoins: 9, NoJoin: []piping.Span{{From: 20 * cm, To: 40 * cm}}})
	return j
}

// contract is a job of ten thousand runs of many lengths, with corners and with
// places where no join may fall.
func contract() piping.Job {
	j := wingChair()
	j.Runs = nil
	for i := range length.Length(piping.MaxRuns) {
		r := piping.Run{Length: (30 + i*7919%270) * cm, Closed: i%3 == 0, MaxJoins: int(i % 5)}
		if r.Length > 100*cm {
			r.Corners = []length.Length{0, 40 * cm, 80 * cm}
			r.NoJoin = []piping.Span{{From: 5 * cm, To: 30 * cm}}
		}
		j.Runs = append(j.Runs, r)
	}
	return j
}

var sink []piping.Plan

func BenchmarkWingChair(b *testing.B) {
	j := wingChair()
	for b.Loop() {
		sink = piping.Solve(j)
	}
}

func BenchmarkWingChairChecked(b *testing.B) {
	j := wingChair()
	for b.Loop() {
		sink = piping.Solve(j)
		for _, p := range sink {
			piping.Check(j, p)
		}
	}
}

func BenchmarkTenThousandRuns(b *testing.B) {
	j := contract()
	for b.Loop() {
		sink = piping.Solve(j)
	}
}

func BenchmarkTenThousandRunsChecked(b *testing.B) {
	j := contract()
	for b.Loop() {
		sink = piping.Solve(j)
		for _, p := range sink {
			piping.Check(j, p)
		}
	}
}

// Jobs that were measured are also right.
func TestMeasuredJobs(t *testing.T) {
	for _, j := range []piping.Job{wingChair(), contract()} {
		for _, p := range piping.Solve(j) {
			for _, flaw := range piping.Check(j, p) {
				t.Errorf("way %d: %s", p.Way, flaw)
			}
			t.Logf("way %d: %d runs, cloth %v, %d strips, %d joins, %d missing", p.Way, len(j.Runs), p.Cloth, len(p.Strips), p.Joins, p.Missing)
		}
	}
}
