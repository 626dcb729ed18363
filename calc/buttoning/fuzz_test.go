package buttoning

import (
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Whatever fits the limits is laid out, mapped and searched without failing, and
// adds up.
func FuzzWork(f *testing.F) {
	f.Add(int64(560e6), int64(780e6), int64(80e6), int64(30e6), uint8(7), uint8(4), uint8(0), int64(640e6), int64(685e6), int64(342e6))
	f.Add(int64(9e9), int64(9e9), int64(0), int64(300e6), uint8(60), uint8(60), uint8(1), int64(4e8), int64(4e8), int64(1))
	f.Add(int64(400e6), int64(90e6), int64(1), int64(1), uint8(2), uint8(2), uint8(2), int64(0), int64(1e6), int64(7))
	f.Fuzz(func(t *testing.T, across, along, edge, depth int64, rows, columns, how uint8, v, h, x int64) {
		in := func(n, lo, hi int64) length.Length {
			return length.Length(lo + max(n%(hi-lo+1), (n%(hi-lo+1)+hi-lo+1)%(hi-lo+1)))
		}
		m := in(edge, 0, 2e9)
		p := Panel{Size: sized(in(across, 5e7, 1e10), in(along, 5e7, 1e10)), Crown: in(edge, 0, 1e9), Edges: Edges{m, m / 2, m / 3}}
		wish := Wish{How: How(how % 4), Rows: int(rows), Columns: int(columns), Width: in(x, 1, 2e9), Height: in(v, 1, 2e9), Buttons: 3 + int(rows), Ratio: Ratio{1 + int64(rows%20), 1 + int64(columns%20)}, Short: how%2 == 1}
		g, ok := GridFor(p, wish)
		if !ok {
			return
		}
		w := NewWork(g, Spread{Model: Model(how % 3), Depth: in(depth, 0, 3e8), Amount: 3 * length.Inch / 2}, practice.Defaults())
		w.Allow = allRound(m / 4)
		sum := length.Length(0)
		for _, i := range w.IntervalsAcross() {
			sum += i.Work
		}
		if sum != w.Over.Across {
			t.Errorf("%v of %v", sum, w.Over.Across)
		}
		pattern := cloth.Pattern{LengthRepeat: in(v, 1e6, 1e10), WidthRepeat: in(h, 1e6, 1e10), Drop: cloth.Half(), Motifs: []cloth.Motif{{Across: in(x, 0, 1e10)}}}
		if how%5 == 0 {
			pattern.WidthRepeat, pattern.Drop = 0, cloth.Drop{}
		}
		if w.MotifCount(pattern) > MaxMotifs {
			return
		}
		a := aimAt(w, w.Marks(), 0)
		a.Symmetric = how%2 == 0
		found := Best(pattern, a, 20_000)
		if list := w.Map(pattern, found.Shift, []panel.Size{sized(5*cm, 5*cm)}, Cover{cm}); len(list) > MaxMotifs {
			t.Errorf("%d motifs", len(list))
		}
		if j, ok := w.Joined(in(h, 1e7, 1e10), 15*mm, pattern, found.Shift); ok && len(j.Joins) != len(j.Parts)-1 {
			t.Errorf("%+v", j)
		}
	})
}
