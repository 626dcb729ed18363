package job

import (
	"context"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/foam"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
)

// foamed are the fillings of a piece that are new foam: all of a modern build, the
// loose cushions of a traditional one.
func (j *jobber) foamed(i int) []furniture.Filling {
	var out []furniture.Filling
	for _, f := range j.lists[i].List.Fillings {
		if b := j.req.Pieces[i].Build; b == Modern || b == Traditional && f.Loose {
			out = append(out, f)
		}
	}
	return out
}

// foamRequest gathers what is cut from foam; of is the piece of each item.
func (j *jobber) foamRequest() (req service.FoamRequest, of []int, notes []note.Note) {
	req = j.onSale.FoamRequest
	req.Units, req.Items = j.req.Units, nil
	if j.req.Effort == plan.Quick {
		req.Effort = foam.Quick
	}
	for i := range j.req.Pieces {
		for _, f := range j.foamed(i) {
			it := foam.Item{
				ID: j.prefix(i) + f.ID, Name: f.Name, Count: f.Count, Thickness: f.Thickness,
				Shape: foam.Shape{Form: foam.Rectangle, Across: f.Size.Across, Along: f.Size.Along},
			}
			if f.Round {
				it.Shape = foam.Shape{Form: foam.Circle, Across: f.Size.Across, Along: f.Size.Across}
			}
			switch f.Place {
			case furniture.BackPlace:
				it.Place, it.Foam = foam.Back, j.onSale.Back
			case furniture.ArmPlace:
				it.Place, it.Foam = foam.Arm, j.onSale.Arm
			default:
				it.Foam = j.onSale.Seat
				if !f.Loose && f.Thickness < j.req.Shop.Length(practice.FoamThinSeat) {
					it.Place = foam.Pad
				}
			}
			if !f.Loose {
				it.Fit = foam.Flush // it is glued to its base
			}
			req.Items, of = append(req.Items, it), append(of, i)
		}
	}
	if j.req.Foam == nil {
		req.Stock = usualSheets(req.Job)
	}
	for k := range req.Items {
		if n := glued(&req.Items[k], req.Job); n > 1 {
			notes = append(notes, note.New(note.FoamGlued, note.Name("item", req.Items[k].ID), note.Count("parts", n)))
		}
	}
	return req, of, notes
}

// usualSheets are sheets of the usual size in the thicknesses that the items want:
// foam is cut to order, to the usual step, or to as fine a multiple of it as leaves
// six thicknesses of each foam.
func usualSheets(job foam.Job) []foam.Stock {
	step := job.Shop.Length(practice.UsualFoamStep)
	for _, times := range []length.Length{1, 2, 5, 10, 20, 200} {
		var list []foam.Stock
		per, most := make(map[int]int), 0
		for _, it := range job.Items {
			thick, ok := length.RoundUpTo(it.Thickness, times*step)
			if !ok || slices.ContainsFunc(list, func(s foam.Stock) bool { return s.Foam == it.Foam && s.Thickness == thick }) {
				continue
			}
			per[it.Foam]++
			most = max(most, per[it.Foam])
			list = append(list, foam.Stock{
				ID: job.Foams[it.Foam].ID + "-" + strconv.FormatInt(int64(thick/length.Millimetre), 10), Foam: it.Foam,
				Across: job.Shop.Length(practice.UsualFoamAcross), Along: job.Shop.Length(practice.UsualFoamAlong), Thickness: min(thick, foam.MaxSheet),
			})
		}
		if most <= foam.MaxStock {
			return list
		}
	}
	return nil
}

// maxGlued is of how many parts a long pad is glued at most.
const maxGlued = 10

// glued cuts a pad that lies on no sheet into equal parts, side by side or else
// one behind the other, and says into how many; 1 when it fits, or when no parts
// do.
func glued(it *foam.Item, job foam.Job) int {
	over := it.Fit.Over(it.Place, job.Shop)
	fits := func(across, along length.Length) bool {
		for _, s := range job.Stock {
			a, b := s.Across-2*s.Trim, s.Along-2*s.Trim
			w, h := across+over, along+over
			if s.Foam == it.Foam && (w <= a && h <= b || w <= b && h <= a) {
				return true
			}
		}
		return false
	}
	across, along := it.Shape.Across, it.Shape.Along
	if it.Shape.Form != foam.Rectangle || fits(across, along) {
		return 1
	}
	for n := 2; n <= maxGlued; n++ {
		switch part := length.Length(n); {
		case fits(nth(across, part), along):
			it.Shape.Across = nth(across, part)
		case fits(across, nth(along, part)):
			it.Shape.Along = nth(along, part)
		default:
			continue
		}
		it.Count *= n
		it.Name = note.New(note.FoamPart, note.Name("item", it.Name), note.Count("parts", n)).Text(length.Metric)
		return n
	}
	return 1
}

// nth is a part of a length, up to a whole millimetre.
func nth(l, n length.Length) length.Length {
	return length.CeilDiv(l, n).Round(length.Millimetre, length.Up)
}

// sections is in how many parts something is made that is longer than can be made
// in one.
func sections(l, most length.Length) length.Length { return max(length.CeilDiv(l, most), 1) }

