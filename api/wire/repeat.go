package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
	"github.com/bridletie/bridletie/service"
)

// RepeatIn translates a request about drops, as YardageIn does.
func RepeatIn(w *gen.RepeatRequest) (service.RepeatRequest, fault.List) {
	var t translator
	at := fault.At("cloth")
	req := service.RepeatRequest{
		Units: unitsFrom(value(w.Units)), Cloth: t.cloth(&w.Cloth, at), Sold: t.sold(&w.Cloth, at),
		Seam: lengthFrom(value(w.SeamAllowance)), Rule: ruleFrom(value(w.Rule)),
	}
	for _, d := range w.Drops {
		one := service.RepeatDrop{Name: value(d.Name), Length: lengthFrom(d.Length), Count: 1, Widths: 1}
		if d.Count != nil {
			one.Count = *d.Count
		}
		if d.Widths != nil {
			one.Widths = *d.Widths
		}
		if d.Motif != nil {
			one.Place = &service.RepeatPlace{Motif: value(d.Motif.Name), FromTop: lengthFrom(d.Motif.FromTop)}
		}
		req.Drops = append(req.Drops, one)
	}
	if c := w.Centre; c != nil {
		req.Centre = &service.RepeatCentre{Finished: lengthFrom(c.FinishedWidth), Motif: value(c.Motif)}
	}
	if p := w.Panel; p != nil {
		req.Panel = &service.RepeatPanel{
			Finished: repeat.Extent{Across: lengthFrom(p.Across), Along: lengthFrom(p.Along)},
			Motif:    value(p.Motif),
			Size:     repeat.Extent{Across: lengthFrom(p.MotifAcross), Along: lengthFrom(p.MotifAlong)},
		}
	}
	return req, t.shape
}

// repeatRules are the rules as the contract has them, by their number.
var repeatRules = [...]gen.RepeatRule{
	repeat.Exact: gen.RepeatRuleExact, repeat.HalfRepeatOnce: gen.RepeatRuleHalfRepeatOnce,
	repeat.HalfRepeatEach: gen.RepeatRuleHalfRepeatEachWidth, repeat.InTurn: gen.RepeatRuleInTurn,
}

func ruleFrom(w gen.RepeatRule) repeat.Rule {
	for r, name := range repeatRules {
		if name == w {
			return repeat.Rule(r)
		}
	}
	return repeat.Exact
}

// RepeatOut is the answer about drops as the contract has it.
func RepeatOut(ans *service.RepeatAnswer, digest string) gen.RepeatAnswer {
	w := answerWriter{units: ans.Request.Units}
	l := ans.Layout
	g := gen.RepeatAnswer{
		Order:         w.quantity(ans.Order, length.Up),
		Needed:        w.quantity(ans.Needed, length.Up),
		AnyStart:      w.quantity(ans.AnyStart, length.Up),
		Start:         w.quantity(l.Start, length.Nearest),
		Lead:          w.quantity(l.Lead, length.Up),
		Rule:          repeatRules[ans.Request.Rule],
		Rules:         make([]gen.RepeatRuleTotal, len(ans.Rules)),
		Unmatched:     w.quantity(l.Plain, length.Up),
		MatchingCosts: w.quantity(l.Length-l.Plain, length.Up),
		Drops:         make([]gen.RepeatKind, len(ans.Kinds)),
		Cuts:          make([]gen.RepeatCut, len(l.Cuts)),
		Seam:          w.seam(ans.Seam),
		Warnings:      wireNotes(w.units, ans.Warnings),
		Cautions:      wireNotes(w.units, ans.Cautions),
		Engine:        service.EngineVersion,
		InputDigest:   digest,
	}
	for i, r := range ans.Rules {
		g.Rules[i] = gen.RepeatRuleTotal{Rule: repeatRules[r.Rule], Total: w.quantity(r.Total, length.Up)}
	}
	for i, k := range ans.Kinds {
		g.Drops[i] = w.kind(k, ans.Request.Drops[i].Name)
	}
	for i, c := range l.Cuts {
		g.Cuts[i] = gen.RepeatCut{Drop: c.Drop, Copy: c.Copy, Width: c.Width, FromMm: c.From.MM(), StartMm: c.Start.MM(), WasteMm: c.Waste.MM()}
	}
	if ans.Motif != nil {
		c := gen.RepeatCentred{Motif: w.centring(ans.Motif), Gap: w.centring(ans.Gap), Better: gen.RepeatCentredBetterGap}
		if ans.CentreMotif() {
			c.Better = gen.RepeatCentredBetterMotif
		}
		g.Centre = &c
	}
	if v := ans.Window; v != nil {
		g.Window = &gen.RepeatWindow{
			Fits: v.Fits, Always: v.Always,
			AcrossFrom: w.quantity(v.AcrossFrom, length.Up), AcrossTo: w.quantity(v.AcrossFrom+v.AcrossRange, length.Down),
			AlongFrom: w.quantity(v.AlongFrom, length.Up), AlongTo: w.quantity(v.AlongFrom+v.AlongRange, length.Down),
		}
	}
	return g
}

func (w answerWriter) kind(k repeat.Kind, name string) gen.RepeatKind {
	g := gen.RepeatKind{
		Repeats:        int(k.Repeats),
		First:          w.quantity(k.First, length.Up),
		FollowingAlike: w.quantity(k.Alike, length.Up),
		FollowingNext:  w.quantity(k.Next, length.Up),
		WasteAlike:     w.quantity(k.Alike-k.First, length.Up),
		WasteNext:      w.quantity(k.Next-k.First, length.Up),
		Starts:         k.Starts,
		WasteInTurn:    w.quantity(k.InTurn, length.Up),
		WasteGrouped:   w.quantity(k.Grouped, length.Up),
		Better:         gen.RepeatKindBetterSame,
		OffUnmatched:   w.quantity(k.Off, length.Nearest),
	}
	switch {
	case k.InTurn < k.Grouped:
		g.Better = gen.RepeatKindBetterInTurn
	case k.InTurn > k.Grouped:
		g.Better = gen.RepeatKindBetterGrouped
	}
	if name != "" {
		g.Name = &name
	}
	return g
}

func (w answerWriter) seam(s repeat.Seam) gen.RepeatSeam {
	return gen.RepeatSeam{
		Left: w.quantity(s.Left, length.Nearest), Right: w.quantity(s.Right, length.Nearest), Shows: w.quantity(s.Shows, length.Down),
		Columns: int(s.Columns), CanMeet: s.CanMeet,
		OffAtAllowance: w.quantity(s.Off, length.Nearest), Trim: w.quantity(s.Trim, length.Nearest), LetOut: w.quantity(s.LetOut, length.Nearest),
		NextStart: w.quantity(s.NextStart, length.Nearest), Offset: w.quantity(s.Remaining, length.Nearest),
	}
}

func (w answerWriter) centring(c *repeat.Centring) gen.RepeatCentring {
	g := gen.RepeatCentring{
		Middle: w.quantity(c.Middle, length.Nearest), Repeats: int(c.Repeats), PartRepeat: w.quantity(c.Part, length.Down), Joined: c.Joined,
		LeftWidths: int(c.LeftWhole), LeftPart: w.quantity(c.LeftPart, length.Nearest),
		RightWidths: int(c.RightWhole), RightPart: w.quantity(c.RightPart, length.Nearest),
	}
	if !c.Joined {
		cut := w.quantity(c.Cut, length.Nearest)
		g.CutFrom = &cut
	}
	return g
}
