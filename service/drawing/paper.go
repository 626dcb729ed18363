package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// A sheet for a thing of 1370 mm, in millimetres; everything on it grows and
// shrinks with the thing, so that it reads the same.
const (
	usualWidth   = 1370.0
	marginPage   = 60.0
	bodySize     = 34.0
	smallSize    = 28.0
	boldAddition = 1.1 // bold letters are this much wider
)

// paper is a sheet while it is drawn, from the top down: what every drawing
// with a title, figures, paragraphs and tables has in common.
type paper struct {
	sys   length.System
	k     float64 // size of the sheet against that for the usual width
	page  float64 // the breadth of the sheet
	y     float64 // what is above is drawn
	items []Shape

	whole  []Span
	strips []Strip
	end    Closing
	ended  float64 // where the closing line ends
}

// keep has what is drawn from a height to here, and the room below it, stay on
// one page.
func (s *paper) keep(from, below float64) {
	s.whole = append(s.whole, Span{from, s.y + below*s.k})
}

// tie has what comes next, that much of it, stay with the line written last.
func (s *paper) tie(much float64) {
	s.whole = append(s.whole, Span{s.y - descent*s.k, s.y + much*s.k})
}

// below is the height, under a line of text that is written to here, from which
// the next may be on another page: its letters reach that far down.
func (s *paper) below() float64 { return s.y + descent*s.k }

const descent = 0.31 * bodySize

func (s *paper) add(shapes ...Shape) { s.items = append(s.items, shapes...) }

func (s *paper) text(x, y, size float64, c Class, text string) {
	s.add(Text{At: Pt{x, y}, S: text, Size: size * s.k, Class: c})
}

// para writes a text below what is drawn, broken into lines between x and
// right.
func (s *paper) para(x, right, size float64, c Class, text string) {
	room := (right - x) / (size * s.k)
	if c == tBold {
		room /= boldAddition
	}
	for _, line := range wrap(text, room) {
		s.y += size * 1.32 * s.k
		s.text(x, s.y, size, c, line)
	}
}

// body writes a paragraph over the whole breadth of the sheet.
func (s *paper) body(c Class, text string) {
	if text == "" {
		return
	}
	from := s.below()
	s.para(s.left(), s.right(), bodySize, c, text)
	if s.y-from < 300*s.k {
		s.keep(from, 0)
	}
}

func (s *paper) left() float64  { return marginPage * s.k }
func (s *paper) right() float64 { return s.page - marginPage*s.k }

func (s *paper) gap(d float64) { s.y += d * s.k }

func (s *paper) rule() {
	s.add(Line{Pt{s.left(), s.y}, Pt{s.right(), s.y}, cRule})
}

// heading writes a section's heading, which does not stand at the foot of a page.
func (s *paper) heading(text string) {
	from := s.below()
	s.gap(56)
	s.para(s.left(), s.right(), 44, tBold, text)
	s.gap(10)
	s.keep(from, 60)
}

// shrunk is the size, not above size, at which a bold text fits in a width.
func (s *paper) shrunk(text string, size, width float64) float64 {
	return min(size, width/(s.k*boldAddition*max(breadth(text), 1)))
}

// scale is the first whole scale, or near it, at which the sheet fits on the
// breadth of a page, and on as many pages as are printed.
func (s *paper) scale() float64 {
	const paper = 190
	least := max(s.page/paper, s.y/(mostPages*250))
	for step := 1.0; step < 1e9; step *= 10 {
		for _, r := range []float64{1, 1.25, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9} {
			if r*step >= least {
				return r * step
			}
		}
	}
	return least
}

// picture is the sheet as it has been drawn.
func (s *paper) picture(title, desc string, styles []Style) *Picture {
	p := &Picture{
		Title: title, Desc: desc, Units: s.sys,
		Width: s.page, Height: s.y + marginPage*s.k, Scale: s.scale(),
		Classes: styles, Items: s.items, Whole: s.whole, Strips: s.strips,
	}
	if s.y <= s.ended {
		p.Closing = s.end
	}
	return p
}

// fact is a figure that must be seen first.
type fact struct{ head, value, foot string }

// title heads the sheet: what it is, and of what.
func (s *paper) title(what, of string) {
	s.gap(30)
	s.para(s.left(), s.right(), 60, tBold, what)
	s.gap(4)
	s.body(tQuiet, of)
	s.gap(28)
	s.rule()
}

// facts prints figures large, side by side.
func (s *paper) facts(fs []fact) {
	cell := (s.right() - s.left()) / float64(max(len(fs), 1))
	for i, f := range fs {
		x := s.left() + float64(i)*cell
		s.text(x, s.y+46*s.k, min(26, s.shrunk(f.head, 26, cell-14*s.k)*boldAddition), tQuiet, f.head)
		size := s.shrunk(f.value, 72, cell-20*s.k)
		s.text(x, s.y+120*s.k, size, tBold, f.value)
		s.text(x, s.y+164*s.k, min(26, s.shrunk(f.foot, 26, cell-10*s.k)*boldAddition), tQuiet, f.foot)
	}
	s.gap(190)
	s.rule()
	s.gap(14)
	s.whole = append(s.whole, Span{0, s.y})
}

// row writes one row of a table, as high as its highest cell. Stops are where
// the columns begin, from the left margin, and where the last one ends, on a
// sheet of the usual width; bold is the column that is printed so, or -1.
func (s *paper) row(c Class, stops []float64, bold int, cells []string) {
	top, most := s.y, 0
	defer func() { s.keep(top, 0) }()
	for i, cell := range cells {
		room := (stops[i+1] - stops[i] - 16) / smallSize
		lines := wrap(cell, room)
		for n, line := range lines {
			y := top + (34+float64(n)*smallSize*1.25)*s.k
			class := c
			if i == bold {
				class = tBold
			}
			s.text(s.left()+stops[i]*s.k, y, smallSize, class, line)
		}
		most = max(most, len(lines))
	}
	s.y = top + (46+float64(max(most-1, 0))*smallSize*1.25)*s.k
}

// table writes a heading, the heads of the columns and the rows, with rules
// between. There is nothing when there are no rows.
func (s *paper) table(heading string, stops []float64, bold int, heads []string, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	s.heading(heading)
	s.rows(stops, bold, heads, rows)
}

// rows writes the heads of the columns and the rows.
func (s *paper) rows(stops []float64, bold int, heads []string, rows [][]string) {
	s.row(tQuiet, stops, -1, heads)
	for _, cells := range rows {
		s.rule()
		s.row(tPlain, stops, bold, cells)
	}
	s.rule()
}

// closing lists what to check, and says at what scale the sheet is drawn.
func (s *paper) closing(warnings, cautions []note.Note) {
	s.checks(warnings, cautions)
	s.gap(24)
	text := "Drawn at 1:" + strconv.FormatFloat(s.scale(), 'f', -1, 64) +
		" when printed at full size. The figures count, not the drawing."
	s.end = Closing{From: s.y + 0.32*bodySize*s.k, Text: text} // the rest of the line is its letters
	s.body(tQuiet, text)
	s.ended = s.y
}
