package panel

import "github.com/bridletie/bridletie/calc/cloth"

// On is the wish as a cloth of that pattern can keep it. Where the pattern
// repeats only across, a motif can be on the line down the middle and no more;
// where it repeats only along, in a row across the middle; where it does not
// repeat, nothing can be wished. A motif that the pattern does not have is any.
func (m Match) On(p cloth.Pattern) Match {
	if p.IsPlain() {
		return Match{}
	}
	if _, known := p.Find(m.Motif); !known {
		m.Motif = ""
	}
	across, along := p.WidthRepeat > 0, p.LengthRepeat > 0
	switch m.How {
	case Across:
		if !across {
			return Match{}
		}
	case Along:
		if !along {
			return Match{}
		}
	case Centred:
		switch {
		case !along:
			m.How = Across
		case !across:
			m.How = Along
		}
	case Anchor:
		if !across || !along {
			return Match{}
		}
	}
	return m
}

// Fixes reports whether the wish says by itself where the pattern falls, so that
// a twin can mirror it.
func (m Match) Fixes() bool { return m.How == Across || m.How == Centred || m.How == Anchor }
