package foam

import (
	"fmt"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// The limits of what is believed.
const (
	MinSide      = 20 * length.Millimetre
	MaxSide      = 4 * length.Metre
	MinThickness = 3 * length.Millimetre
	MaxThickness = length.Metre
	MaxSheet     = 500 * length.Millimetre // thickness of a sheet
	MinSheet     = 100 * length.Millimetre // side of a sheet
	MaxTrim      = 20 * length.Millimetre
	MaxOver      = 100 * length.Millimetre
	MaxCopies    = 1000
	MaxStock     = 6 // sheets of one foam
)

// FieldFaults are what is wrong with the fields of a job, each by itself and with
// one another; a foam of -1 is one that is not known, and is told by the caller.
func FieldFaults(j *Job) fault.List {
	var l fault.List
	root := fault.Path{}
	j.Shop.Check(&l, root.Field("kerf"), "the kerf", practice.FoamKerf)
	ids := func(list string, i int, id string, seen map[string]bool) {
		if id != "" && seen[id] {
			l.Add(root.Field(list).Index(i).Field("id"), fault.Duplicate, id, "this id is used already", "another id")
		}
		seen[id] = true
	}
	seen, per := make(map[string]bool), make(map[int]int)
	for i := range j.Foams {
		ids("foams", i, j.Foams[i].ID, seen)
	}
	seen = make(map[string]bool)
	for i := range j.Stock {
		k, at := &j.Stock[i], root.Field("sheets").Index(i)
		ids("sheets", i, k.ID, seen)
		l.Between(at.Field("across"), "a sheet", k.Across, MinSheet, MaxSide)
		l.Between(at.Field("along"), "a sheet", k.Along, MinSheet, MaxSide)
		l.Between(at.Field("thickness"), "a sheet's thickness", k.Thickness, MinThickness, MaxSheet)
		l.Between(at.Field("trim"), "the trim", k.Trim, 0, MaxTrim)
		if per[k.Foam]++; k.Foam >= 0 && per[k.Foam] == MaxStock+1 {
			l.Add(at, fault.TooMany, "", "of one foam at most 6 sheets are on sale", "the likely sizes only")
		}
	}
	seen = make(map[string]bool)
	copies := 0
	for i := range j.Items {
		ids("items", i, j.Items[i].ID, seen)
		copies += j.Items[i].Count
		itemFaults(&l, j, &j.Items[i], per, root.Field("items").Index(i))
	}
	if copies > MaxCopies {
		l.Add(root.Field("items"), fault.TooMany, strconv.Itoa(copies), "all items together are at most 1000", "a part of the job")
	}
	return l
}

func itemFaults(l *fault.List, j *Job, it *Item, per map[int]int, at fault.Path) {
	l.Between(at.Field("thickness"), "the thickness", it.Thickness, MinThickness, MaxThickness)
	l.Between(at.Field("crown"), "the crown", it.Crown, 0, 200*length.Millimetre)
	if it.Over != nil {
		l.Between(at.Field("overCut"), "the over-cut", *it.Over, 0, MaxOver)
	}
	if it.Foam >= 0 && per[it.Foam] == 0 {
		l.Add(at.Field("foam"), fault.NotAllowed, j.Foams[it.Foam].ID, "no sheet of this foam is on sale", "a sheet of it, or another foam")
	}
	if t := it.Top; t != nil {
		here := at.Field("top")
		l.Between(here.Field("thickness"), "the top's thickness", t.Thickness, MinThickness, MaxThickness)
		if t.Foam >= 0 && per[t.Foam] == 0 {
			l.Add(here.Field("foam"), fault.NotAllowed, j.Foams[t.Foam].ID, "no sheet of this foam is on sale", "a sheet of it, or another foam")
		}
		if t.Thickness >= MinThickness && t.Thickness*t.layers() >= it.Wanted() {
			l.Add(here.Field("thickness"), fault.TooLarge, t.Thickness.String(), "the top leaves no room for a core", "a thinner top")
		}
	}
	before := l.Len()
	shapeFaults(l, &it.Shape, at.Field("shape"))
	if l.Len() == before && it.Shape.Form == Outline && it.over(j.Shop) > 0 && it.over(j.Shop) <= MaxOver && !soundOutline(it.Shape.Grown(it.over(j.Shop)/2).Points) {
		l.Add(at.Field("shape").Field("points"), fault.NotAllowed, "", "with the over-cut the outline crosses itself", "a smaller over-cut, or an outline without narrow notches")
	}
}

// shapeFaults wants measures that make the form.
func shapeFaults(l *fault.List, s *Shape, at fault.Path) {
	if s.Form == NoForm {
		return
	}
	if s.Form == Outline {
		outlineFaults(l, s, at.Field("points"))
		return
	}
	across := "across"
	if s.Form == Circle {
		across = "diameter"
	}
	n := l.Len()
	l.Between(at.Field(across), "a side", s.Across, MinSide, MaxSide)
	if s.Form != Circle {
		l.Between(at.Field("along"), "a side", s.Along, MinSide, MaxSide)
	}
	if l.Len() > n {
		return
	}
	less := func(field string, v, least, most length.Length, why string) {
		switch {
		case v < least:
			l.Add(at.Field(field), fault.TooSmall, v.String(), "this is at least "+least.String(), "a larger measure")
		case v > most:
			l.Add(at.Field(field), fault.TooLarge, v.String(), why, "a smaller measure")
		}
	}
	const mm = length.Millimetre
	switch s.Form {
	case Trapezoid:
		less("back", s.Back, MinSide, MaxSide, "a side is at most 4 m")
	case TShape:
		n := length.Length(1)
		if s.Ears == EarsBoth {
			n = 2
		}
		less("earAcross", s.EarAcross, mm, (s.Across-MinSide)/n, "the ears leave nothing between them")
		less("earAlong", s.EarAlong, mm, s.Along-mm, "the ears are less deep than the cushion")
	case LShape:
		less("notchAcross", s.EarAcross, mm, s.Across-MinSide, "nothing is left beside the notch")
		less("notchAlong", s.EarAlong, mm, s.Along-MinSide, "nothing is left before the notch")
	case Rounded:
		less("radius", s.Radius, mm, min(s.Across, s.Along)/2, "the corners meet: the radius is at most half the shorter side")
	case DShape:
		less("along", s.Along, (s.Across+1)/2, MaxSide, "a side is at most 4 m")
	}
}

func outlineFaults(l *fault.List, s *Shape, at fault.Path) {
	if len(s.Points) < 3 {
		l.Add(at, fault.TooFew, strconv.Itoa(len(s.Points)), "an outline has 3 corners or more", "every corner once, in turn")
		return
	}
	lo, hi := corners(s.Points)
	n := l.Len()
	for _, d := range []length.Length{hi.Across - lo.Across, hi.Along - lo.Along} {
		if l.Len() == n {
			l.Between(at, "an outline", d, MinSide, MaxSide)
		}
	}
	if l.Len() == n && !soundOutline(s.Points) {
		l.Add(at, fault.NotAllowed, "", "the outline touches or crosses itself, or has a corner sharper than 20 degrees", "every corner once, in turn")
	}
}

// Faults are those of the fields, and whether every item fits on a sheet of its
// foam as it is cut and can be made up of a few layers of a sane thickness.
func Faults(j *Job) fault.List {
	l := FieldFaults(j)
	if l.Len() > 0 {
		return l
	}
	s := &solver{job: j, lists: make(map[key][]Lamination)}
	for i := range j.Items {
		it := &j.Items[i]
		w, h := it.Shape.Grown(it.over(j.Shop) / 2).Bounds()
		s.boxes = append(s.boxes, [2]length.Length{w, h})
		for _, f := range it.foams() {
			if s.fitting(f, i) == 0 {
				l.Add(fault.At("items").Index(i).Field("shape"), fault.TooLarge, "",
					"cut "+w.Text(length.Metric, length.Up)+" by "+h.Text(length.Metric, length.Up)+" it fits on no sheet of "+j.Foams[f].ID, "a larger sheet, or the cushion in parts")
				break
			}
		}
	}
	if l.Len() > 0 {
		return l
	}
	for i := range j.Items {
		s.layerFaults(&l, i)
	}
	if l.Len() == 0 && j.layersAtMost() > MaxPieces {
		l.Add(fault.At("items"), fault.TooMany, "", "the thinnest layers that may be needed are more than 6000", "thicker sheets, or a part of the job")
	}
	return l
}

// layerFaults wants layers that make up an item.
func (s *solver) layerFaults(l *fault.List, item int) {
	it, glue := &s.job.Items[item], gluing(s.job.Shop)
	at := fault.At("items").Index(item)
	wrong := func(at fault.Path, given length.Length, part string, thick length.Length, f int) {
		l.Add(at, fault.TooLarge, given.String(), fmt.Sprintf(
			"%s of %s cannot be glued up of the sheets of %s: of at most %d layers, each %s or more (common practice, no source)",
			part, thick.Text(length.Metric, length.Nearest), s.job.Foams[f].ID, glue.Layers, glue.Thin.Text(length.Metric, length.Nearest)),
			"thicker sheets of this foam, or a thinner cushion")
	}
	core := it.Wanted()
	if t := it.Top; t != nil {
		got, ok := s.made(t.Foam, item, t.Thickness)
		if !ok {
			wrong(at.Field("top").Field("thickness"), t.Thickness, "a top", t.Thickness, t.Foam)
			return
		}
		core -= got.Thickness * t.layers()
	}
	if _, ok := s.made(it.Foam, item, core); !ok {
		wrong(at.Field("thickness"), it.Thickness, "a core", core, it.Foam)
	}
}

// foams are those that an item is made of.
func (i *Item) foams() []int {
	if i.Top != nil && i.Top.Foam != i.Foam {
		return []int{i.Foam, i.Top.Foam}
	}
	return []int{i.Foam}
}

// layersAtMost bounds the layers of all items from their thickness and that of the
// thinnest sheet, which is never more than is asked for a core and its tops.
func (j *Job) layersAtMost() int {
	thinnest := MaxThickness
	for i := range j.Stock {
		thinnest = min(thinnest, j.Stock[i].Thickness)
	}
	sum := 0
	for i := range j.Items {
		it := &j.Items[i]
		n := min(int((it.Wanted()+thinnest-1)/thinnest), gluing(j.Shop).Layers)
		if it.Top != nil {
			n += 4
		}
		sum += it.Count * n
	}
	return sum
}
