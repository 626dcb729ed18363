package job

import (
	"fmt"
	"slices"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
)

// roleOrder is the order of the roles of layers from the outside inwards.
var roleOrder = []string{
	"loose-cover", "stretch-cover", "cover", "trim", "hidden-cover", "interliner", "wadding", "lining", "ticking", "filling", "decking",
}

// stack is a stack of materials while it is put together.
type stack struct {
	layers []fire.Layer
	names  []string
}

// put adds a layer beneath those of its role and of those outside it; a layer that
// is there already stays.
func (s *stack) put(l fire.Layer, name string) {
	if slices.ContainsFunc(s.layers, func(o fire.Layer) bool { return o.ID == l.ID }) {
		return
	}
	at, rank := 0, slices.Index(roleOrder, l.Role)
	for k, o := range s.layers {
		if slices.Index(roleOrder, o.Role) <= rank {
			at = k + 1
		}
	}
	s.layers, s.names = slices.Insert(s.layers, at, l), slices.Insert(s.names, at, name)
}

// fireRequest asks about one piece: its layers, with what is known of them.
func (j *jobber) fireRequest(i int) service.FireRequest {
	req := *j.req.Fire
	p := &j.req.Pieces[i]
	var s stack
	j.clothLayers(&s, i)
	j.fillingLayers(&s, i)
	known := req.Job.Layers
	for k, l := range s.layers {
		if n := slices.IndexFunc(known, func(o fire.Layer) bool { return o.ID == l.ID }); n >= 0 {
			s.layers[k] = known[n]
			if n < len(req.Names) && req.Names[n] != "" {
				s.names[k] = req.Names[n]
			}
		}
	}
	for n, l := range known {
		if name := req.Names[n]; !j.aLayer(l.ID) {
			s.put(l, name)
		}
	}
	req.Job.Layers, req.Names = s.layers, s.names
	req.Job.Papers = nil
	for _, paper := range j.req.Fire.Job.Papers {
		if paper.Layer == "" || slices.ContainsFunc(s.layers, func(l fire.Layer) bool { return l.ID == paper.Layer }) {
			req.Job.Papers = append(req.Job.Papers, paper)
		}
	}
	req.Job.Item = "seating"
	if p.Piece.Kind == "headboard" {
		req.Job.Item = "headboard"
	}
	loose := slices.ContainsFunc(j.lists[i].List.Fillings, func(f furniture.Filling) bool { return f.Loose })
	req.Job.LooseCushions = answerOf(loose)
	if p.byHand() {
		req.Job.LooseCushions = ""
	} else if p.Build != Keep {
		req.Job.FillingAdded = "yes"
	}
	return req
}

func answerOf(yes bool) fire.Answer {
	if yes {
		return "yes"
	}
	return "no"
}

// clothLayers are the cloths of a piece.
func (j *jobber) clothLayers(s *stack, i int) {
	for cover, panels := range j.lists[i].Covers {
		if len(panels) == 0 {
			continue
		}
		c := j.cloths[j.covers[i][cover]]
		role := "cover"
		if furniture.Cover(cover) == furniture.Lining {
			role = "hidden-cover"
		}
		s.put(fire.Layer{ID: c.ID, Role: role, Supplier: "workroom"}, c.Cloth.Name)
	}
}

