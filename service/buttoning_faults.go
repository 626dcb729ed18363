package service

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// The limits of what is believed of a buttoned panel.
const (
	MinButtoned  = 50 * length.Millimetre
	MaxButtoned  = 10 * length.Metre
	MaxCrown     = length.Metre
	MaxWellDepth = 300 * length.Millimetre
	MinOffcut    = 10 * length.Millimetre
	MaxOffcut    = 10 * length.Metre
	MaxVary      = 100 * length.Millimetre
)

// gridFaults are what shows once the grid is known.
func (req ButtoningRequest) gridFaults(l *fault.List, w buttoning.Work) {
	root := fault.Path{}
	if _, ok := req.madeUp(w, req.Lies); !ok {
		l.Add(root.Field("cloth").Field("width"), fault.WiderThanCloth, req.Cloth.Width.String(),
			"the cover is cut "+w.Cut().Across.Text(length.Metric, length.Up)+" wide and cannot be made up from this cloth", "a wider cloth, narrower diamonds, or joins along the diamonds")
	}
	if n := w.MotifCount(req.Cloth.Pattern); n > buttoning.MaxMotifs {
		l.Add(root.Field("cloth").Field("pattern"), fault.TooMany, strconv.Itoa(n), "the cover has too many motifs for a map", "at most 2000: leave the pattern out, or name fewer motifs")
	}
	if req.Aim == nil {
		return
	}
	aim := root.Field("aim")
	if req.Aim.How == AimDiamonds && len(w.Diamonds()) == 0 {
		l.Add(aim.Field("how"), fault.NotAllowed, "diamonds", "the grid has no whole diamond", "three rows of buttons or more")
	}
	for i, pl := range req.Aim.Places {
		if _, ok := markOf(w, pl); !ok {
			l.Add(aim.Field("places").Index(i), fault.NoPlace, "", "the grid has no such place", "a row and a number within the grid")
		}
	}
}

// ButtoningFieldFaults are what is wrong with the fields, each by itself and with
// one another. It may be asked of a request of which a part could not be read.
func ButtoningFieldFaults(req ButtoningRequest) fault.List {
	l := req.Cloth.Faults(fault.At("cloth"))
	root := fault.Path{}
	req.panelFaults(&l, root.Field("panel"))
	req.wishFaults(&l, root.Field("grid"))
	l.Between(root.Field("depth"), "the depth of the wells", req.Depth, 0, MaxWellDepth)
	if req.Groove != nil {
		l.Between(root.Field("groove"), "the groove", *req.Groove, 0, MaxWellDepth)
	}
	req.Shop.Check(&l, root.Field("allowance").Field("amount"), "the amount", practice.ButtoningAmount)
	req.Shop.Check(&l, root.Field("joinSeam"), "the seam of a join", practice.PanelJoin)
	req.patternFaults(&l, root)
	req.buttonFaults(&l, root.Field("buttons"))
	return l
}

func (req ButtoningRequest) panelFaults(l *fault.List, at fault.Path) {
	p := req.Panel
	l.Between(at.Field("size").Field("across"), "the finished size", p.Size.Across, MinButtoned, MaxButtoned)
	l.Between(at.Field("size").Field("along"), "the finished size", p.Size.Along, MinButtoned, MaxButtoned)
	l.Between(at.Field("crown"), "the crown", p.Crown, 0, MaxCrown)
	edges := at.Field("margins")
	l.Between(edges.Field("side"), "a margin", p.Edges.Side, 0, panel.MaxAllow)
	l.Between(edges.Field("top"), "a margin", p.Edges.Top, 0, panel.MaxAllow)
	l.Between(edges.Field("bottom"), "a margin", p.Edges.Bottom, 0, panel.MaxAllow)
	l.Append(p.Allow.Faults(at.Field("allow")))
}

// wishFaults wants the sizes of diamonds in their range. Which fields belong to
// which way is a matter of the wire form.
func (req ButtoningRequest) wishFaults(l *fault.List, at fault.Path) {
	w := req.Grid
	if w.How == buttoning.Spacing || w.How == buttoning.Proportion {
		l.Between(at.Field("width"), "a diamond", w.Width, buttoning.MinDiamond, buttoning.MaxDiamond)
	}
	if w.How == buttoning.Spacing {
		l.Between(at.Field("height"), "a diamond", w.Height, buttoning.MinDiamond, buttoning.MaxDiamond)
	}
	l.Between(at.Field("vary"), "the range", req.Vary, 0, MaxVary)
	if req.Vary > 0 && req.Aim == nil {
		l.Add(fault.At("aim"), fault.Missing, "", "the spacing is varied for an aim, and none is given", "give aim, or leave grid.vary out")
	}
}

func (req ButtoningRequest) patternFaults(l *fault.List, root fault.Path) {
	p := req.Cloth.Pattern
	for i, s := range req.Sizes {
		here := root.Field("motifSizes").Index(i)
		req.knows(l, here.Field("motif"), s.Motif)
		for j := range i {
			if req.Sizes[j].Motif == s.Motif {
				l.Add(here.Field("motif"), fault.Duplicate, s.Motif, "this motif has a size already", "one size for each motif")
				break
			}
		}
		l.Between(here.Field("across"), "a motif", s.Size.Across, 0, panel.MaxAllow)
		l.Between(here.Field("along"), "a motif", s.Size.Along, 0, panel.MaxAllow)
	}
	l.Between(root.Field("lies").Field("across"), "the motif's place", req.Lies.X, -MaxButtoned, MaxButtoned)
	l.Between(root.Field("lies").Field("along"), "the motif's place", req.Lies.Y, -MaxButtoned, MaxButtoned)
	if req.Aim == nil {
		return
	}
	aim := root.Field("aim")
	if p.IsPlain() {
		l.Add(aim, fault.NeedsPattern, "", "a plain cloth has no motif to aim with", "give the repeats of the pattern, or leave aim out")
		return
	}
	for i, m := range req.Aim.Motifs {
		req.knows(l, aim.Field("motifs").Index(i), m)
	}
	for i, pl := range req.Aim.Places {
		req.knows(l, aim.Field("places").Index(i).Field("motif"), pl.Motif)
	}
}

// knows wants a motif that the cloth has.
func (req ButtoningRequest) knows(l *fault.List, at fault.Path, motif string) {
	if _, ok := req.Cloth.Pattern.Find(motif); !ok {
		l.Add(at, fault.UnknownMotif, motif, "the cloth has no such motif", "the name of a motif of the pattern")
	}
}

func (req ButtoningRequest) buttonFaults(l *fault.List, at fault.Path) {
	b := req.Buttons
	req.Shop.Check(l, at.Field("thickness"), "the thickness of the cloth", practice.ButtonCloth)
	req.Shop.Check(l, at.Field("through"), "the depth behind the wells", practice.ButtonThrough)
	req.Shop.Check(l, at.Field("tie"), "the tie", practice.ButtonTie)
	if b.Motif != nil {
		if req.Cloth.Pattern.LengthRepeat == 0 {
			l.Add(at.Field("motif"), fault.NeedsPattern, *b.Motif, "buttons that carry a motif need a pattern that repeats along the cloth", "give pattern.lengthRepeat, or leave motif out")
		} else {
			req.knows(l, at.Field("motif"), *b.Motif)
		}
	}
	for i, o := range b.Offcuts {
		here := at.Field("offcuts").Index(i)
		l.Between(here.Field("across"), "an offcut", o.Across, MinOffcut, MaxOffcut)
		l.Between(here.Field("along"), "an offcut", o.Along, MinOffcut, MaxOffcut)
	}
}
