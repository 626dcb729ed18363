package plan_test

import (
	"fmt"
	"math/rand/v2"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// chairMaker draws whole pieces of furniture in patterned cloth, in the
// proportions and allowances of the trade (common practice, no source): sizes
// to the half centimetre, pulls of 5 to 7.5 cm, seams of 1.5 cm, show panels
// centred, seats and borders running on, outsides matched across, hidden parts
// free and flies turned as they fit.
type chairMaker struct {
	r    *rand.Rand
	job  plan.Job
	main string // the motif that the show panels carry; "" for any
}

const cm = length.Centimetre

// chairJob is piece n of a fixed set, of 8 to 40 panels.
func chairJob(n uint64) plan.Job {
	for try := uint64(0); ; try++ {
		c := chairMaker{r: rand.New(rand.NewPCG(n, try+1))}
		c.cloth()
		c.piece()
		if k := c.panels(); k >= 8 && k <= 40 && plan.Sound(c.job) == nil {
			return c.job
		}
	}
}

func (c *chairMaker) panels() int {
	n := 0
	for _, p := range c.job.Panels {
		n += p.Count
	}
	return n
}

// half is a random length between lo and hi centimetres, to the half.
func (c *chairMaker) half(lo, hi int) length.Length {
	return length.Length(2*lo+c.r.IntN(2*(hi-lo)+1)) * cm / 2
}

// cloth is a patterned cloth: straight, half-drop or third-drop.
func (c *chairMaker) cloth() {
	k := &c.job.Cloth
	k.Width = [...]length.Length{137 * cm, 140 * cm, 145 * cm}[c.r.IntN(3)]
	across := [...]length.Length{1, 2, 2, 3, 4, 6}[c.r.IntN(6)]
	p := &k.Pattern
	p.WidthRepeat = k.Width / across / length.Millimetre * length.Millimetre
	p.LengthRepeat = [...]length.Length{16, 20, 27, 32, 38, 45, 54, 64, 70}[c.r.IntN(9)] * cm
	p.Drop = [...]cloth.Drop{{}, {}, {Num: 1, Den: 2}, {Num: 1, Den: 2}, {Num: 1, Den: 3}}[c.r.IntN(5)]
	p.Motifs = []cloth.Motif{{Name: "heron", Across: p.WidthRepeat / 2 / length.Millimetre * length.Millimetre}}
	if c.r.IntN(2) == 0 {
		p.Motifs = append(p.Motifs, cloth.Motif{Name: "sedge", Along: p.LengthRepeat / 2})
	}
	k.OneWay = c.r.IntN(4) > 0
	if c.r.IntN(2) == 0 {
		c.main = "heron"
	}
}

// add puts a panel on the list with equal allowances.
func (c *chairMaker) add(id string, count int, across, along, allow length.Length, how panel.How) *panel.Panel {
	p := panel.Panel{ID: id, Count: count, Size: panel.Size{Across: across, Along: along},
		Allow: panel.Sides{Top: allow, Bottom: allow, Left: allow, Right: allow}}
	p.Match.How = how
	if how == panel.Centred || how == panel.Across {
		p.Match.Motif = c.main
	}
	if how == panel.Free {
		p.Turn = panel.Quarter
	}
	c.job.Panels = append(c.job.Panels, p)
	return &c.job.Panels[len(c.job.Panels)-1]
}

// runsOn ties the last panel to another's bottom edge.
func (c *chairMaker) runsOn(p *panel.Panel, from string) {
	p.Match = panel.Match{How: panel.RunsOn, From: from}
	p.Turn = panel.Upright
}

// piece is a set of seats, an armchair or a settee.
func (c *chairMaker) piece() {
	switch c.r.IntN(5) {
	case 0:
		c.seats()
	case 1, 2, 3:
		c.armchair(1)
	default:
		c.armchair(2 + c.r.IntN(2))
	}
	if n := c.r.IntN(4); n > 0 {
		c.add("FLY", n, c.half(40, 65), c.half(10, 18), 3*cm/2, panel.Free)
	}
}

// seats are dining chairs: seats, backs inside and out, borders.
func (c *chairMaker) seats() {
	n := 2 * (1 + c.r.IntN(4))
	c.add("SEAT", n, c.half(42, 52), c.half(40, 50), 5*cm, panel.Centred)
	c.add("IB", n, c.half(38, 46), c.half(30, 50), 4*cm, panel.Centred)
	c.add("OB", n, c.half(38, 46), c.half(30, 50), 2*cm, panel.Across)
	if c.r.IntN(2) == 0 {
		c.add("BAND", n, c.half(42, 52), c.half(5, 8), 3*cm/2, panel.Free)
	}
}

// armchair is a chair or settee with one seat cushion a place.
func (c *chairMaker) armchair(places int) {
	width := c.half(48, 58)
	for k := range places {
		s := fmt.Sprint(k)
		ib := c.add("IB"+s, 1, width, c.half(50, 75), 5*cm, panel.Centred)
		ib.Allow.Bottom = 10 * cm
		c.runsOn(c.add("SEAT"+s, 1, width, c.half(52, 62), 4*cm, panel.RunsOn), "IB"+s)
		if c.r.IntN(3) > 0 {
			c.runsOn(c.add("FB"+s, 1, width, c.half(12, 25), 5*cm/2, panel.RunsOn), "SEAT"+s)
		}
		c.add("OB"+s, 1, width+6*cm, c.half(60, 80), 2*cm, panel.Across)
	}
	ia := c.add("IA", 2, c.half(45, 55), c.half(35, 50), 5*cm, panel.Centred)
	ia.Pair = "IA"
	c.add("OA", 2, c.half(50, 60), c.half(30, 40), 5*cm/2, panel.Across).Pair = "OA"
	if c.r.IntN(2) == 0 {
		c.add("IW", 2, c.half(22, 30), c.half(40, 55), 5*cm, panel.Centred).Pair = "IW"
		c.add("OW", 2, c.half(22, 30), c.half(40, 55), 5*cm/2, panel.Free)
	}
	if c.r.IntN(2) == 0 {
		c.add("AF", 2, c.half(10, 16), c.half(35, 50), 2*cm, panel.Across).Pair = "AF"
	}
	if c.r.IntN(2) == 0 { // loose cushions
		c.add("CT", places, width, c.half(52, 60), 3*cm/2, panel.Centred)
		c.add("CU", places, width, c.half(52, 60), 3*cm/2, panel.Free)
		c.add("CB", 4*places, width, c.half(8, 12), 3*cm/2, panel.Free)
	}
}

// anchoredJob is a chair job on which every panel that does not run on from
// another has a motif in its middle.
func anchoredJob(n uint64) plan.Job {
	for ; ; n += 1000 {
		job := chairJob(n)
		for k := range job.Panels {
			if p := &job.Panels[k]; p.Match.How != panel.RunsOn {
				p.Match.How, p.Turn = panel.Centred, panel.Upright
			}
		}
		if plan.Sound(job) == nil {
			return job
		}
	}
}