// fillingLayers are what lies beneath the cloths of a piece.
func (j *jobber) fillingLayers(s *stack, i int) {
	p, list := &j.req.Pieces[i], j.lists[i].List
	if p.byHand() || p.Build == Keep {
		s.put(fire.Layer{ID: "KEPT", Role: "filling", Supplier: "retained"}, "what stays in the piece")
	}
	for _, f := range list.Fillings {
		if p.Build == Keep && f.Loose {
			continue
		}
		s.put(waddingLayer(j.sheetOf(p.Build, f.Loose)))
	}
	for _, f := range j.foamed(i) {
		of := j.onSale.Seat
		switch f.Place {
		case furniture.BackPlace:
			of = j.onSale.Back
		case furniture.ArmPlace:
			of = j.onSale.Arm
		}
		if of >= 0 && of < len(j.onSale.Foams) {
			q := j.onSale.Foams[of]
			s.put(fire.Layer{ID: foamLayer(q.ID), Role: "filling", Material: "polyurethane-foam", Form: "slab", Supplier: "workroom"}, q.Name)
		}
	}
	if len(list.Frames) == 0 || p.Build == Keep {
		return
	}
	if p.Build == Traditional {
		s.put(fire.Layer{ID: "CALICO", Role: "lining", Material: "woven-cloth", Supplier: "workroom"}, foundation.Calico.String())
		s.put(fire.Layer{ID: "STUFFING", Role: "filling", Form: "loose", Supplier: "workroom"}, "hair or fibre")
		s.put(fire.Layer{ID: "HESSIAN", Role: "lining", Material: "woven-cloth", Supplier: "workroom"}, "hessian and scrim")
	}
	s.put(fire.Layer{ID: "BOTTOMING", Role: "hidden-cover", Supplier: "workroom"}, "bottoming cloth")
}

func waddingLayer(m wadding.Material) (fire.Layer, string) {
	l := fire.Layer{ID: "WADDING", Role: "wadding", Form: "sheet", Supplier: "workroom", Material: "polyester-fibre"}
	name := "polyester wadding"
	switch m {
	case wadding.CottonFelt:
		l.ID, l.Material, name = "FELT", "cotton-felt", "cotton felt"
	case wadding.Skin:
		l.ID, l.Material, name = "SKIN", "other-filling", "skin wadding"
	}
	return l, name
}

func foamLayer(id string) string { return "FOAM-" + id[:min(len(id), 27)] }

// aLayer reports whether an id is that of a layer of some piece.
func (j *jobber) aLayer(id string) bool {
	for i := range j.req.Pieces {
		var s stack
		j.clothLayers(&s, i)
		j.fillingLayers(&s, i)
		if slices.ContainsFunc(s.layers, func(l fire.Layer) bool { return l.ID == id }) {
			return true
		}
	}
	return false
}

// fires checks every stack once, for all pieces that have it.
func (j *jobber) fires(rules *fire.Set) ([]Checked, error) {
	if j.req.Fire == nil {
		return nil, nil
	}
	var out []Checked
	var asked []service.FireRequest
	same := make(map[string]int) // requests by what they say
	for i := range j.req.Pieces {
		req := j.fireRequest(i)
		says := fmt.Sprintf("%+v", req)
		if n, ok := same[says]; ok {
			out[n].Pieces = append(out[n].Pieces, i)
			continue
		}
		same[says] = len(asked)
		asked, out = append(asked, req), append(out, Checked{Pieces: []int{i}})
	}
	papers := j.strangePapers(asked)
	for n, req := range asked {
		l := service.FireFaults(req)
		if len(req.Job.Layers) > service.MaxFireLayers {
			l.Add(fault.At("layers"), fault.TooMany, "", fmt.Sprintf("the stack has %d layers", len(req.Job.Layers)), fmt.Sprintf("at most %d", service.MaxFireLayers))
		}
		l = l.Below(fault.At("fire"))
		l.Append(papers)
		if l.Len() > 0 {
			out[n].Check.Fault = l
			continue
		}
		ans, err := service.FireCheck(rules, req)
		if err != nil {
			return nil, err
		}
		out[n].Check.Answer = ans
	}
	return out, nil
}

// strangePapers are papers about a layer that no piece has.
func (j *jobber) strangePapers(asked []service.FireRequest) fault.List {
	var l fault.List
	for k, paper := range j.req.Fire.Job.Papers {
		known := paper.Layer == "" || slices.ContainsFunc(asked, func(r service.FireRequest) bool {
			return slices.ContainsFunc(r.Job.Layers, func(o fire.Layer) bool { return o.ID == paper.Layer })
		})
		if !known {
			l.Add(fault.At("fire").Field("papers").Index(k).Field("layer"), fault.UnknownLayer, paper.Layer,
				"no piece has a layer with this id", "the id of a cloth, or of another layer of a piece")
		}
	}
	return l
}
