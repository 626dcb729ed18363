package drawing

import (
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

// The sheet of a piece alone, and what its letters measure: they can be read
// where the picture is as small as a hand.
const (
	pieceWide   = 1000.0
	pieceHigh   = 640.0
	pieceMargin = 24.0
	pieceGap    = 50.0
	pieceMark   = 27.0 // radius of a letter's circle
	pieceLetter = 36.0
)

// PieceSVG is a kind of furniture from the front and from the side, in usual
// proportions, and nothing but that: a group for each measure, in the order in
// which they are listed, holds its line and its letter.
func PieceSVG(k furniture.Kind) []byte {
	g := &guide{paper: paper{sys: length.Metric, k: 1, page: pieceWide}, kind: k, usual: make(map[string]float64)}
	for _, m := range k.Measures {
		g.usual[m.ID] = m.Typical.MM()
	}
	views := [...]elevation{front: g.front(), fromSide: g.side()}
	frames := [...]reach{front: g.reachOf(views[front], front), fromSide: g.reachOf(views[fromSide], fromSide)}
	low := min(frames[front].low, frames[fromSide].low)
	high := max(frames[front].high, frames[fromSide].high)
	wide := frames[front].wide() + frames[fromSide].wide()
	room := pieceWide - 2*pieceMargin - pieceGap - 4*pieceMark
	scale := min(room/wide, (pieceHigh-2*pieceMargin-2*pieceMark)/(high-low))
	floor := pieceMargin + pieceMark + high*scale
	x := (pieceWide-wide*scale-pieceGap-4*pieceMark)/2 + pieceMark
	var placers [2]func(Pt) Pt
	for v, f := range frames {
		left := x - f.left*scale
		placers[v] = func(p Pt) Pt { return Pt{left + p.X*scale, floor - p.Y*scale} }
		g.boxes(views[v], placers[v], scale)
		x += f.wide()*scale + 2*pieceMark + pieceGap
	}
	for i, m := range k.Measures {
		for _, d := range g.placed {
			if d.measure == m.ID {
				g.add(g.measureGroup(d, placers[d.view], i))
			}
		}
	}
	g.y = floor - low*scale + pieceMark + pieceMargin - marginPage
	return g.picture(k.Name, k.About+" From the front and from the side.", planStyles(1)).SVG()
}

// reach is what a view takes with its measures, in millimetres of the piece.
type reach struct{ left, right, low, high float64 }

func (f reach) wide() float64 { return f.right - f.left }

func (g *guide) reachOf(e elevation, v view) reach {
	f := reach{left: -40, right: e.w + 40}
	for _, b := range e.boxes {
		f.high = max(f.high, b.y+b.h)
	}
	for _, d := range g.placed {
		if d.view != v {
			continue
		}
		for _, p := range d.ends() {
			f.left, f.right = min(f.left, p.X), max(f.right, p.X)
			f.low, f.high = min(f.low, p.Y), max(f.high, p.Y)
		}
	}
	return f
}

// ends are those of the line of a measure, beside the piece and upwards.
func (d dimension) ends() [2]Pt {
	a, b := d.a, d.b
	if a.Y == b.Y {
		return [2]Pt{{a.X, a.Y + d.out}, {b.X, b.Y + d.out}}
	}
	return [2]Pt{{a.X + d.out, a.Y}, {b.X + d.out, b.Y}}
}

func (g *guide) boxes(e elevation, at func(Pt) Pt, scale float64) {
	g.add(Line{at(Pt{-40, 0}), at(Pt{e.w + 40, 0}), cRule})
	g.legs(e, at, scale)
	for _, b := range e.boxes {
		p := at(Pt{b.x, b.y + b.h})
		r := Rect{p.X, p.Y, b.w * scale, b.h * scale, cPanelFill}
		line := r
		line.Class = cPanel
		g.add(r, line)
	}
}

// legs stand under what lies lowest, but under a cushion, which lies on a bench.
func (g *guide) legs(e elevation, at func(Pt) Pt, scale float64) {
	base := g.bodyOf().base
	if base == 0 || g.has("cushion-thickness") && !g.has("back-width") {
		return
	}
	const thick, inset = 34.0, 12.0
	left, right := e.w, 0.0
	for _, b := range e.boxes {
		if b.y == base {
			left, right = min(left, b.x), max(right, b.x+b.w)
		}
	}
	for _, x := range []float64{left + inset, right - inset - thick} {
		p := at(Pt{x, base})
		g.add(Rect{p.X, p.Y, thick * scale, base * scale, cRule})
	}
}

// measureGroup is the line of a measure and its letter.
func (g *guide) measureGroup(d dimension, at func(Pt) Pt, n int) Group {
	ends := d.ends()
	a, b := at(ends[0]), at(ends[1])
	const end = 16
	tick := func(p Pt) Line {
		if d.a.Y == d.b.Y {
			return Line{Pt{p.X, p.Y - end}, Pt{p.X, p.Y + end}, cMark}
		}
		return Line{Pt{p.X - end, p.Y}, Pt{p.X + end, p.Y}, cMark}
	}
	middle := Pt{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	return Group{Items: []Shape{
		Line{a, b, cMark}, tick(a), tick(b), Circle{middle, pieceMark, cPanelFill}, Circle{middle, pieceMark, cMark},
		Text{At: Pt{middle.X, middle.Y + pieceLetter*0.36}, S: measureMark(n), Size: pieceLetter, Anchor: AtMiddle, Class: tBold},
	}}
}
