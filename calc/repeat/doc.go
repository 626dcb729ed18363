// Package repeat works out how drops of a patterned cloth are cut so that the
// pattern meets where widths are joined.
//
// A drop is a finished length that is cut from the roll, selvedge to selvedge;
// several widths may be joined side by side into one. The pattern is the lattice
// of cloth.Pattern: it is the same at (x, y) and at (x + H, y + d*V), where H and
// V are the width and the length repeat and d is the drop of the next column.
//
// # Seam
//
// With a seam allowance s a width shows W - 2s. The pattern runs on across a
// seam when the step from one seam to the next is a whole number m of width
// repeats; what is over is turned in. The next width then begins at
//
//	start(k) = start(0) - k*m*d*V   (mod V)
//
// of the length repeat: a half-drop with an odd m alternates between two starts,
// with an even m every width starts alike.
//
// # Order of cutting
//
// A width that begins at s in the repeat and is D long ends at e = s + D (mod V),
// and the next one, which begins at s', costs (s' - e) mod V of waste. The order
// with the least waste is the shortest way round a circle on which one only goes
// forward: how often each stretch of the circle is passed over follows, but for
// one number, from how many widths begin and end at its ends, so that a way of
// that length exists exactly when the stretches and the widths hang together
// (Euler). Every choice of a first start and a last end is tried; the result is
// the least length, not an estimate.
//
// Lengths are exact. Starts of a drop such as 1/3 need not be whole nanometres;
// they are held in parts of one and rounded once, what must be enough upward.
//
// The package is pure: no input or output, no clock, no state.
package repeat
