package piping_test

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
)

func between(t *rapid.T, lo, hi length.Length, name string) length.Length {
	return length.Length(rapid.Int64Range(int64(lo/mm), int64(hi/mm)).Draw(t, name)) * mm
}

// drawJob is any job within the limits.
func drawJob(t *rapid.T) piping.Job {
	j := piping.Job{
		Shape: piping.Shape{
			Cut:   piping.Cut(rapid.IntRange(0, 2).Draw(t, "cut")),
			Angle: rapid.SampledFrom([]int{15, 30, 45, 45, 45, 60, 75}).Draw(t, "angle"),
			Width: between(t, 10*mm, 80*mm, "width"),
			Least: between(t, 50*mm, 40*cm, "least"),
		},
		JoinSeam: between(t, 0, 15*mm, "joinSeam"), Overlap: between(t, 0, 80*mm, "overlap"), Ends: between(t, 0, 50*mm, "ends"),
		Margin: between(t, 0, 60*mm, "margin"), OneLean: rapid.Bool().Draw(t, "oneLean"),
	}
	for range rapid.IntRange(0, 5).Draw(t, "rects") {
		j.Rects = append(j.Rects, piping.Rect{X: between(t, 0, 50*cm, "x"), Y: between(t, 0, 900*cm, "y"), Across: between(t, 20*mm, 140*cm, "across"), Along: between(t, 20*mm, 200*cm, "along")})
	}
	if len(j.Rects) == 0 || rapid.Bool().Draw(t, "cloth") {
		j.Cloth = between(t, 10*cm, 160*cm, "cloth")
	}
	for range rapid.IntRange(1, 8).Draw(t, "runs") {
		r := piping.Run{Length: between(t, 5*cm, 400*cm, "length"), Closed: rapid.Bool().Draw(t, "closed"), MaxJoins: rapid.IntRange(0, 6).Draw(t, "joins")}
		for range rapid.IntRange(0, 3).Draw(t, "corners") {
			r.Corners = append(r.Corners, between(t, 0, r.Length, "corner"))
		}
		for range rapid.IntRange(0, 2).Draw(t, "spans") {
			from, to := between(t, 0, r.Length, "from"), between(t, 0, r.Length, "to")
			if !r.Closed && from > to {
				from, to = to, from
			}
			if from != to {
				r.NoJoin = append(r.NoJoin, piping.Span{From: from, To: to})
			}
		}
		if len(piping.KeepClear(r, j.Margin)) == 0 {
			r.NoJoin, r.Corners = nil, nil
		}
		j.Runs = append(j.Runs, r)
	}
	return j
}

// Every plan of every way passes the check, which does not know how it was made.
func TestEveryPlanIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := drawJob(t)
		for _, p := range piping.Solve(j) {
			for _, flaw := range piping.Check(j, p) {
				t.Errorf("way %d: %s", p.Way, flaw)
			}
		}
	})
}
