package service

import (
	"cmp"
	"context"
	"maps"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
)

// CuttingListRequest is a measured piece of furniture.
type CuttingListRequest struct {
	Name    string // of the piece; "" for that of its kind
	Piece   furniture.Piece
	Cloth   *cloth.Cloth // the top cover; nil when it is not chosen yet
	Outside *cloth.Cloth // of the outside panels, where they have another
	Lining  *cloth.Cloth // nil for a plain one
	Drop    []string     // panels to leave out
	Replace []panel.Panel
	Covers  map[string]furniture.Cover // panels cut from another cover than usual, by id
	ByHand  [3][]panel.Panel           // by furniture.Cover; in place of a piece of some kind
}

// CuttingListAnswer is what the piece comes down to.
type CuttingListAnswer struct {
	Request  CuttingListRequest
	List     furniture.List
	Covers   [3][]panel.Panel // by furniture.Cover
	Loosened []Loosened
	Warnings []note.Note
	Cautions []note.Note
}

// CuttingList makes the cutting list, whether the request has faults or not; see
// PrepareCuttingList.
func CuttingList(req CuttingListRequest) *CuttingListAnswer {
	if req.Piece.Kind == "" {
		return writtenList(req)
	}
	ans := &CuttingListAnswer{Request: req, List: req.List()}
	for cover := range ans.Covers {
		c := furniture.Cover(cover)
		switch of := req.clothOf(c); {
		case of == nil && c == furniture.Lining:
			ans.Covers[c] = ans.List.CutFrom(c, cloth.Cloth{})
		case of == nil:
			ans.Covers[c] = ans.List.Of(c)
		default:
			panels, loosened := ans.shaved(c, *of)
			ans.Covers[c], ans.Loosened = panels, append(ans.Loosened, loosened...)
		}
	}
	ans.Warnings, ans.Cautions = note.Listed(cuttingListWarnings(ans), note.Most), note.Listed(cuttingListCautions(req.Piece.Shop), note.Most)
	return ans
}

// clothOf is what a cover is cut from; nil when it is not chosen yet.
func (r CuttingListRequest) clothOf(c furniture.Cover) *cloth.Cloth {
	return [...]*cloth.Cloth{r.Cloth, r.Outside, r.Lining}[c]
}

// List is the cutting list of the piece as the caller wants it.
func (req CuttingListRequest) List() furniture.List {
	list := req.Piece.List()
	stands := func(id string) bool {
		return !slices.Contains(req.Drop, id) && !slices.ContainsFunc(req.Replace, func(p panel.Panel) bool { return p.ID == id })
	}
	var panels []furniture.Panel
	covers := make(map[string]furniture.Cover, len(list.Panels))
	for _, p := range list.Panels {
		covers[p.ID] = p.Cover
		if stands(p.ID) {
			panels = append(panels, p)
		}
	}
	for _, p := range req.Replace {
		panels = append(panels, furniture.Panel{Panel: p, Cover: covers[p.ID], How: note.New(note.PanelAsGiven)})
	}
	for i, p := range panels {
		if cover, moved := req.Covers[p.ID]; moved {
			panels[i].Cover, panels[i].Hidden = cover, p.Hidden && cover == furniture.Lining
		}
	}
	list.Panels = panels
	return list
}

// writtenList is a cutting list that was written by hand: its wishes stand as
// they are.
func writtenList(req CuttingListRequest) *CuttingListAnswer {
	ans := &CuttingListAnswer{Request: req, Covers: req.ByHand, Cautions: note.Listed(cuttingListCautions(req.Piece.Shop), note.Most)}
	for cover, panels := range req.ByHand {
		for _, p := range panels {
			ans.List.Panels = append(ans.List.Panels, furniture.Panel{Panel: p, Cover: furniture.Cover(cover), How: note.New(note.PanelAsGiven)})
		}
	}
	return ans
}

