package wire

import (
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
)

func (t *translator) cloth(w *gen.Cloth, at fault.Path) cloth.Cloth {
	c := cloth.Cloth{
		Name:     value(w.Name),
		Width:    lengthFrom(w.Width),
		OneWay:   value(w.OneWay),
		StartsAt: mapped(w.StartsAt, lengthFrom),
	}
	switch value(w.Railroad) {
	case gen.ClothRailroadAllowed:
		c.Railroad = cloth.RailroadAllowed
	case gen.ClothRailroadAlways:
		c.Railroad = cloth.RailroadAlways
	}
	if p := w.Pattern; p != nil {
		here := at.Field("pattern")
		c.Pattern.LengthRepeat = t.positive(p.LengthRepeat, here.Field("lengthRepeat"))
		c.Pattern.WidthRepeat = t.positive(p.WidthRepeat, here.Field("widthRepeat"))
		c.Pattern.Drop, _ = formats.Drop(value(p.Drop))
		for _, m := range value(p.Motifs) {
			c.Pattern.Motifs = append(c.Pattern.Motifs, cloth.Motif{
				Name: m.Name, Across: lengthFrom(value(m.Across)), Along: lengthFrom(value(m.Along)),
			})
		}
	}
	return c
}

func (t *translator) sold(w *gen.Cloth, at fault.Path) cloth.Sold {
	s := cloth.Sold{
		Step:    t.positive(w.SoldBy, at.Field("soldBy")),
		Minimum: lengthFrom(value(w.Minimum)),
		Bolt:    t.positive(w.BoltLength, at.Field("boltLength")),
	}
	s.Flaw, _ = formats.Share(value(w.FlawAllowance))
	s.Shrinkage, _ = formats.Share(value(w.Shrinkage))
	return s
}
