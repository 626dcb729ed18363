package drawing

import (
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// box is a rectangle in millimetres.
type box struct{ x, y, w, h float64 }

func (b box) inset(d float64) box {
	return box{b.x + d, b.y + d, b.w - 2*d, b.h - 2*d}
}

// side is a side of a rectangle as it lies on the cloth.
type side int

const (
	sideTop side = iota
	sideRight
	sideBottom
	sideLeft
)

// frame turns places on a panel as it is worn into places on the cloth.
type frame struct {
	box
	turn panel.Turn
}

func frameOf(pl plan.Placement) frame {
	return frame{box{pl.X.MM(), pl.Y.MM(), max(pl.Across.MM(), 0), max(pl.Along.MM(), 0)}, pl.Turn}
}

// size is the panel's extent as it is worn.
func (f frame) size() (across, along float64) {
	if f.turn == panel.Quarter {
		return f.h, f.w
	}
	return f.w, f.h
}

// at is where the point (px, py) from the panel's top left corner lies.
func (f frame) at(px, py float64) Pt {
	switch f.turn {
	case panel.Half:
		return Pt{f.x + f.w - px, f.y + f.h - py}
	case panel.Quarter:
		return Pt{f.x + f.w - py, f.y + px}
	}
	return Pt{f.x + px, f.y + py}
}

// boxOf is where the rectangle between two points of the panel lies.
func (f frame) boxOf(px, py, qx, qy float64) box {
	a, b := f.at(px, py), f.at(qx, qy)
	x, y := min(a.X, b.X), min(a.Y, b.Y)
	return box{x, y, max(a.X, b.X) - x, max(a.Y, b.Y) - y}
}

// sideOf is the side on which an edge of the panel lies.
func (f frame) sideOf(e panel.Edge) side {
	s := sideBottom
	switch e {
	case panel.TopEdge:
		s = sideTop
	case panel.RightEdge:
		s = sideRight
	case panel.LeftEdge:
		s = sideLeft
	}
	switch f.turn {
	case panel.Half:
		s += 2
	case panel.Quarter:
		s++
	}
	return s % 4
}

// finished is the part of what shows that lies on this placement, in places of
// the panel, and the seams at its sides; ok is false when nothing of it does.
func (f frame) finished(p panel.Panel, pl plan.Placement) (b box, ok bool) {
	w, h := f.size()
	from := pl.From.MM()
	left := p.Allow.Left.MM() - from
	right := left + p.Size.Across.MM()
	seam := p.JoinSeam.MM()
	if pl.Parts > 1 && pl.Part > 1 {
		left = max(left, seam)
	}
	if pl.Parts > 1 && pl.Part < pl.Parts {
		right = min(right, w-seam)
	}
	left, right = max(left, 0), min(right, w)
	top := max(p.Allow.Top.MM(), 0)
	bottom := min(h-p.Allow.Bottom.MM(), h)
	if left >= right || top >= bottom {
		return box{}, false
	}
	return f.boxOf(left, top, right, bottom), true
}

// facing is the edge of a panel that is sewn to that edge of another.
func facing(e panel.Edge) panel.Edge {
	switch e {
	case panel.TopEdge:
		return panel.BottomEdge
	case panel.LeftEdge:
		return panel.RightEdge
	case panel.RightEdge:
		return panel.LeftEdge
	}
	return panel.TopEdge
}
