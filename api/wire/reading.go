package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
)

func dayFrom(s string) calendar.Day {
	d, _ := calendar.Parse(s)
	return d
}

func wireUnits(s length.System) *gen.Units {
	u := gen.UnitsMetric
	if s == length.Imperial {
		u = gen.UnitsImperial
	}
	return &u
}

// translator turns the wire form into the domain's. It records the faults that
// only the wire form can show: a field that is given as 0 where the domain
// takes 0 for left out, and a field that is left out where 0 means something.
type translator struct {
	shape fault.List
	// shop is what the workroom goes by, and before it what the request gives. It is
	// the one place where figures other than those of the table come in.
	shop practice.Set
}

// own takes a figure of the request, where it is given, before that of the
// workroom.
func (t *translator) own(k practice.LengthKey, s *string) {
	if s != nil {
		t.shop = t.shop.With(k.Give(lengthFrom(*s)))
	}
}

// value is what p points to, or the zero value.
func value[T any](p *T) T {
	if p == nil {
		var zero T
		return zero
	}
	return *p
}

func unitsFrom(u gen.Units) length.System {
	if u == gen.UnitsImperial {
		return length.Imperial
	}
	return length.Metric
}

func effortFrom(e gen.Effort) plan.Effort {
	switch e {
	case gen.EffortQuick:
		return plan.Quick
	case gen.EffortThorough:
		return plan.Thorough
	}
	return plan.Normal
}

// positive is a length for which the domain takes 0 for left out.
func (t *translator) positive(s *string, at fault.Path) length.Length {
	if s == nil {
		return 0
	}
	l := lengthFrom(*s)
	if l == 0 {
		t.shape.Add(at, fault.TooSmall, *s, "this is more than nothing when it is given", "a length, or leave it out")
	}
	return l
}

// belongs records a field that the wish needs and lacks, or has and may not.
func (t *translator) belongs(at fault.Path, given, may, must bool, field, how string) {
	switch {
	case given && !may:
		t.shape.Add(at, fault.NotAllowed, "", field+" belongs to "+how, "leave "+field+" out, or change how")
	case !given && may && must:
		t.shape.Add(at, fault.Missing, "", how+" needs "+field, "give "+field)
	}
}

// set lets a field be left out where its value is the zero value.
func set[T comparable](field **T, v T) {
	var zero T
	if v != zero {
		*field = &v
	}
}

// mapped is what f makes of what p points to; nil for nil.
func mapped[A, B any](p *A, f func(A) B) *B {
	if p == nil {
		return nil
	}
	b := f(*p)
	return &b
}
