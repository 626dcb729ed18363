package job

import (
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
)

// The faults of a part point into the request of that part. Here they are moved
// to where the caller can mend them.

func clothPath(c int) fault.Path { return fault.Path("").Field("cloths").Index(c) }

// clothPath is where a cloth stands; of the usual lining, all cloths.
func (j *jobber) clothPath(c int) fault.Path {
	if c < len(j.req.Cloths) {
		return clothPath(c)
	}
	return fault.Path("").Field("cloths")
}

// moved is a fault at another place, of which only what comes after keep stays.
func moved(f fault.Fault, at fault.Path, keep string) fault.List {
	f.Pointer = "#" + keep
	return fault.ListOf(f).Below(at)
}

// underCloth moves a fault of the cloth of a part; false when it is no such.
func (j *jobber) underCloth(f fault.Fault, c int) (fault.List, bool) {
	rest, ok := strings.CutPrefix(f.Pointer, "#/cloth")
	if !ok || rest != "" && rest[0] != '/' {
		return fault.List{}, false
	}
	if c >= len(j.req.Cloths) {
		return moved(f, j.clothPath(c), ""), true
	}
	return moved(f, j.clothPath(c).Field("cloth"), rest), true
}

// placed moves the faults of a plan: to the panel that was given, or, for one that
// was made from measures, to the cloth that it is too wide for, or to its piece.
func (j *jobber) placed(l fault.List, c int, panels []panel.Panel, places []place) fault.List {
	var out fault.List
	for _, f := range l.Faults() {
		if under, ok := j.underCloth(f, c); ok {
			out.Append(under)
			continue
		}
		n, rest := entryOf(f.Pointer, "#/panels/")
		if n < 0 || n >= len(places) {
			out.Append(moved(f, fault.Path("").Field("pieces"), ""))
			continue
		}
		if !strings.Contains(f.Detail, panels[n].ID) {
			f.Detail = panels[n].ID + ": " + f.Detail
		}
		switch at := places[n]; {
		case at.at != "":
			out.Append(moved(f, at.at, rest))
		case f.Code == fault.WiderThanCloth && c < len(j.req.Cloths):
			out.Append(moved(f, clothPath(c).Field("cloth").Field("width"), ""))
		default:
			out.Append(moved(f, piecePath(at.piece), ""))
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
		if n, _ := entryOf(f.Pointer, "#/runs/"); n >= 0 && n < len(j.work[c].runOf) {
			i := j.work[c].runOf[n]
			if k := n - j.firstRun(c, i) - len(j.lists[i].List.Runs); k >= 0 {
				_, rest := entryOf(f.Pointer, "#/runs/")
				out.Append(moved(f, piecePath(i).Field("runs").Index(k), rest))
				continue
			}
			out.Append(moved(f, piecePath(i), ""))
			continue
		}
		if strings.HasPrefix(f.Pointer, "#/runs") {
			out.Append(moved(f, fault.Path("").Field("pieces"), ""))
			continue
		}
		out.Append(fault.ListOf(f).Below(fault.Path("").Field("piping")))
	}
	return out
}

// firstRun is the first run of a piece among those of a cloth.
func (j *jobber) firstRun(c, piece int) int {
	for n, i := range j.work[c].runOf {
		if i == piece {
			return n
		}
	}
	return 0
}

// chartPlaced moves the faults of a chart.
func (j *jobber) chartPlaced(l fault.List, piece, c int) fault.List {
	at := piecePath(piece)
	var out fault.List
	for _, f := range l.Faults() {
		if under, ok := j.underCloth(f, c); ok {
			out.Append(under)
			continue
		}
		if rest, ok := strings.CutPrefix(f.Pointer, "#/panel"); ok {
			for _, field := range []string{"/margins", "/crown"} {
				if strings.HasPrefix(rest, field) {
					out.Append(moved(f, at.Field("buttoning"), rest))
				}
			}
			if !strings.HasPrefix(rest, "/margins") && !strings.HasPrefix(rest, "/crown") {
				out.Append(moved(f, at, ""))
			}
			continue
		}
		if j.req.Pieces[piece].NoAim && strings.HasPrefix(f.Pointer, "#/aim") {
			out.Append(moved(f, at.Field("motif"), ""))
			continue
		}
		out.Append(fault.ListOf(f).Below(at.Field("buttoning")))
	}
	return out
}

// itemPlaced moves the faults of a list of items that come from pieces: of is the
// piece of each, list the name of the list, and under where all else stands.
func itemPlaced(l fault.List, list string, of []int, under fault.Path) fault.List {
	var out fault.List
	for _, f := range l.Faults() {
		n, _ := entryOf(f.Pointer, "#/"+list+"/")
		switch {
		case n >= 0 && n < len(of):
			out.Append(moved(f, piecePath(of[n]), ""))
		case strings.HasPrefix(f.Pointer, "#/"+list):
			out.Append(moved(f, fault.Path("").Field("pieces"), ""))
		default:
			out.Append(fault.ListOf(f).Below(under))
		}
	}
	return out
}
