// Package formats reads the strings of the contract that are more than text: lengths,
// shares, drops, days, names and pointers, and says what is wrong with one.
package formats

import (
	"errors"
	"net/url"
	"strconv"
	"strings"
	"unicode"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// Checks say whether a string is of a format of the contract, by its name.
func Checks() map[string]func(string) bool {
	return map[string]func(string) bool{
		"length": func(s string) bool {
			_, err := length.Parse(s)
			return err == nil
		},
		"share": func(s string) bool {
			_, ok := Share(s)
			return ok
		},
		"drop": func(s string) bool {
			_, ok := Drop(s)
			return ok
		},
		"name":     isName,
		"day":      isDay,
		"made":     isDayOrPart,
		"panel-id": isPanelID,
	}
}

// Fault is the code, the reason and the way out for a string that is not
// of the named format.
func Fault(format, s string) (code fault.Code, detail, try string) {
	switch format {
	case "length":
		return lengthFault(s)
	case "share":
		return fault.NotAShare, "this is not a percentage", `a number and %, with at most 4 decimals, for example "2 %"`
	case "drop":
		return fault.NotAFraction, "this is not a drop", `straight, half, or a fraction such as "1/3" with a denominator of at most 12`
	case "panel-id":
		return fault.NotAName, "this is not an id", "1 to 32 letters, digits, dots, dashes or underscores"
	case "day":
		return fault.NotADate, "this is not a day of the calendar", `year, month and day, for example "2026-11-25"`
	case "made":
		return fault.NotADate, "this is not a day, a month or a year", `for example "2026-11-25", "1995-03" or "1908"`
	case "name":
		return fault.NotAName, "this is not a name", "1 to 80 printable characters"
	}
	return fault.NotAName, "this is not of the form that the field has", "see /openapi.yaml"
}

// lengthFault says why s is not a length.
func lengthFault(s string) (code fault.Code, detail, try string) {
	const units = "a number and mm, cm, m, in, ft or yd"
	_, err := length.Parse(s)
	number := strings.TrimSpace(s)
	switch {
	case errors.Is(err, length.ErrRange) && strings.HasPrefix(number, "-"):
		return fault.TooSmall, "no length is as small as this", "see the limits in /openapi.yaml"
	case errors.Is(err, length.ErrRange):
		return fault.TooLarge, "no length is as large as this", "see the limits in /openapi.yaml"
	case errors.Is(err, length.ErrNoUnit):
		return fault.NotALength, "the number has no unit", withUnits(number, units)
	case errors.Is(err, length.ErrUnit):
		return fault.NotALength, "the unit is not one of those known", units + `, for example "62 cm"`
	case errors.Is(err, length.ErrComma):
		return fault.NotALength, "a comma may stand for decimals or for thousands", `a point for decimals and nothing for thousands, for example "1.5 m"`
	case errors.Is(err, length.ErrInexact):
		return fault.NotALength, "this is not a whole number of nanometres", "decimals or a fraction in 64ths of an inch"
	}
	return fault.NotALength, "this is not a length", units + `, for example "62 cm"`
}

// withUnits says what the bare number would be with a unit.
func withUnits(number, units string) string {
	if number == "" || len(number) > 16 {
		return units
	}
	return strconv.Quote(number+" cm") + ", " + strconv.Quote(number+" in") + ", or another of mm, m, ft, yd"
}

// Share reads a percentage with at most 4 decimals. Its range is not
// looked at, but that it is far from overflow.
func Share(s string) (cloth.Share, bool) {
	number, ok := strings.CutSuffix(s, "%")
	if !ok {
		return 0, false
	}
	number = strings.TrimSuffix(number, " ")
	number, negative := strings.CutPrefix(number, "-")
	whole, decimals, point := strings.Cut(number, ".")
	if !Digits(whole) || len(whole) > 9 || point && (!Digits(decimals) || len(decimals) > 4) {
		return 0, false
	}
	millionths, err := strconv.ParseInt(whole+(decimals + "0000")[:4], 10, 64)
	if err != nil {
		return 0, false
	}
	if negative {
		millionths = -millionths
	}
	return cloth.Share(millionths), true // a ten-thousandth of a percent is a millionth
}

// Drop reads straight, half or a proper fraction, which is reduced.
func Drop(s string) (cloth.Drop, bool) {
	switch s {
	case "straight":
		return cloth.Drop{}, true
	case "half":
		return cloth.Half(), true
	}
	above, below, ok := strings.Cut(s, "/")
	if !ok || !Digits(above) || !Digits(below) || len(above) > 2 || len(below) > 2 {
		return cloth.Drop{}, false
	}
	num, _ := strconv.ParseInt(above, 10, 64)
	den, _ := strconv.ParseInt(below, 10, 64)
	if num < 1 || num >= den || den > cloth.MaxDropDen {
		return cloth.Drop{}, false
	}
	return cloth.Drop{Num: num, Den: den}.Reduced(), true
}

// Digits reports whether s is one digit or more.
func Digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// isName reports whether s is printable text that is not blank. The joiners
// that some scripts need are let pass.
func isName(s string) bool {
	blank := true
	for _, r := range s {
		if r == '\u200c' || r == '\u200d' {
			continue
		}
		if !unicode.IsGraphic(r) || r == unicode.ReplacementChar {
			return false
		}
		blank = blank && unicode.IsSpace(r)
	}
	return !blank
}

// isDay reports whether s is a day of the calendar, year first.
func isDay(s string) bool {
	_, ok := calendar.Parse(s)
	return ok
}

// isDayOrPart reports whether s is a day, a month or a year.
func isDayOrPart(s string) bool {
	_, ok := calendar.ParseSpan(s)
	return ok
}

// isPanelID reports whether s is made of letters, digits, dots, dashes and
// underscores of ASCII.
func isPanelID(s string) bool { return IsToken(s, 32) }

// IsToken reports whether s is 1 to most letters, digits, dots, dashes or
// underscores.
func IsToken(s string, most int) bool {
	for i := range len(s) {
		switch c := s[i]; {
		case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9', c == '.', c == '-', c == '_':
		default:
			return false
		}
	}
	return s != "" && len(s) <= most
}

// Pointer is the path that a pointer in a URI fragment names (RFC 6901, section 6).
func Pointer(s string) fault.Path {
	var at fault.Path
	for _, token := range strings.Split(strings.TrimPrefix(s, "#"), "/")[1:] {
		if plain, err := url.PathUnescape(token); err == nil {
			token = plain
		}
		at = at.Field(strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~"))
	}
	return at
}
