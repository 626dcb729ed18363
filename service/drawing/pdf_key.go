package drawing

import (
	"math"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
)

// The sizes of text outside the picture.
const (
	footSize = 2.8 // of letters, in millimetres
	keySize  = 3.2
	quietInk = Ink(inkSet | 0x5b6470)
	plainInk = Ink(inkSet | 0x1b2430)
)

// word writes a line at a position on the page.
func (w *pdfWriter) word(x, y, size float64, ink Ink, bold bool, s string) {
	font := ""
	if bold {
		font = "B"
	}
	w.doc.SetFont("go", font, 10)
	w.doc.SetFontUnitSize(size)
	w.doc.SetTextColor(parts(ink))
	w.doc.Text(x, y, s)
}

// cut returns the longest prefix of a text that fits the width, in the embedded font.
func (w *pdfWriter) cut(s string, size, room float64) string {
	s = w.printable(clean(s))
	w.doc.SetFont("go", "", 10)
	w.doc.SetFontUnitSize(size)
	if w.doc.GetStringWidth(s) <= room {
		return s
	}
	letters := []rune(s)
	for len(letters) > 0 && w.doc.GetStringWidth(string(letters)+"…") > room {
		letters = letters[:len(letters)-1]
	}
	return string(letters) + "…"
}

// joinText returns the text on how this page overlaps another.
func (w *pdfWriter) joinText(other *pdfSheet, does string, height float64) string {
	return "Page " + strconv.Itoa(other.page) + " " + does + " at the line of dots and dashes, " + w.alongStrip(w.strip, height) + " from the start."
}

// alongStrip returns the position along a strip, as text, of a height in the picture.
func (w *pdfWriter) alongStrip(s *Strip, height float64) string {
	l, err := length.FromMM(math.Round(min(max(height-s.Y, 0), s.H)))
	if err != nil {
		return "far"
	}
	return near(l, w.picture.Units)
}

// joinLine marks the height at which this page overlaps another: a line across the cloth
// with a wedge at either end.
func (w *pdfWriter) joinLine(height float64) {
	s := w.strip
	x, y := w.at(Pt{s.X, height})
	end := x + s.W/w.scale
	w.doc.SetDrawColor(parts(plainInk))
	w.doc.SetFillColor(parts(plainInk))
	w.doc.SetLineWidth(0.35)
	w.doc.SetDashPattern([]float64{4, 1.2, 0.4, 1.2}, 0)
	w.doc.Line(x, y, end, y)
	w.dash(nil)
	for _, at := range []struct{ tip, base float64 }{{x, x - 3.5}, {end, end + 3.5}} {
		w.doc.MoveTo(at.tip, y)
		w.doc.LineTo(at.base, y-1.5)
		w.doc.LineTo(at.base, y+1.5)
		w.doc.ClosePath()
		w.doc.DrawPath("F")
	}
}

// keyTo draws a small plan of a whole strip, with the extent and the contents of each of
// its pages.
func (w *pdfWriter) keyTo(s *pdfSheet, top float64) {
	key := s.key
	head := "Pages of the cloth"
	if key.Name != "" {
		head += ": " + key.Name
	}
	foot := w.paper.Height - pageMargin - pageFoot
	y := top + 8
	left, right := w.left+key.X/s.scale, w.paper.Width-pageMargin
	w.word(left, y, 4.6, plainInk, true, w.cut(head, 4.6, right-left))
	y += 4
	room := box{left, y, 70, min(foot-y, keyMost)}
	f := max(key.W/room.w, key.H/room.h) // millimetres of the strip per millimetre of paper
	at := func(p Part) box { return box{room.x + p.X/f, room.y + p.Y/f, p.W / f, p.H / f} }
	w.boxes([]box{at(Part{W: key.W, H: key.H})}, RGB(0xe4e4e4), 0.35)
	all := make([]box, len(key.Parts))
	for i, p := range key.Parts {
		all[i] = at(p)
	}
	w.boxes(all, RGB(0xffffff), 0.2)
	w.keyPages(s, room.x+key.W/f, room, f)
	for i, p := range key.Parts {
		w.keyMark(p.Mark, all[i])
	}
}

