package job

import (
	"fmt"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
)

// noteBook gathers notes, each text once.
type noteBook struct{ notes []Note }

func (b *noteBook) add(from string, texts ...string) {
	for _, t := range texts {
		t = oneVoice(t)
		n := slices.IndexFunc(b.notes, func(o Note) bool { return sameNote(o.Text, t) })
		if n < 0 {
			b.notes = append(b.notes, Note{Text: t})
			n = len(b.notes) - 1
		}
		if !slices.Contains(b.notes[n].From, from) {
			b.notes[n].From = append(b.notes[n].From, from)
		}
	}
}

// sameNote tells whether two notes say the same but for how they begin and end.
func sameNote(a, b string) bool {
	return strings.EqualFold(strings.TrimRight(a, "."), strings.TrimRight(b, "."))
}

// topics are cautions that several parts give in words of their own: a text with
// these words in it stands on the sheet as the one that says it for all.
var topics = []struct{ words, text string }{
	{"is a matter of the fire rules", "Whether these cloths and fillings may be used for this piece is a matter of the fire rules where it is supplied; local codes and the supplier's papers decide."},
	{"trimming knives cut hands", cutCaution}, {"needles cut and stab hands", cutCaution}, {"knives cut hands", cutCaution},
	{"pray adhesive needs", "Spray adhesive needs fresh air and no flame; follow its label."},
	{"ld stuffing can hold", oldStuffing}, {"oam dust and old stuffing", oldStuffing}, {"ld hair and fibre can hold", oldStuffing},
	{"oam and its dust burn", burningFoam}, {"oam burns fast", burningFoam},
	{"easure the repeats on the cloth itself", "Measure the repeats on the cloth itself at several places: printed repeats run out, and plans and charts are exact."},
	{"easure every seam again", measureAgain}, {"easure the piece and the cloth once more", measureAgain}, {"easure over the stuffing and at the widest", measureAgain},
}

const (
	cutCaution   = "Shears, rotary cutters, trimming knives, foam saws and needles cut and stab hands: cut away from yourself, keep blades closed, and wear a mask against foam dust."
	oldStuffing  = "Old stuffing can hold dust, mould, pests and, rarely, germs: wear a mask and gloves, bag it, and vacuum rather than sweep. Old finishes can hold lead."
	burningFoam  = "Foam and its dust burn fast and give deadly smoke: no flame, no smoking, no heater near it; store little, and keep the supplier's papers."
	measureAgain = "Measure once more before the first cut: the piece over its stuffing and at its widest, every seam that is piped, and the cloth: its width between the selvedges, its flaws, and which way is up."
)

// oneVoice is a text as the sheet has it.
func oneVoice(text string) string {
	for _, t := range topics {
		if strings.Contains(text, t.words) {
			return t.text
		}
	}
	return text
}

