package fire

import (
	"errors"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/calendar"
)

// anyJob draws a job of which much is known, with papers that fit often enough
// to matter.
func anyJob(t *rapid.T, s *Set) Job {
	word := func(field string) string { return rapid.SampledFrom(vocabulary[field]).Draw(t, field) }
	answer := func(what string) Answer { return Answer(rapid.SampledFrom([]string{"yes", "no", ""}).Draw(t, what)) }
	j := Job{
		AsOf:  rapid.SampledFrom([]calendar.Day{20150101, 20191231, 20210625, 20220625, 20241213, 20251029, 20251030, 20261125}).Draw(t, "as of"),
		Place: rapid.SampledFrom(s.Places()).Draw(t, "place"), Use: word("use"), Platform: "building", Item: word("item"),
		Transaction: word("transaction"), Occupancy: word("occupancy"), Hazard: word("hazard"),
		Made:         rapid.SampledFrom([]calendar.Span{{First: 19080101, Last: 19081231}, {First: 19950101, Last: 19951231}, {}}).Draw(t, "made"),
		FillingAdded: answer("filling added"), LooseCushions: answer("loose"), PermanentLabel: answer("permanent"),
		DisplayLabel: answer("display"), FederalLabel: answer("federal"), ChemicalLabel: answer("chemical"),
	}
	if rapid.IntRange(0, 9).Draw(t, "elsewhere") == 0 {
		j.Platform = word("platform")
	}
	for i := range rapid.IntRange(1, 5).Draw(t, "layers") {
		l := Layer{
			ID: string(rune('A' + i)), Role: word("role"), Material: word("material"), Form: word("form"), Supplier: word("supplier"),
			Coating: word("coating"), Treated: answer("treated"), CombustionModified: answer("modified"), FlameRetardant: answer("added"),
			Fibres: []Fibre{{"cotton", int64(rapid.SampledFrom([]int{749_999, 750_000, Whole}).Draw(t, "cotton"))}},
		}
		if l.FlameRetardant == "yes" {
			l.FlameRetardantKind = word("fr-kind")
			l.FlameRetardantPPM = new(int64(rapid.SampledFrom([]int{999, 1000, 1001}).Draw(t, "ppm")))
		}
		j.Layers = append(j.Layers, l)
	}
	for range rapid.IntRange(0, 12).Draw(t, "papers") {
		at := rapid.IntRange(0, len(j.Layers)-1).Draw(t, "about")
		if rapid.Bool().Draw(t, "report") {
			p := passing(&j, at, &s.Tests[rapid.IntRange(0, len(s.Tests)-1).Draw(t, "test")])
			if rapid.IntRange(0, 4).Draw(t, "fails") == 0 {
				p.Result = "fail"
			}
			j.Papers = append(j.Papers, p)
			continue
		}
		j.Papers = append(j.Papers, Paper{Kind: rapid.SampledFrom(vocabulary["paper"][1:]).Draw(t, "kind"), Layer: j.Layers[at].ID, Date: j.AsOf})
	}
	return j
}

func verdictBy(s *Set, j *Job) map[[2]string]Verdict {
	out := make(map[[2]string]Verdict)
	for _, r := range rulingsOf(s.rulesFor(j), j, false) {
		layer := ""
		if r.Layer >= 0 {
			layer = j.Layers[r.Layer].ID
		}
		out[[2]string{r.Rule.ID, layer}] = r.Verdict
	}
	return out
}

