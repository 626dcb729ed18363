package drawing

import (
	"fmt"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// JobDrawing is a drawing of a job sheet, with a name that will do for a file.
type JobDrawing struct {
	Name    string
	Picture *Picture
}

// JobDrawings are the drawings of all parts that are shown, in the order of the
// sheet: the cover first, what to take care of last.
func JobDrawings(ans *job.Answer) []JobDrawing {
	d := jobDrawings{ans: ans}
	h := ans.Request.Hide
	d.add("cover", jobCover(ans))
	if !h.CuttingLists {
		for i, l := range ans.Lists {
			d.add("cutting-list-"+ans.Request.Pieces[i].ID, CuttingListPicture(quietList(l)))
		}
	}
	if !h.Cloths {
		for i := range ans.Plans {
			p := &ans.Plans[i]
			if y := p.Plan.Answer; y != nil {
				d.add("cloth-"+ans.Cloths[p.Cloth].ID, PlanPicture(jobPlan(ans, p, y)))
			}
		}
	}
	if !h.Piping {
		for _, p := range ans.Piping {
			if y := p.Piping.Answer; y != nil {
				name := "piping-" + ans.Cloths[p.Cloth].ID
				if y.Request.Sold == nil {
					name += "-offcuts"
				}
				d.add(name, PipingPicture(jobPiping(y)))
			}
		}
	}
	if !h.Buttoning {
		for _, b := range ans.Buttoning {
			if y := b.Chart.Answer; y != nil {
				d.add("buttoning-"+b.Panel, ButtoningPicture(quietChart(y)))
			}
		}
	}
	d.bench()
	if ans.Cost != nil && !h.Cost {
		q := *ans.Cost
		q.Warnings = nil
		d.add("cost", CostChart(&q))
	}
	d.add("cautions", jobNotesPicture(ans))
	return d.list
}

type jobDrawings struct {
	ans  *job.Answer
	list []JobDrawing
}

func (d *jobDrawings) add(name string, p *Picture) {
	d.list = append(d.list, JobDrawing{fmt.Sprintf("%02d-%s", len(d.list)+1, name), p})
}

// bench draws what lies beneath the cover, and the fire check.
func (d *jobDrawings) bench() {
	ans, h := d.ans, d.ans.Request.Hide
	if !h.Foundation {
		for _, f := range ans.Foundation {
			if y := f.Foundation.Answer; y != nil {
				d.add(f.Build.String()+"-foundation", FoundationPicture(quietFoundation(y)))
			}
		}
	}
	if !h.Foam && ans.Foam != nil && ans.Foam.OK() {
		d.add("foam", FoamPicture(quietFoam(ans.Foam.Answer)))
	}
	if !h.Wadding && ans.Wadding != nil && ans.Wadding.OK() {
		d.add("wadding", WaddingPicture(quietWadding(ans.Wadding.Answer)))
	}
	if !h.Fire {
		for _, f := range ans.Fire {
			if y := f.Check.Answer; y != nil {
				d.add("fire-"+jobFireName(ans, f.Pieces), FirePicture(quietFire(y, ans, f.Pieces)))
			}
		}
	}
}

// jobFireName names the pieces of a fire check, the first few.
func jobFireName(ans *job.Answer, pieces []int) string {
	const few = 4
	name := strings.Join(jobPieceIDs(ans, pieces[:min(len(pieces), few)]), "-")
	if len(pieces) > few {
		name += "-and-others"
	}
	return name
}

func jobPieceIDs(ans *job.Answer, pieces []int) []string {
	var ids []string
	for _, i := range pieces {
		ids = append(ids, ans.Request.Pieces[i].ID)
	}
	return ids
}

// The parts of a job are drawn without their notes, which stand together at the
// end of the sheet.

func quietList(a *service.CuttingListAnswer) *service.CuttingListAnswer {
	q := *a
	q.Warnings, q.Cautions = nil, nil
	return &q
}

// jobPlan is the plan of a cloth with what the job orders of it, where that is more
// than the plan says.
func jobPlan(ans *job.Answer, p *job.Plan, a *service.YardageAnswer) *service.YardageAnswer {
	q := *a
	q.Warnings, q.Cautions = nil, nil
	if p.Order != a.Order {
		q.Warnings = []string{"The job orders " + p.Order.Text(ans.Request.Units, length.Up) + " of this cloth: " + ans.Why(p) + "."}
	}
	return &q
}

// jobPiping is a way to cut piping; new cloth for it is in the order of its cloth.
func jobPiping(a *service.PipingAnswer) *service.PipingAnswer {
	q := *a
	q.Warnings, q.Cautions = nil, nil
	if w := q.Plan(); a.Request.Sold != nil && w != nil && w.Cloth > 0 {
		q.Warnings = []string{"These strips are cut from the length that the job orders for the panels; do not buy cloth for them as well."}
	}
	return &q
}

func quietChart(a *service.ButtoningAnswer) *service.ButtoningAnswer {
	q := *a
	q.Warnings, q.Cautions = nil, nil
	return &q
}

func quietFoundation(a *service.FoundationAnswer) *service.FoundationAnswer {
	q := *a
	q.Warnings, q.Cautions, q.Work.Settings = nil, nil, given(q.Work.Settings)
	return &q
}

func quietFoam(a *service.FoamAnswer) *service.FoamAnswer {
	q := *a
	q.Warnings, q.Cautions = nil, nil
	return &q
}

func quietWadding(a *service.WaddingAnswer) *service.WaddingAnswer {
	q := *a
	q.Warnings, q.Cautions, q.Work.Settings = nil, nil, given(q.Work.Settings)
	return &q
}

// given are the constants that the caller gave; the others are in the answer as
// JSON, and would fill a page of the sheet.
func given(all []practice.Value) []practice.Value {
	var out []practice.Value
	for _, v := range all {
		if v.Given {
			out = append(out, v)
		}
	}
	return out
}

// quietFire is named after the pieces that it is about.
func quietFire(a *service.FireAnswer, job *job.Answer, pieces []int) *service.FireAnswer {
	q := *a
	q.Warnings, q.Cautions = nil, nil
	var names []string
	for _, i := range pieces {
		names = append(names, job.Request.Pieces[i].Title())
	}
	q.Request.Name = strings.Join(names, "; ")
	return &q
}

// JobSVG is the drawings of a job sheet one below the other, as SVG.
func JobSVG(ans *job.Answer) []byte { return JobPicture(ans).SVG() }

// JobPicture is the drawings of a job sheet one below the other.
func JobPicture(ans *job.Answer) *Picture {
	var all []*Picture
	for _, d := range JobDrawings(ans) {
		all = append(all, d.Picture)
	}
	return stacked("Job sheet: "+apart(ans.Title()), all)
}

// JobPDF is the job sheet on pages to be printed, each drawing on new pages.
func JobPDF(ans *job.Answer) ([]byte, error) {
	var all []*Picture
	for _, d := range JobDrawings(ans) {
		all = append(all, d.Picture)
	}
	return PDF(PaperFor(ans.Request.Units), "Job sheet: "+clean(ans.Title()), all...)
}

// stacked puts pictures one below the other, each with its own styles.
func stacked(title string, pictures []*Picture) *Picture {
	out := &Picture{Title: title}
	var descs []string
	for _, p := range pictures {
		c := Class(len(out.Classes))
		out.Items = append(out.Items, Group{Title: p.Title, Dy: out.Height, Items: restyled(p.Items, c)})
		out.Classes = append(out.Classes, p.Classes...)
		out.Width, out.Scale = max(out.Width, p.Width), max(out.Scale, p.Scale)
		for _, w := range p.Whole {
			out.Whole = append(out.Whole, Span{w.From + out.Height, w.To + out.Height})
		}
		for _, strip := range p.Strips {
			strip.Y += out.Height
			out.Strips = append(out.Strips, strip)
		}
		out.Height += p.Height
		out.Units = p.Units
		descs = append(descs, p.Desc)
	}
	out.Desc = strings.Join(descs, " ")
	return out
}

// restyled are shapes with their classes moved by so many.
func restyled(items []Shape, by Class) []Shape {
	out := make([]Shape, len(items))
	for i, it := range items {
		switch s := it.(type) {
		case Rect:
			s.Class += by
			it = s
		case Line:
			s.Class += by
			it = s
		case Circle:
			s.Class += by
			it = s
		case Path:
			s.Class += by
			it = s
		case Text:
			s.Class += by
			it = s
		case Hatch:
			s.Class += by
			it = s
		case Group:
			s.Items = restyled(s.Items, by)
			it = s
		}
		out[i] = it
	}
	return out
}
