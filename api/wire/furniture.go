package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

func coverText(c furniture.Cover) gen.CuttingListCover {
	return [...]gen.CuttingListCover{gen.CuttingListCoverTop, gen.CuttingListCoverOutside, gen.CuttingListCoverLining}[c]
}

func placeName(p furniture.Place) gen.CuttingListPlace {
	return [...]gen.CuttingListPlace{gen.CuttingListPlaceSeat, gen.CuttingListPlaceBack, gen.CuttingListPlaceArm}[p]
}

// FurnitureKindOut is a kind of furniture as the contract has it.
func FurnitureKindOut(k furniture.Kind) gen.FurnitureKind {
	w := answerWriter{}
	g := gen.FurnitureKind{Kind: k.ID, Name: k.Name, About: k.About, Measures: []gen.FurnitureMeasure{}, Options: []gen.FurnitureOption{}}
	for _, m := range k.Measures {
		one := gen.FurnitureMeasure{
			Measure: m.ID, Name: m.Name, How: m.How, From: gen.FurnitureLine(m.From), To: gen.FurnitureLine(m.To),
			Typical: w.quantity(m.Typical, length.Nearest), Least: w.quantity(m.Least, length.Up), Most: w.quantity(m.Most, length.Down),
		}
		if m.Apart {
			one.Apart = &m.Apart
		}
		g.Measures = append(g.Measures, one)
	}
	for _, o := range k.Options {
		one := gen.FurnitureOption{Option: o.ID, Name: o.Name}
		for _, c := range o.Choices {
			one.Choices = append(one.Choices, gen.FurnitureChoice{Choice: c.ID, Name: c.Name})
		}
		g.Options = append(g.Options, one)
	}
	return g
}

// wayFrom is the way of cutting; the workroom's where it is left out.
func wayFrom(w *gen.CuttingWay) practice.Way {
	if value(w) == gen.CuttingWayClose {
		return practice.Close
	}
	return practice.Workroom
}

func wayText(w practice.Way) gen.CuttingWay {
	return [...]gen.CuttingWay{practice.Close: gen.CuttingWayClose, practice.Workroom: gen.CuttingWayWorkroom}[w]
}

// lengthIn is a length that may be nothing; nil where it is left out.
func lengthIn(s *string) *length.Length {
	if s == nil {
		return nil
	}
	return new(lengthFrom(*s))
}
