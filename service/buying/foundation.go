package buying

import (
	"strings"

	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// foundationBook enters what a foundation takes beside its cloths.
type foundationBook struct {
	*book
	part string
	a    *service.FoundationAnswer
	u    practice.Set
}

// bought is an article of the foundation that is bought by the pack.
func bought(article, name string, m Measure, pack int64, packName string) key {
	return key{group: Foundation, article: article, name: name, measure: m, sold: Sold{Pack: pack, Name: packName}}
}

func (f foundationBook) webs() {
	for i, b := range f.a.Work.Built {
		kind, word, roll := "jute", "webbing, ", practice.WebRoll
		if b.Webbing.Elastic {
			kind, word, roll = "elastic", "elastic webbing, ", practice.ElasticRoll
		}
		k := bought("webbing/"+kind+"/"+exactMM(b.Webbing.Width), word+f.thin(b.Webbing.Width), Length, int64(f.u.Length(roll)), "roll")
		f.take(k, f.part, "webs of "+f.frame(i), int64(f.a.Request.Frames[i].Count)*int64(b.Webbing.Total))
	}
}

// frame names a frame.
func (f foundationBook) frame(i int) string { return f.a.Request.Frames[i].ID }

func (f foundationBook) springs() {
	for i, b := range f.a.Work.Built {
		if len(b.Grid.Centres) == 0 {
			continue
		}
		gauge := strings.ReplaceAll(b.Spring.Gauge, "½", ".5")
		k := key{
			group: Foundation, article: "springs/" + exactMM(b.Spring.Height) + "/" + gauge, sold: Sold{Step: 1},
			name: "springs, " + f.wide(b.Spring.Height) + " high, " + b.Spring.Gauge + " gauge",
		}
		f.take(k, f.part, "springs of "+f.frame(i), int64(f.a.Request.Frames[i].Count)*int64(len(b.Grid.Centres)))
	}
}

func (f foundationBook) cords() {
	for i, b := range f.a.Work.Built {
		n := int64(f.a.Request.Frames[i].Count)
		f.take(bought("cord/lashing", "lashing cord", Length, int64(f.u.Length(practice.LashingBall)), "ball"), f.part, "lashing the springs of "+f.frame(i), n*int64(b.Lashing.Cord))
		f.take(bought("twine/stitching", "stitching twine", Length, int64(f.u.Length(practice.TwineBall)), "ball"), f.part, "sewing and stitching "+f.frame(i), n*int64(b.Twine.Total()))
		f.take(bought("filling/stuffing", "hair or fibre for the stuffing", Mass, f.u.Number(practice.StuffingBag), "bag"), f.part, "stuffing "+f.frame(i), n*b.Stuffing)
		gimp := key{group: Trimmings, article: "gimp", name: "gimp", measure: Length, sold: Sold{Step: int64(f.u.Length(practice.GimpStep))}}
		f.take(gimp, f.part, "gimp round "+f.frame(i), n*int64(b.Gimp))
	}
}

// fixings are tacks, staples and pins by what they hold, and what of them is
// spoilt. Temporary tacks are used again on every frame.
func (f foundationBook) fixings() {
	rest := make(map[foundation.Fixed]int64)
	for _, x := range f.a.Work.Totals.Fixed {
		rest[foundation.Fixed{Kind: x.Kind, Size: x.Size}] = x.Count
		e := f.take(f.fixing(x.Kind, x.Size), f.part, "", 0)
		e.spare += x.Count * f.u.Number(practice.TackSpare)
		e.spared = "spoilt and lost"
	}
	for i, b := range f.a.Work.Built {
		for _, c := range b.Courses {
			if c.Purpose == foundation.Temporary {
				continue
			}
			n := int64(f.a.Request.Frames[i].Count) * c.Count
			rest[foundation.Fixed{Kind: c.Kind, Size: c.Size}] -= n
			f.take(f.fixing(c.Kind, c.Size), f.part, c.Purpose.String(), n)
		}
	}
	for x, n := range rest {
		f.take(f.fixing(x.Kind, x.Size), f.part, "tacks for the time being, drawn and used again", n)
	}
}

func (f foundationBook) fixing(kind foundation.Kind, size length.Length) key {
	switch kind {
	case foundation.Staple:
		return bought("staples/"+exactMM(size), "staples, leg "+f.thin(size), Count, f.u.Count(practice.StapleBox), "box")
	case foundation.GimpPin:
		return bought("gimp-pins", "gimp pins", Count, f.u.Count(practice.GimpPinBox), "box")
	}
	return bought("tacks/"+exactMM(size), "tacks, "+f.thin(size), Count, f.u.Count(practice.TackBox), "box")
}