// PrepareCuttingList makes the cutting list, and says everything wrong with the
// request; pointers are those of the wire form.
func PrepareCuttingList(req CuttingListRequest) (Ready[CuttingListAnswer], fault.List) {
	l := CuttingListFieldFaults(req)
	if l.Len() > 0 {
		return nil, l
	}
	ans := CuttingList(req)
	if len(ans.List.Panels) == 0 {
		l.Add(fault.At("drop"), fault.TooFew, "", "no panel is left", "leave at least one panel on the list")
		return nil, l
	}
	at := fault.At("panels")
	for cover, panels := range ans.Covers {
		if cover == 0 && len(panels) == 0 {
			l.Add(fault.At("drop"), fault.TooFew, "", "no panel of the top cover is left", "leave at least one panel of the top cover")
			continue
		}
		here := panel.ListFaults(panels, at)
		if of := req.clothOf(furniture.Cover(cover)); of != nil && len(panels) > 0 {
			_, here = plan.Prepare(plan.Job{Cloth: *of, Panels: panels})
		}
		l.Append(located(here, panels, req, furniture.Cover(cover)))
	}
	return func(context.Context) (*CuttingListAnswer, error) { return ans, nil }, l
}

// located moves the faults of a cutting list to where the caller can mend them:
// to the panel that he gave, or, for one that was made, to the cloth that it does
// not fit.
func located(l fault.List, panels []panel.Panel, req CuttingListRequest, cover furniture.Cover) fault.List {
	var out fault.List
	for _, f := range l.Faults() {
		of, _ := f.Path.In("panels")
		n, rest, one := of.Entry()
		f.Path = fault.At("replace")
		if f.Code == fault.TooMany && req.Piece.Count > 1 {
			f.Path, f.Given = fault.At("count"), strconv.Itoa(req.Piece.Count)
		}
		if one {
			k := slices.IndexFunc(req.Replace, func(p panel.Panel) bool { return p.ID == panels[n].ID })
			switch {
			case k >= 0:
				f.Path = f.Path.Index(k).Then(rest)
			case f.Code == fault.WiderThanCloth:
				f.Path = fault.At([...]string{"cloth", "outsideCloth", ""}[cover]).Field("width")
			}
		}
		out.Append(fault.ListOf(f))
	}
	return out
}

// CuttingListFieldFaults are what is wrong with the fields by themselves.
func CuttingListFieldFaults(req CuttingListRequest) fault.List {
	root := fault.Path{}
	l := req.Piece.Faults(root)
	if req.Cloth != nil {
		l.Append(req.Cloth.Faults(root.Field("cloth")))
	}
	if req.Outside != nil {
		l.Append(req.Outside.Faults(root.Field("outsideCloth")))
	}
	seen := make(map[string]bool)
	for i, p := range req.Replace {
		if seen[p.ID] {
			l.Add(root.Field("replace").Index(i).Field("id"), fault.Duplicate, p.ID, "another panel has this id", "an id of its own")
		}
		seen[p.ID] = true
	}
	l.Append(strangers(req, seen))
	return l
}

// strangers are panels that are to be left out or moved and are not on the list.
func strangers(req CuttingListRequest, added map[string]bool) fault.List {
	var l fault.List
	if _, ok := furniture.Find(req.Piece.Kind); !ok {
		return l
	}
	root, known := fault.Path{}, make(map[string]bool)
	for _, p := range req.Piece.List().Panels {
		known[p.ID] = true
	}
	say := func(at fault.Path, id string, ok bool) {
		if !ok {
			l.Add(at, fault.UnknownPanel, id, "this piece, with these options, has no such panel", "the id of a panel of its cutting list")
		}
	}
	for i, id := range req.Drop {
		say(root.Field("drop").Index(i), id, known[id])
	}
	for _, id := range slices.Sorted(maps.Keys(req.Covers)) {
		say(root.Field("covers").Field(id), id, known[id] || added[id])
	}
	return l
}

