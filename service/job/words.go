package job

import (
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// Title names the job in a line.
func (a *Answer) Title() string {
	if a.Request.Name != "" {
		return a.Request.Name
	}
	var all []string
	for i := range a.Request.Pieces {
		all = append(all, a.Request.Pieces[i].Title())
	}
	text := strings.Join(all[:min(len(all), 3)], "; ")
	if len(all) > 3 {
		text += " and more"
	}
	return text
}

// Why says what the order of a cloth is made up of.
func (a *Answer) Why(p *Plan) note.Note {
	c := a.Cloths[p.Cloth]
	how, start := "panels", length.Length(0)
	switch y := p.Plan.Answer; {
	case y == nil && p.ForPiping+p.ForButtons == 0:
		return note.New(note.NothingCut)
	case y == nil:
		how = "none"
	case y.Pieces != nil && p.ForPanels == 0:
		how = "all-in-hand"
	case y.Pieces != nil:
		how = "in-hand"
	case c.Cloth.StartsAt != nil:
		how = "start-known"
	case c.Cloth.Pattern.LengthRepeat > 0 && p.ForPanels > y.Result.Needed():
		how, start = "any-start", p.ForPanels-y.Result.Needed()
	}
	least := length.Length(0)
	if p.Order <= c.Sold.Minimum {
		least = c.Sold.Minimum
	}
	return note.New(note.OrderMadeUpOf, note.Name("how", how), note.Length("panels", p.ForPanels, length.Up), note.Length("start", start, length.Up),
		note.Length("piping", p.ForPiping, length.Up), note.Length("covers", p.ForButtons, length.Up),
		note.Name("flaws", yesNo(c.Sold.Flaw > 0)), note.Name("shrinkage", yesNo(c.Sold.Shrinkage > 0)),
		note.Length("step", c.Sold.Step, length.Nearest), note.Length("least", least, length.Nearest))
}

func yesNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
