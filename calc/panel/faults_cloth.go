package panel

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// ClothFaults are what is wrong with cutting the list from that cloth, sold in
// lengths of at most bolt (0 for no limit). at is where the list stands. A
// width or a bolt below what is believed of a cloth is a fault of the cloth,
// and no panel is held against it.
func ClothFaults(list []Panel, c cloth.Cloth, bolt length.Length, at fault.Path) fault.List {
	var l fault.List
	for i, p := range list {
		here := at.Index(i)
		p.patternFaults(&l, c.Pattern, here.Field("match"))
		p.turnFaults(&l, c, here.Field("turn"))
	}
	if bolt < cloth.MinBolt {
		bolt = 0
	}
	if c.Width >= cloth.MinWidth {
		fit := fitting{cloth: c, bolt: bolt}
		fit.faults(&l, list, at)
	}
	return l
}

// patternFaults wants a pattern that can do what the match asks.
func (p Panel) patternFaults(l *fault.List, pat cloth.Pattern, at fault.Path) {
	needs := func(repeat string) {
		l.Add(at.Field("how"), fault.NeedsPattern, "", "the cloth has no "+repeat+" for this wish",
			"give the repeat under cloth.pattern, or ask for free")
	}
	switch p.Match.How {
	case Across:
		if pat.WidthRepeat == 0 {
			needs("width repeat")
		}
	case Along:
		if pat.LengthRepeat == 0 {
			needs("length repeat")
		}
	case Centred, Anchor:
		if pat.IsPlain() {
			needs("repeat")
		}
	}
	if name := p.Match.Motif; name != "" {
		if _, ok := pat.Find(name); !ok {
			l.Add(at.Field("motif"), fault.UnknownMotif, name, "the cloth has no motif of this name", motifNames(pat))
		}
	}
	if most, ok := maxTolerance(pat); ok && p.Match.Tolerance > most {
		l.Add(at.Field("tolerance"), fault.TooLarge, p.Match.Tolerance.String(),
			"a tolerance is at most a tenth of the smallest repeat", "at most "+most.String())
	}
}

// motifNames says which motifs may be asked for, the first few by name.
func motifNames(pat cloth.Pattern) string {
	const few = 4
	if len(pat.Motifs) == 0 {
		return "leave motif out, or name it under cloth.pattern.motifs"
	}
	s := "one of"
	for i, m := range pat.Motifs {
		if i == few {
			return s + " and others"
		}
		s += " " + m.Name
	}
	return s
}

// maxTolerance is a tenth of the smallest repeat; false for a plain cloth.
func maxTolerance(pat cloth.Pattern) (length.Length, bool) {
	switch v, h := pat.LengthRepeat, pat.WidthRepeat; {
	case v > 0 && h > 0:
		return min(v, h) / 10, true
	case v > 0 || h > 0:
		return max(v, h) / 10, true
	}
	return 0, false
}

// turnFaults wants a cloth on which the panel may be turned as it says.
func (p Panel) turnFaults(l *fault.List, c cloth.Cloth, at fault.Path) {
	switch {
	case p.Turn == Half && c.OneWay:
		l.Add(at, fault.NotAllowed, "half", "on a one-way cloth no panel may be upside down", "turn never, or oneWay false")
	case p.Turn == Quarter && !p.mayQuarter(c):
		l.Add(at, fault.NotAllowed, "quarter", "this cloth may not be railroaded, and the panel's wish keeps it upright",
			"match free, or railroad allowed")
	}
}

// mayQuarter reports whether the cloth lets the panel's own quarter turn be.
func (p Panel) mayQuarter(c cloth.Cloth) bool {
	return c.Railroad != cloth.RailroadNever || p.Match.How == Free || c.Pattern.IsPlain() && !c.OneWay
}

// fitting asks which panels fit the width of a cloth and its bolt.
type fitting struct {
	cloth cloth.Cloth
	bolt  length.Length
}

// faults wants one way of laying the cloth on which every panel fits: up the
// roll, across it, or either, as the cloth allows.
func (f fitting) faults(l *fault.List, list []Panel, at fault.Path) {
	var up, across fault.List
	sum := placed{}
	for i, p := range list {
		here := at.Index(i)
		if own := p.extentFaults(here); own.Len() > 0 {
			continue
		}
		f.panel(&up, p, here, false)
		f.panel(&across, p, here, true)
		sum.add(p, f.parts(p))
	}
	switch f.cloth.Railroad {
	case cloth.RailroadNever:
		l.Append(up)
	case cloth.RailroadAlways:
		l.Append(across)
	default:
		if up.Len() > 0 && across.Len() > 0 {
			l.Append(up)
		}
	}
	sum.faults(l, at)
}

// panel records why p does not fit with the roll laid that way, if so.
func (f fitting) panel(l *fault.List, p Panel, at fault.Path, railroaded bool) {
	w, cut := f.cloth.Width, p.Cut()
	x, y := cut.Across, cut.Along
	width, along := at.Field("size").Field("across"), at.Field("size").Field("along")
	joined := p.Join != NoJoin && f.parts(p) > 0
	if railroaded {
		x, y = y, x
		width, along = along, width
		joined = false
	}
	wide := x > w && !joined
	long := f.bolt > 0 && y > f.bolt
	if p.Turn == Quarter && p.mayQuarter(f.cloth) && y <= w && (f.bolt == 0 || x <= f.bolt) {
		return
	}
	if wide {
		l.Add(width, fault.WiderThanCloth, "", fmt.Sprintf("cut with its allowances the panel is %s wide and the cloth %s", x, w),
			"a join, a turn, a wider cloth, or railroad where the cloth allows it")
	}
	if long && !wide {
		l.Add(along, fault.LongerThanBolt, "", fmt.Sprintf("cut with its allowances the panel is %s long and a bolt %s", y, f.bolt),
			"a longer bolt, or the panel in two")
	}
}

// parts is into how many parts the panel is cut when laid up the roll: 1 when
// it need not be joined, 0 when joining does not help.
func (f fitting) parts(p Panel) int {
	x, w := p.Cut().Across, f.cloth.Width
	if x <= w {
		return 1
	}
	usable := w - 2*p.JoinSeam
	switch p.Join {
	case JoinHalves:
		if (x+1)/2+p.JoinSeam <= w {
			return 2
		}
	case JoinSides:
		if usable <= 0 {
			return 0
		}
		// a middle as wide as can be, and as many on each side as it takes
		side := (x - usable + 1) / 2
		n := 1 + 2*int((side+usable-1)/usable)
		if n <= MaxParts {
			return n
		}
	}
	return 0
}

// placed adds up what a list comes to on the cloth.
type placed struct {
	parts int
	along length.Length
}

func (s *placed) add(p Panel, parts int) {
	cut := p.Cut()
	n := min(max(p.Count, 0), MaxCopies+1) // more is a fault already, and the sum stays in range
	long := max(cut.Across, cut.Along)
	if parts > 1 {
		long = cut.Along
	}
	s.parts += n * max(parts, 1)
	s.along += length.Length(n*max(parts, 1)) * long
}

func (s *placed) faults(l *fault.List, at fault.Path) {
	switch {
	case s.parts > MaxPlaced:
		overMost(l, at, "parts with its joins", s.parts, MaxPlaced)
	case s.along > MaxLaidOut:
		most := MaxLaidOut.Text(length.Metric, length.Nearest)
		l.Add(at, fault.TooMany, s.along.Text(length.Metric, length.Up), "end to end the list is longer than "+most+", which is the most that one plan takes",
			"at most "+most+": ask for several plans, each of a part of the list")
	}
}
