package relief

import (
	"math"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// slack is how much narrower openings are taken than they are, in millimetres.
const slack = 0.002

// at is a place from the middle of what shows, in millimetres. At an edge u runs
// along it, to the right or downwards, and v out to it; in a corner both run out.
type at struct{ u, v float64 }

// field is the surroundings of one obstacle.
type field struct {
	o          Obstacle
	centre     panel.Point
	halfU      float64 // finished
	halfV      float64
	edgeU      float64 // cut, on the slack cloth
	edgeV      float64
	lo, hi     float64 // the factors of the pull
	mid        float64
	width      float64
	deep       float64
	covered    float64
	keep       float64 // covered and margin
	need       float64 // of a tongue
	margin     length.Length
	deltaU     float64 // how far a place may lie from where it lies at the middle pull
	deltaV     float64
	faceV      float64 // the innermost face, when pulled
	faceU      float64 // in a corner
	axis       float64 // at an edge, the middle of the obstacle
	tan, cos   float64 // of the lean
	signU      length.Length
	signV      length.Length
	transposed bool // u runs along

	leastArm, leastCut float64 // shorter ones are not cut
	stray              float64 // of the folds of a fan from the round
	turn               length.Length
}

func newField(j Job, o Obstacle, most cloth.Share) *field {
	const million = 1e6
	f := &field{
		o: o, width: o.Width.MM(), deep: o.Deep.MM(), covered: o.Covered.MM(), need: (o.Stuffing + o.EdgeThickness).MM(),
		centre: panel.Panel{Size: j.Size, Allow: j.Allow}.VisualCentre(),
		lo:     1 + float64(j.Least)/million, hi: 1 + float64(most)/million, cos: 1, signU: 1, signV: 1,
	}
	f.leastArm, f.leastCut, f.stray = j.Shop.Length(practice.ReliefArm).MM(), j.Shop.Length(practice.ReliefCut).MM(), j.Shop.Length(practice.ReliefStray).MM()
	f.turn = j.Shop.Length(practice.ReliefTurn)
	f.mid = (f.lo + f.hi) / 2
	f.margin = o.Margin
	if f.margin == 0 {
		f.margin = MarginFor(o.Stuffing, j.Loose, j.Shop)
	}
	f.keep = f.covered + f.margin.MM()
	f.place(j)
	reach := (f.hi - f.lo) / 2
	f.faceV = f.halfV - f.deep
	f.deltaV = f.halfV / f.lo * reach
	if o.Round { // its snips may end past the finished edge
		f.deltaV = max(f.halfV, f.faceV+f.width/2) / f.lo * reach
	}
	if o.Corner != NoCorner {
		f.faceU = f.halfU - f.width
		if o.Round {
			f.faceU = f.halfU - f.deep
		}
		f.deltaU = max(f.halfU, f.faceU+f.width/2) / f.lo * reach
		return f
	}
	f.axis = o.At.MM() - f.halfU
	f.tan = math.Tan(float64(o.Lean) * math.Pi / 180)
	f.cos = math.Cos(float64(o.Lean) * math.Pi / 180)
	shear := math.Abs(f.tan) * (f.halfV*f.mid/f.lo - f.faceV)
	f.deltaU = (math.Abs(f.axis) + f.width/2 + shear) / f.mid * reach
	return f
}

// place says how u and v lie on the cloth.
func (f *field) place(j Job) {
	across, along := j.Size.Across.MM()/2, j.Size.Along.MM()/2
	top, bottom, left, right := j.Allow.Top.MM(), j.Allow.Bottom.MM(), j.Allow.Left.MM(), j.Allow.Right.MM()
	f.halfU, f.halfV = across, along
	f.edgeU = across + min(left, right)
	switch f.o.Corner {
	case TopLeft:
		f.signU, f.signV, f.edgeU, f.edgeV = -1, -1, across+left, along+top
		return
	case TopRight:
		f.signV, f.edgeU, f.edgeV = -1, across+right, along+top
		return
	case BottomLeft:
		f.signU, f.edgeU, f.edgeV = -1, across+left, along+bottom
		return
	case BottomRight:
		f.edgeU, f.edgeV = across+right, along+bottom
		return
	}
	switch f.o.Edge {
	case TopEdge:
		f.signV, f.edgeV = -1, along+top
	case BottomEdge:
		f.edgeV = along + bottom
	case LeftEdge, RightEdge:
		f.transposed = true
		f.halfU, f.halfV = along, across
		f.edgeU, f.edgeV = along+min(top, bottom), across+right
		if f.o.Edge == LeftEdge {
			f.signV, f.edgeV = -1, across+left
		}
	}
}

// point is a place of the slack cloth from its top left corner, kept on it.
func (f *field) point(p at) panel.Point {
	u := f.signU * length.RoundMM(p.u, length.Nanometre, length.Nearest)
	v := f.signV * length.RoundMM(p.v, length.Nanometre, length.Nearest)
	if f.transposed {
		u, v = v, u
	}
	return panel.Point{Across: f.centre.Across + u, Along: f.centre.Along + v}
}

func (f *field) line(ps ...at) []panel.Point {
	out := make([]panel.Point, len(ps))
	for i, p := range ps {
		out[i] = f.point(p)
	}
	return out
}

// hair is far below what matters and far above the roundings of float64, in
// millimetres.
const hair = 1e-6

// down is millimetres as a length, rounded down to the micrometre.
func down(mm float64) length.Length { return length.RoundMM(mm, length.Micrometre, length.Down) }

// wholeUp is millimetres as a length, rounded up to the whole millimetre.
func wholeUp(mm float64) length.Length { return length.RoundMM(mm, length.Millimetre, length.Up) }

// stop is the end of a cut on the slack cloth, with its least margin: clear is
// how far a place of the pulled cloth is from what shows. It is least at one of
// the ends of the range, since openings are convex.
func (f *field) stop(p at, clear func(at) float64) Stop {
	least := math.Inf(1)
	for _, fu := range []float64{f.lo, f.hi} {
		for _, fv := range []float64{f.lo, f.hi} {
			least = min(least, clear(at{p.u * fu, p.v * fv}))
		}
	}
	return Stop{f.point(p), down(max(least-f.covered, 0))}
}

// tongue is the flap that goes down the innermost face, from the face's line on
// the slack cloth to v.
func (f *field) tongue(name string, v, face float64) Flap {
	return Flap{name, down(max(v-face/f.lo, 0)), f.o.Stuffing + f.o.EdgeThickness}
}

// asks is the allowance at the edge for which the slack cloth reaches to v; 0
// where it does.
func asks(v, edge, half float64) length.Length {
	if v <= edge+2*hair {
		return 0
	}
	return wholeUp(v - half)
}
