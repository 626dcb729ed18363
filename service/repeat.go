package service

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/repeat"
)

// RepeatRequest asks how drops of one cloth are cut so that the pattern meets.
type RepeatRequest struct {
	Units  length.System
	Cloth  cloth.Cloth
	Sold   cloth.Sold
	Drops  []RepeatDrop
	Seam   length.Length // allowance at either side of a width
	Rule   repeat.Rule
	Centre *RepeatCentre // nil: nothing is to be centred
	Panel  *RepeatPanel  // nil: no panel is asked about
}

// RepeatDrop is one kind of drop.
type RepeatDrop struct {
	Name   string
	Length length.Length
	Count  int
	Widths int
	Place  *RepeatPlace // where a motif falls; nil where that is left open
}

// RepeatPlace is where in a drop a motif falls.
type RepeatPlace struct {
	Motif   string // "" is the first
	FromTop length.Length
}

// RepeatCentre asks what lies in the middle of a finished width.
type RepeatCentre struct {
	Finished length.Length
	Motif    string
}

// RepeatPanel asks where a panel may begin so that a motif is whole.
type RepeatPanel struct {
	Finished repeat.Extent
	Motif    string
	Size     repeat.Extent // of the motif
}

// RepeatAnswer is the cutting of the drops. Lengths are exact.
type RepeatAnswer struct {
	Request  RepeatRequest
	Layout   repeat.Layout
	Kinds    []repeat.Kind // by drop
	Seam     repeat.Seam
	Rules    []RuleTotal   // the exact layout first
	Needed   length.Length // by the rule asked for, from the best start
	AnyStart length.Length // by that rule, wherever the cloth begins
	Order    length.Length // AnyStart as sold; Needed when the start is known
	Motif    *repeat.Centring
	Gap      *repeat.Centring
	Window   *repeat.Window
	Warnings []note.Note
	Cautions []note.Note
}

// RuleTotal is what a rule reckons for all drops.
type RuleTotal struct {
	Rule  repeat.Rule
	Total length.Length
}

// Repeat answers a request that has no faults.
func Repeat(req RepeatRequest) (*RepeatAnswer, error) {
	a := &RepeatAnswer{Request: req, Seam: repeat.SeamOf(req.Cloth, req.Seam)}
	drops := req.drops()
	for _, d := range drops {
		a.Kinds = append(a.Kinds, repeat.KindOf(req.Cloth, d, a.Seam))
	}
	a.Layout = repeat.Lay(req.Cloth, drops, a.Seam)
	a.Rules = []RuleTotal{{repeat.Exact, a.Layout.Length}}
	a.Needed, a.AnyStart = a.Layout.Length, a.Layout.AnyStart
	if repeat.IsHalf(req.Cloth.Pattern) {
		a.printedRules(drops)
	}
	buy := a.AnyStart
	if req.Cloth.StartsAt != nil {
		buy = a.Needed
	}
	var err error
	if a.Order, err = req.Sold.Order(buy); err != nil {
		return nil, err
	}
	a.asked()
	a.Warnings = note.Listed(repeatWarnings(a), note.Most)
	a.Cautions = note.Listed(yardageCautions(YardageRequest{Cloth: req.Cloth, Sold: req.Sold}), note.Most)
	return a, nil
}

// printedRules reckons by the printed rules, and goes by the one asked for. A rule
// reckons from a start that suits it, or from the one that is known; from any start,
// at worst a repeat is passed over before that.
func (a *RepeatAnswer) printedRules(drops []repeat.Drop) {
	known, best := a.Request.Cloth, a.Request.Cloth
	best.StartsAt = nil
	for _, r := range []repeat.Rule{repeat.HalfRepeatOnce, repeat.HalfRepeatEach, repeat.InTurn} {
		total := repeat.Printed(r, known, drops, a.Seam, a.Layout.Length)
		a.Rules = append(a.Rules, RuleTotal{r, total})
		if r != a.Request.Rule {
			continue
		}
		a.Needed, a.AnyStart = total, repeat.Printed(r, best, drops, a.Seam, a.Layout.Length)
		if a.Layout.Placed {
			a.AnyStart += known.Pattern.LengthRepeat
		}
	}
}

// asked works out what was asked beside the drops.
func (a *RepeatAnswer) asked() {
	req := a.Request
	if q := req.Centre; q != nil {
		k := req.motif(q.Motif)
		motif := repeat.Centre(req.Cloth, a.Seam, k, false, q.Finished)
		gap := repeat.Centre(req.Cloth, a.Seam, k, true, q.Finished)
		a.Motif, a.Gap = &motif, &gap
	}
	if q := req.Panel; q != nil {
		w := repeat.WindowOf(req.Cloth, req.motif(q.Motif), q.Size, q.Finished)
		a.Window = &w
	}
}

// CentreMotif reports whether a motif in the middle leaves the larger part of a
// repeat at the sides; otherwise the gap between two does.
func (a *RepeatAnswer) CentreMotif() bool { return a.Motif.Part >= a.Gap.Part }

// motif is the place of a motif in the cloth's list; a name that is left out is
// the first.
func (r RepeatRequest) motif(name string) int {
	if name == "" {
		return 0
	}
	k, _ := r.Cloth.Pattern.Find(name)
	return k
}

func (r RepeatRequest) drops() []repeat.Drop {
	out := make([]repeat.Drop, len(r.Drops))
	for i, d := range r.Drops {
		out[i] = repeat.Drop{Name: d.Name, Length: d.Length, Count: d.Count, Widths: d.Widths}
		if d.Place != nil {
			out[i].Place = &repeat.Place{Motif: r.motif(d.Place.Motif), FromTop: d.Place.FromTop}
		}
	}
	return out
}

// joins reports whether some drop is joined of several widths.
func (r RepeatRequest) joins() bool {
	for _, d := range r.Drops {
		if d.Widths > 1 {
			return true
		}
	}
	return false
}

// repeatWarnings are what the caller should know about this answer.
func repeatWarnings(a *RepeatAnswer) []note.Note {
	req, s := a.Request, a.Seam
	var out []note.Note
	size := func(l length.Length) length.Length { return max(l, -l) }
	if req.joins() {
		switch {
		case !s.CanMeet:
			out = append(out, note.New(note.CannotMeet, note.Length("out", size(s.Remaining), length.Up)))
		case s.Trim > 0:
			out = append(out, note.New(note.TurnInMore, note.Length("off", size(s.Off), length.Up), note.Length("trim", s.Trim, length.Up), note.Length("letOut", max(s.LetOut, 0), length.Up)))
		}
		if d := req.Cloth.Pattern.Drop; s.CanMeet && !d.IsStraight() && s.Columns > 0 && s.Columns*d.Num%d.Den == 0 {
			out = append(out, note.New(note.WidthsAlike, note.Count("columns", s.Columns)))
		}
	}
	longest := length.Length(0)
	for _, d := range req.Drops {
		longest = max(longest, d.Length)
	}
	switch b := req.Sold.Bolt; {
	case b <= 0 || a.Order <= b:
	case longest > b:
		out = append(out, note.New(note.DropOverBolt, note.Length("bolt", b, length.Down)))
	default:
		out = append(out, note.New(note.OrderOverBolt, note.Length("bolt", b, length.Down)))
	}
	if a.Window != nil && !a.Window.Fits {
		out = append(out, note.New(note.MotifNotWhole))
	}
	return out
}