func cuttingListWarnings(a *CuttingListAnswer) []note.Note {
	var out []note.Note
	if n := len(a.List.Assumed); n > 0 {
		out = append(out, note.New(note.MeasuresAssumed, note.Count("count", n)))
	}
	for _, b := range a.List.Buttons {
		out = append(out, note.New(note.ButtonedLarger, note.Name("panel", b.Panel)))
	}
	if n := len(a.Loosened); n > 0 {
		out = append(out, note.New(note.WishesLoosened, note.Count("count", n)))
	}
	if thin := a.thin(); thin.Said() {
		out = append(out, thin)
	}
	return out
}

func cuttingListCautions(shop practice.Set) []note.Note {
	return []note.Note{
		note.New(note.MeasureStuffed), note.New(note.OldStuffing), note.New(note.UsualAllowances),
		note.New(note.OrderMore, note.Length("squaring", shop.Length(practice.ClothSquaring), length.Nearest), note.Decimal("flaws", shop.Number(practice.ClothFlaws)),
			note.Name("basis", shop.Basis(practice.ClothSquaring.Setting, practice.ClothFlaws.Setting))),
	}
}

// Loosened is a wish that the cloth cannot keep, and what is wished instead: the
// same of both when only the tie to a twin is given up.
type Loosened struct {
	Panel           string
	Wished, Instead panel.How
	Moved           bool          // the motif is wished at another place of the panel
	Off             length.Length // and so far from the first
	Why             note.Note
}

// LoosenWishes are the panels with the wishes loosened that no place on the cloth can
// keep.
func LoosenWishes(panels []panel.Panel, c cloth.Cloth) ([]panel.Panel, []Loosened) {
	var list []Loosened
	out, loosened := plan.Loosen(plan.Job{Cloth: c, Panels: panels})
	for _, l := range loosened {
		list = append(list, Loosened{panels[l.Panel].ID, l.Wished.How, l.Instead.How, l.Moved, l.Off, l.Why})
	}
	return out, list
}

// thin warns of a list that takes less cloth than its class is believed to, for the
// size of the piece; nothing when it takes enough. Cloth for the outside counts with the
// cover.
func (a *CuttingListAnswer) thin() note.Note {
	p := a.Request.Piece
	surface, least, ok := p.Box()
	if !ok || surface == 0 {
		return note.Note{}
	}
	width := p.Shop.Length(practice.UsualCloth)
	if a.Request.Cloth != nil {
		width = a.Request.Cloth.Width
	}
	var panels []panel.Panel
	for _, q := range a.List.Panels {
		if q.Cover != furniture.Lining { // of one piece, as makers state it
			q.Count = max(q.Count/max(p.Count, 1), 1)
			panels = append(panels, q.Panel)
		}
	}
	area := int64(rowsByHand(panels, width)/length.Millimetre) * int64(width/length.Millimetre)
	if got := area * practice.One / surface; got < least {
		return note.New(note.ListThin, note.Decimal("share", got-got%(practice.One/100)), note.Decimal("least", least))
	}
	return note.Note{}
}

// rowsByHand is what panels take when they are chalked in rows, the tallest first,
// each into the first row with room. A panel wider than the cloth takes as many rows
// as it has widths.
func rowsByHand(panels []panel.Panel, width length.Length) length.Length {
	type row struct{ left, high length.Length }
	var sizes []panel.Size
	for _, p := range panels {
		for range p.Count {
			cut := p.Cut()
			for ; cut.Across > width; cut.Across -= width {
				sizes = append(sizes, panel.Size{Across: width, Along: cut.Along})
			}
			sizes = append(sizes, cut)
		}
	}
	slices.SortStableFunc(sizes, func(a, b panel.Size) int { return cmp.Compare(b.Along, a.Along) })
	var rows []row
	sum := length.Length(0)
	for _, s := range sizes {
		i := slices.IndexFunc(rows, func(r row) bool { return r.left >= s.Across })
		if i < 0 {
			i, rows = len(rows), append(rows, row{width, s.Along})
			sum += s.Along
		}
		rows[i].left -= s.Across
	}
	return sum
}
