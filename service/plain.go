package service

import (
	"context"
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// plainCloth is a cloth without a pattern, with the pieces that are cut from it.
// Owner[i] is the frame or the item that Panels[i] belongs to.
type plainCloth struct {
	name        string
	width, bolt length.Length
	step        length.Length
	panels      []panel.Panel
	owner       []int
}

func (c *plainCloth) add(owner int, p panel.Panel) {
	c.panels, c.owner = append(c.panels, p), append(c.owner, owner)
}

// cut plans the cloth with little effort: a plan of a few plain pieces is soon as
// short as it can be. Like every plan it is put to verify.Check.
func (c *plainCloth) cut(ctx context.Context, units length.System) (*YardageAnswer, error) {
	ans, err := Yardage(ctx, YardageRequest{
		Units: units, Effort: plan.Quick, Panels: c.panels,
		Cloth: cloth.Cloth{Name: c.name, Width: c.width}, Sold: cloth.Sold{Step: c.step, Bolt: c.bolt},
	})
	if err != nil {
		return nil, err
	}
	ans.Warnings, ans.Cautions = nil, nil // the answer that it is part of has its own
	return ans, nil
}

// maxPlain is how many pieces, with the parts of joined ones, are cut from one
// plain cloth.
const maxPlain = 1000

// count is how many pieces there are, with the parts of joined ones.
func (c *plainCloth) count() int {
	n := 0
	for _, p := range c.panels {
		parts := 1
		if p.Join != panel.NoJoin {
			parts = 2 + int(p.Cut().Across/max(c.width-2*p.JoinSeam, 1))
		}
		n += p.Count * parts
	}
	return n
}

// faults are pieces that do not come off the cloth, at their owners in the list
// at, and too many of them.
func (c *plainCloth) faults(at fault.Path) fault.List {
	var l fault.List
	if n := c.count(); n > maxPlain {
		l.Add(at, fault.TooMany, "", "the "+c.name+" is cut in "+strconv.Itoa(n)+" pieces, with the parts of joined ones", "at most "+strconv.Itoa(maxPlain)+": a wider cloth, or fewer at a time")
		return l
	}
	for i, p := range c.panels {
		found := panel.ClothFaults([]panel.Panel{p}, cloth.Cloth{Name: c.name, Width: c.width}, c.bolt, fault.Path{})
		for _, f := range found.Faults() {
			l.Add(at.Index(c.owner[i]), f.Code, "", "the "+c.name+": "+f.Detail, f.Try+"; the width and the length of the cloth are settings")
		}
	}
	return l
}
