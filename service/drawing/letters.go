package drawing

import (
	"strings"
	"unicode"
)

// dropped reports whether a rune has no place in a drawing: controls, the
// invisible marks that reorder text, line and paragraph separators, and what
// XML cannot hold.
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

// Text of either direction is set apart from what stands around it.
const (
	isolate    = '\u2068'
	endIsolate = '\u2069'
)

// clean is a request's text as it may be shown. Bytes that are not UTF-8
// become the replacement character.
func clean(s string) string {
	return strings.Map(func(r rune) rune {
		if dropped(r) || r == isolate || r == endIsolate {
			return -1
		}
		return r
	}, s)
}

// apart is clean text; where it runs from right to left it is set apart from
// the words around it.
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

// asciiBreadths are the breadths of the letters from the space on, for a size of
// 1000: the widest of Go, DejaVu Sans and Liberation Sans, which is as wide as
// Helvetica and Arial; of a bold one the width less a tenth. From their advance
// widths.
var asciiBreadths = [...]uint16{
	318, 415, 474, 838, 636, 950, 793, 278, 415, 415, 584, 838, 345, 584, 345, 337,
	636, 636, 636, 636, 636, 636, 636, 636, 636, 636, 364, 364, 838, 838, 838, 556,
	1015, 704, 693, 722, 770, 667, 621, 778, 761, 412, 506, 704, 579, 905, 761, 787,
	666, 787, 722, 667, 620, 738, 704, 1003, 701, 667, 685, 415, 337, 415, 838, 556,
	500, 613, 651, 550, 651, 617, 396, 651, 647, 312, 312, 605, 312, 974, 647, 625,
	651, 651, 448, 541, 435, 647, 593, 840, 592, 593, 529, 647, 337, 647, 838,
}

// breadth is about how wide a text is for a size of 1, never less than it is
// in the common sans-serif fonts. A bold text is a tenth wider.
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

// spaceBreadth is that of a space.
const spaceBreadth = 0.318

// wrap breaks a text into lines that are at most width wide at a size of 1, at
// spaces where it can be and inside a word where it must. A non-breaking space
// does not break.
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

// reopened closes a text that is set apart at the end of each line that it is
// broken over, and opens it again on the next.
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

// headOf is as much of a word as fits, at least one rune.
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

// bound is a text whose spaces do not break.
func bound(s string) string { return strings.ReplaceAll(s, " ", "\u00a0") }
