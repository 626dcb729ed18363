package drawing

import (
	"strings"

	"github.com/bridletie/bridletie/calc/length"
)

// pageCells is how many columns a printed page has.
const pageCells = 78

// page is a page of text while it is written.
type page struct {
	sys length.System
	b   strings.Builder
}

// line writes a line; one that is too long goes on below. The marks that set
// text apart are left out: a terminal would show them.
func (p *page) line(s string) {
	s = clean(s)
	for cells(s) > pageCells {
		head := headCells(s, pageCells)
		p.b.WriteString(strings.TrimRight(head, " ") + "\n")
		s = s[len(head):]
	}
	p.b.WriteString(strings.TrimRight(s, " ") + "\n")
}

// para writes a text after a head, further lines beneath the first.
func (p *page) para(head, text string) {
	if text == "" && head == "" {
		return
	}
	margin := min(cells(head), pageCells-16)
	for i, l := range wrapCells(text, pageCells-margin) {
		if i == 0 {
			p.line(head + l)
			continue
		}
		p.line(strings.Repeat(" ", margin) + l)
	}
}

func (p *page) section(title string) {
	p.line("")
	p.line(title)
}

// facts writes figures one below another.
func (p *page) facts(fs []fact) {
	head, value := 0, 0
	for _, f := range fs {
		head, value = max(head, cells(f.head)), max(value, cells(f.value))
	}
	for _, f := range fs {
		p.line("  " + padRight(f.head[:1]+strings.ToLower(f.head[1:]), head+3) + padRight(f.value, value+2) + f.foot)
	}
}

// list writes a section with its items, when there are any.
func (p *page) list(title string, items []string) {
	if len(items) == 0 {
		return
	}
	p.section(title)
	for _, t := range items {
		p.para("  - ", t)
	}
}

// table writes rows in columns as wide as they need; the first figures columns
// hold numbers, which are set to the right. The last column takes what room is
// left, and goes on below.
func (p *page) table(figures int, rows [][]string) {
	var widths []int
	for _, r := range rows {
		for c, t := range r {
			if c == len(widths) {
				widths = append(widths, 0)
			}
			widths[c] = max(widths[c], cells(t))
		}
	}
	for _, r := range rows {
		head := ""
		for c, t := range r[:len(r)-1] {
			if c < figures {
				head += padLeft(t, widths[c]) + "  "
				continue
			}
			head += padRight(t, widths[c]+2)
		}
		p.para(head, r[len(r)-1])
	}
}
