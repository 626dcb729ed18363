package plan

import (
	"math/rand/v2"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// openJob draws a small job with pairs and chains whose row is open, on a repeat
// of so many units that few of its rows are places of contact.
func openJob(seed uint64) Job {
	r := rand.New(rand.NewPCG(seed, 11))
	units := func(lo, hi int) length.Length { return length.Length(lo+r.IntN(hi-lo+1)) * length.Millimetre }
	var j Job
	c := &j.Cloth
	c.Width, c.OneWay = units(8, 14), r.IntN(2) == 0
	c.Pattern.LengthRepeat, c.Pattern.WidthRepeat = 6*units(2, 5), units(4, 7)
	c.Pattern.Drop = [...]cloth.Drop{{}, {}, {Num: 1, Den: 2}, {Num: 1, Den: 3}}[r.IntN(4)]
	c.Pattern.Motifs = []cloth.Motif{{Name: "a", Across: units(0, 3), Along: units(0, 3)}}
	add := func(id string, count int, how panel.How) *panel.Panel {
		p := panel.Panel{ID: id, Count: count, Size: panel.Size{Across: units(3, 7), Along: units(3, 17)}}
		p.Match.How = how
		j.Panels = append(j.Panels, p)
		return &j.Panels[len(j.Panels)-1]
	}
	for k := range 1 + r.IntN(2) {
		add(string(rune('A'+k)), 1, panel.Centred)
	}
	p := add("P", 2, panel.Across)
	p.Pair, p.PairAs = "P", panel.PairAs(r.IntN(2))
	if r.IntN(2) == 0 {
		q := add("Q", 1, panel.Across)
		if r.IntN(2) == 0 {
			add("R", 1, panel.RunsOn).Match.From = q.ID
		}
	}
	if r.IntN(2) == 0 {
		q := add("S", 2, panel.Across)
		q.Pair = "S"
	} else {
		add("F", 1, panel.Free)
	}
	return j
}

// TestRowsOfContactAreEnough holds the exact search with few rows for open phases
// and few starts of the cloth against the same with every row and every start.
func TestRowsOfContactAreEnough(t *testing.T) {
	compared, fewer := 0, 0
	for seed := range uint64(jobsForBounds(t) / 30) {
		job := openJob(seed)
		if Sound(job) != nil {
			continue
		}
		for _, m := range modelsOf(job) {
			_, hand := rows(m)
			lengths := [2]int64{}
			for k := range lengths {
				e := newExact(m, 200, func() bool { return false })
				if e == nil || e.partial {
					break
				}
				starts, ends := m.startsToTry(0), (*openRows)(nil)
				if k == 0 {
					ends = m.heldTops(-1, maxEnds)
					if set := m.restingStarts(); set != nil {
						starts = set
					}
				} else {
					fewer += clearRows(e)
				}
				h := newHalving(e, ends, starts, 1_000_000, tallestBound(m), hand.top)
				if h.narrow(h.left); h.low == h.high {
					lengths[k] = h.low
				}
			}
			if lengths[0] == 0 || lengths[1] == 0 {
				continue
			}
			compared++
			if lengths[0] != lengths[1] {
				t.Errorf("seed %d: %d with few rows, %d with every row", seed, lengths[0], lengths[1])
			}
		}
	}
	t.Logf("%d models compared, %d ways of lying with few rows", compared, fewer)
	if want := jobsForBounds(t) / 150; compared < want || fewer < want { // a fifth of the seeds
		t.Errorf("too few models were compared")
	}
}

// clearRows makes an exact search try every row, and counts what it forgets.
func clearRows(e *exact) int {
	n := 0
	for k := range e.rows {
		for o := range e.rows[k] {
			if e.rows[k][o] != nil {
				e.rows[k][o] = nil
				n++
			}
		}
	}
	return n
}
