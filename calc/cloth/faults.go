package cloth

import (
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// The limits of what is believed of a cloth.
const (
	MinWidth  = 10 * length.Millimetre
	MaxWidth  = 10 * length.Metre
	MinRepeat = length.Millimetre
	MaxRepeat = 10 * length.Metre
	MaxOffset = 10 * length.Metre // of a motif, from the selvedge or the origin

	MinStep    = length.Millimetre
	MaxStep    = 100 * length.Metre
	MaxMinimum = 1000 * length.Metre
	MinBolt    = 10 * length.Centimetre
	MaxBolt    = 10_000 * length.Metre
)

// Faults are what is wrong with the cloth by itself; at is where it stands.
func (c Cloth) Faults(at fault.Path) fault.List {
	var l fault.List
	l.Between(at.Field("width"), "the usable width", c.Width, MinWidth, MaxWidth)
	l.Append(c.Pattern.Faults(at.Field("pattern")))
	if c.StartsAt != nil {
		c.startFaults(&l, at.Field("startsAt"))
	}
	return l
}

// startFaults wants a start inside the length repeat.
func (c Cloth) startFaults(l *fault.List, at fault.Path) {
	v := c.Pattern.LengthRepeat
	switch start, given := *c.StartsAt, c.StartsAt.String(); {
	case v <= 0:
		l.Add(at, fault.NeedsPattern, given, "a start is a place in the length repeat, and the cloth has none",
			"leave startsAt out, or give pattern.lengthRepeat")
	case start < 0:
		l.Add(at, fault.TooSmall, given, "the start lies from 0 to less than one length repeat",
			"from 0 mm to less than "+v.String())
	case start >= v:
		l.Add(at, fault.TooLarge, given, "the start lies from 0 to less than one length repeat",
			(start%v).String()+" is the same place")
	}
}

// Faults are what is wrong with the pattern; at is where it stands.
func (p Pattern) Faults(at fault.Path) fault.List {
	var l fault.List
	if p.LengthRepeat != 0 {
		l.Between(at.Field("lengthRepeat"), "a length repeat", p.LengthRepeat, MinRepeat, MaxRepeat)
	}
	if p.WidthRepeat != 0 {
		l.Between(at.Field("widthRepeat"), "a width repeat", p.WidthRepeat, MinRepeat, MaxRepeat)
	}
	p.dropFaults(&l, at.Field("drop"))
	names := make(map[string]bool, len(p.Motifs))
	for i, m := range p.Motifs {
		here := at.Field("motifs").Index(i)
		l.Between(here.Field("across"), "the motif's place across", m.Across, 0, MaxOffset)
		l.Between(here.Field("along"), "the motif's place along", m.Along, 0, MaxOffset)
		m.strays(&l, p, here)
		if names[m.Name] {
			l.Add(here.Field("name"), fault.Duplicate, m.Name, "another motif has this name", "a name of its own")
		}
		names[m.Name] = true
	}
	return l
}

// strays are the places of a motif in directions in which the pattern does not
// repeat. There it runs on without an end, and a place in it would say nothing: one
// motif in the width is a repeat as wide as the cloth, since that is how it goes on
// where two widths are joined.
func (m Motif) strays(l *fault.List, p Pattern, at fault.Path) {
	refuse := func(field, repeat, one string, given length.Length) {
		l.Add(at.Field(field), fault.NeedsPattern, given.String(), "a motif has a place "+field+" only in a pattern with a "+repeat,
			"leave "+field+" out, or give the repeat under pattern"+one)
	}
	if m.Across != 0 && p.WidthRepeat == 0 {
		refuse("across", "width repeat", ": with one motif in the width it is the width of the cloth", m.Across)
	}
	if m.Along != 0 && p.LengthRepeat == 0 {
		refuse("along", "length repeat", "", m.Along)
	}
}

// dropFaults wants a proper fraction with a small denominator, and both
// repeats for it to be a drop of.
func (p Pattern) dropFaults(l *fault.List, at fault.Path) {
	d := p.Drop
	if d == (Drop{}) {
		return
	}
	if d.Den < 1 || d.Den > MaxDropDen || d.Num < 0 || d.Num >= d.Den {
		l.Add(at, fault.NotAFraction, "", "a drop is a part of one length repeat",
			`half, or a fraction such as "1/3" with a denominator of at most 12`)
		return
	}
	if !d.IsStraight() && (p.LengthRepeat <= 0 || p.WidthRepeat <= 0) {
		l.Add(at, fault.NeedsPattern, "", "a drop needs a length repeat and a width repeat",
			"give both repeats, or leave drop out")
	}
}

// Faults are what is wrong with how the cloth is sold; at is where the cloth
// stands.
func (s Sold) Faults(at fault.Path) fault.List {
	var l fault.List
	if s.Step != 0 {
		l.Between(at.Field("soldBy"), "the step in which cloth is sold", s.Step, MinStep, MaxStep)
	}
	l.Between(at.Field("minimum"), "the least length sold", s.Minimum, 0, MaxMinimum)
	if s.Bolt != 0 {
		l.Between(at.Field("boltLength"), "a bolt", s.Bolt, MinBolt, MaxBolt)
	}
	s.Flaw.faults(&l, at.Field("flawAllowance"))
	s.Shrinkage.faults(&l, at.Field("shrinkage"))
	return l
}

// faults wants a share from 0 to MaxShare.
func (s Share) faults(l *fault.List, at fault.Path) {
	const try = `from "0 %" to "50 %"`
	switch {
	case s < 0:
		l.Add(at, fault.TooSmall, "", "a share is at least 0 %", try)
	case s > MaxShare:
		l.Add(at, fault.TooLarge, "", "a share is at most 50 %", try)
	}
}
