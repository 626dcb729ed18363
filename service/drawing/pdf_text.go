package drawing

import (
	"strings"
	"sync"

	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// letterForms are the letters of the embedded font.
var letterForms = sync.OnceValue(func() *sfnt.Font {
	f, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil
	}
	return f
})

// printable is a text in the letters of the embedded font; others become a
// question mark, and marks of direction are left out.
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

// text writes one line. The letters of the embedded font are broader than those
// the picture was measured with: a text that would be longer is set smaller.
func (w *pdfWriter) text(t Text) {
	middle := t.At.Y + w.dy
	if t.Turn == 0 {
		middle -= 0.35 * t.Size
	}
	if middle < w.from || middle >= w.to {
		return // a word is on the page that has its middle, and on no other to be found
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
		// A plate, since a rim of letters would be text a second time.
		rim := style.Halo / w.scale / 2
		w.doc.SetFillColor(255, 255, 255)
		w.doc.Rect(left-rim, y-size*0.76-rim, long+2*rim, size+2*rim, "F")
	}
	w.doc.SetTextColor(parts(style.Fill))
	w.doc.Text(left, y, s)
}
