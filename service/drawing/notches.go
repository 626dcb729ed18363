package drawing

import (
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// notchDeep and notchWide are the size of a notch on the usual width. It stays
// within the allowance; where that is less than leastNotch there is none.
const (
	notchDeep  = 16.0
	notchWide  = 9.0 // to either side
	leastNotch = 5.0
)

// notches are snips in the allowances at the middle of each finished edge, which
// need not be the middle of the cut one: by them a panel is set to the middle of
// the frame and to its neighbours (common practice, no source). A part of a
// joined panel has those that lie on it.
func (s *sheet) notches(f frame, p panel.Panel, pl plan.Placement) []Polyline {
	w, h := f.size()
	midX := p.Allow.Left.MM() + p.Size.Across.MM()/2 - pl.From.MM()
	midY := p.Allow.Top.MM() + p.Size.Along.MM()/2
	var out []Polyline
	// add puts a notch at a place on the edge, pointing inwards by (dx, dy).
	add := func(e panel.Edge, allow, x, y, dx, dy float64) {
		deep := min(notchDeep*s.k, 0.8*allow)
		if !outer(e, pl) || deep < leastNotch*s.k || x < 0 || x > w || y < 0 || y > h {
			return
		}
		half := notchWide * s.k
		out = append(out, Polyline{Closed: true, Pts: []Pt{
			f.at(x-dy*half, y-dx*half), f.at(x+dx*deep, y+dy*deep), f.at(x+dy*half, y+dx*half),
		}})
	}
	add(panel.TopEdge, p.Allow.Top.MM(), midX, 0, 0, 1)
	add(panel.RightEdge, p.Allow.Right.MM(), w, midY, -1, 0)
	add(panel.BottomEdge, p.Allow.Bottom.MM(), midX, h, 0, -1)
	add(panel.LeftEdge, p.Allow.Left.MM(), 0, midY, 1, 0)
	return out
}