// forget takes something that is known away. A report that fails is left: it
// speaks against, and without it there is no evidence either way, which never
// lets a layer pass but may take a prohibition back to evidence-wanted.
func forget(t *rapid.T, j *Job) string {
	known := []struct {
		name string
		take func()
	}{
		{"use", func() { j.Use = "" }}, {"platform", func() { j.Platform = "" }}, {"item", func() { j.Item = "" }},
		{"transaction", func() { j.Transaction = "" }}, {"occupancy", func() { j.Occupancy = "" }}, {"hazard", func() { j.Hazard = "" }},
		{"made", func() { j.Made = calendar.Span{} }}, {"filling added", func() { j.FillingAdded = "" }}, {"loose", func() { j.LooseCushions = "" }},
		{"permanent", func() { j.PermanentLabel = "" }}, {"display", func() { j.DisplayLabel = "" }},
		{"federal", func() { j.FederalLabel = "" }}, {"chemical", func() { j.ChemicalLabel = "" }},
	}
	for i := range j.Layers {
		l := &j.Layers[i]
		known = append(known, []struct {
			name string
			take func()
		}{
			{"material", func() { l.Material = "" }}, {"form", func() { l.Form = "" }}, {"supplier", func() { l.Supplier = "" }},
			{"coating", func() { l.Coating = "" }}, {"treated", func() { l.Treated = "" }}, {"modified", func() { l.CombustionModified = "" }},
			{"fibres", func() { l.Fibres = nil }}, {"added", func() { l.FlameRetardant = "" }}, {"kind", func() { l.FlameRetardantKind = "" }},
			{"ppm", func() { l.FlameRetardantPPM = nil }},
		}...)
	}
	for i := range j.Papers {
		p := &j.Papers[i]
		if p.Result == "fail" {
			continue
		}
		known = append(known, []struct {
			name string
			take func()
		}{
			{"paper", func() { j.Papers = slices.Delete(slices.Clone(j.Papers), i, i+1) }}, {"date", func() { p.Date = 0 }},
			{"reference", func() { p.Reference = "" }}, {"composite", func() { p.Composite = nil }}, {"soaked", func() { p.Soaked = "" }},
			{"result", func() { p.Result = "" }},
		}...)
	}
	one := known[rapid.IntRange(0, len(known)-1).Draw(t, "forgotten")]
	one.take()
	return one.name
}

// To know less never lets anything pass that did not before. Of a ruling of
// which it is now unknown whether it applies, evidence is wanted.
func TestForgettingNeverImproves(t *testing.T) {
	s := rules(t)
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t, s)
		before, err := s.Check(j)
		if err != nil {
			t.Fatal(err)
		}
		was := verdictBy(s, &j)
		less := with(j)
		what := forget(t, &less)
		after, err := s.Check(less)
		if err != nil {
			t.Fatal(err)
		}
		if after.Verdict.Lets() && !before.Verdict.Lets() || after.Verdict == Exempt && before.Verdict != Exempt {
			t.Errorf("without %s the whole goes from %s to %s", what, before.Verdict, after.Verdict)
		}
		for k, v := range verdictBy(s, &less) {
			if w, there := was[k]; there && v.Lets() && (!w.Lets() || v < w) {
				t.Errorf("without %s %v goes from %s to %s", what, k, w, v)
			}
		}
		for i := range less.Layers {
			if b, a := before.Layers[i].Verdict, after.Layers[i].Verdict; a.Lets() && !b.Lets() {
				t.Errorf("without %s layer %d goes from %s to %s", what, i, b, a)
			}
		}
	})
}

// A layer that fails, wherever it is laid, never lets the whole pass.
func TestFailingLayerNeverImproves(t *testing.T) {
	s := rules(t)
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t, s)
		before, _ := s.Check(j)
		worse := with(j)
		bad := Layer{ID: "BAD", Role: rapid.SampledFrom(vocabulary["role"]).Draw(t, "bad"), Material: "other", Supplier: "workroom", Treated: "no"}
		worse.Layers = slices.Insert(worse.Layers, rapid.IntRange(0, len(j.Layers)).Draw(t, "where"), bad)
		for _, one := range s.Tests {
			worse.Papers = append(worse.Papers, Paper{Kind: "report", Layer: "BAD", Test: one.ID, Result: "fail", Date: j.AsOf, Reference: "B"})
		}
		after, err := s.Check(worse)
		if err != nil {
			t.Fatal(err)
		}
		if after.Verdict.Lets() && !before.Verdict.Lets() || after.Verdict < before.Verdict && after.Verdict == Exempt {
			t.Errorf("the whole goes from %s to %s", before.Verdict, after.Verdict)
		}
	})
}

