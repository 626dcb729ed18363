package drawing

import (
	"math"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// The size of a sketch. A character cell is about twice as high as it is wide.
const (
	leastCols, mostCols = 26, 56
	goodRows, mostRows  = 72, 200
	rulerCells          = 9
)

// The ways in which a line leaves a cell.
const (
	up = 1 << iota
	right
	down
	left
)

// joints are the box-drawing characters by the ways in which lines leave them.
var joints = [16]rune{
	' ', '│', '─', '└', '│', '│', '┌', '├', '─', '┘', '─', '┴', '┐', '┤', '┬', '┼',
}

// raster is a sketch while it is drawn: lines by the ways they leave a cell,
// and what is written between them.
type raster struct {
	cols, rows int
	unit       float64 // millimetres a column
	ways       []uint8
	runes      []rune
}

// sketch draws a layout to scale in characters. It is empty when the layout is
// too long for its width to be legible so.
func sketch(ans *service.YardageAnswer, l plan.Layout, offcuts []plan.Rect) []string {
	wide, long := ans.Request.Cloth.Width.MM(), l.Length.MM()
	if wide <= 0 || long <= 0 || len(l.Placements) == 0 || long/wide > mostRows {
		return nil
	}
	cols := max(clamped(2*goodRows*wide/long, mostCols), leastCols)
	g := raster{cols: cols, unit: wide / float64(cols)}
	g.rows = max(1, g.row(long))
	if g.rows > mostRows {
		return nil
	}
	g.ways = make([]uint8, (g.cols+1)*(g.rows+1))
	g.runes = make([]rune, len(g.ways))
	for _, r := range offcuts {
		g.shade(box{r.X.MM(), r.Y.MM(), r.Across.MM(), r.Along.MM()})
	}
	g.frame(box{0, 0, wide, long})
	for _, pl := range l.Placements {
		g.frame(frameOf(pl).box)
	}
	for _, pl := range l.Placements {
		g.name(frameOf(pl).box, shortNames(ans, pl))
	}
	return g.lines(ans.Request.Units, long)
}

// shortNames are what may stand for a placement, the best first.
func shortNames(ans *service.YardageAnswer, pl plan.Placement) []string {
	p, ok := panelOf(ans.Request.Panels, pl)
	if !ok {
		return nil
	}
	way := ""
	switch pl.Turn {
	case panel.Half:
		way = " ↓"
	case panel.Quarter:
		way = " →"
	}
	id := clean(p.ID)
	copies := strings.Replace(copyText(p, pl), " of ", "/", 1)
	return []string{id + copies + way, id + way, id}
}

func (g *raster) col(x float64) int { return clamped(x/g.unit, g.cols) }

func (g *raster) row(y float64) int { return clamped(y/(2*g.unit), 2*mostRows) }

// clamped is v to the nearest whole number from 0 to most.
func clamped(v float64, most int) int {
	return int(min(max(math.Round(v), 0), float64(most)))
}

func (g *raster) corners(b box) (x0, y0, x1, y1 int) {
	x0, y0 = g.col(b.x), min(g.row(b.y), g.rows)
	return x0, y0, max(g.col(b.x+b.w), x0), max(min(g.row(b.y+b.h), g.rows), y0)
}

func (g *raster) at(x, y int) int { return y*(g.cols+1) + x }

func (g *raster) frame(b box) {
	x0, y0, x1, y1 := g.corners(b)
	for x := x0; x < x1; x++ {
		for _, y := range []int{y0, y1} {
			g.ways[g.at(x, y)] |= right
			g.ways[g.at(x+1, y)] |= left
		}
	}
	for y := y0; y < y1; y++ {
		for _, x := range []int{x0, x1} {
			g.ways[g.at(x, y)] |= down
			g.ways[g.at(x, y+1)] |= up
		}
	}
}

func (g *raster) shade(b box) {
	x0, y0, x1, y1 := g.corners(b)
	for y := y0 + 1; y < y1; y++ {
		for x := x0 + 1; x < x1; x++ {
			g.runes[g.at(x, y)] = '░'
		}
	}
}

// name writes the first name that fits in the middle of a box.
func (g *raster) name(b box, names []string) {
	x0, y0, x1, y1 := g.corners(b)
	if y1-y0 < 2 {
		return
	}
	y := (y0 + y1) / 2
	for _, n := range names {
		if cells(n) != len([]rune(n)) || cells(n) > x1-x0-1 {
			continue
		}
		x := x0 + 1 + (x1-x0-1-cells(n))/2
		for _, r := range n {
			g.runes[g.at(x, y)] = r
			x++
		}
		return
	}
}

// lines are the rows of the sketch with a ruler to their left.
func (g *raster) lines(sys length.System, long float64) []string {
	m := measureFor(sys, 2*g.unit, long)
	figures := make([]string, g.rows+1)
	for at := range m.ticks(long) {
		if r := g.row(at.MM()); at%m.major == 0 && r < len(figures) {
			figures[r], _ = figureAlong(at, sys)
		}
	}
	out := make([]string, 0, g.rows+1)
	for y := range g.rows + 1 {
		var b strings.Builder
		b.WriteString(padLeft(figures[y], rulerCells-1) + " ")
		for x := range g.cols + 1 {
			i := g.at(x, y)
			switch {
			case g.ways[i] != 0:
				b.WriteRune(joints[g.ways[i]])
			case g.runes[i] != 0:
				b.WriteRune(g.runes[i])
			default:
				b.WriteByte(' ')
			}
		}
		out = append(out, b.String())
	}
	return out
}
