package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// TestLoosenedWishesLieNearest moves wishes that a cloth cannot keep, and holds how
// far they and the plan have them against every place in whole millimetres. All
// sizes are even millimetres, so that the nearest is among those.
func TestLoosenedWishesLieNearest(t *testing.T) {
	moved, sewn, gone := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		job := drawTightJob(t)
		if plan.Possible(job) {
			t.Skip("every wish can be kept")
		}
		panels, list := plan.Loosen(job)
		now := job
		now.Panels = panels
		if !plan.Possible(now) {
			t.Fatalf("loosened to %+v and still not possible", panels)
		}
		l := list[0]
		if l.Panel != 0 {
			if off := leastOff(job, job.Panels[:1]); off != 0 || panels[0].Match != job.Panels[0].Match {
				t.Fatalf("the first panel, at best %v off, wishes for %+v, and the second is loosened: %+v", off, panels[0].Match, l)
			}
			return
		}
		if l.Wished != job.Panels[0].Match || l.Instead != panels[0].Match || !l.Why.Said() {
			t.Fatalf("loosened %+v; the first panel wishes for %+v", l, panels[0].Match)
		}
		all := leastOff(job, job.Panels)
		one := leastOff(job, job.Panels[:1])
		want := one
		if all != never {
			want = all // the seam is kept
			sewn++
		}
		if (want != never) != l.Moved || l.Moved && l.Off != want {
			t.Fatalf("moved %v by %v to %+v; the least is %v, and %v alone", l.Moved, l.Off, l.Instead, all, one)
		}
		if len(job.Panels) > 1 && all != never && panels[1].Match.How != panel.RunsOn {
			t.Fatalf("the second panel wishes for %+v", panels[1].Match)
		}
		if !l.Moved {
			gone++
			return
		}
		moved++
		r, err := plan.Solve(now, plan.Quick, nil)
		if err != nil { // it may not be turned so on this cloth, which loosening does not ask
			return
		}
		for _, f := range verify.Check(now, r.Cut...) {
			t.Fatal(f)
		}
		for _, p := range r.Cut[0].Placements {
			if p.Panel != 0 {
				continue
			}
			if far := laidOff(job, &p); far != want {
				t.Fatalf("laid %v off, the least is %v: %+v", far, want, p)
			}
		}
	})
	if moved < 10 || sewn < 10 || gone == 0 {
		t.Errorf("%d moved, %d with a seam kept, %d given up: want more", moved, sewn, gone)
	}
}

const never = length.Length(1 << 60)

// drawTightJob draws a panel with a wish for a motif, and sometimes one that runs
// on from it, on a cloth with little room beside them.
func drawTightJob(t *rapid.T) plan.Job {
	mm := func(name string, least, most int) length.Length {
		return length.Length(rapid.IntRange(least/2, most/2).Draw(t, name)) * 2 * length.Millimetre
	}
	how := rapid.SampledFrom([]panel.How{panel.Across, panel.Centred, panel.Anchor, panel.Along}).Draw(t, "how")
	job := plan.Job{Cloth: cloth.Cloth{Width: mm("width", 200, 400), OneWay: rapid.Bool().Draw(t, "one way"),
		Railroad: rapid.SampledFrom([]cloth.Railroad{cloth.RailroadNever, cloth.RailroadAllowed, cloth.RailroadAlways}).Draw(t, "railroad"),
		Pattern:  cloth.Pattern{WidthRepeat: mm("width repeat", 60, 300), LengthRepeat: mm("length repeat", 40, 90)}}}
	if rapid.Bool().Draw(t, "half drop") {
		job.Cloth.Pattern.Drop = cloth.Half()
	}
	for _, name := range []string{"heron", "sedge"}[:rapid.IntRange(1, 2).Draw(t, "motifs")] {
		job.Cloth.Pattern.Motifs = append(job.Cloth.Pattern.Motifs, cloth.Motif{Name: name, Across: mm("motif across", 0, 200), Along: mm("motif along", 0, 80)})
	}
	w := int(job.Cloth.Width / length.Millimetre)
	p := panel.Panel{ID: "IB", Count: 1, Size: panel.Size{Across: mm("across", w/2, w-40), Along: mm("along", w/2, w-40)},
		Allow: panel.Sides{Top: mm("top", 0, 20), Bottom: mm("bottom", 0, 20), Left: mm("left", 0, 20), Right: mm("right", 0, 20)},
		Match: panel.Match{How: how, Motif: rapid.SampledFrom([]string{"", "heron"}).Draw(t, "motif")}}
	if how == panel.Anchor {
		p.Match.Point = panel.Point{Across: mm("point across", 0, int(p.Size.Across/length.Millimetre)), Along: mm("point along", 0, int(p.Size.Along/length.Millimetre))}
	}
	if rapid.Bool().Draw(t, "may be turned") {
		switch {
		case job.Cloth.Railroad != cloth.RailroadNever:
			p.Turn = panel.Quarter
		case !job.Cloth.OneWay:
			p.Turn = panel.Half
		}
	}
	job.Panels = []panel.Panel{p}
	if job.Cloth.Railroad != cloth.RailroadAllowed && rapid.Bool().Draw(t, "seat") {
		seat := p
		seat.ID, seat.Size = "SEAT", panel.Size{Across: mm("seat across", w/2, w-40), Along: mm("seat along", w/2, w-40)}
		seat.Match = panel.Match{How: panel.RunsOn, From: "IB", Edge: panel.BottomEdge, Offset: mm("offset", -30, 30)}
		job.Panels = append(job.Panels, seat)
	}
	return job
}

