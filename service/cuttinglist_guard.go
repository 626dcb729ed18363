package service

import (
	"cmp"
	"slices"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// thin warns of a list that takes less cloth than its class is believed to, for the
// size of the piece; nothing when it takes enough. Cloth for the outside counts with the
// cover.
func (a *CuttingListAnswer) thin() note.Note {
	p := a.Request.Piece
	surface, least, ok := p.Box()
	if !ok || surface == 0 {
		return note.Note{}
	}
	width := p.Shop.Length(practice.UsualCloth)
	if a.Request.Cloth != nil {
		width = a.Request.Cloth.Width
	}
	var panels []panel.Panel
	for _, q := range a.List.Panels {
		if q.Cover != furniture.Lining { // of one piece, as makers state it
			q.Count = max(q.Count/max(p.Count, 1), 1)
			panels = append(panels, q.Panel)
		}
	}
	area := int64(rowsByHand(panels, width)/length.Millimetre) * int64(width/length.Millimetre)
	if got := area * practice.One / surface; got < least {
		return note.New(note.ListThin, note.Decimal("share", got-got%(practice.One/100)), note.Decimal("least", least))
	}
	return note.Note{}
}

// rowsByHand is what panels take when they are chalked in rows, the tallest first,
// each into the first row with room. A panel wider than the cloth takes as many rows
// as it has widths.
func rowsByHand(panels []panel.Panel, width length.Length) length.Length {
	type row struct{ left, high length.Length }
	var sizes []panel.Size
	for _, p := range panels {
		for range p.Count {
			cut := p.Cut()
			for ; cut.Across > width; cut.Across -= width {
				sizes = append(sizes, panel.Size{Across: width, Along: cut.Along})
			}
			sizes = append(sizes, cut)
		}
	}
	slices.SortStableFunc(sizes, func(a, b panel.Size) int { return cmp.Compare(b.Along, a.Along) })
	var rows []row
	sum := length.Length(0)
	for _, s := range sizes {
		i := slices.IndexFunc(rows, func(r row) bool { return r.left >= s.Across })
		if i < 0 {
			i, rows = len(rows), append(rows, row{width, s.Along})
			sum += s.Along
		}
		rows[i].left -= s.Across
	}
	return sum
}
