package job

import (
	"slices"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
)

// The faults of a part stand at places of the request of that part. Here they are moved
// to where the caller can mend them.

func clothPath(c int) fault.Path { return fault.At("cloths").Index(c) }

// clothPath is where a cloth stands; of the usual lining, all cloths.
func (j *jobber) clothPath(c int) fault.Path {
	if c < len(j.req.Cloths) {
		return clothPath(c)
	}
	return fault.At("cloths")
}

// moved is a fault at another place.
func moved(f fault.Fault, to fault.Path) fault.List {
	f.Path = to
	return fault.ListOf(f)
}

// underCloth moves a fault of the cloth of a part; false when it is no such.
func (j *jobber) underCloth(f fault.Fault, c int) (fault.List, bool) {
	rest, ok := f.Path.In("cloth")
	switch {
	case !ok:
		return fault.List{}, false
	case c >= len(j.req.Cloths):
		return moved(f, j.clothPath(c)), true
	}
	return moved(f, j.clothPath(c).Field("cloth").Then(rest)), true
}

// placed moves the faults of a plan: to the panel that was given, or, for one that
// was made from measures, to the cloth that it is too wide for, or to its piece.
// The panel's id is put before a detail that does not name it.
func (j *jobber) placed(l fault.List, c int, panels []panel.Panel, places []place, named bool) fault.List {
	var out fault.List
	for _, f := range l.Faults() {
		if under, ok := j.underCloth(f, c); ok {
			out.Append(under)
			continue
		}
		list, _ := f.Path.In("panels")
		n, rest, ok := list.Entry()
		if !ok {
			out.Append(moved(f, fault.At("pieces")))
			continue
		}
		if !named {
			f.Detail = panels[n].ID + ": " + f.Detail
		}
		switch at := places[n]; {
		case !at.at.IsBody():
			out.Append(moved(f, at.at.Then(rest)))
		case f.Code == fault.WiderThanCloth && c < len(j.req.Cloths):
			out.Append(moved(f, clothPath(c).Field("cloth").Field("width")))
		default:
			out.Append(moved(f, piecePath(at.piece)))
		}
	}
	return out
}

// pipingPlaced moves the faults of the piping of a cloth.
func (j *jobber) pipingPlaced(l fault.List, c int) fault.List {
	var out fault.List
	for _, f := range l.Faults() {
		if under, ok := j.underCloth(f, c); ok {
			out.Append(under)
			continue
		}
		list, ok := f.Path.In("runs")
		if !ok {
			out.Append(moved(f, fault.At("piping").Then(f.Path)))
			continue
		}
		n, rest, ok := list.Entry()
		if !ok {
			out.Append(moved(f, fault.At("pieces")))
			continue
		}
		i := j.work[c].runOf[n]
		to := piecePath(i)
		if k := n - j.firstRun(c, i) - len(j.lists[i].List.Runs); k >= 0 {
			to = to.Field("runs").Index(k).Then(rest)
		}
		out.Append(moved(f, to))
	}
	return out
}

// firstRun is the first run of a piece among those of a cloth.
func (j *jobber) firstRun(c, piece int) int { return slices.Index(j.work[c].runOf, piece) }

// chartPlaced moves the faults of a chart.
func (j *jobber) chartPlaced(l fault.List, piece, c int) fault.List {
	at := piecePath(piece)
	var out fault.List
	for _, f := range l.Faults() {
		if under, ok := j.underCloth(f, c); ok {
			out.Append(under)
			continue
		}
		to := at.Field("buttoning").Then(f.Path)
		if rest, ok := f.Path.In("panel"); ok {
			if to = at; chartPanel(rest) {
				to = at.Field("buttoning").Then(rest)
			}
		}
		if _, ok := f.Path.In("aim"); ok && j.req.Pieces[piece].Buttoning.Aim == nil {
			to = at.Field("motif")
		}
		out.Append(moved(f, to))
	}
	return out
}

// itemPlaced moves the faults of a list of items that come from pieces: of is the
// piece of each, list the name of the list, and under where all else stands.
func itemPlaced(l fault.List, list string, of []int, under fault.Path) fault.List {
	var out fault.List
	for _, f := range l.Faults() {
		to := under.Then(f.Path)
		if rest, ok := f.Path.In(list); ok {
			to = fault.At("pieces")
			if n, _, ok := rest.Entry(); ok {
				to = piecePath(of[n])
			}
		}
		out.Append(moved(f, to))
	}
	return out
}