// The order of the papers, where trimmings stand, and the order of fillings
// beneath the first one change nothing.
func TestUnrelatedOrder(t *testing.T) {
	s := rules(t)
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t, s)
		was := verdictBy(s, &j)
		other := with(j)
		other.Papers = rapid.Permutation(other.Papers).Draw(t, "papers")
		if got := verdictBy(s, &other); !reflect.DeepEqual(got, was) {
			t.Errorf("with the papers in another order: %v, not %v", got, was)
		}
		trim := Layer{ID: "TRIM", Role: roleTrim, Material: "other", Supplier: "workroom"}
		first := with(j)
		first.Layers = slices.Insert(first.Layers, 0, trim)
		place := rapid.IntRange(0, len(j.Layers)).Draw(t, "place")
		moved := with(j)
		moved.Layers = slices.Insert(moved.Layers, place, trim)
		a, b := verdictBy(s, &first), verdictBy(s, &moved)
		for k, v := range a {
			if k[1] != "TRIM" && b[k] != v {
				t.Errorf("with the trimming at %d %v is %s, not %s", place, k, b[k], v)
			}
		}
		deep := func(ids ...string) Job {
			out := with(j)
			out.Layers = append(out.Layers, Layer{ID: "TOP", Role: roleFilling, Material: "hair"})
			for _, id := range ids {
				out.Layers = append(out.Layers, Layer{ID: id, Role: roleFilling, Material: "coir"})
			}
			return out
		}
		one, two := deep("P", "Q"), deep("Q", "P")
		if a, b := verdictBy(s, &one), verdictBy(s, &two); !reflect.DeepEqual(a, b) {
			t.Errorf("with the lower fillings the other way round: %v, not %v", b, a)
		}
	})
}

// A rule from memory neither forbids nor exempts, and says that it is from memory.
func TestMemoryDecidesNothing(t *testing.T) {
	s := rules(t)
	met := 0
	for _, c := range allChecks() {
		r, err := s.Check(c.job)
		if err != nil {
			t.Fatal(err)
		}
		list := slices.Clone(r.Piece)
		for _, l := range r.Layers {
			list = append(list, l.Rulings...)
		}
		for _, one := range list {
			if one.Rule.Verified != FromMemory {
				continue
			}
			met++
			if one.Verdict == NotAllowed || one.Verdict == Exempt {
				t.Errorf("%s: %s says %s from memory", c.name, one.Rule.ID, one.Verdict)
			}
			if one.Verdict == EvidenceHeld && one.Say == one.Rule.Cases[0].Say {
				t.Errorf("%s: %s finds its evidence without a caution", c.name, one.Rule.ID)
			}
		}
	}
	if met < 10 {
		t.Errorf("only %d rulings from memory", met)
	}
}

// The changes that are told do what they say: the whole is never let pass while
// a ruling of it does not.
func TestChangesMend(t *testing.T) {
	s := rules(t)
	told := 0
	for _, c := range allChecks() {
		r, err := s.Check(c.job)
		if err != nil {
			t.Fatal(err)
		}
		for _, ch := range r.Changes {
			told++
			if len(ch.Mends) == 0 {
				t.Errorf("%s: %q mends nothing", c.name, ch.What)
			}
			for _, m := range ch.Mends {
				l := line{m.Rule, "-", ""}
				if m.Layer >= 0 {
					l.layer = c.job.Layers[m.Layer].ID
				}
				if v, _ := verdictOf(said(t, s, &c.job, l)); v.Lets() {
					t.Errorf("%s: %q mends %s, which lets it pass", c.name, ch.What, m.Rule)
				}
			}
		}
		if r.Verdict.Lets() && len(r.Changes) > 0 {
			t.Errorf("%s: nothing is wrong, and there are changes", c.name)
		}
	}
	if told < 200 {
		t.Errorf("only %d changes", told)
	}
}

// The named remedies are found by trying: an interliner under natural fibres, a
// report of the composite, another filling; and an interliner is not offered
// where the route is closed.
func TestRemedies(t *testing.T) {
	s := rules(t)
	for _, tc := range []struct {
		job        Job
		what, rule string
		found      bool
	}{
		{gb(paperFor("COVER", "fibre-statement"), report("COVER", "-uk-sch5-1")), "lay an interliner beneath COVER", "uk-cover-match", true},
		{gb(paperFor("COVER", "fibre-statement"), report("COVER", "-uk-sch5-1"), coating("COVER", "polyurethane")), "lay an interliner beneath COVER", "uk-cover-match", false},
		{gb(), "have a report that counts for COVER: Schedule 4 Part I", "uk-cover-cigarette", true},
		{gb(report("FOAM", "-uk-sch1-1")), "choose another filling in place of FOAM", "uk-foam-slab", true},
		{gb(report("FOAM", "-uk-sch1-1")), "have a report that counts for FOAM: Schedule 1 Part I", "uk-foam-slab", false},
		{gb(made("1908")), "get and keep: dating note", "uk-foam-slab", true},
		{gb(made("1990")), "get and keep: dating note", "uk-foam-slab", false},
		{us(report("COVER", "-tb117-2013-1")), "lay an interliner beneath COVER", "us-cover", true},
	} {
		r, err := s.Check(tc.job)
		if err != nil {
			t.Fatal(err)
		}
		found := slices.ContainsFunc(r.Changes, func(c Change) bool {
			return len(c.What) >= len(tc.what) && c.What[:len(tc.what)] == tc.what &&
				slices.ContainsFunc(c.Mends, func(m Mend) bool { return m.Rule == tc.rule })
		})
		if found != tc.found {
			t.Errorf("%q for %s is found: %v, want %v, in %v", tc.what, tc.rule, found, tc.found, r.Changes)
		}
	}
}

func TestUnknownPlace(t *testing.T) {
	s := rules(t)
	for _, j := range []Job{gb(place("atlantis")), gb(place("")), gb(to("atlantis"))} {
		if _, err := s.Check(j); !errors.Is(err, ErrPlace) {
			t.Errorf("%q to %q: %v", j.Place, j.Destination, err)
		}
	}
}

// What is wrong with a paper is noticed.
func TestNotices(t *testing.T) {
	s := rules(t)
	pass := report("COVER", "uk-sch4-1", "FOAM")
	last := func(f func(*Paper)) change { return func(j *Job) { f(&j.Papers[len(j.Papers)-1]) } }
	for want, j := range map[string]Job{
		NoticeWrongTest:    gb(report("COVER", "en-1021-1", "FOAM")),
		NoticeNoTest:       gb(paperFor("COVER", "treatment-record")),
		NoticeFails:        gb(report("COVER", "-uk-sch4-1", "FOAM")),
		NoticeNoResult:     gb(pass, last(func(p *Paper) { p.Result = "" })),
		NoticeNoDate:       gb(pass, last(func(p *Paper) { p.Date = 0 })),
		NoticeNoReference:  gb(pass, last(func(p *Paper) { p.Reference = "" })),
		NoticeLater:        gb(pass, last(func(p *Paper) { p.Date = day("2026-11-26") })),
		NoticeOld:          gb(pass, last(func(p *Paper) { p.Date = day("2021-11-24") })),
		NoticeNotSoaked:    gb(pass, last(func(p *Paper) { p.Soaked = "no" }), at("COVER", func(l *Layer) { l.Treated = "" })),
		NoticeMissingLayer: gb(pass, last(func(p *Paper) { p.Composite = nil })),
		NoticeOtherLayer:   gb(pass, last(func(p *Paper) { p.Composite = []string{"FOAM", "OTHER"} })),
		NoticeFewSpecimens: us(specimens("COVER", outOfThree(5*mm, 5)[:1]...)),
		"":                 gb(pass, last(func(p *Paper) { p.Date = day("2021-11-25") })),
	} {
		r, err := s.Check(j)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, n := range r.Notices {
			got = append(got, n.Kind)
			if n.Detail == "" {
				t.Errorf("%s says nothing", n.Kind)
			}
		}
		if want == "" && len(got) > 0 || want != "" && !slices.Equal(got, []string{want}) {
			t.Errorf("noticed is %q, want %q", got, want)
		}
		counts := want == "" || want == NoticeOld
		if v := said(t, s, &j, line{"uk-cover-cigarette", "COVER", ""}); j.Place == "great-britain" && (v == "evidence-held") != counts {
			t.Errorf("%s: the report counts: %s", want, v)
		}
	}
}
