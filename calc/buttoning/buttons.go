package buttoning

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Line is the unit of button sizes, 1/40 in = 0.635 mm exactly. It is not the
// watchmaker's line of 2.2558 mm.
const Line = length.Inch / 40

// Button is a covered button.
type Button struct {
	Lines int           // the size of its mould
	Cloth length.Length // the thickness of what covers it
}

// Diameter is that of the mould.
func (b Button) Diameter() length.Length { return Line * length.Length(b.Lines) }

// Covered is the diameter once it is covered: sizes are said before covering.
func (b Button) Covered() length.Length { return b.Diameter() + 2*b.Cloth }

// Circle is the diameter of the circle to cut: so many times the mould's and so
// many times the thickness of the cloth, rounded up.
func (b Button) Circle(shop practice.Set) length.Length {
	disc := practice.Times(b.Diameter(), shop.Number(practice.ButtonDisc)) + practice.Times(b.Cloth, shop.Number(practice.ButtonTurn))
	return disc.Round(shop.Length(practice.ButtonStep), length.Up)
}

// TooThick reports whether the circle would fill the shell before the back can
// be pressed on.
func (b Button) TooThick(shop practice.Set) bool {
	return b.Circle(shop) > practice.Part(b.Diameter(), shop.Number(practice.ButtonFull))
}

// Nest is circles of one size in a rectangle, row on row; every other row is
// moved by half a circle, so that the rows lie closer (hexagonal packing, whose
// rows are √3/2 of a circle apart).
type Nest struct {
	Piece  panel.Size
	Rows   int // rows run across
	Odd    int // circles in the 1st, 3rd … row
	Even   int // circles in the 2nd, 4th … row
	Pitch  length.Length
	Count  int
	Square bool // rows are not moved, since that holds more
	Turned bool // rows run along
}

// NestIn puts as many circles as can be into a rectangle in one of four ways:
// moved rows or straight ones, across or along; the first of those that hold
// most. The pitch of moved rows is rounded up to the micrometre, so that the
// circles do not overlap. It is no proof that not one circle more would go in.
func NestIn(piece panel.Size, circle length.Length) Nest {
	var best Nest
	for _, turned := range []bool{false, true} {
		size := piece
		if turned {
			size = panel.Size{Across: piece.Along, Along: piece.Across}
		}
		for _, square := range []bool{false, true} {
			n := nestRows(size, circle, square)
			if n.Count > best.Count || best.Piece == (panel.Size{}) {
				n.Piece, n.Turned = piece, turned
				best = n
			}
		}
	}
	return best
}

func nestRows(size panel.Size, circle length.Length, square bool) Nest {
	n := Nest{Pitch: hexPitch(circle), Square: square}
	if square {
		n.Pitch = circle
	}
	if size.Across < circle || size.Along < circle {
		return n
	}
	n.Rows = 1 + int((size.Along-circle)/n.Pitch)
	n.Odd = int(size.Across / circle)
	n.Even = n.Odd
	if !square {
		n.Even = int((size.Across - circle/2 - circle%2) / circle)
	}
	n.Count = (n.Rows+1)/2*n.Odd + n.Rows/2*n.Even
	return n
}

// hexPitch is √3/2 of a circle, rounded up to a micrometre: the least p with
// 4p² ≥ 3c².
func hexPitch(circle length.Length) length.Length {
	c := int64(length.CeilDiv(circle, length.Micrometre))
	lo, hi := int64(0), c
	for lo < hi {
		mid := (lo + hi) / 2
		if 4*mid*mid >= 3*c*c {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return length.Length(lo) * length.Micrometre
}

// StripFor is the length of a full width of cloth that holds so many circles,
// nested; false when the cloth is narrower than one.
func StripFor(count int, circle, width length.Length) (Nest, bool) {
	if count < 1 || circle > width {
		return Nest{}, false
	}
	odd := int(width / circle)
	even := max(int((width-circle/2-circle%2)/circle), 0)
	rows, held := 0, 0
	for held < count {
		if rows%2 == 0 || even == 0 {
			held += odd
		} else {
			held += even
		}
		rows++
	}
	n := Nest{Rows: rows, Odd: odd, Even: even, Pitch: hexPitch(circle), Count: held}
	if even == 0 {
		n.Even, n.Pitch, n.Square = odd, circle, true
	}
	n.Piece = panel.Size{Across: width, Along: circle + n.Pitch*length.Length(rows-1)}
	return n, true
}

// Centred is what it takes to cut circles each with a motif in its middle.
type Centred struct {
	Length  length.Length // of a full width of cloth, from the best start
	Across  int           // motifs across that have room between the selvedges, in a row or in neighbouring ones
	Overlap bool          // neighbouring motifs are nearer than a circle, so that not every one can be used
}

// CentredFor is the length of cloth on which so many circles have the motif in
// their middle; false when no motif has room between the selvedges, or the
// pattern does not repeat along. Where circles about neighbouring motifs would
// overlap, only every so many rows are used that they do not.
func CentredFor(count, motif int, circle, width length.Length, p cloth.Pattern) (Centred, bool) {
	l := latticeOf(p)
	if count < 1 || l.v == 0 {
		return Centred{}, false
	}
	at, step := []length.Length{}, l.h
	for l.h > 0 && step < circle {
		step += l.h // every second column, every third …
	}
	c := Centred{Overlap: step > l.h || l.v < circle}
	from := l.motifs[motif].Across
	if l.h > 0 {
		from = length.Mod(from-circle/2, l.h) + circle/2
	}
	for x := from; x >= circle/2 && x+circle/2 <= width; x += step {
		at = append(at, x)
		if l.h == 0 {
			break
		}
	}
	if len(at) == 0 {
		return Centred{}, false
	}
	c.Across = len(at)
	pitch := l.v * ((circle + l.v - 1) / l.v)
	// In one pitch along, every column has one motif; their heights modulo the
	// repeat differ by the drop.
	heights := make([]length.Length, len(at))
	for n, x := range at {
		heights[n] = length.Mod(l.dropped(int64((x-from)/max(l.h, 1))), l.v)
	}
	c.Length = window(heights, pitch, count) + circle
	return c, true
}

// window is the least distance from the first to the last of count places, where
// places lie at the heights and again after each pitch.
func window(heights []length.Length, pitch length.Length, count int) length.Length {
	n := len(heights)
	sorted := sortedLengths(heights)
	best := length.Length(-1)
	for first := range n {
		last := first + count - 1
		span := sorted[last%n] + length.Length(last/n)*pitch - sorted[first]
		if best < 0 || span < best {
			best = span
		}
	}
	return best
}

func sortedLengths(list []length.Length) []length.Length {
	out := append([]length.Length(nil), list...)
	for i := 1; i < len(out); i++ {
		for j := i; j > 0 && out[j] < out[j-1]; j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

// Twine is what one button takes: there and back through the depth left under
// the well, and the tie.
func Twine(depth length.Length, shop practice.Set) length.Length {
	return 2*(depth+shop.Length(practice.ButtonThrough)) + shop.Length(practice.ButtonTie)
}
