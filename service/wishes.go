package service

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// Loosened is a wish that the cloth cannot keep, and what is wished instead: the
// same of both when only the tie to a twin is given up.
type Loosened struct {
	Panel           string
	Wished, Instead panel.How
	Moved           bool          // the motif is wished at another place of the panel
	Off             length.Length // and so far from the first
	Why             note.Note
}

// LoosenWishes are the panels with the wishes loosened that no place on the cloth can
// keep.
func LoosenWishes(panels []panel.Panel, c cloth.Cloth) ([]panel.Panel, []Loosened) {
	var list []Loosened
	out, loosened := plan.Loosen(plan.Job{Cloth: c, Panels: panels})
	for _, l := range loosened {
		list = append(list, Loosened{panels[l.Panel].ID, l.Wished.How, l.Instead.How, l.Moved, l.Off, l.Why})
	}
	return out, list
}
