package length

import (
	"fmt"
	"math/bits"
)

// Parse reads a length with its unit.
//
//	length   = [ "+" | "-" ] part { part }
//	part     = number unit
//	number   = digits | [ digits ] "." digits | [ digits ] fraction
//	fraction = digits slash digits | "½" | "¼" | "¾" | "⅓" | …
//	slash    = "/" | "⁄"
//	unit     = "mm" | "cm" | "m" | "in" | "ft" | "yd" | a prime | the unit's name
//
// Spaces, also non-breaking (U+00A0, U+202F) and thin (U+2009), may stand around
// the length, around each number and unit, and between a whole number and its
// fraction, where a written-out fraction needs one; none may stand after the sign
// or inside digits, decimals and fractions. Letters may be of either case. Names
// are the British and American ones, singular or plural. A single prime is feet
// and a double prime inches, as ASCII quotes, true primes or closing quotes.
//
// Several parts make a compound: yd, ft, in or m, cm, mm, largest unit first,
// each at most once, only the last with decimals or a fraction. The sign is for
// the whole. Parts are added up as they are: "1 ft 14 in" is 26 inches.
//
// A fraction's denominator is 1 to 1000 and its numerator is smaller: "41/2 in"
// is refused, since it is how "4½ in" comes out of software that decomposes
// Unicode, and how "4 1/2 in" is mistyped.
//
// Errors are of type [*ParseError] and wrap:
//   - [ErrSyntax] for text of another form, of more than 64 bytes, or empty;
//   - [ErrComma], which is an ErrSyntax too, for a comma where a number or
//     unit should go on;
//   - [ErrNoUnit] for a number with nothing after it;
//   - [ErrUnit] for a word that is no unit;
//   - [ErrRange] for a value beyond the range of Length;
//   - [ErrInexact] for a value that is not a whole number of nanometres.
//
// Faults of form are reported before the last two, which are about the value.
func Parse(s string) (Length, error) {
	l, err := parse(s)
	if err != nil {
		return 0, newParseError(s, err)
	}
	return l, nil
}

func parse(s string) (Length, error) {
	if len(s) > maxInput {
		return 0, fmt.Errorf("%w: longer than %d bytes", ErrSyntax, maxInput)
	}
	sc := scanner{rest: s}
	sc.spaces()
	negative := sc.sign()
	var parts [3]part // no compound has more: a family has three units
	n := 0
	for n == 0 || sc.rest != "" {
		p, err := sc.part()
		if err != nil {
			return 0, err
		}
		if n > 0 {
			if err := parts[n-1].checkBefore(p); err != nil {
				return 0, err
			}
		}
		parts[n] = p
		n++
		sc.spaces()
	}
	return total(parts[:n], negative)
}

// part is one number with its unit, as written.
type part struct {
	number
	unit
}

// number is whole + num/den as written, all below their limits: num < den and
// den ≤ 10^9, or den 0 where nothing but a whole number was written. A whole
// number beyond uint64 is held as the largest uint64.
type number struct {
	whole    uint64
	num, den uint64
	tooFine  bool // decimals so far out that no unit makes them whole nanometres
}

// checkBefore reports whether q may follow p in a compound length.
func (p part) checkBefore(q part) error {
	switch {
	case p.den != 0:
		return fmt.Errorf("%w: only the last part may have a fraction", ErrSyntax)
	case p.family != q.family:
		return fmt.Errorf("%w: metric and imperial units in one length", ErrSyntax)
	case p.size <= q.size:
		return fmt.Errorf("%w: parts go from the largest unit to the smallest, each once", ErrSyntax)
	}
	return nil
}

// total adds up the parts and gives the sum its sign.
func total(parts []part, negative bool) (Length, error) {
	var sum uint64
	for _, p := range parts {
		u, err := p.nanometres()
		if err != nil {
			return 0, err
		}
		var carry uint64
		if sum, carry = bits.Add64(sum, u, 0); carry != 0 {
			return 0, ErrRange
		}
	}
	l, ok := fromMagnitude(sum, negative)
	if !ok {
		return 0, ErrRange
	}
	return l, nil
}

// nanometres returns the value of p. The product num × size cannot overflow:
// both are at most 10^9.
func (p part) nanometres() (uint64, error) {
	size := uint64(p.size)
	hi, whole := bits.Mul64(p.whole, size)
	if hi != 0 {
		return 0, ErrRange
	}
	if p.tooFine {
		return 0, ErrInexact
	}
	if p.den == 0 {
		return whole, nil
	}
	if p.num*size%p.den != 0 {
		return 0, ErrInexact
	}
	sum, carry := bits.Add64(whole, p.num*size/p.den, 0)
	if carry != 0 {
		return 0, ErrRange
	}
	return sum, nil
}
