package drawing

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

const (
	cm = length.Centimetre
	in = length.Inch
)

// table lays panels on a cloth without any art: each at the first place from
// the start that is free and on which its wish is kept.
type table struct {
	cloth  cloth.Cloth
	panels []panel.Panel
	start  length.Length
	longer length.Length // how far to look
	done   []plan.Placement
}

func (t *table) layout() plan.Layout {
	l := plan.Layout{Start: t.start, Placements: t.done}
	for _, p := range t.done {
		l.Length = max(l.Length, p.Y+p.Along)
	}
	return l
}

func (t *table) put(k, copy int, turn panel.Turn) {
	p := t.panels[k]
	cut := p.Cut()
	pl := plan.Placement{Panel: k, Copy: copy, Part: 1, Parts: 1, Across: cut.Across, Along: cut.Along, Turn: turn}
	if turn == panel.Quarter {
		pl.Across, pl.Along = cut.Along, cut.Across
	}
	best, found := pl, false
	for _, c := range t.places(p, pl) {
		if t.free(c) && (!found || c.Y+c.Along < best.Y+best.Along || c.Y+c.Along == best.Y+best.Along && c.X < best.X) {
			best, found = c, true
		}
	}
	if !found {
		panic("no place for " + p.ID)
	}
	t.done = append(t.done, best)
}

func (t *table) free(a plan.Placement) bool {
	if a.X < 0 || a.Y < 0 || a.X+a.Across > t.cloth.Width {
		return false
	}
	for _, b := range t.done {
		if a.X < b.X+b.Across && b.X < a.X+a.Across && a.Y < b.Y+b.Along && b.Y < a.Y+a.Along {
			return false
		}
	}
	return true
}

// places are those that a wish admits.
func (t *table) places(p panel.Panel, pl plan.Placement) []plan.Placement {
	var out []plan.Placement
	at := func(x, y length.Length) plan.Placement {
		c := pl
		c.X, c.Y = x, y
		return c
	}
	corners := func() (xs, ys []length.Length) {
		xs, ys = []length.Length{0, t.cloth.Width - pl.Across}, []length.Length{0}
		for _, b := range t.done {
			xs, ys = append(xs, b.X+b.Across), append(ys, b.Y+b.Along)
		}
		return xs, ys
	}
	xs, ys := corners()
	switch p.Match.How {
	case panel.Free:
		for _, x := range xs {
			for _, y := range ys {
				out = append(out, at(x, y))
			}
		}
	case panel.RunsOn:
		out = t.runsOn(p, pl)
	default:
		ref := p.Reference()
		for _, m := range t.motifs(p.Match.Motif) {
			c := at(m.X-ref.Across, m.Y-ref.Along)
			if p.Match.How == panel.Across {
				for _, y := range ys {
					d := at(c.X, y)
					d.Motif = &plan.MotifAt{Motif: m.Motif, X: m.X, Y: m.Y}
					if m.Y > y && m.Y < y+pl.Along {
						out = append(out, d)
					}
				}
				continue
			}
			c.Motif = &m
			out = append(out, c)
		}
	}
	return out
}

// runsOn are the places of a panel below the bottom edge of another.
func (t *table) runsOn(p panel.Panel, pl plan.Placement) []plan.Placement {
	var out []plan.Placement
	for _, b := range t.done {
		q := t.panels[b.Panel]
		if q.ID != p.Match.From || b.Copy != pl.Copy {
			continue
		}
		x := b.X + q.VisualCentre().Across - p.VisualCentre().Across
		y := b.Y + q.Allow.Top + q.Size.Along - p.Allow.Top
		h, v := t.cloth.Pattern.WidthRepeat, t.cloth.Pattern.LengthRepeat
		for i := length.Length(-3); i <= 3; i++ {
			for j := length.Length(-20); j <= 20; j++ {
				c := pl
				c.X, c.Y = x+i*h, y+j*v+i*v/2
				out = append(out, c)
			}
		}
	}
	return out
}

func (t *table) motifs(name string) []plan.MotifAt {
	var out []plan.MotifAt
	p := t.cloth.Pattern
	for k, m := range p.Principal() {
		if name != "" && m.Name != name {
			continue
		}
		for i := length.Length(-3); i <= 6; i++ {
			for j := length.Length(-6); j <= 30; j++ {
				y := m.Along + j*p.LengthRepeat - t.start
				if p.Drop == cloth.Half() {
					y += i * p.LengthRepeat / 2
				}
				if y <= t.longer {
					out = append(out, plan.MotifAt{Motif: k, X: m.Across + i*p.WidthRepeat, Y: y})
				}
			}
		}
	}
	return out
}

func size(across, along length.Length) panel.Size {
	return panel.Size{Across: across, Along: along}
}

func sides(top, bottom, left, right length.Length) panel.Sides {
	return panel.Sides{Top: top, Bottom: bottom, Left: left, Right: right}
}

func all(l length.Length) panel.Sides { return sides(l, l, l, l) }

func wish(how panel.How, motif string) panel.Match { return panel.Match{How: how, Motif: motif} }

func below(id string) panel.Match { return panel.Match{How: panel.RunsOn, From: id} }

func heronAndSedge() cloth.Cloth {
	return cloth.Cloth{Name: "Heron and sedge", Width: 137 * cm, OneWay: true, Pattern: cloth.Pattern{
		LengthRepeat: 64 * cm, WidthRepeat: 685 * cm / 10, Drop: cloth.Half(),
		Motifs: []cloth.Motif{{Name: "heron", Across: 342 * cm / 10}, {Name: "sedge", Along: 32 * cm}},
	}}
}

