package service

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// buttoningWarnings are what the caller should know about this answer.
func buttoningWarnings(a *ButtoningAnswer) []string {
	req, out := a.Request, []string{}
	text := func(l length.Length) string { return l.Text(req.Units, length.Nearest) }
	if d := a.Work.Diamond(); d.Along < d.Across {
		out = append(out, "the diamonds are wider than they are tall; taller than wide is usual")
	}
	if narrow := min(a.Work.Diamond().Across, a.Work.Diamond().Along); req.Depth > narrow {
		out = append(out, "the wells are deeper than a diamond is across, "+text(narrow)+": try it on a scrap over the same stuffing first")
	}
	if least := req.Shop.Length(practice.ButtoningEdge); min(a.Work.Edges.Side, a.Work.Edges.Top, a.Work.Edges.Bottom) < least {
		out = append(out, "some buttons stand nearer to the edge than "+text(least)+", which a printed rule asks for: see that the stuffing there can take a well")
	}
	if a.Found != nil && !a.Found.Complete {
		out = append(out, "the search ended at its budget: a better shift may exist")
	}
	if a.Found != nil && !req.Aim.OneSide && !a.Found.Mirrored {
		out = append(out, "with these motifs no shift makes left and right agree; the shift is the best of all")
	}
	if a.Skew > req.Shop.Length(practice.ButtoningSkew) {
		out = append(out, "left and right do not agree: the mirror image of a motif is "+text(a.Skew)+" off")
	}
	for i, p := range a.Joined.Parts {
		if !p.Fits {
			out = append(out, fmt.Sprintf("the pattern cannot be matched in width %d as the cloth lies: it would run over a selvedge", i+1))
		}
	}
	return append(out, buttonWarnings(a)...)
}

func buttonWarnings(a *ButtoningAnswer) []string {
	wish, out := a.Request.Buttons, []string{}
	if a.Request.Button().TooThick(a.Request.Shop) {
		out = append(out, "this cloth is thick for buttons of that size: the circle would fill the shell. Take a larger button or a thinner cloth")
	}
	switch {
	case wish.Motif != nil && a.Buttons.Centred == nil:
		out = append(out, "the motif has no room for a circle between the selvedges, or does not repeat along: the buttons cannot carry it")
	case wish.Motif != nil && a.Buttons.Centred.Overlap:
		out = append(out, "circles about neighbouring motifs overlap: only every so many motifs are used")
	case wish.Motif == nil && a.Buttons.InHand < a.Buttons.Count && a.Buttons.Strip == nil:
		out = append(out, "the circle of a button is wider than the cloth")
	}
	if wish.Motif != nil && len(wish.Offcuts) > 0 {
		out = append(out, "the offcuts were left out: where the motif lies on them is not known")
	}
	return out
}

// buttoningCautions are what to take care of.
func buttoningCautions(req ButtoningRequest) []string {
	out := []string{
		"Measure the panel over its stuffing and the depth of one trial well before the cloth is cut: the arc is a model, and cloth and stuffing give.",
		"Buttoning needles, regulators and shears wound: work with the point away from you, and know where the other hand is behind the work.",
		"Foam dust and old stuffing: wear a mask, keep sparks and flames away, and bag what is taken out. Spray adhesive needs air and no flame.",
		"Whether this cloth and this stuffing may be used together is a matter of the fire rules where the piece is supplied; local codes and the supplier's papers decide.",
	}
	if !req.Cloth.Pattern.IsPlain() {
		out = append(out, "Measure the repeats on the cloth itself: printed repeats run out, and the map is exact.")
	}
	if req.Cloth.OneWay {
		out = append(out, "The cloth has a top: mark the top on its wrong side before the grid.")
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
