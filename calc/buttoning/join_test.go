package buttoning

import (
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// checkJoined knows nothing of how covers are made up: it names what is wrong
// with one.
func checkJoined(t *rapid.T, w Work, width, seam length.Length, p cloth.Pattern, s Shift, j Joined) {
	t.Helper()
	cut := w.Cut().Across
	if first, last := j.Parts[0], j.Parts[len(j.Parts)-1]; last.To-first.From != cut {
		t.Errorf("from %v to %v, cut %v", first.From, last.To, cut)
	}
	if len(j.Joins) != len(j.Parts)-1 {
		t.Fatalf("%d joins between %d parts", len(j.Joins), len(j.Parts))
	}
	for i, part := range j.Parts {
		if part.To-part.From > width || part.To <= part.From {
			t.Errorf("part %d is %v wide, the cloth %v", i, part.To-part.From, width)
		}
		if other := j.Parts[len(j.Parts)-1-i]; part.From-other.To != j.Parts[0].From-j.Parts[len(j.Parts)-1].To && len(j.Parts) > 1 && w.Allow.Left != w.Allow.Right {
			t.Errorf("part %d does not mirror", i)
		}
		if part.Fits && (part.Selvedge < 0 || part.Selvedge+part.To-part.From > width) {
			t.Errorf("part %d runs over a selvedge: %+v", i, part)
		}
		if h := p.WidthRepeat; part.Fits && h > 0 {
			// The first motif, counted from the selvedge and from the centre line.
			if off := length.Mod(p.Principal()[0].Across-part.Selvedge+part.From-s.X, h); off != 0 {
				t.Errorf("part %d: the pattern is %v off", i, off)
			}
		}
	}
	for i, join := range j.Joins {
		l, r := j.Parts[i], j.Parts[i+1]
		if join.K == 0 && w.Columns > 2 && len(j.Joins)%2 == 1 {
			t.Errorf("a join down the middle")
		}
		for n, at := range join.Line {
			if at.X+seam > l.To || at.X-seam < r.From {
				t.Errorf("join %d at %v leaves less than a seam in %+v, %+v", i, at, l, r)
			}
			if n > 0 && n < len(join.Line)-1 && !isMark(w, at) {
				t.Errorf("join %d turns at %v, where no button is", i, at)
			}
		}
		if len(join.Line) != w.Rows+2 {
			t.Errorf("join %d has %d corners", i, len(join.Line))
		}
	}
}

func isMark(w Work, at Place) bool {
	for _, m := range w.Marks() {
		if m.X == at.X && m.Y == at.Y {
			return true
		}
	}
	return false
}

// Covers of any width: every join runs from button to button, every part fits
// between the selvedges with its seams, and the pattern goes on where it is said
// to.
func TestJoined(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, p, s := drawWork(t), drawPattern(t), drawShift(t)
		width := length.Length(rapid.Int64Range(30, 300).Draw(t, "width")) * cm
		seam := length.Length(rapid.Int64Range(0, 30).Draw(t, "seam")) * mm
		j, ok := w.Joined(width, seam, p, s)
		_, plain := w.Joined(width, seam, cloth.Pattern{}, Shift{})
		if ok != plain {
			t.Errorf("with a pattern %v, without %v", ok, plain)
		}
		if ok {
			checkJoined(t, w, width, seam, p, s, j)
		}
		one, fits := w.InOne(width, p, s)
		if fits != (w.Cut().Across <= width) || len(one.Parts) != 1 {
			t.Errorf("in one: %v, %+v", fits, one)
		}
	})
}

// A banquette of 240 cm from a cloth of 140 cm: three widths.
func TestJoinedBanquette(t *testing.T) {
	g, _ := GridFor(Panel{Size: sized(240*cm, 60*cm), Edges: Edges{8 * cm, 8 * cm, 8 * cm}}, Wish{Rows: 4, Columns: 15})
	w := NewWork(g, Spread{Depth: 35 * mm}, practice.Defaults())
	w.Allow = allRound(6 * cm)
	j, ok := w.Joined(140*cm, 15*mm, cloth.Pattern{}, Shift{})
	if !ok || len(j.Parts) != 3 || j.Joins[0].K != -j.Joins[1].K-1 {
		t.Fatalf("%+v", j)
	}
	if mid := j.Parts[1]; mid.To-mid.From > 140*cm || mid.To-mid.From < 140*cm-w.Cloth.Across {
		t.Errorf("the middle is %v wide", mid.To-mid.From)
	}
	if _, ok := w.Joined(15*cm, 15*mm, cloth.Pattern{}, Shift{}); ok {
		t.Error("a diamond and two seams do not fit 15 cm")
	}
}
