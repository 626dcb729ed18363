package foundation

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Use is what a cloth of the foundation is for.
type Use int

// The uses; the zero value is Hessian.
const (
	Hessian Use = iota
	Scrim
	Calico
	Bottoming
	uses
)

// Uses are all of them, from the webs up and the underside last.
func Uses() []Use { return []Use{Hessian, Scrim, Calico, Bottoming} }

// String is the name of the cloth.
func (c Use) String() string {
	return [uses]string{"hessian", "scrim", "calico", "bottoming"}[c]
}

// Panel is a piece of cloth for one frame, with what is turned over on each
// side; Count of the panel is that of the frame.
type Panel struct {
	Use   Use
	Frame int
	panel.Panel
}

// uses of a frame: a modern build has no scrim, only seats are bottomed.
func (f Frame) uses(b Build) []Use {
	out := []Use{Hessian}
	if b == Traditional {
		out = append(out, Scrim)
	}
	out = append(out, Calico)
	if f.Part == Seat {
		out = append(out, Bottoming)
	}
	return out
}

// panels are the pieces of cloth of frame k: the rectangle around the frame,
// grown for the springs or the stuffing that the cloth goes over, and by its
// turn on each side.
func (f Frame) panels(k int, b Build, sprung bool, u practice.Set) []Panel {
	across, along := f.around()
	var out []Panel
	for _, use := range f.uses(b) {
		grow := length.Length(0)
		switch {
		case use == Hessian && sprung:
			grow = u.Length(practice.HessianRise)
		case use == Scrim:
			grow = 2 * u.Length(practice.ScrimHeight)
		case use == Calico:
			grow = 2 * u.Length(practice.CalicoHeight)
		}
		turn := u.Length(use.keys().turn)
		out = append(out, Panel{Use: use, Frame: k, Panel: piece(f, panel.Size{Across: across + grow, Along: along + grow}, turn,
			u.Length(use.Width()), u.Length(practice.ClothSeam))})
	}
	return out
}

// piece may lie either way on a plain cloth; one that is wider than the cloth
// both ways is joined at its sides.
func piece(f Frame, size panel.Size, turn, width, seam length.Length) panel.Panel {
	p := panel.Panel{
		ID: f.ID, Name: f.Name, Count: f.Count, Size: size,
		Allow: panel.Sides{Top: turn, Bottom: turn, Left: turn, Right: turn}, Turn: panel.Quarter, JoinSeam: seam,
	}
	if cut := p.Cut(); min(cut.Across, cut.Along) > width {
		p.Turn, p.Join = panel.Upright, panel.JoinSides
	}
	return p
}
