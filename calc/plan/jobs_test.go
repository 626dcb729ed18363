package plan_test

import (
	"fmt"
	"math/rand/v2"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

// jobMaker draws upholstery jobs in the proportions of a chair or settee. The
// same seed gives the same job.
type jobMaker struct {
	r    *rand.Rand
	unit length.Length
	job  plan.Job
}

// randomJob draws job n: any cloth, chains, pairs, joins and flies.
func randomJob(n uint64) plan.Job {
	j := jobMaker{r: rand.New(rand.NewPCG(n, 20261125)), unit: length.Millimetre}
	if j.r.IntN(5) == 0 {
		j.unit = length.Inch / 16
	}
	j.cloth()
	j.panels()
	return j.job
}

// mm is a random length between two numbers of millimetres, in whole units.
func (j *jobMaker) mm(lo, hi int) length.Length {
	l := length.Length(lo+j.r.IntN(hi-lo+1)) * length.Millimetre
	return max(l/j.unit, 1) * j.unit
}

func (j *jobMaker) chance(percent int) bool { return j.r.IntN(100) < percent }

func (j *jobMaker) cloth() {
	c := &j.job.Cloth
	c.Width = j.mm(1200, 1500)
	c.OneWay = j.chance(50)
	kind := j.r.IntN(6)
	if kind >= 2 { // repeats along
		c.Pattern.LengthRepeat = j.mm(40, 700)
	}
	if kind >= 1 && kind != 2 { // and across
		c.Pattern.WidthRepeat = c.Width / length.Length(1+j.r.IntN(6))
		if j.chance(50) {
			c.Pattern.WidthRepeat = j.mm(80, 700)
		}
	}
	if kind >= 4 {
		c.Pattern.Drop = [...]cloth.Drop{{Num: 1, Den: 2}, {Num: 1, Den: 2}, {Num: 1, Den: 3}, {Num: 2, Den: 3}, {Num: 1, Den: 4}}[j.r.IntN(5)]
	}
	if kind >= 1 {
		for k := range 1 + j.r.IntN(2) {
			c.Pattern.Motifs = append(c.Pattern.Motifs, cloth.Motif{
				Name: [...]string{"heron", "sedge"}[k], Across: j.mm(0, 400), Along: j.mm(0, 400)})
		}
		keepPlaces(c.Pattern)
	}
	if j.chance(20) {
		c.Railroad = cloth.RailroadAllowed
	}
	if c.Pattern.LengthRepeat > 0 && j.chance(10) {
		c.StartsAt = new(j.mm(0, 39))
	}
}

// add puts a panel on the list and returns it for more.
func (j *jobMaker) add(id string, count int, across, along length.Length, allow length.Length) *panel.Panel {
	j.job.Panels = append(j.job.Panels, panel.Panel{ID: id, Count: count,
		Size:  panel.Size{Across: across, Along: along},
		Allow: panel.Sides{Top: allow, Bottom: allow, Left: allow, Right: allow}, JoinSeam: 15 * length.Millimetre})
	return &j.job.Panels[len(j.job.Panels)-1]
}

// wish gives a panel a wish that the cloth can express.
func (j *jobMaker) wish(p *panel.Panel) {
	pat := j.job.Cloth.Pattern
	var can []panel.How
	if pat.WidthRepeat > 0 {
		can = append(can, panel.Across)
	}
	if pat.LengthRepeat > 0 {
		can = append(can, panel.Along)
	}
	if !pat.IsPlain() {
		can = append(can, panel.Centred, panel.Centred, panel.Anchor)
	}
	if len(can) == 0 {
		return
	}
	p.Match.How = can[j.r.IntN(len(can))]
	if p.Match.How == panel.Anchor {
		p.Match.Point = panel.Point{Across: p.Size.Across / 3, Along: p.Size.Along / 4}
	}
	if len(pat.Motifs) > 0 && j.chance(60) {
		p.Match.Motif = pat.Motifs[j.r.IntN(len(pat.Motifs))].Name
	}
	if j.chance(15) {
		p.Match.Tolerance = 3 * length.Millimetre
	}
}

func (j *jobMaker) panels() {
	seams, pull := j.mm(10, 20), j.mm(40, 80)
	ib := j.add("IB", 1, j.mm(450, 700), j.mm(500, 850), pull)
	ib.Allow.Bottom += j.mm(0, 60)
	j.wish(ib)
	seat := j.add("SEAT", 1, j.mm(450, 650), j.mm(500, 700), pull)
	seat.Match = panel.Match{How: panel.RunsOn, From: "IB", Edge: panel.BottomEdge}
	if j.chance(70) {
		border := j.add("FB", 1, seat.Size.Across, j.mm(100, 300), seams)
		border.Match = panel.Match{How: panel.RunsOn, From: "SEAT", Edge: panel.BottomEdge, Offset: j.mm(0, 20)}
	}
	ob := j.add("OB", 1, j.mm(450, 900), j.mm(500, 900), seams)
	j.wish(ob)
	if j.chance(70) {
		j.add("IA", 2, j.mm(350, 600), j.mm(400, 700), pull)
		ia := &j.job.Panels[len(j.job.Panels)-1]
		j.wish(ia)
		ia.Pair = "IA"
		if j.chance(30) {
			ia.PairAs = panel.SameMotif
		}
	}
	if j.chance(50) {
		w := j.add("WL", 1, j.mm(150, 300), j.mm(300, 600), seams)
		size := w.Size
		if j.chance(50) {
			j.wish(w)
		}
		w.Pair = "WR"
		m := w.Match
		r := j.add("WR", 1, size.Across, size.Along, seams)
		r.Match, r.Pair = m, "WL"
		if m.How == panel.Anchor {
			r.Match.Point.Across = size.Across - m.Point.Across
		}
	}
	for k := range j.r.IntN(4) {
		p := j.add(fmt.Sprintf("OA%d", k), 1+j.r.IntN(2), j.mm(200, 600), j.mm(200, 600), seams)
		if j.chance(60) {
			j.wish(p)
		}
		p.Turn = [...]panel.Turn{panel.Upright, panel.Half, panel.Quarter}[j.r.IntN(3)]
		j.legal(p)
	}
	if j.chance(25) {
		b := j.add("WIDE", 1, j.mm(1600, 2600), j.mm(150, 500), seams)
		b.Join = panel.JoinSides
		if j.chance(40) {
			b.Join = panel.JoinHalves
		}
		if j.chance(50) {
			j.wish(b)
			b.Match.Tolerance = 0
		}
	}
	for k := range j.r.IntN(4) {
		p := j.add(fmt.Sprintf("FLY%d", k), 1+j.r.IntN(4), j.mm(100, 600), j.mm(50, 200), seams)
		p.Turn = panel.Quarter
	}
}

// keepPlaces takes back the places of motifs in directions without a repeat.
func keepPlaces(p cloth.Pattern) {
	for k := range p.Motifs {
		if p.WidthRepeat == 0 {
			p.Motifs[k].Across = 0
		}
		if p.LengthRepeat == 0 {
			p.Motifs[k].Along = 0
		}
	}
}

// legal takes back a turn that the cloth forbids.
func (j *jobMaker) legal(p *panel.Panel) {
	c := j.job.Cloth
	if p.Turn == panel.Half && c.OneWay || p.Turn == panel.Quarter && p.Match.How != panel.Free && c.Railroad == cloth.RailroadNever {
		p.Turn = panel.Upright
	}
}
