package drawing

import (
	"math"
	"strconv"
)

// family lists fonts that are available in every viewer.
const family = "Helvetica, Arial, sans-serif"

// SVG returns the picture as a standalone document, without external references or
// scripts. Text is stored as text.
func (p *Picture) SVG() []byte {
	w := svgWriter{b: make([]byte, 0, 4096+bytesFor(p.Items)), attrs: make([]string, len(p.Classes))}
	for i, s := range p.Classes {
		w.attrs[i] = string(styleAttrs(s))
	}
	scale := p.Scale
	if scale <= 0 {
		scale = 1
	}
	w.str(`<svg xmlns="http://www.w3.org/2000/svg" width="`)
	w.num(p.Width / scale)
	w.str(`mm" height="`)
	w.num(p.Height / scale)
	w.str(`mm" viewBox="0 0 `)
	w.num(p.Width)
	w.str(" ")
	w.num(p.Height)
	w.str(`" role="img" font-family="` + family + `">` + "\n")
	w.element("title", p.Title)
	w.element("desc", p.Desc)
	w.shapes(p.Items)
	w.str("</svg>\n")
	return w.b
}

// bytesFor estimates the bytes of shapes, to size the buffer.
func bytesFor(items []Shape) (n int) {
	for _, it := range items {
		switch s := it.(type) {
		case Path:
			n += 160
			for _, l := range s.Lines {
				n += 16 * len(l.Pts)
			}
		case Hatch:
			n += 1200
		case Group:
			n += 120 + len(s.Title) + bytesFor(s.Items)
		default:
			n += 160
		}
	}
	return n
}

type svgWriter struct {
	b     []byte
	attrs []string // by class
}

func (w *svgWriter) str(s string) { w.b = append(w.b, s...) }

func (w *svgWriter) num(v float64) { w.b = appendNum(w.b, v) }

func (w *svgWriter) attr(name string, v float64) {
	w.str(" " + name + `="`)
	w.num(v)
	w.str(`"`)
}

func (w *svgWriter) element(name, text string) {
	w.str("<" + name + ">")
	w.b = appendEscaped(w.b, text)
	w.str("</" + name + ">\n")
}

func (w *svgWriter) class(c Class) {
	if c >= 0 && int(c) < len(w.attrs) {
		w.str(w.attrs[c])
	}
}

func (w *svgWriter) shapes(items []Shape) {
	for _, it := range items {
		switch s := it.(type) {
		case Rect:
			w.rect(s)
		case Line:
			w.path([]Polyline{{Pts: []Pt{s.A, s.B}}}, s.Class)
		case Circle:
			w.str("<circle")
			w.attr("cx", s.C.X)
			w.attr("cy", s.C.Y)
			w.attr("r", max(s.R, 0))
			w.class(s.Class)
			w.str("/>\n")
		case Path:
			w.path(s.Lines, s.Class)
		case Hatch:
			w.path(s.Lines(), s.Class)
		case Text:
			w.text(s)
		case Group:
			w.group(s)
		}
	}
}

func (w *svgWriter) rect(s Rect) {
	w.str("<rect")
	w.attr("x", s.X)
	w.attr("y", s.Y)
	w.attr("width", max(s.W, 0))
	w.attr("height", max(s.H, 0))
	w.class(s.Class)
	w.str("/>\n")
}

func (w *svgWriter) group(g Group) {
	w.str("<g")
	if g.Dx != 0 || g.Dy != 0 {
		w.str(` transform="translate(`)
		w.num(g.Dx)
		w.str(" ")
		w.num(g.Dy)
		w.str(`)"`)
	}
	w.str(">\n")
	if g.Title != "" {
		w.element("title", g.Title)
	}
	w.shapes(g.Items)
	w.str("</g>\n")
}

