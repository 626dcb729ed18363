package drawing

import (
	"bytes"
	"fmt"
	"strconv"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"github.com/bridletie/bridletie/calc/length"
)

// Paper is a page size in portrait, in millimetres.
type Paper struct{ Width, Height float64 }

// The common paper sizes.
var (
	a4     = Paper{210, 297}
	letter = Paper{215.9, 279.4}
)

// A4 returns the ISO 216 A4 page.
func A4() Paper { return a4 }

// Letter returns the North American Letter page.
func Letter() Paper { return letter }

// PaperFor returns the usual paper for a system of units.
func PaperFor(sys length.System) Paper {
	if sys == length.Imperial {
		return letter
	}
	return a4
}

// The margins of a page, and the height of its footer, in millimetres.
const (
	pageMargin = 10.0
	pageFoot   = 7.0
)

// mostPages is the approximate limit on the pages of a picture. A longer picture is
// printed smaller.
const mostPages = 200

// PDF returns the picture as a PDF of as many pages as it needs. It uses the picture's own
// scale if it has one that fits the paper, otherwise the scale that fills the width.
//
// Pages break between lines of text and drawings. A length of cloth that is longer than a
// page is split over overlapping pages, after a key to them. Text is stored as text. The
// same picture gives the same bytes.
func (p *Picture) PDF(paper Paper) ([]byte, error) {
	return PDF(paper, p.Title, p)
}

// Printed returns the picture as a PDF on the usual paper for its units.
func (p *Picture) Printed() ([]byte, error) { return p.PDF(PaperFor(p.Units)) }

// PDF returns several pictures as one document with that title. Each begins on a new page.
func PDF(paper Paper, title string, pictures ...*Picture) ([]byte, error) {
	w := newPDF(paper, title)
	var sheets []*pdfSheet
	for _, p := range pictures {
		sheets = append(sheets, paginate(p, printScale(p, paper), paper.Height-2*pageMargin-pageFoot)...)
	}
	for i, s := range sheets {
		s.page = i + 1
	}
	if len(pictures) == 1 {
		w.doc.SetSubject(clean(pictures[0].Desc), true)
	}
	var begun *Picture
	for _, s := range sheets {
		w.doc.AddPage()
		if len(pictures) > 1 && s.picture != begun {
			begun = s.picture
			w.doc.SetFont("go", "", 10)
			w.doc.Bookmark(clean(begun.Title), 0, 0)
		}
		w.sheet(s, footOf(title, s.picture)+", page "+strconv.Itoa(s.page)+" of "+strconv.Itoa(len(sheets)))
	}
	var b bytes.Buffer
	if err := w.doc.Output(&b); err != nil {
		return nil, fmt.Errorf("drawing: pdf: %w", err)
	}
	return b.Bytes(), nil
}

// footOf returns the footer text: the document and, if it has several pictures, the
// picture.
func footOf(title string, p *Picture) string {
	if p.Title == title || p.Title == "" {
		return title
	}
	return title + ": " + p.Title
}

// printScale returns the print scale of a picture: millimetres of the picture per
// millimetre of paper.
func printScale(p *Picture, paper Paper) float64 {
	room := paper.Width - 2*pageMargin
	scale := max(p.Width/room, p.Height/((paper.Height-2*pageMargin-pageFoot)*mostPages), 1e-9)
	if p.Scale >= scale && p.Scale <= 2*scale {
		return p.Scale
	}
	return scale
}

// pdfWriter draws the pages of one document.
type pdfWriter struct {
	doc   *fpdf.Fpdf
	paper Paper
	sheetView
}

// sheetView is the position of the picture on the current page.
type sheetView struct {
	*pdfSheet
	left, top float64 // of the slab, on the page
	dx, dy    float64 // offset of the open groups, in the picture
}

func newPDF(paper Paper, title string) *pdfWriter {
	doc := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: paper.Width, Ht: paper.Height}})
	// A PDF must have a creation date. A fixed one keeps the bytes the same.
	made := time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)
	doc.SetCreationDate(made)
	doc.SetModificationDate(made)
	doc.SetCatalogSort(true)
	doc.SetProducer("Bridletie", true)
	doc.SetTitle(clean(title), true)
	doc.SetLang("en-GB")
	doc.SetAutoPageBreak(false, 0)
	doc.SetMargins(0, 0, 0)
	doc.AddUTF8FontFromBytes("go", "", goregular.TTF)
	doc.AddUTF8FontFromBytes("go", "B", gobold.TTF)
	doc.SetLineCapStyle("butt")
	return &pdfWriter{doc: doc, paper: paper}
}

