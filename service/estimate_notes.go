package service

import (
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
)

// warnings are all that the figures leave out, and all that was taken for them where
// nothing was said.
func (a *EstimateAnswer) warnings() []note.Note {
	req := a.Request
	list := req.pieceAt(0, "").List()
	has := func(c furniture.Cover) bool { return len(list.Of(c)) > 0 }
	out := []note.Note{note.New(note.NoQuotation)}
	add := func(when bool, n note.Note) {
		if when {
			out = append(out, n)
		}
	}
	add(a.Order.High == 0, note.New(note.NoPlanFound))
	add(has(furniture.Lining), note.New(note.WithoutLining))
	add(has(furniture.Outside), note.New(note.WithoutSecondCloth))
	add(len(list.Runs) > 0, note.New(note.WithoutPiping))
	add(len(list.Buttons) > 0, note.New(note.WithoutButtons))
	add(len(list.Fillings)+len(list.Frames) > 0, note.New(note.WithoutFillings))
	add(req.Band == nil, note.New(note.ClothUnpriced))
	add(req.Labour == nil, note.New(note.WorkUnpriced))
	add(a.Price != nil && req.Tax.IsZero(), note.New(note.WithoutTax))
	var usual []string
	for _, m := range req.Piece.List().Assumed {
		usual = append(usual, m.Name)
	}
	add(len(usual) > 0, note.New(note.UsualMeasures, note.Count("percent", req.Shop.Count(practice.EstimateMeasure)), note.Names("measures", usual...)))
	k, _ := req.clothAt(0)
	add(req.Cloth == nil, note.New(note.UsualCloth, note.Length("width", k.Width, length.Nearest), note.Name("pattern", req.Patterned.String())))
	add(true, note.New(note.PresetHours))
	return out
}
