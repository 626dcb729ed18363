package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/glance"
)

// CompareIn translates a request, as YardageIn does.
func CompareIn(w *gen.CompareRequest) (glance.CompareRequest, fault.List) {
	var t translator
	root := fault.Path{}
	req := glance.CompareRequest{Units: unitsFrom(value(w.Units)), Sensitive: w.Sensitivity != nil}
	for i := range w.Cloths {
		here := root.Field("cloths").Index(i)
		c := &w.Cloths[i]
		one := glance.Cloth{Cloth: t.cloth(&c.Cloth, here.Field("cloth")), Sold: t.sold(&c.Cloth, here.Field("cloth"))}
		if c.Price != nil {
			one.Price = t.price(c.Price, here.Field("price"))
		}
		req.Cloths = append(req.Cloths, one)
	}
	for i := range w.Panels {
		req.Panels = append(req.Panels, t.panel(&w.Panels[i], root.Field("panels").Index(i)))
	}
	switch value(w.RankBy) {
	case gen.CompareRankLength:
		req.RankBy = glance.ByLength
	case gen.CompareRankCost:
		req.RankBy = glance.ByCost
	case gen.CompareRankWaste:
		req.RankBy = glance.ByWaste
	}
	s := value(w.Sensitivity)
	for _, l := range value(s.Widths) {
		req.Widths = append(req.Widths, lengthFrom(l))
	}
	for _, l := range value(s.LengthRepeats) {
		req.Repeats = append(req.Repeats, lengthFrom(l))
	}
	return req, t.shape
}

// ranking are the cloths by their number in the request, the best first.
func ranking(ans *glance.CompareAnswer) []int {
	list := make([]int, len(ans.Cloths))
	for i, c := range ans.Cloths {
		list[i] = c.Index
	}
	return list
}

// CompareOut is the answer as the contract has it.
func CompareOut(ans *glance.CompareAnswer, digest string) gen.CompareAnswer {
	w := answerWriter{units: ans.Request.Units}
	g := gen.CompareAnswer{
		RankedBy: rankText(ans.RankedBy), Cloths: make([]gen.ComparedCloth, len(ans.Cloths)), Sensitivity: []gen.CompareTried{},
		Warnings: wireNotes(w.units, ans.Warnings), Engine: service.EngineVersion, InputDigest: digest,
	}
	for i, c := range ans.Cloths {
		g.Cloths[i] = w.compared(ans.Request, c)
	}
	for _, s := range ans.Sensitivity {
		one := gen.CompareTried{Width: w.quantity(s.Width, length.Nearest), LengthRepeat: w.quantity(s.Repeat, length.Nearest), Usable: s.Usable}
		if s.Usable {
			one.Order, one.Needed = w.some(s.Order, length.Up), w.some(s.Needed, length.Up)
		}
		g.Sensitivity = append(g.Sensitivity, one)
	}
	return g
}

func (w answerWriter) compared(req glance.CompareRequest, c glance.Compared) gen.ComparedCloth {
	g := gen.ComparedCloth{Cloth: c.Index, Usable: c.Usable, Reason: wireNote(w.units, c.Reason)}
	set(&g.Name, req.Cloths[c.Index].Name)
	if !c.Usable {
		return g
	}
	g.Order, g.Needed, g.Bound = w.some(c.Order, length.Up), w.some(c.Needed, length.Up), w.some(c.Bound, length.Down)
	if c.Plain > 0 {
		g.Plain = w.some(c.Plain, length.Up)
	}
	g.Waste, g.Loosened = &c.Waste, &c.Loosened
	if c.Cost != nil {
		cost := wireMoney(*c.Cost)
		g.Cost = &cost
	}
	return g
}

func rankText(r glance.Rank) gen.CompareRank {
	switch r {
	case glance.ByCost:
		return gen.CompareRankCost
	case glance.ByWaste:
		return gen.CompareRankWaste
	}
	return gen.CompareRankLength
}

// ComparedOut is one of the cloths as the contract has it.
func ComparedOut(req glance.CompareRequest, c glance.Compared) gen.ComparedCloth {
	return answerWriter{units: req.Units}.compared(req, c)
}

// CompareEnd is the last line of an answer in lines.
type CompareEnd struct {
	RankedBy    gen.CompareRank    `json:"rankedBy"`
	Ranking     []int              `json:"ranking"`
	Sensitivity []gen.CompareTried `json:"sensitivity"`
	Warnings    []gen.Note         `json:"warnings"`
	Engine      string             `json:"engine"`
	InputDigest string             `json:"inputDigest"`
}

// CompareEndOut is the last line of an answer in lines.
func CompareEndOut(ans *glance.CompareAnswer, digest string) CompareEnd {
	whole := CompareOut(ans, digest)
	return CompareEnd{whole.RankedBy, ranking(ans), whole.Sensitivity, whole.Warnings, whole.Engine, whole.InputDigest}
}
