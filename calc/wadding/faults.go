package wadding

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// The limits of a job.
const (
	MaxItems  = 100
	MaxCount  = 100
	MaxLayers = 10
	MaxPieces = 500 // of all sheets together
	MinSize   = 10 * mm
	MaxSize   = 5 * length.Metre
	MaxThick  = length.Metre
)

// Faults are everything wrong with a job, by the names of the wire form. What
// does not fit together is asked only when nothing else is wrong.
func (job Job) Faults(at fault.Path) fault.List {
	l := job.FieldFaults(at)
	if l.Len() == 0 {
		l = job.fitFaults(at.Field("items"))
	}
	return l
}

// FieldFaults are what is wrong with the fields.
func (job Job) FieldFaults(at fault.Path) fault.List {
	l := Book().Faults(job.Given, at.Field("settings"))
	items := at.Field("items")
	if len(job.Items) == 0 {
		l.Add(items, fault.TooFew, "", "there is nothing to wrap or to fill", "one item or more")
	}
	ids := make(map[string]bool, len(job.Items))
	for i, it := range job.Items {
		here := items.Index(i)
		if it.ID != "" && ids[it.ID] {
			l.Add(here.Field("id"), fault.Duplicate, it.ID, "another item has this id", "an id of its own")
		}
		ids[it.ID] = true
		it.faults(&l, here)
	}
	return l
}

// takes are the measures that a kind has.
func (it Item) takes(field string) bool {
	switch {
	case it.Kind == Seats:
		return false
	case field == "rise":
		return it.Kind == Dome
	}
	return true
}

func (it Item) faults(l *fault.List, at fault.Path) {
	size := func(field string, v, least, most length.Length, must bool) {
		switch {
		case !it.takes(field):
			if v != 0 {
				l.Add(at.Field(field), fault.NotAllowed, v.String(), "this kind has no "+field, "leave "+field+" out, or change kind")
			}
		case v == 0 && must:
			l.Add(at.Field(field), fault.Missing, "", "this kind needs its "+field, "give "+field)
		case v != 0:
			l.Between(at.Field(field), "the "+field, v, least, most)
		}
	}
	size("width", it.Width, MinSize, MaxSize, true)
	size("depth", it.Depth, MinSize, MaxSize, true)
	size("thickness", it.Thickness, mm, MaxThick, it.Kind == Cushion || it.Material.Loose() && it.Kind != Dome)
	size("rise", it.Rise, mm, MaxThick, true)
	refuse := func(field string, set bool, detail, try string) {
		if set {
			l.Add(at.Field(field), fault.NotAllowed, "", detail, try)
		}
	}
	refuse("wrap", it.Wrap != FrontToBack && it.Kind != Cushion, "only a cushion is wrapped", "leave wrap out, or make it a cushion")
	refuse("ends", it.Ends && it.Kind != Cushion, "only a cushion has ends", "leave ends out, or make it a cushion")
	refuse("layers", it.Layers > 1 && it.Material.Loose(), "a loose filling has no layers", "leave layers out, or give a sheet")
	refuse("material", it.Kind == Seats && !it.Material.Loose(), "seats are filled by their number with hair or fibre", "hair or fibre, or another kind")
	refuse("place", it.Place != StuffOver && it.Kind != Seats, "a place belongs to seats", "leave place out, or change kind")
}

// fitFaults wants pieces that come off their roll, and not too many.
func (job Job) fitFaults(at fault.Path) fault.List {
	var l fault.List
	u := job.Practice()
	pieces := 0
	for i, it := range job.Items {
		if it.Material.Loose() {
			continue
		}
		sheet := it.Material.sheet()
		width, roll := u.Length(sheet.Width), u.Length(sheet.Roll)
		here := at.Index(i)
		for _, p := range it.pieces(i, u) {
			cut := p.Cut()
			pieces += p.Count * parts(p.Panel, width)
			switch wide := p.Turn == panel.Upright; {
			case wide && p.Join == panel.NoJoin:
				l.Add(here, fault.WiderThanCloth, cut.Across.String(), "a piece of "+cut.Across.String()+" by "+cut.Along.String()+" is wider than the roll both ways", "a wider roll by the setting "+sheet.Width.Name+", or whole: false")
			case wide && cut.Along > roll, !wide && longest(cut, width) > roll:
				l.Add(here, fault.LongerThanBolt, cut.Along.String(), "a piece of "+cut.Across.String()+" by "+cut.Along.String()+" is longer than the roll", "a longer roll by the setting "+sheet.Roll.Name)
			}
		}
	}
	if l.Len() == 0 && pieces > MaxPieces {
		l.Add(at, fault.TooMany, strconv.Itoa(pieces), "there are "+strconv.Itoa(pieces)+" pieces of wadding with all copies, layers and parts", "at most "+strconv.Itoa(MaxPieces))
	}
	return l
}

// parts is how many parts a piece is joined from, at most.
func parts(p panel.Panel, width length.Length) int {
	if p.Join == panel.NoJoin {
		return 1
	}
	return int(p.Cut().Across/max(width-2*p.JoinSeam, 1)) + 2
}

// longest is the run along the roll of a piece that may lie either way.
func longest(cut panel.Size, width length.Length) length.Length {
	short, long := min(cut.Across, cut.Along), max(cut.Across, cut.Along)
	if long <= width {
		return short
	}
	return long
}
