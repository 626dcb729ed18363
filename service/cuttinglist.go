package service

import (
	"slices"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/panel"
)

// CuttingListRequest is a measured piece of furniture.
type CuttingListRequest struct {
	Piece   furniture.Piece
	Cloth   *cloth.Cloth // the top cover; nil when it is not chosen yet
	Drop    []string     // panels to leave out
	Replace []panel.Panel
	Covers  map[string]furniture.Cover // panels cut from another cover than usual, by id
}

// CuttingListAnswer is what the piece comes down to.
type CuttingListAnswer struct {
	Request  CuttingListRequest
	List     furniture.List
	Covers   [3][]panel.Panel // by furniture.Cover
	Loosened []Loosened
	Warnings []string
	Cautions []string
}

// CuttingList makes the cutting list. The request must have no faults.
func CuttingList(req CuttingListRequest) *CuttingListAnswer {
	ans := &CuttingListAnswer{Request: req, List: changed(req.Piece.List(), req)}
	for cover := range ans.Covers {
		c := furniture.Cover(cover)
		switch {
		case c != furniture.Top:
			ans.Covers[c] = ans.List.CutFrom(c, cloth.Cloth{})
		case req.Cloth != nil:
			ans.Covers[c], ans.Loosened = kept(ans.List.CutFrom(c, *req.Cloth), *req.Cloth)
		default:
			ans.Covers[c] = ans.List.Of(c)
		}
	}
	ans.Warnings, ans.Cautions = cuttingListWarnings(ans), cuttingListCautions()
	return ans
}

// changed is the list as the caller wants it.
func changed(list furniture.List, req CuttingListRequest) furniture.List {
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
		panels = append(panels, furniture.Panel{Panel: p, Cover: covers[p.ID], How: "as given"})
	}
	for i, p := range panels {
		if cover, moved := req.Covers[p.ID]; moved {
			panels[i].Cover, panels[i].Hidden = cover, p.Hidden && cover == furniture.Lining
		}
	}
	list.Panels = panels
	return list
}
