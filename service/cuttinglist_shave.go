package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// shaved are the panels of a cover with the wishes that its cloth keeps. Where a wish
// about the middle of a panel fails for want of a little width, its hold at one side
// gives that: a workroom would rather hold less cloth than see a motif beside the
// middle. A side that does not help stays as it is.
func (a *CuttingListAnswer) shaved(c furniture.Cover, of cloth.Cloth) ([]panel.Panel, []Loosened) {
	panels, loosened := LoosenWishes(a.List.CutFrom(c, of), of)
	p := a.Request.Piece
	set := p.Set()
	most := set.Length(practice.CoverShave)
	if most == 0 || of.Pattern.WidthRepeat == 0 {
		return panels, loosened
	}
	for _, l := range slices.Clone(loosened) {
		i := slices.IndexFunc(a.List.Panels, func(q furniture.Panel) bool { return q.ID == l.Panel })
		by := most
		if l.Moved {
			by = l.Off + length.Millimetre
		}
		kept := a.List.Panels[i]
		for _, right := range []bool{false, true} {
			if a.List.Panels[i].Shave(right, by, set, p.Units) == 0 {
				continue
			}
			less, still := LoosenWishes(a.List.CutFrom(c, of), of)
			if fails(still, l.Panel) < fails(loosened, l.Panel) && len(still) <= len(loosened) {
				panels, loosened = less, still
				break
			}
			a.List.Panels[i] = kept
		}
	}
	return panels, loosened
}

// fails is by how much a wish of a panel fails: nothing where it is kept, and more
// than any distance where no motif stands on it.
func fails(list []Loosened, id string) length.Length {
	i := slices.IndexFunc(list, func(l Loosened) bool { return l.Panel == id })
	switch {
	case i < 0:
		return 0
	case list[i].Moved:
		return list[i].Off
	}
	return panel.MaxSize
}
