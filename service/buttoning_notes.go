package service

import (
	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// buttoningWarnings are what the caller should know about this answer.
func buttoningWarnings(a *ButtoningAnswer) []note.Note {
	req := a.Request
	var out []note.Note
	if d := a.Work.Diamond(); d.Along < d.Across {
		out = append(out, note.New(note.DiamondsWide))
	}
	if narrow := min(a.Work.Diamond().Across, a.Work.Diamond().Along); req.Depth > narrow {
		out = append(out, note.New(note.WellsDeep, note.Length("across", narrow, length.Nearest)))
	}
	if least := req.Shop.Length(practice.ButtoningEdge); min(a.Work.Edges.Side, a.Work.Edges.Top, a.Work.Edges.Bottom) < least {
		out = append(out, note.New(note.ButtonsAtEdge, note.Length("least", least, length.Nearest)))
	}
	if a.Found != nil && !a.Found.Complete {
		out = append(out, note.New(note.ShiftMayBetter))
	}
	if a.Found != nil && !req.Aim.OneSide && !a.Found.Mirrored {
		out = append(out, note.New(note.ShiftUneven))
	}
	if a.Skew > req.Shop.Length(practice.ButtoningSkew) {
		out = append(out, note.New(note.SidesDisagree, note.Length("off", a.Skew, length.Nearest)))
	}
	for i, p := range a.Joined.Parts {
		if !p.Fits {
			out = append(out, note.New(note.WidthUnmatched, note.Count("width", i+1)))
		}
	}
	return append(out, buttonWarnings(a)...)
}

func buttonWarnings(a *ButtoningAnswer) []note.Note {
	wish := a.Request.Buttons
	var out []note.Note
	if a.Request.Button().TooThick(a.Request.Shop) {
		out = append(out, note.New(note.ClothTooThick))
	}
	switch {
	case wish.Motif != nil && a.Buttons.Centred == nil:
		out = append(out, note.New(note.MotifNoRoom))
	case wish.Motif != nil && a.Buttons.Centred.Overlap:
		out = append(out, note.New(note.CirclesOverlap))
	case wish.Motif == nil && a.Buttons.InHand < a.Buttons.Count && a.Buttons.Strip == nil:
		out = append(out, note.New(note.CircleTooWide))
	}
	if wish.Motif != nil && len(wish.Offcuts) > 0 {
		out = append(out, note.New(note.OffcutsUnknown))
	}
	return out
}

// buttoningCautions are what to take care of.
func buttoningCautions(req ButtoningRequest) []note.Note {
	out := []note.Note{
		note.New(note.MeasureOneWell), note.New(note.NeedlesWound), note.New(note.OldStuffing),
		note.New(note.FoamDust), note.New(note.FoamBurns), note.New(note.SprayAdhesive), note.New(note.FireRules),
	}
	if !req.Cloth.Pattern.IsPlain() {
		out = append(out, note.New(note.MeasureRepeats))
	}
	if req.Cloth.OneWay {
		out = append(out, note.New(note.MarkTheTop))
	}
	return out
}

// AllowanceBeside is one interval under each of the three ways to allow for it.
type AllowanceBeside struct {
	Chord, Arc, Rule, TwiceDepth length.Length
	RuleDepth                    length.Length // the depth at which the arc takes what the rule allows
}

// Allowances are those of a diamond's width and height.
func (a *ButtoningAnswer) Allowances() (across, along AllowanceBeside) {
	d := a.Work.Diamond()
	return a.beside(d.Across), a.beside(d.Along)
}

func (a *ButtoningAnswer) beside(chord length.Length) AllowanceBeside {
	over := func(m buttoning.Model) length.Length {
		return a.Request.spread(m).Over(chord)
	}
	b := AllowanceBeside{Chord: chord, Arc: over(buttoning.ByArc), Rule: over(buttoning.ByAmount), TwiceDepth: over(buttoning.ByTwiceDepth)}
	b.RuleDepth = buttoning.DepthFor(chord, b.Rule)
	return b
}

// Tally counts the motifs by their fate.
func (a *ButtoningAnswer) Tally() (shown, partly, swallowed int) {
	for _, m := range a.Motifs {
		switch m.Fate {
		case buttoning.Shown:
			shown++
		case buttoning.Partly:
			partly++
		default:
			swallowed++
		}
	}
	return shown, partly, swallowed
}

// PleatFaces is which way the folds of a kind of pleat lie: common practice, no
// source.
func PleatFaces(k buttoning.PleatKind) string {
	switch k {
	case buttoning.ToTop, buttoning.ToBottom:
		return "away from the upright centre line; one that lies on it, either way"
	case buttoning.ToTheSides:
		return "down, towards the bottom edge"
	}
	return "down, towards the bottom edge: on an upright no dust lies in them, on a seat they face the front"
}

// Objective says in a sentence what the best shift makes as large as can be.
func (a *ButtoningAnswer) Objective() string {
	if a.Request.Aim.How == AimPlaces {
		return "minus the mean, over the places named, of the squared distance in mm from the place to the nearest such motif, on the cloth as marked; 0 is exact"
	}
	place := "middles of the whole diamonds"
	if a.Request.Aim.How == AimButtons {
		place = "buttons"
	}
	return "the mean, over the " + place + ", of 1 - d²/c², or 0 where d is more than c: d from the place to the nearest wanted motif on the cloth as marked, c half the shorter of a diamond's width and height, " +
		a.Work.CapFor().Text(a.Request.Units, length.Nearest) + "; 1 is a motif in the middle of every one"
}

// Nearest is the motif of the aim, by number, that lies nearest to the crossing
// of the centre lines, and its place.
func (a *ButtoningAnswer) Nearest() (int, buttoning.Place) {
	return buttoning.Middle(a.Request.Cloth.Pattern, a.Shift, a.Request.aimed())
}

// TwineTotal is the twine for all buttons.
func (a *ButtoningAnswer) TwineTotal() length.Length {
	return a.Buttons.Twine * length.Length(a.Buttons.Count)
}
