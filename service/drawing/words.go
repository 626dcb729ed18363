package drawing

import (
	"math/bits"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// tape is a length as it is read off a tape: in centimetres to the millimetre
// or in inches to the sixteenth, without the unit.
func tape(l length.Length, sys length.System) string {
	sign := ""
	if l < 0 {
		sign, l = "-", -max(l, -1<<62)
	}
	if sys == length.Imperial {
		n := uint64(l.Round(length.Inch/16, length.Nearest) / (length.Inch / 16))
		return unlessZero(sign, n) + mixed(n/16, n%16)
	}
	n := uint64(l.Round(length.Millimetre, length.Nearest) / length.Millimetre)
	text := strconv.FormatUint(n/10, 10)
	if n%10 != 0 {
		text += "." + strconv.FormatUint(n%10, 10)
	}
	return unlessZero(sign, n) + text
}

func unlessZero(sign string, n uint64) string {
	if n == 0 {
		return ""
	}
	return sign
}

// mixed is whole + num/16.
func mixed(whole, num uint64) string {
	if num == 0 {
		return strconv.FormatUint(whole, 10)
	}
	twos := bits.TrailingZeros64(num)
	frac := strconv.FormatUint(num>>twos, 10) + "/" + strconv.FormatUint(16>>twos, 10)
	if whole == 0 {
		return frac
	}
	return strconv.FormatUint(whole, 10) + " " + frac
}

func tapeUnit(sys length.System) string {
	if sys == length.Imperial {
		return "in"
	}
	return "cm"
}

func tapeName(sys length.System) string {
	if sys == length.Imperial {
		return "inches"
	}
	return "centimetres"
}

func sizeText(across, along length.Length, sys length.System) string {
	return tape(across, sys) + " × " + tape(along, sys) + " " + tapeUnit(sys)
}

// cutText is the size of what is cut, rounded up: it must be enough.
func cutText(s panel.Size, sys length.System) string {
	step := length.Millimetre
	if sys == length.Imperial {
		step = length.Inch / 16
	}
	across, _ := length.RoundUpTo(s.Across, step)
	along, _ := length.RoundUpTo(s.Along, step)
	return sizeText(across, along, sys)
}

// taped is a length that is read off a tape, with its unit.
func taped(l length.Length, sys length.System) string { return tape(l, sys) + " " + tapeUnit(sys) }

func fromStart(l length.Length, sys length.System) string {
	if l == 0 {
		return "at the start"
	}
	return near(l, sys) + " from the start"
}

func fromLeft(l length.Length, sys length.System) string {
	if l == 0 {
		return "on the left selvedge"
	}
	return taped(l, sys) + " from the left selvedge"
}

func near(l length.Length, sys length.System) string { return l.Text(sys, length.Nearest) }

// percent is part of whole to a tenth of a percent, rounded up.
func percent(part, whole length.Length) string {
	if whole <= 0 || part <= 0 {
		return "0 %"
	}
	n, ok := length.Scale(part, 1000, int64(whole), length.Up)
	if !ok {
		return "more than 1000 %"
	}
	text := strconv.FormatInt(int64(n/10), 10)
	if n%10 != 0 {
		text += "." + strconv.FormatInt(int64(n%10), 10)
	}
	return text + " %"
}

// motifName is the name of a motif, for a sentence.
func motifName(p cloth.Pattern, k int) string {
	all := p.Principal()
	if k < 0 || k >= len(all) || clean(all[k].Name) == "" {
		return "motif"
	}
	return apart(all[k].Name)
}

// wishText says what the pattern must do on a panel.
func wishText(p panel.Panel, sys length.System) string {
	m := "a motif"
	if clean(p.Match.Motif) != "" {
		m = apart(p.Match.Motif)
	}
	text := "free"
	switch p.Match.How {
	case panel.Across:
		text = m + " on the middle line down"
		if p.Match.HasPoint() {
			text = m + " " + tape(p.Match.Point.Across, sys) + " " + tapeUnit(sys) + " across"
		}
	case panel.Along:
		text = m + " on the middle line across"
		if p.Match.HasPoint() {
			text = m + " " + tape(p.Match.Point.Along, sys) + " " + tapeUnit(sys) + " down"
		}
	case panel.Centred:
		text = m + " in the middle"
	case panel.Anchor:
		text = m + " at " + tape(p.Match.Point.Across, sys) + " across, " +
			tape(p.Match.Point.Along, sys) + " " + tapeUnit(sys) + " down"
	case panel.RunsOn:
		text = "runs on from " + clean(p.Match.From) + ", " + edgeName(p.Match.Edge) + " edge"
		if p.Match.Offset != 0 {
			text += ", moved " + tape(p.Match.Offset, sys) + " " + tapeUnit(sys)
		}
	}
	if p.Match.Tolerance > 0 {
		text += " ± " + near(p.Match.Tolerance, sys)
	}
	if p.Pair != "" {
		text += pairText(p)
	}
	return text
}

func pairText(p panel.Panel) string {
	with := "; pair with " + clean(p.Pair)
	if p.Pair == p.ID {
		with = "; in pairs"
	}
	if p.PairAs == panel.SameMotif {
		return with + ", same motif"
	}
	return with + ", mirrored"
}

func edgeName(e panel.Edge) string {
	switch e {
	case panel.TopEdge:
		return "top"
	case panel.LeftEdge:
		return "left"
	case panel.RightEdge:
		return "right"
	}
	return "bottom"
}

// clothText describes a cloth in one line.
func clothText(c cloth.Cloth, sys length.System) string {
	parts := []string{taped(c.Width, sys) + " wide"}
	p := c.Pattern
	switch {
	case p.IsPlain():
		parts = append(parts, "plain")
	case p.WidthRepeat == 0:
		parts = append(parts, "repeat "+taped(p.LengthRepeat, sys)+" along")
	case p.LengthRepeat == 0:
		parts = append(parts, "repeat "+taped(p.WidthRepeat, sys)+" across")
	default:
		parts = append(parts, "repeat "+taped(p.LengthRepeat, sys)+" along, "+taped(p.WidthRepeat, sys)+" across", dropText(p.Drop))
	}
	if c.OneWay {
		parts = append(parts, "one way up")
	}
	return strings.Join(parts, "; ")
}

func dropText(d cloth.Drop) string {
	d = d.Reduced()
	switch {
	case d.Num == 0:
		return "straight match"
	case d == cloth.Half():
		return "half-drop"
	}
	return strconv.FormatInt(d.Num, 10) + "/" + strconv.FormatInt(d.Den, 10) + " drop"
}

// proofText says how good the plan is shown to be.
func proofText(r plan.Result, sys length.System) string {
	needed := r.Needed()
	switch {
	case r.Proven:
		return "Proven: no plan is shorter."
	case r.Bound <= 0 || r.Bound > needed:
		return "How short a plan can be is not known."
	case r.Bound == needed:
		return "No plan can use less."
	}
	return "No plan can use less than " + near(r.Bound, sys) + "; this one is at most " +
		percent(needed-r.Bound, r.Bound) + " above that."
}

// handText says what rows laid out by hand take; "" when that is not known.
func handText(r plan.Result, sys length.System) string {
	needed := r.Needed()
	switch {
	case r.Rows <= 0:
		return ""
	case r.Rows > needed:
		return "Laid out in rows by hand: " + near(r.Rows, sys) + ". The plan saves " + near(r.Rows-needed, sys) + "."
	}
	return "Laid out in rows by hand: " + near(r.Rows, sys) + ". The plan takes no less."
}

// beginText says where in the repeat a length begins.
func beginText(c cloth.Cloth, l plan.Layout, sys length.System) string {
	if c.Pattern.LengthRepeat <= 0 {
		return "Begin anywhere: nothing repeats along the roll."
	}
	text := "Begin " + taped(l.Start, sys) + " into the repeat"
	if at, ok := firstMotif(c, l); ok {
		text += ", with a " + motifName(c.Pattern, at.Motif) + " " + taped(at.Y, sys) + " below the cut"
		if c.Pattern.WidthRepeat > 0 {
			text += ", " + fromLeft(at.X, sys)
		}
	}
	return text + "."
}

// enoughText says whether the pieces in hand do.
func enoughText(p *service.PiecesAnswer, sys length.System) string {
	switch p.Enough {
	case service.EnoughYes:
		return "The pieces in hand are enough, wherever in the repeat they begin."
	case service.EnoughIfBegun:
		return "The pieces in hand are enough if each begins where its plan says."
	}
	return "The pieces in hand are not enough: " + near(p.Short, sys) + " more is needed, " + near(p.Order, sys) + " to buy." + provedShort(p, sys)
}

// placedName is a placement's name, such as "OA outside arm 2 of 2".
func placedName(panels []panel.Panel, pl plan.Placement) string {
	p, ok := panelOf(panels, pl)
	if !ok {
		return "panel"
	}
	text := clean(p.ID)
	if name := apart(p.Name); name != "" {
		text += " " + name
	}
	return text + copyText(p, pl)
}

func copyText(p panel.Panel, pl plan.Placement) string {
	if p.Count <= 1 {
		return ""
	}
	return " " + strconv.Itoa(pl.Copy) + " of " + strconv.Itoa(p.Count)
}

func partText(pl plan.Placement) string {
	if pl.Parts <= 1 {
		return ""
	}
	return "part " + strconv.Itoa(pl.Part) + " of " + strconv.Itoa(pl.Parts)
}

func panelOf(panels []panel.Panel, pl plan.Placement) (panel.Panel, bool) {
	if pl.Panel < 0 || pl.Panel >= len(panels) {
		return panel.Panel{}, false
	}
	return panels[pl.Panel], true
}

func turnText(t panel.Turn) string {
	switch t {
	case panel.Half:
		return "top down"
	case panel.Quarter:
		return "top right"
	}
	return "top up"
}

// cutSize is the size of what is cut, as the panel is worn.
func cutSize(pl plan.Placement) (across, along length.Length) {
	if pl.Turn == panel.Quarter {
		return pl.Along, pl.Across
	}
	return pl.Across, pl.Along
}

// provedShort says how much must be bought whatever the plan, when that is
// known.
func provedShort(p *service.PiecesAnswer, sys length.System) string {
	if p.Least <= 0 {
		return ""
	}
	return " No plan can do with less than " + p.Least.Text(sys, length.Down) + " of new cloth."
}
