package service

import (
	"context"
	"slices"
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

// add puts a piece on the list, under an id of its own where another has it.
func (c *plainCloth) add(owner int, p panel.Panel) {
	for n, id := 2, p.ID; slices.ContainsFunc(c.panels, func(q panel.Panel) bool { return q.ID == p.ID }); n++ {
		p.ID = id + "-" + strconv.Itoa(n)
	}
	c.panels, c.owner = append(c.panels, p), append(c.owner, owner)
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

// plainCloths are the plain cloths of an answer, ready to be cut.
type plainCloths struct {
	ready []Ready[YardageAnswer]
	wrong fault.List
}

// prepare makes a cloth ready, to be planned with little effort: a plan of a few
// plain pieces is soon as short as it can be. What is wrong is told of the owners in
// the list at.
func (all *plainCloths) prepare(c *plainCloth, units length.System, at fault.Path) {
	l := &all.wrong
	if n := c.count(); n > maxPlain {
		l.Add(at, fault.TooMany, "", "the "+c.name+" is cut in "+strconv.Itoa(n)+" pieces, with the parts of joined ones", "at most "+strconv.Itoa(maxPlain)+": a wider cloth, or fewer at a time")
		return
	}
	ready, wrong := PrepareYardage(YardageRequest{
		Units: units, Effort: plan.Quick, Panels: c.panels,
		Cloth: cloth.Cloth{Name: c.name, Width: c.width}, Sold: cloth.Sold{Step: c.step, Bolt: c.bolt},
	})
	for _, f := range wrong.Faults() {
		to := at
		list, _ := f.Path.In("panels")
		if n, _, ok := list.Entry(); ok {
			to = at.Index(c.owner[n])
		}
		l.Add(to, f.Code, "", "the "+c.name+": "+f.Detail, f.Try+"; the width and the length of the cloth are settings")
	}
	all.ready = append(all.ready, ready.Answer)
}

// each cuts the cloths one by one.
func (all *plainCloths) each(ctx context.Context, do func(i int, cut *YardageAnswer)) error {
	for i, ready := range all.ready {
		cut, err := ready(ctx)
		if err != nil {
			return err
		}
		cut.Warnings, cut.Cautions = nil, nil // the answer that it is part of has its own
		do(i, cut)
	}
	return nil
}