// leastOff is how far from the wish of the first panel some motif is at least, over
// every place that all panels can take with their pattern running on; never when
// none is on the first panel. It tries whole millimetres.
func leastOff(job plan.Job, panels []panel.Panel) length.Length {
	ways := map[cloth.Railroad][]bool{cloth.RailroadNever: {false}, cloth.RailroadAllowed: {false, true}, cloth.RailroadAlways: {true}}
	least := never
	for _, cross := range ways[job.Cloth.Railroad] {
		for _, turn := range []panel.Turn{panel.Upright, panel.Half, panel.Quarter} {
			if mayLie(job, panels, turn, cross) {
				least = min(least, leastOffTurned(job, panels, turn))
			}
		}
	}
	return least
}

// mayLie reports whether the panels may lie with that turn.
func mayLie(job plan.Job, panels []panel.Panel, turn panel.Turn, cross bool) bool {
	if cross {
		return turn == panel.Quarter
	}
	own := panels[0].Turn
	return turn == panel.Upright || turn == panel.Half && own == turn && !job.Cloth.OneWay ||
		turn == panel.Quarter && own == turn && job.Cloth.Railroad != cloth.RailroadNever
}

// leastOffTurned is leastOff for one turn.
func leastOffTurned(job plan.Job, panels []panel.Panel, turn panel.Turn) length.Length {
	const mm = length.Millimetre
	h, least := job.Cloth.Pattern.WidthRepeat, never
	for x := length.Length(0); x+extent(&panels[0], turn) <= job.Cloth.Width; x += mm {
		ref := x + refAcross(&panels[0], turn)
		room := true
		for _, q := range panels[1:] { // where its middle is, some columns on
			middle := q
			middle.Match = panel.Match{}
			first := panels[0]
			first.Match = panel.Match{}
			at := x + refAcross(&first, turn) + sewnAcross(&panels[0], &q, turn) - refAcross(&middle, turn)
			at = (at%h + h) % h
			room = room && at+extent(&q, turn) <= job.Cloth.Width
		}
		if !room {
			continue
		}
		least = min(least, offAt(job, &panels[0], turn, x, ref))
	}
	return least
}

// offAt is how far from the place ref across the cloth the nearest motif is that is
// on the finished panel, which begins at x; 0 for a wish that binds no more than the
// rows, which run across.
func offAt(job plan.Job, p *panel.Panel, turn panel.Turn, x, ref length.Length) length.Length {
	if how := p.Match.How; how == panel.Across && turn == panel.Quarter || how == panel.Along && turn != panel.Quarter {
		return 0
	}
	from, size := p.Allow.Left, p.Size.Across
	switch turn {
	case panel.Half:
		from = p.Allow.Right
	case panel.Quarter:
		from, size = p.Allow.Bottom, p.Size.Along
	}
	least := never
	for _, m := range job.Cloth.Pattern.Motifs {
		if p.Match.Motif != "" && p.Match.Motif != m.Name {
			continue
		}
		for at := m.Across - 10*job.Cloth.Pattern.WidthRepeat; at <= job.Cloth.Width; at += job.Cloth.Pattern.WidthRepeat {
			if at >= x+from && at <= x+from+size {
				least = min(least, max(at-ref, ref-at))
			}
		}
	}
	return least
}