// boxes draws rectangles as one shape.
func (w *pdfWriter) boxes(all []box, fill Ink, line float64) {
	if len(all) == 0 {
		return
	}
	w.doc.SetFillColor(parts(fill))
	w.doc.SetDrawColor(parts(plainInk))
	w.doc.SetLineWidth(line)
	for _, b := range all {
		w.doc.MoveTo(b.x, b.y)
		w.doc.LineTo(b.x+b.w, b.y)
		w.doc.LineTo(b.x+b.w, b.y+b.h)
		w.doc.LineTo(b.x, b.y+b.h)
		w.doc.ClosePath()
	}
	w.doc.DrawPath("FD")
}

// keyMark writes a panel's mark in its rectangle, if it is large enough to be read.
func (w *pdfWriter) keyMark(mark string, b box) {
	const most, least = 3.0, 1.5
	mark = w.printable(mark)
	w.doc.SetFont("go", "", 10)
	w.doc.SetFontUnitSize(1)
	wide := w.doc.GetStringWidth(mark)
	size := min(most, 0.9*b.w/max(wide, 0.1), 0.8*b.h)
	if mark == "" || size < least {
		return
	}
	w.word(b.x+b.w/2-wide*size/2, b.y+b.h/2+0.36*size, size, plainInk, false, mark)
}

// keyPages lists the contents of each page, and marks the extent of each beside the key.
func (w *pdfWriter) keyPages(s *pdfSheet, edge float64, room box, f float64) {
	key := s.key
	foot, right := room.y+room.h, w.paper.Width-pageMargin
	left, y := edge+24, room.y+keySize
	const line, apart = keySize * 1.35, keySize * 0.6
	for _, p := range s.keyed {
		words := w.filled(onPage(key, p), keySize, right-left)
		if y+float64(len(words)+1)*line > foot {
			w.word(left, y, keySize, quietInk, false, "Where the other pages lie is marked beside the plan.")
			break
		}
		w.word(left, y, keySize, plainInk, true, "Page "+strconv.Itoa(p.page)+": "+w.alongStrip(key, p.from)+" to "+w.alongStrip(key, p.to))
		for _, one := range words {
			y += line
			w.word(left, y, keySize, plainInk, false, one)
		}
		y += line + apart
	}
	free := 0.0 // a page number above this height would touch the previous one
	for i, p := range s.keyed {
		x := edge + 3 + 4*float64(i%2)
		a, b := room.y+min(max(p.from-key.Y, 0), key.H)/f, room.y+min(max(p.to-key.Y, 0), key.H)/f
		w.doc.SetLineWidth(min(0.5, (b-a)/4))
		w.doc.MoveTo(x-1.5, a)
		w.doc.LineTo(x, a)
		w.doc.LineTo(x, b)
		w.doc.LineTo(x-1.5, b)
		w.doc.DrawPath("D")
		if at := (a + b) / 2; at >= free {
			w.word(edge+8.2, at+1, footSize, plainInk, true, strconv.Itoa(p.page))
			free = at + footSize*1.1
		}
	}
}

// onPage returns the text on which panels lie wholly on a page, and which in part.
func onPage(s *Strip, page *pdfSheet) string {
	var whole, part []string
	for _, p := range s.Parts {
		switch top, bottom := s.Y+p.Y, s.Y+p.Y+p.H; {
		case top >= page.from-1e-6 && bottom <= page.to+1e-6:
			whole = append(whole, p.Name)
		case top < page.to && bottom > page.from:
			part = append(part, p.Name)
		}
	}
	text := strings.Join(whole, "; ")
	if len(part) > 0 {
		if text += ". In part: "; len(whole) == 0 {
			text = "In part: "
		}
		text += strings.Join(part, "; ")
	}
	return text + "."
}

// filled wraps a text to that width, in the embedded font.
func (w *pdfWriter) filled(s string, size, room float64) []string {
	w.doc.SetFont("go", "", 10)
	w.doc.SetFontUnitSize(size)
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(w.printable(clean(s))) {
		if next := strings.TrimPrefix(line+" "+word, " "); line == "" || w.doc.GetStringWidth(next) <= room {
			line = next
			continue
		}
		lines = append(lines, line)
		line = word
	}
	return append(lines, line)
}
