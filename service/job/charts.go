package job

import (
	"context"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

// charts make the charts of the buttoned panels of a cloth.
func (j *jobber) charts(ctx context.Context, c int, out *clothJob) error {
	for _, b := range j.work[c].buttoned {
		chart := Buttoned{Piece: b.piece, Panel: b.panel.ID, Count: b.panel.Count, Cloth: c}
		ready, wrong := j.chart(b, j.cloths[c].Cloth)
		if err := chart.Chart.answer(ctx, ready, j.chartPlaced(wrong, b.piece, c)); err != nil {
			return err
		}
		out.charts = append(out.charts, chart)
	}
	return nil
}

// chart makes the chart of one panel ready, or says what is wrong with it.
// Where nothing is said of what the diamonds are to show, it is the piece's motif
// on a cloth that repeats, if there is a whole diamond; where nothing is said of
// the diamonds, they are as large as the panel allows, up to the usual.
func (j *jobber) chart(b buttonedPanel, k cloth.Cloth) (service.Ready[service.ButtoningAnswer], fault.List) {
	p := &j.req.Pieces[b.piece]
	req := p.chart()
	req.Units, req.Name, req.Cloth = j.req.Units, b.panel.Title(), k
	req.Panel.Size, req.Panel.Allow = b.panel.Size, b.panel.Allow
	if req.Aim == nil && !k.Pattern.IsPlain() {
		req.Aim = &service.ButtoningAim{}
		if m := p.Piece.Motif; m != "" {
			req.Aim.Motifs = []string{m}
		}
	}
	usual := req
	ready, l := service.PrepareButtoning(req)
	for n := 3; n > 0 && p.Diamonds == nil && onlyAt(l, fault.At("grid")); n-- {
		grid, edges := usual.Grid, usual.Panel.Edges
		req.Grid.Width, req.Grid.Height = quarters(grid.Width, n), quarters(grid.Height, n)
		req.Panel.Edges = buttoning.Edges{Side: quarters(edges.Side, n), Top: quarters(edges.Top, n), Bottom: quarters(edges.Bottom, n)}
		ready, l = service.PrepareButtoning(req)
	}
	if p.Buttoning.Aim == nil && onlyAt(l, fault.At("aim").Field("how")) {
		req.Aim = nil
		ready, l = service.PrepareButtoning(req)
	}
	return ready, l
}

// chart is how the piece is buttoned, without panel and cloth.
func (p *Piece) chart() service.ButtoningRequest {
	req := p.Buttoning
	if d := p.Diamonds; d != nil {
		req.Grid, req.Panel.Edges = d.Grid, d.Margins
		return req
	}
	edge := req.Shop.Length(practice.UsualButtonEdge)
	req.Grid = buttoning.Wish{How: buttoning.Spacing, Width: req.Shop.Length(practice.UsualDiamondWidth), Height: req.Shop.Length(practice.UsualDiamondHeight)}
	req.Panel.Edges = buttoning.Edges{Side: edge, Top: edge, Bottom: edge}
	return req
}

func quarters(l length.Length, n int) length.Length {
	return (l * length.Length(n) / 4).Round(length.Millimetre, length.Nearest)
}

// onlyAt reports whether there is a fault, and none but at one place.
func onlyAt(l fault.List, place fault.Path) bool {
	return l.Len() > 0 && !slices.ContainsFunc(l.Faults(), func(f fault.Fault) bool { return !f.Path.Is(place) })
}

// spread are the panels of a cloth as they are cut: a buttoned one as large as
// its chart says, with the pattern where the chart has it, and in as many widths.
func (j *jobber) spread(c int, charts []Buttoned) (panels []panel.Panel, places []place, obstacles map[int][]relief.Obstacle, loosened []service.Loosened) {
	w, k := j.work[c], j.cloths[c].Cloth
	chartOf := make(map[int]*service.ButtoningAnswer)
	for i, b := range w.buttoned {
		chartOf[b.index] = charts[i].Chart.Answer
	}
	becomes := make(map[string]string) // of panels in several widths, the middle one
	for i, p := range w.panels {
		ch := chartOf[i]
		if ch == nil {
			if ob := w.obstacles[i]; len(ob) > 0 {
				if obstacles == nil {
					obstacles = make(map[int][]relief.Obstacle)
				}
				obstacles[len(panels)] = ob
			}
			panels, places = append(panels, p), append(places, w.places[i])
			continue
		}
		parts := widths(p, ch, k)
		becomes[p.ID] = parts[len(parts)/2].ID
		for _, q := range parts {
			panels, places = append(panels, q), append(places, w.places[i])
		}
	}
	if len(charts) == 0 {
		return panels, places, obstacles, nil
	}
	for i := range panels {
		if to := becomes[panels[i].Match.From]; to != "" {
			panels[i].Match.From = to
		}
		if to := becomes[panels[i].Pair]; to != "" {
			panels[i].Pair = ""
		}
	}
	panels, loosened = service.LoosenWishes(panels, k)
	return panels, places, obstacles, loosened
}

// widths are the panels that a buttoned panel is cut in. Each is wished where the
// chart has the pattern: a motif at the place where it lies nearest to the middle;
// where no motif lies on a width, its pattern runs on from the next.
func widths(p panel.Panel, ch *service.ButtoningAnswer, k cloth.Cloth) []panel.Panel {
	cut, lines, parts := ch.Work.Cut(), ch.Work.Lines(), ch.Joined.Parts
	var out []panel.Panel
	for i, part := range parts {
		q := p
		q.Join, q.Pair, q.Match = panel.NoJoin, "", panel.Match{}
		if n := len(parts); n > 1 {
			q.ID = p.ID + "-" + strconv.Itoa(i+1)
			q.Name = note.New(note.PanelWidth, note.Name("panel", p.Title()), note.Count("number", i+1), note.Count("of", n)).Text(length.Metric)
			// Two widths overlap by the zigzag and its seams; half of it is either's.
			if i > 0 {
				q.Allow.Left = tenths((parts[i-1].To - part.From) / 2)
			}
			if i < n-1 {
				q.Allow.Right = tenths((part.To - parts[i+1].From) / 2)
			}
		}
		q.Size = panel.Size{
			Across: (part.To-part.From).Round(length.Millimetre, length.Up) - q.Allow.Left - q.Allow.Right,
			Along:  cut.Along.Round(length.Millimetre, length.Up) - q.Allow.Top - q.Allow.Bottom,
		}
		if part.Fits && !k.Pattern.IsPlain() {
			// The centre lines, from the top left of the finished part.
			origin := panel.Point{Across: -part.From - q.Allow.Left, Along: lines.Along - q.Allow.Top}
			q.Match = anchored(q.Size, origin, ch.Shift, k.Pattern)
		}
		out = append(out, q)
	}
	if !k.Pattern.IsPlain() {
		runOn(out, parts)
	}
	return out
}

// runOn lets the pattern of widths without a motif of their own run on from a
// neighbour, from the first width with one outwards.
func runOn(out []panel.Panel, parts []buttoning.Part) {
	first := slices.IndexFunc(out, func(q panel.Panel) bool { return q.Match.How != panel.Free })
	if first < 0 {
		first = slices.IndexFunc(parts, func(p buttoning.Part) bool { return p.Fits })
	}
	if first < 0 {
		return
	}
	for i := first + 1; i < len(out); i++ {
		if out[i].Match.How == panel.Free && parts[i].Fits {
			out[i].Match = panel.Match{How: panel.RunsOn, From: out[i-1].ID, Edge: panel.RightEdge}
		}
	}
	for i := first - 1; i >= 0; i-- {
		if out[i].Match.How == panel.Free && parts[i].Fits {
			out[i].Match = panel.Match{How: panel.RunsOn, From: out[i+1].ID, Edge: panel.LeftEdge}
		}
	}
}

// anchored is the wish for the motif that lies nearest to the middle of a panel,
// when the first motif lies at the shift from the centre lines; free when none
// lies on it.
func anchored(size panel.Size, origin panel.Point, s buttoning.Shift, p cloth.Pattern) panel.Match {
	first := p.Principal()[0]
	best, found := panel.Match{}, false
	var least float64
	d := p.Drop.Reduced()
	for _, m := range p.Principal() {
		for i := range length.Length(d.Den) { // columns, until one stands at the same height again
			at := panel.Point{
				Across: origin.Across + s.X + m.Across - first.Across + p.WidthRepeat*i,
				Along:  origin.Along + s.Y + m.Along - first.Along + p.LengthRepeat*length.Length(d.Num)*i/length.Length(d.Den),
			}
			at.Across = tenths(nearMiddle(at.Across, size.Across, p.WidthRepeat*length.Length(d.Den)))
			at.Along = tenths(nearMiddle(at.Along, size.Along, p.LengthRepeat))
			if at.Across < 0 || at.Across > size.Across || at.Along < 0 || at.Along > size.Along {
				continue
			}
			dx, dy := (at.Across - size.Across/2).MM(), (at.Along - size.Along/2).MM()
			if d := float64(dx*dx) + float64(dy*dy); !found || d < least {
				best, least, found = panel.Match{How: panel.Anchor, Motif: m.Name, Point: at}, d, true
			}
		}
	}
	return best
}

// tenths is a place to a tenth of a millimetre, which is as fine as it is laid.
func tenths(l length.Length) length.Length { return l.Round(length.Millimetre/10, length.Nearest) }

// nearMiddle moves a place by whole repeats as near as can be to the middle of an
// extent; without a repeat, to the middle itself.
func nearMiddle(at, extent, repeat length.Length) length.Length {
	if repeat <= 0 {
		return extent / 2
	}
	off := (at - extent/2) % repeat
	switch {
	case off >= (repeat+1)/2:
		off -= repeat
	case off < -repeat/2:
		off += repeat
	}
	return extent/2 + off
}
