package service

import (
	"context"
	"maps"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
)

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
	return out
}

func cuttingListCautions() []note.Note {
	return []note.Note{note.New(note.MeasureStuffed), note.New(note.OldStuffing), note.New(note.UsualAllowances)}
}