func (w *svgWriter) path(lines []Polyline, c Class) {
	if len(lines) == 0 {
		return
	}
	w.str(`<path d="`)
	for _, l := range lines {
		for i, p := range l.Pts {
			if i == 0 {
				w.str("M")
			} else {
				w.str("L")
			}
			w.num(p.X)
			w.str(" ")
			w.num(p.Y)
		}
		if l.Closed {
			w.str("Z")
		}
	}
	w.str(`"`)
	w.class(c)
	w.str("/>\n")
}

func (w *svgWriter) text(t Text) {
	if t.S == "" {
		return
	}
	w.str("<text")
	w.attr("x", t.At.X)
	w.attr("y", t.At.Y)
	w.attr("font-size", t.Size)
	switch t.Anchor {
	case AtMiddle:
		w.str(` text-anchor="middle"`)
	case AtEnd:
		w.str(` text-anchor="end"`)
	}
	if t.Turn != 0 {
		w.str(` transform="rotate(`)
		w.num(float64(t.Turn))
		w.str(" ")
		w.num(t.At.X)
		w.str(" ")
		w.num(t.At.Y)
		w.str(`)"`)
	}
	w.class(t.Class)
	w.str(">")
	w.b = appendEscaped(w.b, t.S)
	w.str("</text>\n")
}

// styleAttrs returns presentation attributes. They do not depend on style sheets or the
// content security policy of a page.
func styleAttrs(s Style) []byte {
	b := append([]byte(` fill="`), inkText(s.Fill)...)
	b = append(b, '"')
	if s.Fill != 0 && s.Opacity > 0 && s.Opacity < 1 {
		b = append(appendNum(append(b, ` fill-opacity="`...), s.Opacity), '"')
	}
	if s.Bold {
		b = append(b, ` font-weight="700"`...)
	}
	if s.Halo > 0 {
		b = append(appendNum(append(b, ` stroke="#ffffff" stroke-width="`...), s.Halo), '"')
		return append(b, ` stroke-linejoin="round" paint-order="stroke"`...)
	}
	if s.Stroke == 0 {
		return b
	}
	b = append(append(append(b, ` stroke="`...), inkText(s.Stroke)...), '"')
	b = append(appendNum(append(b, ` stroke-width="`...), s.Width), '"')
	for i, d := range s.Dash {
		if i == 0 {
			b = append(b, ` stroke-dasharray="`...)
		} else {
			b = append(b, ' ')
		}
		b = appendNum(b, d)
	}
	if len(s.Dash) > 0 {
		b = append(b, '"')
	}
	return b
}

func inkText(i Ink) string {
	if i == 0 {
		return "none"
	}
	hex := strconv.FormatUint(uint64(i), 16) // the set bit keeps leading zeros
	return "#" + hex[1:]
}

// appendNum appends v to the thousandth, without trailing zeros. A value within rounding
// error of half-way is rounded up, so that all machines agree.
func appendNum(b []byte, v float64) []byte {
	const nudge = 1e-6
	t := math.Floor(v*1000 + 0.5 + nudge)
	switch {
	case t == 0, math.IsNaN(t), math.IsInf(t, 0):
		return append(b, '0')
	case math.Abs(t) > 1e15:
		return strconv.AppendFloat(b, t/1000, 'f', -1, 64)
	}
	n := int64(t)
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/1000, 10)
	if n %= 1000; n == 0 {
		return b
	}
	b = append(b, '.', byte('0'+n/100))
	if n %= 100; n == 0 {
		return b
	}
	b = append(b, byte('0'+n/10))
	if n %= 10; n == 0 {
		return b
	}
	return append(b, byte('0'+n))
}

// appendEscaped appends s as XML character data that is also safe in attributes, without
// characters that XML forbids.
func appendEscaped(b []byte, s string) []byte {
	for _, r := range s {
		switch {
		case r == '&':
			b = append(b, "&amp;"...)
		case r == '<':
			b = append(b, "&lt;"...)
		case r == '>':
			b = append(b, "&gt;"...)
		case r == '"':
			b = append(b, "&#34;"...)
		case r == '\'':
			b = append(b, "&#39;"...)
		case !dropped(r):
			b = append(b, string(r)...)
		}
	}
	return b
}
