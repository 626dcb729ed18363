package job

import (
	"strings"

	"github.com/bridletie/bridletie/calc/length"
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
func (a *Answer) Why(p *Plan) string {
	c := a.Cloths[p.Cloth]
	text := func(l length.Length) string { return l.Text(a.Request.Units, length.Up) }
	var parts []string
	switch y := p.Plan.Answer; {
	case y == nil:
	case y.Pieces != nil && p.ForPanels == 0:
		parts = append(parts, "nothing for the panels, which the pieces in hand hold")
	case y.Pieces != nil:
		parts = append(parts, text(p.ForPanels)+" for the panels besides the pieces in hand")
	case c.Cloth.StartsAt != nil:
		parts = append(parts, text(p.ForPanels)+" for the panels, begun where the cloth begins")
	case c.Cloth.Pattern.LengthRepeat > 0 && p.ForPanels > y.Result.Needed():
		parts = append(parts, text(p.ForPanels)+" for the panels, "+text(p.ForPanels-y.Result.Needed())+" of it so that the cloth may begin anywhere in the repeat")
	default:
		parts = append(parts, text(p.ForPanels)+" for the panels")
	}
	if p.ForPiping > 0 {
		parts = append(parts, text(p.ForPiping)+" for piping that the offcuts do not hold")
	}
	if p.ForButtons > 0 {
		parts = append(parts, text(p.ForButtons)+" for covers of buttons")
	}
	s := strings.Join(parts, ", ")
	if s == "" {
		return "nothing is cut from it"
	}
	if c.Sold.Flaw > 0 {
		s += "; flaws allowed for"
	}
	if c.Sold.Shrinkage > 0 {
		s += "; shrinkage allowed for"
	}
	if c.Sold.Step > 0 {
		s += "; sold by " + c.Sold.Step.Text(a.Request.Units, length.Nearest)
	}
	if c.Sold.Minimum > 0 && p.Order <= c.Sold.Minimum {
		s += ", at least " + c.Sold.Minimum.Text(a.Request.Units, length.Nearest)
	}
	return s
}
