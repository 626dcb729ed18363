package service

import (
	"fmt"
	"maps"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
)

// CuttingListFaults are everything wrong with the request; pointers are those of
// the wire form.
func CuttingListFaults(req CuttingListRequest) fault.List {
	l := CuttingListFieldFaults(req)
	if l.Len() > 0 {
		return l
	}
	at, list := fault.At("panels"), req.List()
	if len(list.Panels) == 0 {
		l.Add(fault.At("drop"), fault.TooFew, "", "no panel is left", "leave at least one panel on the list")
		return l
	}
	ans := CuttingList(req)
	for cover, panels := range ans.Covers {
		if cover == 0 && len(panels) == 0 {
			l.Add(fault.At("drop"), fault.TooFew, "", "no panel of the top cover is left", "leave at least one panel of the top cover")
			continue
		}
		var here fault.List
		here.Append(panel.ListFaults(panels, at))
		if of := req.clothOf(furniture.Cover(cover)); of != nil {
			job := plan.Job{Cloth: *of, Panels: panels}
			here.Append(panel.ClothFaults(panels, job.Cloth, 0, at))
			if here.Len() == 0 {
				here.Append(plan.Faults(job, fault.Path{}))
			}
		}
		l.Append(located(here, panels, req, furniture.Cover(cover)))
	}
	return l
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

func cuttingListWarnings(a *CuttingListAnswer) []string {
	var out []string
	if len(a.List.Assumed) > 0 {
		out = append(out, assumedWarning(a.List.Assumed))
	}
	for _, b := range a.List.Buttons {
		out = append(out, b.Panel+" is deep-buttoned: its cloth must be larger than the panel here, for the wells between the buttons")
	}
	if len(a.Loosened) > 0 {
		out = append(out, fmt.Sprintf("%d wishes about the pattern cannot be kept on this cloth and were loosened", len(a.Loosened)))
	}
	if text := a.thin(); text != "" {
		out = append(out, text)
	}
	return out
}

func assumedWarning(list []furniture.Measure) string {
	return fmt.Sprintf("%d measures were not given and are taken as typical: measure them before ordering", len(list))
}

func cuttingListCautions(shop practice.Set) []string {
	return []string{
		"Measure over the stuffing and at the widest places, and once more before the first cut.",
		"Old stuffing can hold dust, mould and pests: wear a mask, bag it, and clean with a vacuum.",
		"Allowances are the workroom's usual ones; a loose weave or a deep seat may want more.",
		fmt.Sprintf("The list is of panels alone: order %s more to square the ends of each piece of cloth, and %s %% for flaws in plain cloth (%s).",
			shop.Length(practice.ClothSquaring), practice.Decimal(shop.Number(practice.ClothFlaws)), shop.Basis(practice.ClothSquaring.Setting, practice.ClothFlaws.Setting)),
	}
}
