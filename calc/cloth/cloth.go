// Package cloth describes a cloth as the cutter meets it: its usable width,
// the lattice on which its pattern repeats, which way up it may lie, and how
// it is sold. Everything is a value; nothing here decides a plan.
package cloth

import "github.com/bridletie/bridletie/calc/length"

// Railroad says whether panels may lie across the roll, turned by a quarter.
type Railroad int

// The choices; the zero value is RailroadNever.
const (
	RailroadNever   Railroad = iota // panels run up the roll
	RailroadAllowed                 // either way, whichever saves cloth
	RailroadAlways                  // woven or printed to be laid across
)

// Cloth is one cloth, as laid out face up with the start of the roll at the top.
type Cloth struct {
	Name     string
	Width    length.Length // usable, between the selvedges; > 0
	Pattern  Pattern
	OneWay   bool // nap, pile or motif has a top: no half turns
	Railroad Railroad
	// StartsAt is where in the length repeat the cloth in hand begins
	// (0 <= StartsAt < LengthRepeat); nil where that is not known.
	StartsAt *length.Length
}

// Start is where the cloth begins; 0 where that is not known.
func (c Cloth) Start() length.Length {
	if c.StartsAt == nil {
		return 0
	}
	return *c.StartsAt
}

// Pattern is the lattice on which a cloth repeats. A motif k is woven at
//
//	x = Across_k + i*WidthRepeat
//	y = Along_k + j*LengthRepeat + i*Drop*LengthRepeat - start
//
// for all integers i and j, where start is where in the repeat the cloth
// begins. A repeat of 0 means that the pattern does not repeat in that
// direction: a lengthwise stripe has only WidthRepeat, a crosswise stripe only
// LengthRepeat, a plain cloth neither. There the place of a motif says nothing, and
// is 0; one motif in the width is a WidthRepeat of the width.
type Pattern struct {
	LengthRepeat length.Length
	WidthRepeat  length.Length
	Drop         Drop    // only with both repeats
	Motifs       []Motif // none means one motif, unnamed, at 0, 0
}

// Motif is one principal motif of the repeat.
type Motif struct {
	Name   string
	Across length.Length // of its centre, from the left selvedge
	Along  length.Length // of its centre, from the origin of the repeat
}

// Drop is the share of the length repeat by which each next column of the
// pattern is lower. The zero value is a straight match.
type Drop struct{ Num, Den int64 } // 0 <= Num < Den <= MaxDropDen, or zero

// MaxDropDen is the largest denominator of a drop.
const MaxDropDen = 12

// Half is the half-drop.
func Half() Drop { return Drop{1, 2} }

// IsStraight reports whether every column stands at the same height.
func (d Drop) IsStraight() bool { return d.Num == 0 }

// Reduced is the drop in lowest terms, 0/1 for a straight match.
func (d Drop) Reduced() Drop {
	if d.Num == 0 || d.Den == 0 {
		return Drop{0, 1}
	}
	a, b := d.Num, d.Den
	for b != 0 {
		a, b = b, a%b
	}
	return Drop{d.Num / a, d.Den / a}
}

// Principal are the motifs of the pattern, never empty: a pattern without
// named motifs has one at its origin.
func (p Pattern) Principal() []Motif {
	if len(p.Motifs) == 0 {
		return []Motif{{}}
	}
	return p.Motifs
}

// Find is the index in Principal of the motif with that name.
func (p Pattern) Find(name string) (int, bool) {
	for k, m := range p.Principal() {
		if m.Name == name {
			return k, true
		}
	}
	return 0, false
}

// IsPlain reports whether nothing repeats in either direction.
func (p Pattern) IsPlain() bool { return p.LengthRepeat == 0 && p.WidthRepeat == 0 }
