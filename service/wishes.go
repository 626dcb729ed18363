package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// Loosened is a wish that the cloth cannot keep, and what is wished instead.
type Loosened struct {
	Panel           string
	Wished, Instead panel.How
	Why             note.Note
}

// LoosenWishes are the panels with the wishes loosened that no place on the cloth can
// keep: first what is wished across, then all.
func LoosenWishes(panels []panel.Panel, c cloth.Cloth) ([]panel.Panel, []Loosened) {
	was := slices.Clone(panels)
	reasons := make(map[int]note.Note)
	for range 3 * len(panels) { // each panel is loosened at most three times
		unkept := plan.UnkeptWishes(plan.Job{Cloth: c, Panels: panels})
		if len(unkept) == 0 {
			break
		}
		for _, u := range unkept {
			if !reasons[u.Panel].Said() {
				reasons[u.Panel] = u.Why
			}
			loosen(panels, u.Panel, c)
		}
	}
	var list []Loosened
	for i, p := range panels {
		if p.Match.How != was[i].Match.How {
			why := reasons[i]
			if !why.Said() {
				why = note.New(note.TwinCannotKeep)
			}
			list = append(list, Loosened{Panel: p.ID, Wished: was[i].Match.How, Instead: p.Match.How, Why: why})
		}
	}
	return panels, list
}

// loosen takes from a panel, and from its twin, the part of its wish that fixes
// it across, or else its wish, or else the tie between the two.
func loosen(panels []panel.Panel, i int, c cloth.Cloth) {
	weaker := func(m panel.Match) panel.Match {
		if m.How == panel.Centred && c.Pattern.LengthRepeat > 0 {
			return panel.Match{How: panel.Along, Motif: m.Motif}
		}
		return panel.Match{}
	}
	id, pair, wish := panels[i].ID, panels[i].Pair, panels[i].Match
	for k := range panels {
		switch q := &panels[k]; {
		case k == i:
			q.Match, q.Pair = weaker(q.Match), ""
		case q.ID == pair || q.Pair == id:
			if q.Match.How == wish.How {
				q.Match = weaker(q.Match)
			}
			q.Pair = ""
		}
	}
}