// foam answers the foam part; nil when nothing is of foam.
func (j *jobber) foam(ctx context.Context) (*Part[service.FoamAnswer], error) {
	req, of, notes := j.foamRequest()
	if len(req.Items) == 0 {
		return nil, nil
	}
	part := &Part[service.FoamAnswer]{}
	ready, wrong := service.PrepareFoam(req)
	if wrong.Len() == 0 {
		j.foamNotes = notes
	}
	return part, part.answer(ctx, ready, itemPlaced(wrong, "items", of, fault.At("foam")))
}

// waddingRequest gathers what is wrapped and lined.
func (j *jobber) waddingRequest() (req service.WaddingRequest, of []int) {
	req = service.WaddingRequest{Units: j.req.Units, Job: wadding.Job{Shop: j.req.Shop, Given: j.req.Bench.Wadding}}
	for i := range j.req.Pieces {
		build := j.req.Pieces[i].Build
		for _, f := range j.lists[i].List.Fillings {
			if build == Keep && f.Loose {
				continue
			}
			it := wadding.Item{ID: j.prefix(i) + f.ID, Name: f.Name, Count: f.Count, Layers: 1, Width: f.Size.Across, Depth: f.Size.Along}
			switch {
			case f.Loose:
				it.Kind, it.Thickness, it.Ends = wadding.Cushion, f.Thickness, true
			case f.Place == furniture.BackPlace:
				it.Kind, it.Thickness = wadding.Back, f.Thickness
			case f.Place == furniture.ArmPlace:
				it.Kind, it.Width, it.Depth = wadding.Arm, f.Size.Along, f.Size.Across
			default:
				it.Kind, it.Thickness = wadding.Pad, f.Thickness
			}
			it.Material = j.sheetOf(build, f.Loose)
			if n := sections(it.Width, wadding.MaxSize); n > 1 {
				it.Width, it.Count = nth(it.Width, n), it.Count*int(n)
			}
			req.Items, of = append(req.Items, it), append(of, i)
		}
	}
	return req, of
}

// sheetOf is the wadding under the cover.
func (j *jobber) sheetOf(b Build, loose bool) wadding.Material {
	switch {
	case loose:
		return wadding.Polyester
	case j.req.Bench.Sheet != nil:
		return *j.req.Bench.Sheet
	case b == Traditional:
		return wadding.CottonFelt
	}
	return wadding.Polyester
}

// wadding answers the wadding part; nil when nothing is wrapped.
func (j *jobber) wadding(ctx context.Context) (*Part[service.WaddingAnswer], error) {
	req, of := j.waddingRequest()
	if len(req.Items) == 0 {
		return nil, nil
	}
	part := &Part[service.WaddingAnswer]{}
	ready, wrong := service.PrepareWadding(req)
	return part, part.answer(ctx, ready, itemPlaced(wrong, "items", of, fault.At("wadding")))
}

// foundationRequest gathers the frames of one build.
func (j *jobber) foundationRequest(b Build) (req service.FoundationRequest, of []int, notes []note.Note) {
	req = service.FoundationRequest{Units: j.req.Units, Job: foundation.Job{Fixing: j.req.Bench.Fixing, Shop: j.req.Shop, Given: j.req.Bench.Foundation}}
	if b == Modern {
		req.Build = foundation.Modern
	}
	for i := range j.req.Pieces {
		p := &j.req.Pieces[i]
		if p.Build != b {
			continue
		}
		for _, f := range j.lists[i].List.Frames {
			fr := foundation.Frame{
				ID: j.prefix(i) + f.ID, Name: frameName(f.ID), Count: f.Count, Front: f.Size.Across, Depth: f.Size.Along, EdgeRows: -1,
				Part:  [...]foundation.Part{foundation.Seat, foundation.Back, foundation.Arm}[f.Place],
				Place: framePlace(p.Piece.Kind),
			}
			if n := sections(fr.Front, foundation.MaxSize); n > 1 {
				fr.Front, fr.Count = nth(fr.Front, n), fr.Count*int(n)
				notes = append(notes, note.New(note.WebbedInParts, note.Name("frame", fr.ID), note.Length("most", foundation.MaxSize, length.Nearest), note.Count("sections", int64(n))))
			}
			if f.Round {
				fr.Shape, fr.Front, fr.Depth = foundation.Circle, f.Size.Across, 0
			}
			req.Frames, of = append(req.Frames, fr), append(of, i)
		}
	}
	return req, of, notes
}

func frameName(id string) string {
	switch id {
	case "SEAT":
		return "seat"
	case "BACK":
		return "back"
	case "RETURN":
		return "seat of the return"
	}
	return ""
}

// framePlace says which springs a seat has.
func framePlace(kind string) foundation.Place {
	switch kind {
	case "drop-in-seat", "bar-stool": // webbed and stuffed (common practice, no source)
		return foundation.DropIn
	case "stuff-over-chair", "carver", "piano-stool", "footstool":
		return foundation.SmallChair
	}
	return foundation.EasyChair
}

// foundation answers the frames of one build; nil when there are none.
func (j *jobber) foundation(ctx context.Context, b Build) (*Founded, error) {
	req, of, notes := j.foundationRequest(b)
	if len(req.Frames) == 0 {
		return nil, nil
	}
	out := &Founded{Build: b, notes: notes}
	ready, wrong := service.PrepareFoundation(req)
	return out, out.Foundation.answer(ctx, ready, itemPlaced(wrong, "frames", of, fault.At("foundation")))
}
