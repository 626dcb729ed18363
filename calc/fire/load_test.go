package fire

import (
	"errors"
	"strings"
	"testing"
)

func TestRulesAreRight(t *testing.T) {
	s := rules(t)
	if len(s.Rules) < 90 || len(s.Tests) < 30 || s.Version == "" || s.AsAt == 0 {
		t.Errorf("%d rules, %d tests, version %q as at %s", len(s.Rules), len(s.Tests), s.Version, s.AsAt)
	}
	for _, p := range []string{"great-britain", "northern-ireland", "ireland", "european-union", "united-states", "california"} {
		if len(s.places[p]) < 5 {
			t.Errorf("%s has %d rules", p, len(s.places[p]))
		}
	}
	for i := range s.Rules {
		if r := &s.Rules[i]; r.Verified == FromMemory && strings.Contains(r.Source, "(read)") && !strings.Contains(r.Source, "not read") {
			t.Errorf("%s is from memory and says that it was read", r.ID)
		}
	}
}

// Bad rules are refused, with what is wrong named.
func TestBadRulesAreRefused(t *testing.T) {
	const good = `{"jurisdiction": "X", "places": ["x"], "scopes": [{"name": "s", "when": ["use is home"]}], "rules": [{
		"id": "x-one", "title": "T", "instrument": "I", "from": "2000-01-01", "layers": ["cover"],
		"scope": ["scope s", "natural at-least 75%"],
		"cases": [{"when": ["test uk-sch5-1 passes", "not coating is pvc | treated is no"], "then": "evidence-held", "say": "Held."}, {"when": [], "then": "evidence-wanted", "say": "Ask."}],
		"source": "S", "verified": "read"}]}`
	if _, err := load(testsFile, []string{good}); err != nil {
		t.Fatal(err)
	}
	for _, tc := range []struct{ from, to, want string }{
		{`"x-one"`, `"X one"`, "not an id"},
		{`"jurisdiction": "X"`, `"jurisdiction": ""`, "without a jurisdiction"},
		{`"from": "2000-01-01"`, `"from": "2000-02-30"`, "not a day"},
		{`"from": "2000-01-01"`, `"from": "2000-01-01", "to": "1999-01-01"`, "ended before"},
		{`["cover"]`, `["hat"]`, "no layer"},
		{`["cover"]`, `["piece"]`, "asks about a layer"},
		{`"use is home"`, `"use is tent"`, "no word"},
		{`"use is home"`, `"user is home"`, "no such fact"},
		{`"use is home"`, `"use before 2000-01-01"`, "cannot be asked"},
		{`"use is home"`, `"made at-least 5"`, "cannot be asked"},
		{`"use is home"`, `"made before Easter"`, "no limit"},
		{`"use is home"`, `"home"`, "too short"},
		{`"use is home"`, `"use seems home"`, "nothing is asked"},
		{`"use is home"`, `"paper hat"`, "no such paper"},
		{`"scope s"`, `"scope t"`, "no such scope"},
		{`"name": "s"`, `"name": ""`, "stands twice"},
		{`[{"name"`, `[{"name": "s", "when": ["use is home"]}, {"name"`, "stands twice"},
		{`at-least 75%`, `at-least 750%`, "no limit"},
		{`at-least 75%`, `at-least 75`, "no limit"},
		{`test uk-sch5-1 passes`, `test uk-sch9 passes`, "no such test"},
		{`test uk-sch5-1 passes`, `test uk-sch5-1 perhaps`, "not a question"},
		{`test uk-sch5-1 passes`, `barrier uk-sch3-0 beneath hat`, "no such role"},
		{`"then": "evidence-held"`, `"then": "fine"`, `verdict "fine"`},
		{`"say": "Held."`, `"say": ""`, "without its sentence"},
		{`"say": "Held."`, `"say": "It is Safe."`, `says "Safe"`},
		{`"title": "T"`, `"title": "Certified"`, `says "Certified"`},
		{`"source": "S"`, `"source": ""`, "must be there"},
		{`"verified": "read"`, `"verified": "heard"`, `verified "heard"`},
		{`{"when": [], "then"`, `{"when": ["use is home"], "then"`, "the last case"},
		{`"title"`, `"name": "N", "title"`, "unknown field"},
		{`"rules"`, `"rules": 5, "rules"`, "cannot unmarshal"},
	} {
		if !strings.Contains(good, tc.from) {
			t.Fatalf("%q is not there", tc.from)
		}
		_, err := load(testsFile, []string{strings.Replace(good, tc.from, tc.to, 1)})
		if !errors.Is(err, ErrData) || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("%s for %s: %v, want %q", tc.to, tc.from, err, tc.want)
		}
	}
	if _, err := load(testsFile, []string{good, good}); !errors.Is(err, ErrData) {
		t.Error("a rule may stand twice")
	}
	if _, err := load(`{"asAt": "x"}`, nil); !errors.Is(err, ErrData) {
		t.Error("a rule set without a day")
	}
	if _, err := load(`{`, nil); !errors.Is(err, ErrData) {
		t.Error("half a file")
	}
}

// No text promises what a comparison of papers cannot show.
func TestNothingIsPromised(t *testing.T) {
	for _, f := range append(files(), testsFile) {
		if bad := promises.FindString(f); bad != "" {
			t.Errorf("the rules say %q", bad)
		}
	}
	for _, s := range noticeText {
		if bad := promises.FindString(s); bad != "" {
			t.Errorf("a notice says %q", bad)
		}
	}
}

// A rule is in force from its first day to its last.
func TestInForce(t *testing.T) {
	s := rules(t)
	ended := 0
	for i := range s.Rules {
		r := &s.Rules[i]
		if !r.inForce(r.From) || r.inForce(r.From-1) {
			t.Errorf("%s does not begin on %s", r.ID, r.From)
		}
		if r.To != 0 {
			ended++
			if !r.inForce(r.To) || r.inForce(r.To+1) {
				t.Errorf("%s does not end on %s", r.ID, r.To)
			}
		}
	}
	if ended == 0 {
		t.Error("no rule has ended")
	}
}
