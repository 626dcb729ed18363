package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
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
			panels, loosened := LoosenWishes(ans.List.CutFrom(c, *of), *of)
			ans.Covers[c], ans.Loosened = panels, append(ans.Loosened, loosened...)
		}
	}
	ans.Warnings, ans.Cautions = note.Listed(cuttingListWarnings(ans), note.Most), note.Listed(cuttingListCautions(), note.Most)
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
	ans := &CuttingListAnswer{Request: req, Covers: req.ByHand, Cautions: note.Listed(cuttingListCautions(), note.Most)}
	for cover, panels := range req.ByHand {
		for _, p := range panels {
			ans.List.Panels = append(ans.List.Panels, furniture.Panel{Panel: p, Cover: furniture.Cover(cover), How: note.New(note.PanelAsGiven)})
		}
	}
	return ans
}
