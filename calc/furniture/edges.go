package furniture

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// The edges of a panel, in the words of the trade: what is added to the part that
// shows, by what happens there.

// part is a length with its name.
type part struct {
	name string
	l    length.Length
}

// edge is what is added at one side: how far the cover goes on past the show line,
// where that is a figure of its own, and what is added to it.
type edge struct{ past, add part }

func (e edge) l() length.Length { return e.past.l + e.add.l }

// parts are what it is the sum of.
func (e edge) parts() []part {
	var out []part
	for _, p := range []part{e.past, e.add} {
		if p.name != "" {
			out = append(out, p)
		}
	}
	return out
}

// edges are what is added on each side, as the panel is worn.
type edges struct{ top, bottom, left, right edge }

func all(e edge) edges { return edges{e, e, e, e} }

func (e edges) mirrored() edges {
	e.left, e.right = e.right, e.left
	return e
}

func (w *work) row(name string, k practice.LengthKey) edge {
	return edge{add: part{name, w.set.Length(k)}}
}

// workroom reports whether the cover is cut with the hold of a workroom.
func (w *work) workroom() bool { return w.set.Way() == practice.Workroom }

// called is a name by the way of cutting.
func (w *work) called(close, workroom string) string {
	if w.workroom() {
		return workroom
	}
	return close
}

func (w *work) seam() edge   { return w.row("seam", practice.CoverSeam) }
func (w *work) tuck() edge   { return w.row("tuck-in", practice.CoverTuck) }
func (w *work) under() edge  { return w.row("turn-under", practice.CoverUnder) }
func (w *work) rebate() edge { return w.row("trim at the rebate", practice.RebateTrim) }

// pull is tacked off where the tape of the panel ends.
func (w *work) pull() edge { return w.row(w.called("pull", "hand-hold"), practice.CoverPull) }

// joint is a short tuck, tacked off out of sight.
func (w *work) joint() edge { return w.row("tuck-in", practice.CoverJoint) }

// backTack is at the top of a panel of the outside, outEdge at its sides.
func (w *work) backTack() edge { return w.row(w.called("seam", "back-tack"), practice.BackTack) }
func (w *work) outEdge() edge  { return w.row(w.called("seam", "turn-in"), practice.OutsideSide) }

// borderEnd is where a front border goes round the post.
func (w *work) borderEnd() edge {
	return w.row(w.called("pull", "round the post"), practice.BorderEnd)
}

// tackedUnder is where a cover in one piece is tacked beneath the edge of a frame
// or behind a board: with a hold in the workroom's way.
func (w *work) tackedUnder() edge {
	if w.workroom() {
		return w.pull()
	}
	return w.under()
}

// beneath is what is tacked beneath a drop-in seat.
func (w *work) beneath() edge { return w.row(w.called("pull", "turn beneath"), practice.DropInTurn) }

// over is a free edge that is stuffed over. The workroom's way runs over the edge
// to the tack line, which a measure of its own gives, and leaves a hold there. The
// close way has both in the pull, and so has a kind whose tape ends at the tack line
// and which has no such measure.
func (w *work) over(measure string) edge {
	if _, has := w.kind.measure(measure); !has || !w.workroom() {
		return w.pull()
	}
	thick := w.take(measure)
	return edge{part{thick.terms[0].name, thick.l}, w.pull().add}
}

// wrapped is an edge that goes round the whole of a pad or a board.
func wrapped(thick span, e edge) edge { return edge{part{thick.terms[0].name, thick.l}, e.add} }

// facing closes the front of an arm round its edge.
func (w *work) facing() edge {
	row := practice.FacingTurn
	if w.is("facing", "ply") {
		row = practice.PlyTurn
	}
	return w.row(w.called("seam", "turn-in"), row)
}

// closed is round a panel of the outside: tacked from behind at the top, turned in
// at the sides, and with its own edge at the foot.
func (w *work) closed(foot edge) edges {
	return edges{top: w.backTack(), bottom: foot, left: w.outEdge(), right: w.outEdge()}
}

// tucked is an edge that is tucked in where nobody sees it: of the cover itself,
// or a seam to a fly, a strip of lining. The seam of the workroom's way lies out of
// sight. Along is how long the edge is, n how many panels have it.
func (w *work) tucked(id, of string, along span, n int) edge {
	if !w.is("flies", "yes") {
		return w.tuck()
	}
	if depth := w.set.Length(practice.FlyDepth); depth >= panel.MinSize {
		w.line(w.make("FLY"+id, "fly of "+of, along, w.named("tuck-in", depth), all(w.seam())).copies(n))
	}
	e := w.seam()
	if past := w.set.Length(practice.FlyPast); past > 0 {
		e.past = part{"tuck-in", past}
	}
	return e
}
