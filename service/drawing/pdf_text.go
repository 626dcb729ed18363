package drawing

import (
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// letterForms is the parsed embedded font.
var letterForms = sync.OnceValue(func() *sfnt.Font {
	f, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil
	}
	return f
})

// printable returns a text in the letters of the embedded font. Other letters become a
// question mark, and direction marks are left out.
func (w *pdfWriter) printable(s string) string {
	var buf sfnt.Buffer
	f := letterForms()
	return strings.Map(func(r rune) rune {
		if ' ' <= r && r <= '~' {
			return r
		}
		if r == isolate || r == endIsolate || r == '\u200c' || r == '\u200d' {
			return -1
		}
		if f == nil {
			return r
		}
		if i, err := f.GlyphIndex(&buf, r); err != nil || i == 0 {
			return '?'
		}
		return r
	}, s)
}

// text writes one line. The embedded font is wider than the one used to measure the
// picture, so a line that would be too long is set smaller.
func (w *pdfWriter) text(t Text) {
	middle := t.At.Y + w.dy
	if t.Turn == 0 {
		middle -= 0.35 * t.Size
	}
	if middle < w.from || middle >= w.to {
		return // a word is printed only on the page that has its middle, so that a search finds it once
	}
	style := w.style(t.Class)
	if style.Fill == 0 {
		return
	}
	font, wide := "", breadth(t.S)
	if style.Bold {
		font, wide = "B", wide*boldAddition
	}
	w.doc.SetFont("go", font, 10)
	size := t.Size / w.scale
	w.doc.SetFontUnitSize(size)
	s := w.printable(t.S)
	long := w.doc.GetStringWidth(s)
	if room := wide * size; long > room && long > 0 {
		size *= room / long
		long = room
		w.doc.SetFontUnitSize(size)
	}
	x, y := w.at(t.At)
	left := x
	switch t.Anchor {
	case AtMiddle:
		left = x - long/2
	case AtEnd:
		left = x - long
	}
	if t.Turn != 0 {
		w.doc.TransformBegin()
		w.doc.TransformRotate(float64(-t.Turn), x, y)
		defer w.doc.TransformEnd()
	}
	if style.Halo > 0 {
		// A filled background. An outline of letters would store the text twice.
		rim := style.Halo / w.scale / 2
		w.doc.SetFillColor(255, 255, 255)
		w.doc.Rect(left-rim, y-size*0.76-rim, long+2*rim, size+2*rim, "F")
	}
	w.doc.SetTextColor(parts(style.Fill))
	w.doc.Text(left, y, s)
}
