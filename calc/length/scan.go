package length

import (
	"fmt"
	"math"
	"math/bits"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	// maxDenominator bounds a written fraction; the finest rule in use is a
	// sixty-fourth, and decimals are there for the rest.
	maxDenominator = 1000
	// maxDecimals is how many decimals can matter, final zeros aside. Such
	// decimals d are not divisible by both 2 and 5, so d × unit is divisible by
	// 10^k only if the unit alone is by 2^k or by 5^k; no unit is for k above 9
	// (the metre, 10^9 nm, is for 9).
	maxDecimals = 9
)

// scanner reads a length from the front of rest. Its methods never panic,
// whatever the bytes.
type scanner struct {
	rest string
}

// next returns the first rune, or utf8.RuneError at the end or where the bytes
// are not UTF-8.
func (sc *scanner) next() rune {
	r, _ := utf8.DecodeRuneInString(sc.rest)
	return r
}

// skip drops r, which next has returned and which is not utf8.RuneError.
func (sc *scanner) skip(r rune) {
	sc.rest = sc.rest[utf8.RuneLen(r):]
}

// spaces drops spaces: the common one, non-breaking, thin, and narrow non-breaking.
func (sc *scanner) spaces() {
	sc.rest = strings.TrimLeft(sc.rest, " \u00a0\u2009\u202f")
}

// sign drops a sign and reports whether it is a minus.
func (sc *scanner) sign() (negative bool) {
	r := sc.next()
	if r == '+' || r == '-' {
		sc.skip(r)
	}
	return r == '-'
}

// part reads a number and its unit.
func (sc *scanner) part() (part, error) {
	n, err := sc.number()
	if err != nil {
		return part{}, err
	}
	sc.spaces()
	u, err := sc.unit()
	if err != nil {
		return part{}, err
	}
	return part{n, u}, nil
}

// number reads a whole number, decimals or a fraction.
func (sc *scanner) number() (number, error) {
	whole, ok := sc.digits()
	switch r := sc.next(); {
	case r == '.':
		sc.skip(r)
		return sc.decimals(whole)
	case ok && isSlash(r):
		return sc.over(0, whole)
	case !ok && !isVulgar(r):
		return number{}, sc.unexpected()
	}
	if ok {
		sc.spaces()
	}
	r := sc.next()
	if num, den, ok := vulgar(r); ok {
		sc.skip(r)
		return number{whole: whole, num: num, den: den}, nil
	}
	if num, ok := sc.digits(); ok {
		return sc.over(whole, num)
	}
	return number{whole: whole}, nil
}

// decimals reads the digits after a point.
func (sc *scanner) decimals(whole uint64) (number, error) {
	all := sc.rest
	if _, ok := sc.digits(); !ok {
		return number{}, sc.unexpected()
	}
	all = strings.TrimRight(all[:len(all)-len(sc.rest)], "0")
	n := number{whole: whole, den: 1}
	if len(all) > maxDecimals {
		n.tooFine = true
		return n, nil
	}
	for _, c := range []byte(all) {
		n.num = 10*n.num + uint64(c-'0')
		n.den *= 10
	}
	return n, nil
}

// over reads the slash and the denominator that follow a numerator.
func (sc *scanner) over(whole, num uint64) (number, error) {
	r := sc.next()
	if !isSlash(r) {
		return number{}, sc.unexpected()
	}
	sc.skip(r)
	den, ok := sc.digits()
	switch {
	case !ok:
		return number{}, sc.unexpected()
	case den == 0 || den > maxDenominator:
		return number{}, fmt.Errorf("%w: a fraction's denominator is 1 to %d", ErrSyntax, maxDenominator)
	case num >= den:
		return number{}, fmt.Errorf("%w: a fraction is less than one, write 4 1/2 with a space", ErrSyntax)
	}
	return number{whole: whole, num: num, den: den}, nil
}

// digits reads ASCII digits; a number beyond uint64 comes back as the largest
// uint64. ok is false if there are none.
func (sc *scanner) digits() (n uint64, ok bool) {
	i := 0
	for ; i < len(sc.rest) && isDigit(sc.rest[i]); i++ {
		hi, lo := bits.Mul64(n, 10)
		sum, carry := bits.Add64(lo, uint64(sc.rest[i]-'0'), 0)
		if n = sum; hi != 0 || carry != 0 {
			n = math.MaxUint64
		}
	}
	sc.rest = sc.rest[i:]
	return n, i > 0
}

// unit reads a unit: a prime, or a word. A strange word that runs on into digits
// or a sign is taken for a number in another notation, 1e3 or 0x10.
func (sc *scanner) unit() (unit, error) {
	if sc.rest == "" {
		return unit{}, ErrNoUnit
	}
	r := sc.next()
	if u, ok := unitOfPrime(r); ok {
		sc.skip(r)
		return u, nil
	}
	word := sc.word()
	if word == "" {
		return unit{}, sc.unexpected()
	}
	if u, ok := unitOfWord(word); ok {
		return u, nil
	}
	if c := sc.next(); '0' <= c && c <= '9' || c == '+' || c == '-' {
		return unit{}, fmt.Errorf("%w: write the number in plain digits", ErrSyntax)
	}
	return unit{}, fmt.Errorf("%q: %w", word, ErrUnit)
}

// word reads the letters, of any script, at the front.
func (sc *scanner) word() string {
	all := sc.rest
	sc.rest = strings.TrimLeftFunc(all, unicode.IsLetter)
	return all[:len(all)-len(sc.rest)]
}

// unexpected is the error for what stands at the front.
func (sc *scanner) unexpected() error {
	if sc.rest == "" {
		return fmt.Errorf("%w: it ends too soon", ErrSyntax)
	}
	if sc.next() == ',' {
		return ErrComma
	}
	_, size := utf8.DecodeRuneInString(sc.rest)
	return fmt.Errorf("%w: %q is not expected there", ErrSyntax, sc.rest[:size])
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isSlash(r rune) bool { return r == '/' || r == '\u2044' } // U+2044, fraction slash

func isVulgar(r rune) bool {
	_, _, ok := vulgar(r)
	return ok
}
