package service

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/calc/practice"
)

// anyPleats draws a request for pleats without faults.
func anyPleats(t *rapid.T) PleatsRequest {
	l := func(name string, lo, hi length.Length) length.Length {
		return length.Length(rapid.Int64Range(int64(lo), int64(hi)).Draw(t, name))
	}
	const mm, cm = length.Millimetre, length.Centimetre
	req := PleatsRequest{Units: rapid.SampledFrom([]length.System{length.Metric, length.Imperial}).Draw(t, "units")}
	req.How = pleat.How(rapid.IntRange(0, 4).Draw(t, "how"))
	switch req.How {
	case pleat.Lengths:
		req.Finished = l("finished", cm, 300*cm)
		req.Cloth = req.Finished + l("more", 0, 100*cm)
	case pleat.Buttons:
		req.Finished = l("finished", 5*cm, 20*cm)
		req.Cloth, req.Buttons = req.Finished+l("more", 0, 10*cm), rapid.IntRange(1, 20).Draw(t, "buttons")
	default:
		req.Radius, req.TurnOver, req.Angle = l("radius", 0, 200*cm), l("turn over", cm, 30*cm), rapid.IntRange(1, 360).Draw(t, "angle")
	}
	styles := []pleat.Style{pleat.AnyStyle, pleat.Box, pleat.Inverted, pleat.Fan, pleat.Darts}
	if req.How != pleat.Buttons {
		styles = append(styles, pleat.Pairs)
		req.Count = rapid.SampledFrom([]int{0, 0, 2, 6, 14}).Draw(t, "count")
	}
	req.Style = rapid.SampledFrom(styles).Draw(t, "style")
	switch rapid.IntRange(0, 3).Draw(t, "depth") {
	case 1:
		req.MaxDepth = l("sixteenths", 1, 32) * (length.Inch / 16)
	case 2:
		req.MaxDepth = l("millimetres", 1, 60) * mm
	case 3:
		req.MaxDepth = l("anything", mm, 60*mm)
	}
	return req
}

// The greatest depth is kept, exactly, as it is printed and as the marks are
// printed, or a warning says that it is not; and no warning says so of one that is
// kept. In both units, and where count or buttons say how many.
func TestPleatsKeepTheirDepthOrSaySo(t *testing.T) {
	printed := func(t *rapid.T, sys length.System, l length.Length) length.Length {
		got, err := length.Parse(l.Text(sys, length.Nearest))
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	rapid.Check(t, func(t *rapid.T) {
		req := anyPleats(t)
		if l := PleatsFaults(req); l.Len() > 0 {
			t.Skip(l.Faults())
		}
		a := Pleats(req)
		var deepest, read length.Length
		for _, m := range a.Result.Marks {
			deepest = max(deepest, m.Depth)
			read = max(read, printed(t, req.Units, m.Depth))
			for i := 1; i < len(m.On); i++ {
				if len(m.On) != 6 || i != 3 { // the face of a box pleat is not folded
					read = max(read, printed(t, req.Units, m.On[i])-printed(t, req.Units, m.On[i-1]))
				}
			}
		}
		warned := slices.ContainsFunc(a.Warnings, func(n note.Note) bool { return n.Code == note.PleatsTooDeep || n.Code == note.PleatsTapeDeep })
		tooDeep := req.MaxDepth > 0 && max(deepest, read) > req.MaxDepth || req.MaxDepth == 0 && req.Count == 0 && req.How != pleat.Buttons && deepest > practice.Defaults().Length(practice.PleatDepth)
		if warned != tooDeep {
			t.Fatalf("%v deep, read as %v, and may be %v: %+v", deepest, read, req.MaxDepth, a.Warnings)
		}
		for _, w := range note.Texts(a.Warnings, req.Units) {
			if strings.Contains(w, " apart") && !a.Result.Spaced {
				t.Fatalf("nothing is apart, and still %q", w)
			}
		}
	})
}
