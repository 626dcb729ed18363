package length

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The reasons for which a length is refused. They arrive wrapped, from [Parse]
// in a [*ParseError]; test for them with errors.Is.
var (
	// ErrSyntax is text that is not a number and a unit.
	ErrSyntax = errors.New("not a length")
	// ErrComma is text with a comma in it. 1,000 is a thousand to one reader and
	// one to another, so neither is assumed. It is also an ErrSyntax.
	ErrComma = fmt.Errorf("%w: a comma is ambiguous, use a point for decimals and nothing between thousands", ErrSyntax)
	// ErrNoUnit is a number without its unit.
	ErrNoUnit = errors.New("no unit, say mm, cm, m, in, ft or yd")
	// ErrUnit is a unit that is not one of those Parse knows.
	ErrUnit = errors.New("unknown unit, use mm, cm, m, in, ft or yd")
	// ErrInexact is a value that is not a whole number of nanometres.
	ErrInexact = errors.New("not a whole number of nanometres")
	// ErrRange is a value that no Length holds: 2^63 nanometres or more, less
	// than -2^63 nanometres, or not a finite number.
	ErrRange = errors.New("out of range")
)

// maxInput is the longest text, in bytes, that Parse reads. The longest exact
// printing of a Length is 24 bytes; the rest is room for words and spaces.
const maxInput = 64

// ParseError is the error of [Parse]: what was given and why it was refused.
type ParseError struct {
	Input string // as given, cut to at most 64 bytes between two runes
	Err   error  // wraps one of ErrSyntax, ErrComma, ErrNoUnit, ErrUnit, ErrInexact, ErrRange
}

// Error returns the input, quoted and escaped, and the reason.
func (e *ParseError) Error() string {
	return "length: " + strconv.Quote(e.Input) + ": " + e.Err.Error()
}

// Unwrap returns the reason, for errors.Is and errors.As.
func (e *ParseError) Unwrap() error {
	return e.Err
}

// newParseError copies the part of the input it keeps, so that the error does
// not hold a large request in memory.
func newParseError(input string, err error) *ParseError {
	return &ParseError{Input: strings.Clone(cut(input)), Err: err}
}

// cut returns the longest prefix of s of at most maxInput bytes that does not
// split a rune. Bytes that are not UTF-8 are counted one by one.
func cut(s string) string {
	if len(s) <= maxInput {
		return s
	}
	for n := maxInput; n > maxInput-utf8.UTFMax; n-- {
		if utf8.RuneStart(s[n]) {
			return s[:n]
		}
	}
	return s[:maxInput]
}