// sheet draws one page, from the top down.
func (w *pdfWriter) sheet(s *pdfSheet, foot string) {
	w.sheetView = sheetView{pdfSheet: s, left: (w.paper.Width - s.picture.Width/s.scale) / 2, top: pageMargin}
	if s.last != nil {
		w.word(w.left+s.strip.X/s.scale, w.top+joinRoom-2, footSize, quietInk, false, w.joinText(s.last, "ends", s.last.to))
		w.top += joinRoom
	}
	if s.to > s.from {
		w.doc.ClipRect(pageMargin, w.top, w.paper.Width-2*pageMargin, (s.to-s.from)/s.scale, false)
		w.shapes(s.picture.Items)
		w.doc.ClipEnd()
	}
	w.dash(nil)
	bottom := w.top + (s.to-s.from)/s.scale
	if s.last != nil {
		w.joinLine(s.last.to)
	}
	if s.next != nil {
		w.joinLine(s.next.from)
		w.word(w.left+s.strip.X/s.scale, bottom+joinRoom-2, footSize, quietInk, false, w.joinText(s.next, "begins", s.next.from))
	}
	if s.key != nil {
		w.keyTo(s, bottom)
	}
	if s.closing != "" {
		w.word(pageMargin, w.paper.Height-pageMargin-4, footSize, quietInk, false, w.cut(s.closing, footSize, w.paper.Width-2*pageMargin))
	}
	w.word(pageMargin, w.paper.Height-pageMargin, footSize, quietInk, false, w.cut(foot, footSize, w.paper.Width-2*pageMargin))
}

// at converts a point of the picture to the page.
func (w *pdfWriter) at(p Pt) (x, y float64) {
	return w.left + (p.X+w.dx)/w.scale, w.top + (p.Y+w.dy-w.from)/w.scale
}

// seen reports whether a range of heights is on the page. A horizontal line exactly
// between two pages is on the first.
func (w *pdfWriter) seen(top, bottom float64) bool {
	top, bottom = top+w.dy, bottom+w.dy
	return (bottom > w.from || w.from == 0) && (top < w.to || bottom <= w.to)
}

func (w *pdfWriter) shapes(items []Shape) {
	for _, it := range items {
		switch s := it.(type) {
		case Rect:
			w.polylines([]Polyline{{Closed: true, Pts: []Pt{{s.X, s.Y}, {s.X + s.W, s.Y}, {s.X + s.W, s.Y + s.H}, {s.X, s.Y + s.H}}}}, s.Class)
		case Line:
			w.polylines([]Polyline{{Pts: []Pt{s.A, s.B}}}, s.Class)
		case Path:
			w.polylines(s.Lines, s.Class)
		case Hatch:
			if w.seen(s.Y, s.Y+s.H) {
				w.polylines(s.Lines(), s.Class)
			}
		case Circle:
			w.circle(s)
		case Text:
			w.text(s)
		case Group:
			dx, dy := w.dx, w.dy
			w.dx, w.dy = dx+s.Dx, dy+s.Dy
			w.shapes(s.Items)
			w.dx, w.dy = dx, dy
		}
	}
}

// style returns the style of a class; the zero Style draws nothing.
func (w *pdfWriter) style(c Class) Style {
	if c < 0 || int(c) >= len(w.picture.Classes) {
		return Style{}
	}
	return w.picture.Classes[c]
}

// pen sets colours and line width, and returns how a shape is painted; "" for not at all.
func (w *pdfWriter) pen(s Style) string {
	how := ""
	if s.Fill != 0 {
		w.doc.SetFillColor(parts(s.Fill))
		how = "F"
	}
	if s.Stroke != 0 && s.Width > 0 {
		w.doc.SetDrawColor(parts(s.Stroke))
		w.doc.SetLineWidth(s.Width / w.scale)
		w.dash(s.Dash)
		how += "D"
	}
	return how
}

func (w *pdfWriter) dash(dash []float64) {
	scaled := make([]float64, len(dash))
	for i, d := range dash {
		scaled[i] = d / w.scale
	}
	w.doc.SetDashPattern(scaled, 0)
}

// parts returns the red, green and blue of an ink.
func parts(i Ink) (r, g, b int) {
	return int(i >> 16 & 0xff), int(i >> 8 & 0xff), int(i & 0xff)
}

func (w *pdfWriter) polylines(lines []Polyline, c Class) {
	how := "" // stays "" while no line is on the page
	style := w.style(c)
	for _, l := range lines {
		if len(l.Pts) == 0 || !w.seen(span(l.Pts)) {
			continue
		}
		if how == "" {
			if how = w.pen(style); how == "" {
				return
			}
		}
		for i, p := range l.Pts {
			x, y := w.at(p)
			if i == 0 {
				w.doc.MoveTo(x, y)
			} else {
				w.doc.LineTo(x, y)
			}
		}
		if l.Closed {
			w.doc.ClosePath()
		}
	}
	if how != "" {
		w.faint(style)
		w.doc.DrawPath(how)
		w.solid(style)
	}
}

// faint sets the opacity of a fill, and solid resets it.
func (w *pdfWriter) faint(s Style) {
	if s.Opacity > 0 && s.Opacity < 1 {
		w.doc.SetAlpha(s.Opacity, "Normal")
	}
}

func (w *pdfWriter) solid(s Style) {
	if s.Opacity > 0 && s.Opacity < 1 {
		w.doc.SetAlpha(1, "Normal")
	}
}

// span returns the least and the greatest height of points.
func span(pts []Pt) (top, bottom float64) {
	top, bottom = pts[0].Y, pts[0].Y
	for _, p := range pts {
		top, bottom = min(top, p.Y), max(bottom, p.Y)
	}
	return top, bottom
}

func (w *pdfWriter) circle(s Circle) {
	if !w.seen(s.C.Y-s.R, s.C.Y+s.R) {
		return
	}
	if how := w.pen(w.style(s.Class)); how != "" {
		x, y := w.at(s.C)
		w.doc.Circle(x, y, s.R/w.scale, how)
	}
}
