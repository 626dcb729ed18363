package piping

import (
	"math"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// Tube is a rectangle that is cut across on the true bias, sewn to a slanted
// piece, marked in strips, sewn to a tube that is a strip out, and cut round and
// round into one length.
type Tube struct {
	Across, Along length.Length // of the rectangle
	Strips        int           // marked side by side
	Turn          length.Length // length of each: across, less the two allowances of a seam, times sqrt(2)
}

// Long is the length that it makes.
func (t Tube) Long() length.Length { return length.Length(t.Strips) * t.Turn }

// NewTube is what a rectangle makes. With sides a and b, of which each loses the
// two allowances s of a seam, it is n strips of (a-2s)*sqrt(2) where n is
// (b-2s)/(w*sqrt(2)) rounded down (derived here).
func NewTube(across, along, strip, seam length.Length) Tube {
	sin, _ := sinCos(TrueBias)
	t := Tube{Across: across, Along: along}
	a, b := across-2*seam, along-2*seam
	if a <= 0 || b <= 0 {
		return t
	}
	t.Turn = down(scaled(a, 2*sin))
	t.Strips = int(math.Floor(float64(float64(b)*sin)/float64(strip) + slack/float64(strip)))
	return t
}

// TubeFor is the shortest rectangle of a width that makes a length; false when
// none of at most MaxStrips strips does.
func TubeFor(across, long, strip, seam length.Length) (Tube, bool) {
	one := NewTube(across, across, strip, seam)
	if one.Turn <= 0 || long <= 0 || (long-1)/one.Turn >= MaxStrips {
		return Tube{}, false
	}
	n := (long-1)/one.Turn + 1
	sin, _ := sinCos(TrueBias)
	along := up(scaled(n*strip, 2*sin)) + 2*seam
	return NewTube(across, along, strip, seam), true
}

// SquareTube is the smallest square that makes a length, by the published rule for
// the continuous way: n = sqrt(long / (2*strip)) strips, rounded up, on a side of
// n*strip*sqrt(2) and a seam's two allowances.
func SquareTube(long, strip, seam length.Length) Tube {
	n := length.Length(math.Sqrt(float64(long) / float64(2*strip)))
	for n*n*2*strip < long {
		n++
	}
	sin, _ := sinCos(TrueBias)
	side := up(scaled(n*strip, 2*sin)) + 2*seam
	return NewTube(side, side, strip, seam)
}

// tube is the continuous way for a whole job, from the width of the cloth.
func (s *solver) tube() *Plan {
	j := s.job
	p := &Plan{Way: Continuous, Shape: j.Shape}
	p.Shape.Cut, p.Shape.Angle = Bias, TrueBias
	var sum length.Length
	for _, r := range j.Runs {
		sum += j.Need(r, Bias)
	}
	t, ok := TubeFor(j.Cloth, sum, j.Width, j.JoinSeam)
	if !ok || t.Turn < j.Least {
		return p
	}
	p.Possible, p.Tube, p.Cloth = true, &t, t.Along
	p.Strips = []Strip{{Rect: -1, Long: t.Long(), Corners: [4]geom.Point{{}, {Across: t.Across}, {Across: t.Across, Along: t.Along}, {Along: t.Along}}}}
	p.Runs = make([]Laid, len(j.Runs))
	var from length.Length
	for _, i := range s.order[0] {
		r := j.Runs[i]
		need := j.Need(r, Bias)
		p.Runs[i] = Laid{Pieces: []Piece{{0, from, need}}, Closes: s.kept[i][0].Closes}
		from += need
		// Each turn crosses the seam of the slanted piece and that of the tube.
		joins := 2 * (int(need/t.Turn) + 1)
		p.Joins += joins
		if joins > r.MaxJoins || len(r.NoJoin) > 0 || len(r.Corners) > 0 && j.Margin > 0 {
			p.Strays++
		}
	}
	j.tight(p)
	return p
}

// tight counts the runs that curve too tightly for the cut. A curve of no known
// radius wants the bias (common practice, no source).
func (j *Job) tight(p *Plan) {
	least := j.RadiusStraight
	if p.Shape.Cut == Bias {
		least = j.RadiusBias
	}
	for _, r := range j.Runs {
		if r.Radius > 0 && r.Radius < least || r.Radius == 0 && r.Curved && p.Shape.Cut != Bias {
			p.Curves++
		}
	}
}
