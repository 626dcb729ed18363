package job

import (
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

// noteBook gathers notes, each once with the parts that say so: two are one when
// they have the same code and the same parameters.
type noteBook struct{ notes []note.Note }

func (b *noteBook) add(from string, notes ...note.Note) {
	for _, n := range notes {
		k := slices.IndexFunc(b.notes, n.Same)
		if k < 0 {
			k = len(b.notes)
			n.From = nil
			b.notes = append(b.notes, n)
		}
		if !slices.Contains(b.notes[k].From, from) {
			b.notes[k].From = append(b.notes[k].From, from)
		}
	}
}

// listed are the notes as the sheet has them.
func (b *noteBook) listed() []note.Note {
	out := note.Listed(b.notes, maxNotes)
	for i := range out {
		if out[i].From == nil { // it counts those that are left out
			out[i].From = []string{"job"}
		}
	}
	return out
}

// sections names the parts of the sheet that have notes, in their order.
func (a *Answer) sections() []section {
	var all []section
	add := func(hidden bool, article, from string, faults fault.List, warnings, cautions []note.Note) {
		all = append(all, section{hidden, article, from, faults, warnings, cautions})
	}
	h := a.Request.Hide
	for i, l := range a.Lists {
		add(h.CuttingLists, "", "cutting list "+a.Request.Pieces[i].ID, fault.List{}, l.Warnings, l.Cautions)
	}
	for _, p := range a.Plans {
		id := a.Cloths[p.Cloth].ID
		add(partNotes(h.Cloths, "cloth/"+id, "cloth "+id, p.Plan, func(y *service.YardageAnswer) ([]note.Note, []note.Note) { return y.Warnings, y.Cautions }))
	}
	for _, p := range a.Piping {
		id := a.Cloths[p.Cloth].ID
		add(partNotes(h.Piping, "piping/"+id, "piping "+id, p.Piping, func(y *service.PipingAnswer) ([]note.Note, []note.Note) { return y.Warnings, y.Cautions }))
	}
	for _, b := range a.Buttoning {
		add(partNotes(h.Buttoning, "buttoning/"+b.Panel, "buttoning "+b.Panel, b.Chart, func(y *service.ButtoningAnswer) ([]note.Note, []note.Note) {
			warnings := slices.Clone(y.Warnings)
			for _, one := range b.Copies {
				warnings = append(warnings, one.Warnings...)
			}
			return warnings, y.Cautions
		}))
	}
	if a.Foam != nil {
		add(partNotes(h.Foam, "foam", "foam", *a.Foam, func(y *service.FoamAnswer) ([]note.Note, []note.Note) { return y.Warnings, y.Cautions }))
	}
	if a.Wadding != nil {
		add(partNotes(h.Wadding, "wadding", "wadding", *a.Wadding, func(y *service.WaddingAnswer) ([]note.Note, []note.Note) { return y.Warnings, y.Cautions }))
	}
	for _, f := range a.Foundation {
		add(partNotes(h.Foundation, "foundation/"+f.Build.String(), f.Build.String()+" foundation", f.Foundation, func(y *service.FoundationAnswer) ([]note.Note, []note.Note) { return y.Warnings, y.Cautions }))
	}
	for _, f := range a.Fire {
		add(partNotes(h.Fire, "fire", "fire check of "+pieceIDs(a.Request, f.Pieces), f.Check, func(y *service.FireAnswer) ([]note.Note, []note.Note) { return y.Warnings, y.Cautions }))
	}
	if a.Cost != nil {
		add(h.Cost, "", "cost", fault.List{}, a.Cost.Warnings, nil)
	}
	return all
}

// section is a part of the sheet with what it says.
type section struct {
	hidden             bool
	article            string // what it is bought as, or the family of that
	from               string
	faults             fault.List
	warnings, cautions []note.Note
}

func partNotes[A any](hidden bool, article, from string, p Part[A], of func(*A) (warnings, cautions []note.Note)) (bool, string, string, fault.List, []note.Note, []note.Note) {
	if p.Answer == nil {
		return hidden, article, from, p.Fault, nil, nil
	}
	w, c := of(p.Answer)
	return hidden, article, from, fault.List{}, w, c
}

func pieceIDs(req Request, pieces []int) string {
	var ids []string
	for _, i := range pieces {
		ids = append(ids, req.Pieces[i].ID)
	}
	if n := len(ids); n > 1 && n < 5 {
		return strings.Join(ids[:n-1], ", ") + " and " + ids[n-1]
	}
	return buying.FirstFew(ids)
}

// notesOf are the warnings and cautions of all parts that are shown, and those
// that are about how the parts hang together.
func notesOf(j *jobber, a *Answer) (warnings, cautions []note.Note) {
	var w, c noteBook
	for _, s := range a.sections() {
		if s.hidden {
			continue
		}
		if n := s.faults.Len(); n > 0 {
			w.add(s.from, note.New(note.PartUnanswered, note.Name("fault", s.faults.Faults()[0].Detail)))
		}
		w.add(s.from, s.warnings...)
		c.add(s.from, s.cautions...)
	}
	j.ownNotes(&w, a)
	return w.listed(), c.listed()
}

// maxNotes is how many warnings, and how many cautions, a sheet has at most, but
// for those that are grave.
const maxNotes = 1000

// unstuffed are the fixed pads of a traditional build that lie on no frame of the
// foundation.
func (j *jobber) unstuffed(i int) []string {
	list := &j.lists[i].List
	var names []string
	for _, f := range list.Fillings {
		framed := slices.ContainsFunc(list.Frames, func(fr furniture.Frame) bool { return fr.Place == f.Place })
		if j.req.Pieces[i].Build == Traditional && !f.Loose && !framed {
			names = append(names, f.Name)
		}
	}
	return names
}

// ownNotes are the notes of the job itself.
func (j *jobber) ownNotes(w *noteBook, a *Answer) {
	for c := len(a.Request.Cloths); c < len(a.Cloths); c++ {
		w.add("job", note.New(note.LiningTaken, note.Length("width", a.Cloths[c].Cloth.Width, length.Nearest)))
	}
	if a.Foam != nil && a.Request.Foam == nil {
		w.add("job", note.New(note.FoamTaken))
	}
	w.add("foam", j.foamNotes...)
	for i := range j.req.Pieces {
		if names := j.unstuffed(i); len(names) > 0 {
			w.add("job", note.New(note.Unstuffed, note.Name("piece", j.req.Pieces[i].ID), note.Names("pads", names...)))
		}
	}
	for _, f := range a.Foundation {
		w.add(f.Build.String()+" foundation", f.notes...)
	}
	for _, b := range a.Buttoning {
		if b.Chart.OK() && !a.Request.Hide.CuttingLists {
			cut := b.Chart.Answer.Work.Cut()
			w.add("buttoning "+b.Panel, note.New(note.ButtonedCutSize, note.Name("panel", b.Panel),
				note.Length("across", cut.Across, length.Up), note.Length("along", cut.Along, length.Up)))
		}
	}
	for _, p := range a.Plans {
		if n := len(p.Loosened); n > 0 && !a.Request.Hide.Cloths {
			w.add("cloth "+a.Cloths[p.Cloth].ID, note.New(note.WishesLoosened, note.Count("count", n)))
		}
		if y := p.Plan.Answer; y != nil && y.Pieces != nil && p.ForPiping > 0 {
			w.add("piping "+a.Cloths[p.Cloth].ID, note.New(note.PipingNewCloth))
		}
		if p.Plan.Answer == nil && p.Plan.Fault.Len() > 0 && p.ForPiping > 0 {
			w.add("piping "+a.Cloths[p.Cloth].ID, note.New(note.PipingNoPlan))
		}
	}
}

// Unanswered are the faults of the parts that are shown, when none of those
// that are worked out is answered; none otherwise.
func Unanswered(a *Answer) fault.List {
	var l fault.List
	for _, s := range a.sections() {
		if s.hidden {
			continue
		}
		if s.faults.Len() == 0 {
			return fault.List{}
		}
		for _, f := range s.faults.Faults() {
			if !slices.ContainsFunc(l.Faults(), f.Same) { // a chart's faults are its plan's too
				l.Append(fault.ListOf(f))
			}
		}
	}
	return l
}

// FaultedPart is a part that could not be worked out.
type FaultedPart struct {
	Part   string
	Faults fault.List
}

// Faulted are the parts that are shown and could not be worked out.
func (a *Answer) Faulted() []FaultedPart {
	var out []FaultedPart
	for _, s := range a.sections() {
		if !s.hidden && s.faults.Len() > 0 {
			out = append(out, FaultedPart{s.from, s.faults})
		}
	}
	return out
}
