package costing

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/practice"
)

// The operations of the bench.
const (
	Strip       = "strip"
	FrameRepair = "frame repair"
	Foundation  = "foundation"
	Stuffing    = "stuffing"
	Cutting     = "cutting"
	Machining   = "machining"
	Covering    = "covering"
	Buttoning   = "buttoning"
	Trimming    = "trimming"
	Collection  = "collection"
)

// Bench are the operations of the bench in the order in which they are done. A
// panel that is buttoned is buttoned while it is covered; its hours stand by
// themselves all the same.
func Bench() []string {
	return []string{Strip, FrameRepair, Foundation, Stuffing, Cutting, Machining, Covering, Buttoning, Trimming, Collection}
}

// Place is where an operation stands in the order of the bench, from 0. One that
// the bench does not know comes last but for collection.
func Place(operation string) int {
	bench := Bench()
	switch i := slices.Index(bench, operation); {
	case i < 0:
		return len(bench) - 1
	case operation == Collection:
		return len(bench)
	default:
		return i
	}
}

// Timetable is the hours of a shop: those of a preset, with lines of the shop's
// own in their place.
type Timetable struct {
	Preset string       // "": none, and Lines are all
	Shop   practice.Set // what the workroom goes by: the hours of the preset
	// Lines stand in the place of the preset's lines of the same name; others are
	// added. A line without hours takes an operation out.
	Lines []Operation
}

// Operations are the operations of the timetable, in the order of the bench;
// those that the bench does not know in the order in which they were given.
func (t Timetable) Operations() []Operation {
	preset, _ := FindPreset(t.Preset, t.Shop)
	out := slices.Clone(preset.Operations)
	for _, o := range t.Lines {
		if i := slices.IndexFunc(out, func(p Operation) bool { return p.Name == o.Name }); i >= 0 {
			out[i] = o
		} else {
			out = append(out, o)
		}
	}
	slices.SortStableFunc(out, func(a, b Operation) int { return cmp.Compare(Place(a.Name), Place(b.Name)) })
	return out
}

// Labour is what the work takes, each operation to a hundredth of an hour, at the
// rate for an hour where a line has none of its own, without operations that
// take no time.
func (t Timetable) Labour(w Work, rate decimal.Decimal, tax string) []Labour {
	var list []Labour
	for _, o := range t.Operations() {
		h := o.hours(w)
		if !h.IsPositive() {
			continue
		}
		l := Labour{Name: o.Name, Hours: h, Rate: rate, Tax: tax}
		if o.Rate != nil {
			l.Rate = *o.Rate
		}
		list = append(list, l)
	}
	return list
}

// The limits of a timetable.
const (
	MaxOperations = 40
	maxFixed      = 2000
	maxPer        = 200
)

// Faults are what is wrong with the timetable; at is where it stands.
func (t Timetable) Faults(at fault.Path) fault.List {
	var c checker
	if _, ok := FindPreset(t.Preset, t.Shop); !ok && t.Preset != "" {
		var names []string
		for _, p := range Presets(t.Shop) {
			names = append(names, p.Name)
		}
		c.Add(at.Field("preset"), fault.NotOneOf, t.Preset, "there is no such example of hours", strings.Join(names, ", "))
	}
	if len(t.Lines) > MaxOperations {
		c.Add(at.Field("lines"), fault.TooMany, "", "there are more than "+strconv.Itoa(MaxOperations)+" lines of hours", "at most "+strconv.Itoa(MaxOperations))
		return c.List
	}
	seen := make(map[string]bool, len(t.Lines))
	for i, o := range t.Lines {
		here := at.Field("lines").Index(i)
		if seen[o.Name] {
			c.Add(here.Field("name"), fault.Duplicate, o.Name, "another line has the hours of this operation", "each operation once")
		}
		seen[o.Name] = true
		c.between(here.Field("fixed"), "the time", o.Fixed, maxFixed)
		for _, per := range []struct {
			field string
			hours decimal.Decimal
		}{
			{"perPiece", o.PerPiece}, {"perPanel", o.PerPanel}, {"perCushion", o.PerCushion}, {"perFrame", o.PerFrame}, {"perButton", o.PerButton}, {"perMetre", o.PerMetre},
		} {
			c.between(here.Field(per.field), "the time", per.hours, maxPer)
		}
		if o.Rate != nil {
			c.between(here.Field("rate"), "the rate", *o.Rate, MaxPrice)
		}
	}
	return c.List
}
