package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// settingFromWire is a setting that is given, with exactly one value. What has
// none that could be read is left out.
func (t *translator) settingFromWire(name string, l *string, number *float64, count *int, at fault.Path) []practice.Given {
	given := 0
	for _, has := range []bool{l != nil, number != nil, count != nil} {
		if has {
			given++
		}
	}
	switch {
	case given == 0:
		t.shape.Add(at, fault.Missing, "", "the setting has no value", "give length, number or count")
		return nil
	case given > 1:
		t.shape.Add(at, fault.NotAllowed, "", "the setting has more than one value", "give one of length, number and count")
		return nil
	case l != nil:
		return []practice.Given{{Name: name, Kind: practice.Length, Value: int64(lengthFrom(*l))}}
	case number != nil:
		return []practice.Given{{Name: name, Kind: practice.Number, Value: millionths(*number)}}
	}
	return []practice.Given{{Name: name, Kind: practice.Count, Value: int64(*count)}}
}

// wireSettings are the constants that an answer goes by.
func wireSettings(units length.System, used []practice.Value) []gen.BenchSetting {
	list := make([]gen.BenchSetting, len(used))
	for i, v := range used {
		g := gen.BenchSetting{Name: v.Name, What: v.What, Value: v.Text(v.Value, units), Given: v.Given, Source: v.Source}
		switch v.Kind {
		case practice.Number:
			n := float64(v.Value) / practice.One
			g.Number = &n
		case practice.Count:
			n := int(v.Value)
			g.Count = &n
		default:
			q := quantityIn(units, length.Length(v.Value), length.Nearest)
			g.Length = &q
		}
		list[i] = g
	}
	return list
}

// wireCutting is a plain cloth in one plan.
func wireCutting(units length.System, ans *service.YardageAnswer) gen.BenchCutting {
	w := answerWriter{ans: ans, units: units}
	g := gen.BenchCutting{
		Name: ans.Request.Cloth.Name, Width: w.quantity(ans.Request.Cloth.Width, length.Nearest),
		Order: w.quantity(ans.Order, length.Up), Needed: w.quantity(ans.Result.Needed(), length.Up),
		Bound: w.quantity(ans.Result.Bound, length.Down), Proven: ans.Result.Proven,
		Lengths: w.lengths(), Panels: []gen.BenchPanel{}, Placements: w.placements(), Joins: w.joins(),
	}
	for _, p := range ans.Request.Panels {
		cut := p.Cut()
		g.Panels = append(g.Panels, gen.BenchPanel{
			Id: p.ID, Count: p.Count, Across: w.quantity(cut.Across, length.Up), Along: w.quantity(cut.Along, length.Up),
		})
	}
	return g
}
