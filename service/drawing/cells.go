package drawing

import "strings"

// cells is how many columns of a terminal a text takes, never fewer than it
// does.
func cells(s string) int {
	n := 0
	for _, r := range s {
		n += runeCells(r)
	}
	return n
}

// runeCells is 2 for the scripts and signs that are set in a square.
func runeCells(r rune) int {
	switch {
	case r >= 0x1100 && r <= 0x115f,
		r >= 0x2600 && r <= 0x27bf,
		r >= 0x2e80 && r <= 0xa4cf,
		r >= 0xac00 && r <= 0xd7a3,
		r >= 0xf900 && r <= 0xfaff,
		r >= 0xfe30 && r <= 0xfe6f,
		r >= 0xff00 && r <= 0xff60,
		r >= 0xffe0 && r <= 0xffe6,
		r >= 0x1f000:
		return 2
	}
	return 1
}

// headCells is as much of a text as n columns hold, at least one rune.
func headCells(s string, n int) string {
	sum := 0
	for i, r := range s {
		sum += runeCells(r)
		if i > 0 && sum > n {
			return s[:i]
		}
	}
	return s
}

// wrapCells breaks a text into lines of at most n columns, between words where
// it can be. It is never without a line.
func wrapCells(s string, n int) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(s) {
		if line != "" && cells(line)+1+cells(word) <= n {
			line += " " + word
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for cells(word) > n {
			head := headCells(word, n)
			lines = append(lines, head)
			word = word[len(head):]
		}
		line = word
	}
	if line != "" || len(lines) == 0 {
		lines = append(lines, line)
	}
	return lines
}

func padRight(s string, n int) string { return s + strings.Repeat(" ", max(0, n-cells(s))) }

func padLeft(s string, n int) string { return strings.Repeat(" ", max(0, n-cells(s))) + s }
