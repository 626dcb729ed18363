package drawing

import (
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/job"
)

// jobPart is a part of the sheet as it is drawn and written, without its notes,
// which stand together at the end.
type jobPart struct {
	name     string
	picture  func() *Picture
	text     func() string
	loosened []service.Loosened // of a cloth
}

// jobParts are the parts that are shown and answered, in the order of the sheet.
func jobParts(ans *job.Answer) []jobPart {
	var all jobPartList
	h := ans.Request.Hide
	for i, l := range ans.Lists {
		jobPartOf(&all, h.CuttingLists, "cutting-list-"+ans.Request.Pieces[i].ID, l, CuttingListPicture, CuttingListText, func(q *service.CuttingListAnswer) {
			q.Warnings, q.Cautions = nil, nil
		})
	}
	for i := range ans.Plans {
		p := &ans.Plans[i]
		jobPartOf(&all, h.Cloths, "cloth-"+ans.Cloths[p.Cloth].ID, p.Plan.Answer, PlanPicture, PlanText, func(q *service.YardageAnswer) {
			q.Warnings, q.Cautions = nil, nil
			if p.Order != q.Order { // the job orders more than the plan says
				q.Warnings = []note.Note{note.New(note.JobOrders, note.Length("order", p.Order, length.Up), note.Why("why", ans.Why(p)))}
			}
			all[len(all)-1].loosened = p.Loosened
		})
	}
	for _, p := range ans.Piping {
		name := "piping-" + ans.Cloths[p.Cloth].ID
		if y := p.Piping.Answer; y != nil && y.Request.Sold == nil {
			name += "-offcuts"
		}
		jobPartOf(&all, h.Piping, name, p.Piping.Answer, PipingPicture, PipingText, func(q *service.PipingAnswer) {
			q.Warnings, q.Cautions = nil, nil
			if w := q.Plan(); q.Request.Sold != nil && w != nil && w.Cloth > 0 { // which is in the order of its cloth
				q.Warnings = []note.Note{note.New(note.PipingInOrder)}
			}
		})
	}
	for _, b := range ans.Buttoning {
		jobPartOf(&all, h.Buttoning, "buttoning-"+b.Panel, b.Chart.Answer, ButtoningPicture, ButtoningText, func(q *service.ButtoningAnswer) {
			q.Warnings, q.Cautions = nil, nil
		})
	}
	all.bench(ans)
	return all
}

type jobPartList []jobPart

// jobPartOf adds a part, of which quiet is a copy without its notes.
func jobPartOf[A any](all *jobPartList, hidden bool, name string, a *A, picture func(*A) *Picture, text func(*A) string, quiet func(*A)) {
	if hidden || a == nil {
		return
	}
	q := *a
	*all = append(*all, jobPart{name: name, picture: func() *Picture { return picture(&q) }, text: func() string { return text(&q) }})
	quiet(&q)
}

// bench adds what lies beneath the cover, and the fire check.
func (all *jobPartList) bench(ans *job.Answer) {
	h := ans.Request.Hide
	for _, f := range ans.Foundation {
		jobPartOf(all, h.Foundation, f.Build.String()+"-foundation", f.Foundation.Answer, FoundationPicture, FoundationText, func(q *service.FoundationAnswer) {
			q.Warnings, q.Cautions, q.Work.Settings = nil, nil, given(q.Work.Settings)
		})
	}
	if ans.Foam != nil {
		jobPartOf(all, h.Foam, "foam", ans.Foam.Answer, FoamPicture, FoamText, func(q *service.FoamAnswer) { q.Warnings, q.Cautions = nil, nil })
	}
	if ans.Wadding != nil {
		jobPartOf(all, h.Wadding, "wadding", ans.Wadding.Answer, WaddingPicture, WaddingText, func(q *service.WaddingAnswer) {
			q.Warnings, q.Cautions, q.Work.Settings = nil, nil, given(q.Work.Settings)
		})
	}
	for _, f := range ans.Fire {
		ids, titles := jobPieces(ans, f.Pieces)
		const few = 4
		name := "fire-" + strings.Join(ids[:min(len(ids), few)], "-")
		if len(ids) > few {
			name += "-and-others"
		}
		jobPartOf(all, h.Fire, name, f.Check.Answer, FirePicture, FireText, func(q *service.FireAnswer) {
			q.Warnings, q.Cautions = nil, nil
			q.Request.Name = strings.Join(titles, "; ")
		})
	}
}

// jobPieces are the ids of pieces, and what they are called.
func jobPieces(ans *job.Answer, pieces []int) (ids, titles []string) {
	for _, i := range pieces {
		ids, titles = append(ids, ans.Request.Pieces[i].ID), append(titles, ans.Request.Pieces[i].Title())
	}
	return ids, titles
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
