// Package length holds one quantity: a length, counted exactly in nanometres.
//
// A [Length] is an int64, in the manner of time.Duration. A workroom measures
// in tenths of a millimetre or in sixty-fourths of an inch; both are whole
// numbers of nanometres (100 000 and 396 875), so a measurement in either system
// is held without rounding and two that are equal compare equal with ==. The
// range is about 9.2 million kilometres either way. [Add], [MulInt] and [RoundUpTo]
// report a result beyond it, where the operators of Go would wrap round.
//
// # In
//
// [Parse] reads what people write: "137 cm", "1.5 m", "54 in", "4 1/2 in",
// "4½ in", "6 ft 2 in", "1 yd 2 ft 3 1/2 in", `6' 2"`. The unit is part of the
// text; a bare number is refused with [ErrNoUnit], because a guess between
// centimetres and inches would be wrong by a factor of two and a half without
// any sign of it. A value that is no whole number of nanometres, such as
// "1/3 in", is refused with [ErrInexact] rather than rounded in silence.
//
// # Out
//
// [Length.String] is exact and is read back by [Parse] to the same value, for
// every Length. [Length.Text] is for people: metres or centimetres to the
// millimetre, or yards, feet and inches to the sixteenth, rounded once, in the
// direction the caller names. What must be enough is rounded [Up].
//
// # Units
//
// The inch, foot and yard are those of the international yard and pound
// agreement of 1 July 1959: 1 yd = 0.9144 m exactly, hence 1 ft = 304.8 mm and
// 1 in = 25.4 mm.
//
// The package is pure: no input or output, no clock, no state. Its functions
// may be called from any number of goroutines.
package length
