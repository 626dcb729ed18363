package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// List is the cutting list of the piece and what else it needs. The piece must
// have no faults.
func (p Piece) List() List {
	k, ok := Find(p.Kind)
	if !ok {
		return List{}
	}
	w := &work{piece: p, kind: k, set: p.goesBy(), taken: make(map[string]bool, len(k.Measures))}
	k.build(w)
	for _, m := range k.Measures {
		if _, given := p.Measures[m.ID]; !given && w.taken[m.ID] {
			w.list.Assumed = append(w.list.Assumed, m)
		}
	}
	for _, q := range append(w.panels, w.flies...) {
		q.Count *= max(p.Count, 1)
		w.list.Panels = append(w.list.Panels, *q)
	}
	for i := range w.list.Runs {
		w.list.Runs[i].Count *= max(p.Count, 1)
	}
	for i := range w.list.Fillings {
		w.list.Fillings[i].Count *= max(p.Count, 1)
	}
	for i := range w.list.Frames {
		w.list.Frames[i].Count *= max(p.Count, 1)
	}
	return w.list
}

// work is a list while it is made.
type work struct {
	piece  Piece
	kind   Kind
	set    practice.Set
	panels []*Panel
	flies  []*Panel        // come last, with other linings
	taken  map[string]bool // the measures that were asked for
	list   List
}

// take is a measure of the piece.
func (w *work) take(id string) span {
	m, ok := w.kind.measure(id)
	if !ok {
		return span{}
	}
	w.taken[id] = true
	l, given := w.piece.Measures[id]
	if !given {
		l = m.Typical
	}
	return w.named(m.Name, l)
}

// takeOr is a measure that was given, or else what it mostly is as much as.
func (w *work) takeOr(id string, or span) span {
	_, given := w.piece.Measures[id]
	if _, has := w.kind.measure(id); has && given {
		return w.take(id)
	}
	return or
}

// has reports whether the kind has the option.
func (w *work) has(option string) bool {
	_, ok := w.kind.option(option)
	return ok
}

// named is a length with its name.
func (w *work) named(name string, l length.Length) span {
	return span{l, []term{{times: 1, name: name, l: l}}}
}

func (w *work) text(l length.Length) string { return l.Text(w.piece.Units, length.Nearest) }

// is reports whether the option is chosen so.
func (w *work) is(option, choice string) bool {
	o, ok := w.kind.option(option)
	if !ok {
		return false
	}
	if chosen, given := w.piece.Options[option]; given {
		return chosen == choice
	}
	return o.Choices[0].ID == choice
}

// cut puts a panel on the list.
func (w *work) cut(id, name string, across, along span, e edges) *Panel {
	p := w.make(id, name, across, along, e)
	w.panels = append(w.panels, p)
	return p
}

func (w *work) make(id, name string, across, along span, e edges) *Panel {
	p := &Panel{Panel: panel.Panel{
		ID: id, Name: name, Count: 1,
		Size:     panel.Size{Across: across.l, Along: along.l},
		Allow:    panel.Sides{Top: e.top.l(), Bottom: e.bottom.l(), Left: e.left.l(), Right: e.right.l()},
		Join:     panel.JoinSides,
		JoinSeam: min(w.seam().l(), panel.MaxJoinSeam),
	}}
	cut, down := across.between(e.left, e.right, "left", "right"), along.between(e.top, e.bottom, "top", "bottom")
	p.How = note.New(note.PanelDerived,
		note.Length("across", cut.l, length.Up), note.Name("acrossFrom", cut.sum(w.piece.Units)),
		note.Length("along", down.l, length.Up), note.Name("alongFrom", down.sum(w.piece.Units)))
	p.across = cut
	return p
}

// copies makes a panel several alike.
func (p *Panel) copies(n int) *Panel {
	p.Count = n
	return p
}

// shows puts the main motif in the middle.
func (w *work) shows(p *Panel) *Panel {
	p.Match = panel.Match{How: panel.Centred, Motif: w.piece.Motif}
	return p
}

// matched puts a motif on the line down the middle.
func matched(p *Panel) *Panel {
	p.Match = panel.Match{How: panel.Across}
	return p
}

// runsOn lets the pattern run on from another panel's bottom edge.
func (p *Panel) runsOn(from *Panel) {
	p.Match = panel.Match{How: panel.RunsOn, From: from.ID, Edge: panel.BottomEdge}
}

// outside moves a panel to the outside cloth, when there is one.
func (w *work) outside(p *Panel) *Panel {
	if w.is("outside", "other") {
		p.Cover = Outside
	}
	return p
}

// pair cuts two panels that mirror one another.
func (w *work) pair(id, name string, across, along span, e edges) (left, right *Panel) {
	left = w.cut(id+"L", name+", left", across, along, e)
	right = w.cut(id+"R", name+", right", across, along, e.mirrored())
	left.Pair = right.ID
	return left, right
}

// line puts a panel of lining on the list, after all others.
func (w *work) line(p *Panel) {
	p.Cover = Lining
	w.flies = append(w.flies, p)
}

// hide cuts a panel from lining that covers a part which nobody sees.
func hide(p *Panel) { p.Cover, p.Hidden = Lining, true }

// run adds a run of piping, when the option asks for as much.
func (w *work) run(name string, l length.Length, closed bool, corners, count int) {
	w.list.Runs = append(w.list.Runs, Run{Name: name, Length: l, Closed: closed, Corners: corners, Count: count})
}

func (w *work) pipesCushions() bool { return w.is("piping", "cushions") || w.is("piping", "all") }
func (w *work) pipesEdges() bool    { return w.is("piping", "all") }

func (w *work) frame(id string, across, along span, place Place) {
	w.list.Frames = append(w.list.Frames, Frame{ID: id, Count: 1, Size: panel.Size{Across: across.l, Along: along.l}, Place: place})
}

func (w *work) pad(id, name string, across, along span, thick length.Length, place Place) {
	w.list.Fillings = append(w.list.Fillings, Filling{
		ID: id, Name: name, Count: 1, Size: panel.Size{Across: across.l, Along: along.l}, Thickness: thick, Place: place,
	})
}