// sections names the parts of the sheet that have notes, in their order.
func (a *Answer) sections() []section {
	var all []section
	add := func(hidden bool, article, from string, faults fault.List, warnings, cautions []string) {
		all = append(all, section{hidden, article, from, faults, warnings, cautions})
	}
	h := a.Request.Hide
	for i, l := range a.Lists {
		add(h.CuttingLists, "", "cutting list "+a.Request.Pieces[i].ID, fault.List{}, l.OpenWarnings(), l.Cautions)
	}
	for _, p := range a.Plans {
		id := a.Cloths[p.Cloth].ID
		add(partNotes(h.Cloths, "cloth/"+id, "cloth "+id, p.Plan, func(y *service.YardageAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
	}
	for _, p := range a.Piping {
		id := a.Cloths[p.Cloth].ID
		add(partNotes(h.Piping, "piping/"+id, "piping "+id, p.Piping, func(y *service.PipingAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
	}
	for _, b := range a.Buttoning {
		add(partNotes(h.Buttoning, "buttoning/"+b.Panel, "buttoning "+b.Panel, b.Chart, func(y *service.ButtoningAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
	}
	if a.Foam != nil {
		add(partNotes(h.Foam, "foam", "foam", *a.Foam, func(y *service.FoamAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
	}
	if a.Wadding != nil {
		add(partNotes(h.Wadding, "wadding", "wadding", *a.Wadding, func(y *service.WaddingAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
	}
	for _, f := range a.Foundation {
		add(partNotes(h.Foundation, "foundation/"+f.Build.String(), f.Build.String()+" foundation", f.Foundation, func(y *service.FoundationAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
	}
	for _, f := range a.Fire {
		add(partNotes(h.Fire, "fire", "fire check of "+pieceIDs(a.Request, f.Pieces), f.Check, func(y *service.FireAnswer) ([]string, []string) { return y.Warnings, y.Cautions }))
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
	warnings, cautions []string
}

func partNotes[A any](hidden bool, article, from string, p Part[A], of func(*A) (warnings, cautions []string)) (bool, string, string, fault.List, []string, []string) {
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
func notesOf(j *jobber, a *Answer) (warnings, cautions []Note) {
	var w, c noteBook
	for _, s := range a.sections() {
		if s.hidden {
			continue
		}
		if n := s.faults.Len(); n > 0 {
			w.add(s.from, "this part could not be worked out: "+s.faults.Faults()[0].Detail)
		}
		w.add(s.from, s.warnings...)
		c.add(s.from, s.cautions...)
	}
	j.ownNotes(&w, a)
	return w.notes[:min(len(w.notes), maxNotes)], c.notes[:min(len(c.notes), maxNotes)]
}

// maxNotes is how many warnings, and how many cautions, a sheet has at most.
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
	units := a.Request.Units
	for c := len(a.Request.Cloths); c < len(a.Cloths); c++ {
		w.add("job", "no lining is named: it is taken as plain, "+a.Cloths[c].Cloth.Width.Text(units, length.Nearest)+" wide")
	}
	if a.Foam != nil && a.Request.Foam == nil {
		w.add("job", "nothing is said of the foam on sale: usual foams are taken, cut to the thickness that is wanted (common practice, no source)")
	}
	w.add("foam", j.foamNotes...)
	for i := range j.req.Pieces {
		if names := j.unstuffed(i); len(names) > 0 {
			w.add("job", "nothing is ordered to stuff these beneath the wadding, since no foundation is reckoned for them ("+j.req.Pieces[i].ID+"): "+strings.Join(names, ", "))
		}
	}
	for _, f := range a.Foundation {
		w.add(f.Build.String()+" foundation", f.notes...)
	}
	for _, b := range a.Buttoning {
		if b.Chart.OK() && !a.Request.Hide.CuttingLists {
			cut := b.Chart.Answer.Work.Cut()
			w.add("buttoning "+b.Panel, b.Panel+" is cut "+cut.Across.Text(units, length.Up)+" across and "+cut.Along.Text(units, length.Up)+
				" along, as its chart and the plan have it, and not as on the cutting list: the wells take the rest")
		}
	}
	for _, p := range a.Plans {
		if n := len(p.Loosened); n > 0 && !a.Request.Hide.Cloths {
			w.add("cloth "+a.Cloths[p.Cloth].ID, fmt.Sprintf("wishes about the pattern that cannot be kept on this cloth and were loosened: %d", n))
		}
		if y := p.Plan.Answer; y != nil && y.Pieces != nil && p.ForPiping > 0 {
			w.add("piping "+a.Cloths[p.Cloth].ID, "with pieces in hand the offcuts are not known before they are laid out: the piping is cut from new cloth")
		}
		if p.Plan.Answer == nil && p.Plan.Fault.Len() > 0 && p.ForPiping > 0 {
			w.add("piping "+a.Cloths[p.Cloth].ID, "its cloth has no plan, so that the piping is cut from new cloth")
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
