package fire

import (
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/length"
)

var held = sync.OnceValues(Load)

func rules(t testing.TB) *Set {
	t.Helper()
	s, err := held()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func day(s string) calendar.Day {
	d, ok := calendar.Parse(s)
	if !ok {
		panic(s)
	}
	return d
}

func span(s string) calendar.Span {
	d, ok := calendar.ParseSpan(s)
	if !ok && s != "" {
		panic(s)
	}
	return d
}

type change = func(*Job)

// with is the job with changes.
func with(j Job, changes ...change) Job {
	j.Layers, j.Papers = slices.Clone(j.Layers), slices.Clone(j.Papers)
	for _, c := range changes {
		c(&j)
	}
	return j
}

// gb is an armchair of 1995 that a workroom covers anew for its owner at home
// in Great Britain, in cotton over foam.
func gb(changes ...change) Job {
	return with(Job{
		AsOf: day("2026-11-25"), Place: "great-britain", Use: "home", Platform: "building", Item: "seating",
		Transaction: "reupholstered-for-owner", Made: span("1995"),
		Layers: []Layer{
			{ID: "COVER", Role: roleCover, Material: "woven-cloth", Supplier: "workroom", Coating: "none", Treated: "no", Fibres: []Fibre{{"cotton", Whole}}},
			{ID: "FOAM", Role: roleFilling, Material: "polyurethane-foam", Form: "slab", Supplier: "workroom"},
		},
	}, changes...)
}

// us is a dining chair that is covered anew for sale.
func us(changes ...change) Job {
	return with(gb(place("united-states"), deal("reupholstered-for-sale")), changes...)
}

func ca(changes ...change) Job { return with(us(place("california")), changes...) }

func place(p string) change  { return func(j *Job) { j.Place = p } }
func to(p string) change     { return func(j *Job) { j.Destination = p } }
func use(u string) change    { return func(j *Job) { j.Use = u } }
func deal(d string) change   { return func(j *Job) { j.Transaction = d } }
func item(i string) change   { return func(j *Job) { j.Item = i } }
func on(p string) change     { return func(j *Job) { j.Platform = p } }
func asOf(d string) change   { return func(j *Job) { j.AsOf = day(d) } }
func made(d string) change   { return func(j *Job) { j.Made = span(d) } }
func hazard(h string) change { return func(j *Job) { j.Hazard = h } }
func in(o string) change     { return func(j *Job) { j.Occupancy = o } }
func size(long, wide length.Length) change {
	return func(j *Job) { j.Long, j.Wide = long, wide }
}

// at changes the layer with that id.
func at(id string, f func(*Layer)) change {
	return func(j *Job) {
		for i := range j.Layers {
			if j.Layers[i].ID == id {
				f(&j.Layers[i])
			}
		}
	}
}

func role(id, r string) change     { return at(id, func(l *Layer) { l.Role = r }) }
func from(id, s string) change     { return at(id, func(l *Layer) { l.Supplier = s }) }
func of(id, m, form string) change { return at(id, func(l *Layer) { l.Material, l.Form = m, form }) }
func fibres(id string, f ...Fibre) change {
	return at(id, func(l *Layer) { l.Fibres = f })
}
func coating(id, c string) change { return at(id, func(l *Layer) { l.Coating = c }) }
func retardant(id string, added Answer, kind string, ppm int64) change {
	return at(id, func(l *Layer) {
		if l.FlameRetardant, l.FlameRetardantKind = added, kind; added == "yes" {
			l.FlameRetardantPPM = &ppm
		}
	})
}

// lay puts a layer beneath the first n.
func lay(n int, id, role, material, form string) change {
	return func(j *Job) {
		j.Layers = slices.Insert(j.Layers, n, Layer{ID: id, Role: role, Material: material, Form: form, Supplier: "workroom", Treated: "no", Coating: "none"})
	}
}

func interliner(j *Job) { lay(1, "INTER", roleInterliner, "woven-cloth", "")(j) }

// alone leaves one layer.
func alone(id string) change {
	return func(j *Job) {
		j.Layers = slices.DeleteFunc(j.Layers, func(l Layer) bool { return l.ID != id })
	}
}

// report is one that passes, or with a minus before the test one that fails.
func report(layer, test string, composite ...string) change {
	return func(j *Job) {
		p := Paper{Kind: "report", Layer: layer, Test: test, Result: "pass", Date: day("2026-06-01"), Reference: "L-1", Soaked: "yes", Composite: composite}
		if name, fails := strings.CutPrefix(test, "-"); fails {
			p.Test, p.Result = name, "fail"
		}
		p.Date = min(p.Date, j.AsOf)
		j.Papers = append(j.Papers, p)
	}
}

func paper(kind string) change { return paperFor("", kind) }

func paperFor(layer, kind string) change {
	return func(j *Job) {
		j.Papers = append(j.Papers, Paper{Kind: kind, Layer: layer, Date: min(day("2026-06-01"), j.AsOf), Reference: "P-1"})
	}
}

func specimens(layer string, list ...Specimen) change {
	return func(j *Job) {
		j.Papers = append(j.Papers, Paper{Kind: "report", Layer: layer, Test: smoulderTest, Date: min(day("2026-06-01"), j.AsOf), Reference: "S-1", Specimens: list})
	}
}

func yes(f func(*Job) *Answer) change { return func(j *Job) { *f(j) = "yes" } }
func no(f func(*Job) *Answer) change  { return func(j *Job) { *f(j) = "no" } }

func added(j *Job) *Answer     { return &j.FillingAdded }
func loosely(j *Job) *Answer   { return &j.LooseCushions }
func permanent(j *Job) *Answer { return &j.PermanentLabel }
func display(j *Job) *Answer   { return &j.DisplayLabel }
func chemical(j *Job) *Answer  { return &j.ChemicalLabel }
func smooth(j *Job) *Answer    { return &j.SmoothSurface }
func meets(j *Job) *Answer     { return &j.SeatMeetsBack }
func ordered(j *Job) *Answer   { return &j.Prescribed }
func modified(id string, a Answer) change {
	return at(id, func(l *Layer) { l.CombustionModified = a })
}