// say are notes of any wording.
func say(texts ...string) []note.Note {
	var out []note.Note
	for _, t := range texts {
		out = append(out, note.New(note.FireRuleSays, note.Name("says", t)))
	}
	return out
}

var cautions = say(
	"Check the width and the repeat on the cloth itself before the first cut.",
	"Buy all of it from one dye lot.",
	"Roll the whole length out and look for flaws before the first cut.",
)

// wingChair is a wing chair in a half-drop cloth, with a waterfall front.
func wingChair() *service.YardageAnswer {
	ps := []panel.Panel{
		{ID: "IB", Name: "inside back", Count: 1, Size: size(62*cm, 78*cm), Allow: sides(6*cm, 10*cm, 3*cm, 3*cm), Match: wish(panel.Centred, "heron")},
		{ID: "SEAT", Name: "seat", Count: 1, Size: size(56*cm, 60*cm), Allow: sides(8*cm, 15*cm/10, 6*cm, 6*cm), Match: below("IB")},
		{ID: "FB", Name: "front border", Count: 1, Size: size(60*cm, 20*cm), Allow: sides(15*cm/10, 5*cm, 4*cm, 4*cm), Match: below("SEAT")},
		{ID: "IA", Name: "inside arm", Count: 2, Size: size(54*cm, 48*cm), Allow: all(6 * cm), Match: wish(panel.Centred, "heron"), Pair: "IA"},
		{ID: "CT", Name: "cushion top", Count: 1, Size: size(58*cm, 60*cm), Allow: all(15 * cm / 10), Match: wish(panel.Centred, "heron")},
		{ID: "CU", Name: "cushion underside", Count: 1, Size: size(58*cm, 60*cm), Allow: all(15 * cm / 10), Match: wish(panel.Centred, "heron")},
		{ID: "CF", Name: "cushion border, front", Count: 1, Size: size(58*cm, 11*cm), Allow: all(15 * cm / 10), Match: below("CT")},
		{ID: "WI", Name: "inside wing", Count: 2, Size: size(30*cm, 46*cm), Allow: all(5 * cm), Match: wish(panel.Centred, "sedge"), Pair: "WI"},
		{ID: "OB", Name: "outside back", Count: 1, Size: size(62*cm, 80*cm), Allow: all(3 * cm), Match: wish(panel.Across, "heron")},
		{ID: "OA", Name: "outside arm", Count: 2, Size: size(56*cm, 36*cm), Allow: all(3 * cm), Match: wish(panel.Across, "")},
		{ID: "WO", Name: "outside wing", Count: 2, Size: size(28*cm, 44*cm), Allow: all(3 * cm)},
		{ID: "AF", Name: "arm facing", Count: 2, Size: size(11*cm, 48*cm), Allow: all(2 * cm), Match: wish(panel.Across, "sedge")},
		{ID: "CS", Name: "cushion border, side", Count: 2, Size: size(60*cm, 11*cm), Allow: all(15 * cm / 10)},
		{ID: "FLY", Name: "fly", Count: 2, Size: size(50*cm, 12*cm), Allow: all(1 * cm), Turn: panel.Quarter},
		{ID: "BC", Name: "button cover", Count: 9, Size: size(6*cm, 6*cm)},
	}
	t := table{cloth: heronAndSedge(), panels: ps, start: 12 * cm, longer: 12 * length.Metre}
	for k, p := range ps {
		for c := range p.Count {
			turn := panel.Upright
			if p.ID == "FLY" && c == 1 {
				turn = panel.Quarter
			}
			t.put(k, c+1, turn)
		}
	}
	lay := t.layout()
	return &service.YardageAnswer{
		Request: service.YardageRequest{Cloth: t.cloth, Panels: ps},
		Order:   length.Metre * 9, AnyStart: lay.Length + 20*cm,
		Lengths: []service.CutLength{{Needed: lay.Length, Start: lay.Start, Order: 9 * length.Metre}},
		Result: plan.Result{Cut: []plan.Layout{lay}, Bound: lay.Length - 14*cm, BoundBy: "rows of the lattice",
			Rows: lay.Length + 167*cm},
		Offcuts:  gaps(lay, t.cloth.Width),
		Cautions: cautions,
	}
}

// gaps are a few free rectangles, found on a coarse raster.
func gaps(l plan.Layout, width length.Length) []service.Offcut {
	t := table{cloth: cloth.Cloth{Width: width}, done: append([]plan.Placement(nil), l.Placements...)}
	var out []service.Offcut
	for _, s := range []panel.Size{size(30*cm, 60*cm), size(40*cm, 30*cm), size(20*cm, 40*cm), size(60*cm, 15*cm), size(15*cm, 20*cm)} {
		for y := length.Length(0); y+s.Along <= l.Length; y += cm {
			for x := length.Length(0); x+s.Across <= width; x += cm {
				c := plan.Placement{X: x, Y: y, Across: s.Across, Along: s.Along}
				if len(out) < 6 && t.free(c) {
					t.done = append(t.done, c)
					out = append(out, service.Offcut{Rect: plan.Rect{X: x, Y: y, Across: s.Across, Along: s.Along},
						WouldMake: say("FLY fly", "piping strips on the straight")})
				}
			}
		}
	}
	return out
}