// extent is how far a panel reaches across the cloth.
func extent(p *panel.Panel, turn panel.Turn) length.Length {
	if turn == panel.Quarter {
		return p.Cut().Along
	}
	return p.Cut().Across
}

// refAcross is how far from the edge of a panel as laid the place is for which its
// wish is, across the cloth.
func refAcross(p *panel.Panel, turn panel.Turn) length.Length {
	switch ref := p.Reference(); turn {
	case panel.Half:
		return p.Cut().Across - ref.Across
	case panel.Quarter:
		return p.Cut().Along - ref.Along
	default:
		return ref.Across
	}
}

// sewnAcross is how far across the cloth the middle of a panel is, in continuous
// pattern, from that of the panel at whose lower edge it is sewn.
func sewnAcross(from, p *panel.Panel, turn panel.Turn) length.Length {
	switch turn {
	case panel.Half:
		return -p.Match.Offset
	case panel.Quarter:
		return -(from.Size.Along + p.Size.Along) / 2
	default:
		return p.Match.Offset
	}
}

// laidOff is how far from the wish of the job the nearest motif is on a panel as
// laid, across the cloth.
func laidOff(job plan.Job, p *plan.Placement) length.Length {
	q := job.Panels[p.Panel]
	return offAt(job, &q, p.Turn, p.X, p.X+refAcross(&q, p.Turn))
}

// TestLoosenEnds loosens random jobs on cloth too narrow for some of their wishes:
// what is left can be laid, but for panels too wide, and nothing else is touched.
func TestLoosenEnds(t *testing.T) {
	saw := make(map[string]int)
	for k := range jobsToTry(t, 1_000) {
		job := randomJob(uint64(k))
		job.Cloth.Width = job.Cloth.Width * length.Length(60+k%40) / 100
		was := slices.Clone(job.Panels)
		panels, list := plan.Loosen(job)
		if !slices.Equal(job.Panels, was) {
			t.Fatalf("job %d: the panels given are changed", k)
		}
		changed := make(map[int]bool)
		for _, l := range list {
			changed[l.Panel] = true
			if l.Wished != was[l.Panel].Match || l.Instead != panels[l.Panel].Match || !l.Why.Said() || l.Moved && l.Off <= 0 {
				t.Errorf("job %d: %+v", k, l)
			}
			switch {
			case l.Moved:
				saw["moved"]++
			case l.Wished == l.Instead:
				saw["parted"]++
			default:
				saw["given up"]++
			}
		}
		for i, p := range panels {
			if (p != was[i]) != changed[i] {
				t.Errorf("job %d: %s is %+v, was %+v; listed %v", k, p.ID, p, was[i], changed[i])
			}
		}
		if plan.Possible(job) != (len(list) == 0) && len(list) > 0 {
			t.Errorf("job %d: every wish can be kept, and %+v is loosened", k, list)
		}
		job.Panels = panels
		faults := plan.Unkept(job)
		for _, f := range faults.Faults() {
			var i int
			if _, err := fmt.Sscanf(f.Pointer(), "#/panels/%d/", &i); err != nil {
				t.Fatal(err)
			}
			// The two halves of a joined panel are tied by their seam, which no wish is to blame for.
			halves := panels[i].Join == panel.JoinHalves && panels[i].Match.How == panel.Free
			if f.Code != fault.WiderThanCloth && !halves {
				t.Errorf("job %d: %s at %s is left of %+v", k, f.Code, f.Pointer(), panels[i])
			}
		}
	}
	for _, kind := range []string{"moved", "parted", "given up"} {
		if saw[kind] == 0 {
			t.Errorf("no wish was %s: each should occur, and there were %v", kind, saw)
		}
	}
	t.Log(saw)
}
