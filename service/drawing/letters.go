package drawing

import (
	"strings"
	"unicode"
)

// dropped reports whether a rune is removed from a drawing: controls, invisible direction
// marks, line and paragraph separators, and characters that XML forbids.
func dropped(r rune) bool {
	switch {
	case unicode.IsControl(r), r == 0x2028, r == 0x2029:
		return true
	case r == 0x061c, r == 0x200e, r == 0x200f, r == 0xfeff:
		return true
	case r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069:
		return r != isolate && r != endIsolate
	case r >= 0xfdd0 && r <= 0xfdef, r&0xfffe == 0xfffe:
		return true
	}
	return false
}

// The Unicode isolates, which keep the direction of a text from affecting its
// surroundings.
const (
	isolate    = '\u2068'
	endIsolate = '\u2069'
)

// clean returns a request's text in a form that can be shown. Invalid UTF-8 becomes the
// replacement character.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if dropped(r) || r == isolate || r == endIsolate {
			return -1
		}
		return r
	}, s)
}

// apart returns clean text. Right-to-left text is wrapped in isolates.
func apart(s string) string {
	s = clean(s)
	if strings.ContainsFunc(s, rightToLeft) {
		return string(isolate) + s + string(endIsolate)
	}
	return s
}

func rightToLeft(r rune) bool {
	return unicode.In(r, unicode.Hebrew, unicode.Arabic, unicode.Syriac, unicode.Thaana, unicode.Nko)
}

// asciiBreadths are the widths of the letters from the space on, at a font size of 1000.
// Each is the widest of the advance widths in Go, DejaVu Sans and Liberation Sans, which
// is as wide as Helvetica and Arial. For the bold fonts the width is reduced by a tenth.
var asciiBreadths = [...]uint16{
	318, 415, 474, 838, 636, 950, 793, 278, 415, 415, 584, 838, 345, 584, 345, 337,
	636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 364, 364, 838, 838, 838, 556,
	1015, 704, 693, 722, 770, 667, 621, 778, 761, 412, 506, 704, 579, 905, 761, 787,
	666, 787, 722, 667, 620, 738, 704, 1003, 701, 667, 685, 415, 337, 415, 838, 556,
	500, 613, 651, 550, 651, 617, 396, 651, 647, 312, 312, 605, 312, 974, 647, 625,
	651, 651, 448, 541, 435, 647, 593, 840, 592, 593, 529, 647, 337, 647, 838,
}

// breadth returns an upper estimate of the width of a text at font size 1, for the common
// sans-serif fonts. Bold text is a tenth wider.
func breadth(s string) float64 {
	var sum float64
	for _, r := range s {
		sum += runeBreadth(r)
	}
	return sum
}

func runeBreadth(r rune) float64 {
	switch {
	case r >= ' ' && int(r-' ') < len(asciiBreadths):
		return float64(asciiBreadths[r-' ']) / 1000
	case r == isolate, r == endIsolate, r == 0x200d:
		return 0
	case r == '\u00a0', r == '·':
		return 0.36
	case strings.ContainsRune("—…½¼¾⅛⅜⅝⅞ÆæŒœŴŵ", r):
		return 1
	case r < 0x250:
		return 0.84
	case r >= 0x1100:
		return 1.25
	}
	return 0.9
}

// spaceBreadth is the width of a space at font size 1.
const spaceBreadth = 0.318

// wrap breaks a text into lines of at most that width at font size 1. It breaks at spaces
// where possible, otherwise within a word. It never breaks at a non-breaking space.
func wrap(s string, width float64) []string {
	var lines []string
	line, used := "", 0.0
	for word := range strings.SplitSeq(s, " ") {
		if word == "" {
			continue
		}
		b := breadth(word)
		if line != "" && used+spaceBreadth+b <= width {
			line += " " + word
			used += spaceBreadth + b
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for b > width && word != "" {
			head := headOf(word, width)
			lines = append(lines, head)
			word = word[len(head):]
			b = breadth(word)
		}
		line, used = word, b
	}
	if line != "" {
		lines = append(lines, line)
	}
	return reopened(lines)
}

// reopened closes an isolate at the end of each line that a text is broken over, and
// reopens it on the next.
func reopened(lines []string) []string {
	open := false
	for i, l := range lines {
		if open {
			l = string(isolate) + l
		}
		open = strings.Count(l, string(isolate)) > strings.Count(l, string(endIsolate))
		if open {
			l += string(endIsolate)
		}
		lines[i] = l
	}
	return lines
}

// headOf returns the longest prefix of a word that fits, at least one rune.
func headOf(word string, width float64) string {
	var sum float64
	for i, r := range word {
		sum += runeBreadth(r)
		if i > 0 && sum > width {
			return word[:i]
		}
	}
	return word
}

// bound returns a text with non-breaking spaces.
func bound(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }
