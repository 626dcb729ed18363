package service

import (
	"regexp"
	"slices"
	"testing"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

func fireRules(t *testing.T) *fire.Set {
	t.Helper()
	s, err := fire.Load()
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func fireChair() FireRequest {
	return FireRequest{
		Name: "Chair", Names: []string{"", "seat foam"},
		Job: fire.Job{
			AsOf: 2026_11_25, Place: "great-britain", Use: "home", Platform: "building", Item: "seating",
			Transaction: "reupholstered-for-owner", Made: calendar.Span{First: 1995_01_01, Last: 1995_12_31},
			Layers: []fire.Layer{
				{ID: "COVER", Role: "cover", Supplier: "workroom", Treated: "no"},
				{ID: "FOAM", Role: "filling", Material: "polyurethane-foam", Form: "slab", Supplier: "workroom"},
			},
		},
	}
}

// The answer lists papers once each with their rules, the cautions of the rules
// once each, and says what was left out and why.
func TestFireCheckAnswer(t *testing.T) {
	req := fireChair()
	req.Job.Made = calendar.Span{}
	a, err := FireCheck(fireRules(t), req)
	if err != nil {
		t.Fatal(err)
	}
	seen := map[string]bool{}
	for _, k := range a.Papers {
		if seen[k.Paper+k.Keep.Keep] || len(k.Rules) == 0 || k.Paper == "" || k.Keep.Keep == "" {
			t.Errorf("paper %+v", k)
		}
		seen[k.Paper+k.Keep.Keep] = true
	}
	if len(a.Papers) < 3 {
		t.Errorf("papers %+v", a.Papers)
	}
	for i, n := range a.Cautions {
		if slices.ContainsFunc(a.Cautions[:i], n.Same) {
			t.Errorf("a caution stands twice: %+v", n)
		}
	}
	for _, want := range []note.Code{note.OldStuffing, note.FoamBurns, note.FireRuleSays} {
		if !slices.ContainsFunc(a.Cautions, func(n note.Note) bool { return n.Code == want }) {
			t.Errorf("no caution %s", want)
		}
	}
	if !slices.ContainsFunc(a.Warnings, func(n note.Note) bool {
		return n.Code == note.FireNotCounted && slices.Contains(n.Params, note.Name("rule", "uk-made-before-1950"))
	}) {
		t.Errorf("the exemption that may be is not named: %+v", a.Warnings)
	}
}

// Warnings say what the rule set cannot know.
func TestFireWarnings(t *testing.T) {
	for _, tc := range []struct {
		want   note.Code
		change func(*fire.Job)
	}{
		{note.FireLater, func(j *fire.Job) { j.AsOf = 2026_11_26 }},
		{note.FireFromMemory, func(j *fire.Job) { j.Transaction = "own-use" }},
		{note.FireInferred, func(j *fire.Job) { j.Layers[1].Supplier = "customer" }},
		{note.FireNoRule, func(j *fire.Job) { j.Use, j.Platform = "contract", "caravan" }},
		{note.FireFederal, func(j *fire.Job) { j.Place, j.Transaction = "united-states", "new" }},
		{note.FireStateOnly, func(j *fire.Job) { j.Place = "maine" }},
	} {
		req := fireChair()
		tc.change(&req.Job)
		a, err := FireCheck(fireRules(t), req)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(a.Warnings, func(n note.Note) bool { return n.Code == tc.want }) {
			t.Errorf("no warning %s: %+v", tc.want, a.Warnings)
		}
		if a.Report.Verdict.Lets() {
			t.Errorf("%s: %s", tc.want, a.Report.Verdict)
		}
	}
}

func TestFireCheckUnknownPlace(t *testing.T) {
	req := fireChair()
	req.Job.Place = "atlantis"
	if _, err := FireCheck(fireRules(t), req); err == nil {
		t.Error("a place without rules is answered")
	}
}

// The texts of every answer promise nothing.
func TestFireWords(t *testing.T) {
	bad := regexp.MustCompile(`(?i)\b(certified|safe|compliant)\b`)
	for _, s := range append([]string{FireNotAdvice}, note.Texts(fireCautions(&fire.Report{}), length.Metric)...) {
		if w := bad.FindString(s); w != "" {
			t.Errorf("%q says %q", s, w)
		}
	}
}

func TestFireFaults(t *testing.T) {
	req := fireChair()
	if l := FireFaults(req); l.Len() > 0 {
		t.Fatalf("faults of a right request: %+v", l.Faults())
	}
	for want, change := range map[string]func(*fire.Job){
		"#/asOf too-small":               func(j *fire.Job) { j.AsOf = 1995_12_31 },
		"#/made too-large":               func(j *fire.Job) { j.Made = calendar.Span{First: 2027_01_01, Last: 2027_12_31} },
		"#/layers too-few":               func(j *fire.Job) { j.Layers = nil },
		"#/layers/1/id duplicate":        func(j *fire.Job) { j.Layers[1].ID = "COVER" },
		"#/layers/1/thickness too-large": func(j *fire.Job) { j.Layers[1].Thickness = 2 * length.Metre },
		"#/layers/0/fibres too-large": func(j *fire.Job) {
			j.Layers[0].Fibres = []fire.Fibre{{Name: "cotton", Share: 600_000}, {Name: "flax", Share: 600_000}}
		},
		"#/layers/0/fibres/0/share too-large": func(j *fire.Job) { j.Layers[0].Fibres = []fire.Fibre{{Name: "cotton", Share: fire.Whole + 1}} },
		"#/layers/0/fibres/0/share too-small": func(j *fire.Job) { j.Layers[0].Fibres = []fire.Fibre{{Name: "cotton"}} },
		"#/layers/0/fibres/1/fibre duplicate": func(j *fire.Job) {
			j.Layers[0].Fibres = []fire.Fibre{{Name: "cotton", Share: 1}, {Name: "cotton", Share: 1}}
		},
		"#/layers/0/flameRetardant/added not-allowed": func(j *fire.Job) { j.Layers[0].FlameRetardant, j.Layers[0].FlameRetardantKind = "no", "other" },
		"#/destination not-allowed":                   func(j *fire.Job) { j.Destination = "great-britain" },
		"#/size/wide too-small":                       func(j *fire.Job) { j.Long = length.Metre },
		"#/papers/0/layer unknown-layer":              func(j *fire.Job) { j.Papers = []fire.Paper{{Kind: "report", Layer: "X", Test: "uk-sch1-1"}} },
		"#/papers/0/layer missing":                    func(j *fire.Job) { j.Papers = []fire.Paper{{Kind: "report", Test: "uk-sch1-1"}} },
		"#/papers/0/test missing":                     func(j *fire.Job) { j.Papers = []fire.Paper{{Kind: "report", Layer: "FOAM"}} },
		"#/papers/0/test not-allowed":                 func(j *fire.Job) { j.Papers = []fire.Paper{{Kind: "invoice", Test: "uk-sch1-1"}} },
		"#/papers/0/specimens not-allowed": func(j *fire.Job) {
			j.Papers = []fire.Paper{{Kind: "report", Layer: "FOAM", Test: "uk-sch1-1", Specimens: make([]fire.Specimen, 1)}}
		},
		"#/papers/0/specimens/0/char too-small": func(j *fire.Job) {
			j.Papers = []fire.Paper{{Kind: "report", Layer: "COVER", Test: "tb117-2013-1", Specimens: []fire.Specimen{{Char: -1}}}}
		},
		"#/papers/0/specimens/0/minutes too-small": func(j *fire.Job) {
			j.Papers = []fire.Paper{{Kind: "report", Layer: "COVER", Test: "tb117-2013-1", Specimens: []fire.Specimen{{Minutes: -1}}}}
		},
		"#/papers/0/composite/1 duplicate": func(j *fire.Job) {
			j.Papers = []fire.Paper{{Kind: "report", Layer: "COVER", Test: "uk-sch4-1", Composite: []string{"FOAM", "FOAM"}}}
		},
		"#/papers/0/composite/0 not-allowed": func(j *fire.Job) {
			j.Papers = []fire.Paper{{Kind: "report", Layer: "COVER", Test: "uk-sch4-1", Composite: []string{"COVER"}}}
		},
	} {
		req := fireChair()
		change(&req.Job)
		l := FireFaults(req)
		var got []string
		for _, f := range l.Faults() {
			got = append(got, f.Pointer()+" "+string(f.Code))
			if f.Detail == "" || f.Try == "" {
				t.Errorf("%s has no detail or no way out", f.Pointer())
			}
		}
		if !slices.Equal(got, []string{want}) {
			t.Errorf("faults are %q, want %q", got, want)
		}
	}
}
