package panel

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// The limits of what is believed of a panel and of a cutting list.
const (
	MinSize     = length.Millimetre
	MaxSize     = 100 * length.Metre
	MaxAllow    = 2 * length.Metre
	MaxJoinSeam = 10 * length.Centimetre
	MaxOffset   = 100 * length.Metre // of a runs-on panel along its seam

	// What one plan takes. A longer list is refused, with this number, wherever it is
	// sent: it is no plan worked out with less effort.
	MaxCopies  = 2000                   // of all panels together
	MaxParts   = 100                    // of one joined panel
	MaxPlaced  = 6000                   // copies and parts of all panels together
	MaxLaidOut = 100_000 * length.Metre // every copy and part, end to end
)

// Faults are what is wrong with the panel by itself, whatever the cloth and
// the other panels; at is where it stands.
func (p Panel) Faults(at fault.Path) fault.List {
	var l fault.List
	if p.Count < 1 {
		l.Add(at.Field("count"), fault.TooSmall, strconv.Itoa(p.Count), "a panel is cut at least once", "1 or more")
	}
	l.Append(p.extentFaults(at))
	p.Match.faults(&l, at.Field("match"), p.Size)
	return l
}

// extentFaults wants everything that makes up the cut size in its range.
func (p Panel) extentFaults(at fault.Path) fault.List {
	var l fault.List
	size := at.Field("size")
	l.Between(size.Field("across"), "a finished size", p.Size.Across, MinSize, MaxSize)
	l.Between(size.Field("along"), "a finished size", p.Size.Along, MinSize, MaxSize)
	l.Append(p.Allow.Faults(at.Field("allow")))
	l.Between(at.Field("joinSeam"), "the seam of a join", p.JoinSeam, 0, MaxJoinSeam)
	return l
}

// Faults wants every allowance in its range; one amount on all four sides that
// is out of it is one fault.
func (s Sides) Faults(at fault.Path) fault.List {
	const what = "an allowance"
	var l fault.List
	if s.Top == s.Bottom && s.Top == s.Left && s.Top == s.Right {
		l.Between(at, what, s.Top, 0, MaxAllow)
		return l
	}
	l.Between(at.Field("top"), what, s.Top, 0, MaxAllow)
	l.Between(at.Field("bottom"), what, s.Bottom, 0, MaxAllow)
	l.Between(at.Field("left"), what, s.Left, 0, MaxAllow)
	l.Between(at.Field("right"), what, s.Right, 0, MaxAllow)
	return l
}

// faults wants the fields that the wish needs, in their ranges, and no others.
func (m Match) faults(l *fault.List, at fault.Path, size Size) {
	if m.HasPoint() {
		point := at.Field("point")
		l.Between(point.Field("across"), "the point", m.Point.Across, 0, max(size.Across, 0))
		l.Between(point.Field("along"), "the point", m.Point.Along, 0, max(size.Along, 0))
	}
	if m.How == RunsOn && m.From == "" {
		l.Add(at.Field("from"), fault.Missing, "", "runs-on needs the panel whose pattern continues", "the id of another panel")
	}
	if m.How == RunsOn {
		l.Between(at.Field("offset"), "the offset", m.Offset, -MaxOffset, MaxOffset)
	}
	m.strays(l, at)
	if m.Tolerance < 0 {
		l.Add(at.Field("tolerance"), fault.TooSmall, m.Tolerance.String(), "a tolerance is not negative", "0 mm or more")
	}
}

// strays are the fields that say nothing under this wish.
func (m Match) strays(l *fault.List, at fault.Path) {
	refuse := func(field string, set bool, only string) {
		if set {
			l.Add(at.Field(field), fault.NotAllowed, "", field+" belongs to "+only, "leave "+field+" out, or change how")
		}
	}
	refuse("motif", m.Motif != "" && (m.How == Free || m.How == RunsOn), "across, along, centred and anchor")
	refuse("point", (m.AtPoint || m.Point != Point{}) && !m.HasPoint(), "anchor, across and along")
	refuse("from", m.From != "" && m.How != RunsOn, "runs-on")
	refuse("offset", m.Offset != 0 && m.How != RunsOn, "runs-on")
	refuse("tolerance", m.Tolerance != 0 && m.How == Free, "every wish but free")
}
