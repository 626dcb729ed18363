package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/fire"
)

// soundFire is a fire check without faults, for tests to spoil.
const soundFire = `{
	"name": "Chair", "asOf": "2026-11-25", "place": "great-britain", "use": "home", "platform": "building", "item": "seating",
	"transaction": "reupholstered-for-owner", "made": "1995", "permanentLabel": "unknown",
	"layers": [
		{"id": "COVER", "name": "Heron", "role": "cover", "supplier": "workroom", "coating": "none", "treated": "no", "fibres": [{"fibre": "cotton", "share": "100 %"}]},
		{"id": "FOAM", "role": "filling", "material": "polyurethane-foam", "form": "slab", "supplier": "workroom", "thickness": "8 cm", "flameRetardant": {"added": "yes", "kind": "other", "ppm": 900}}
	],
	"papers": [
		{"kind": "report", "layer": "COVER", "test": "uk-sch4-1", "result": "pass", "date": "2026-05-01", "reference": "L-1", "composite": ["FOAM"]},
		{"kind": "invoice", "date": "2026-05-02"},
		{"kind": "report", "layer": "COVER", "test": "tb117-2013-1", "date": "2026-05-01", "reference": "S-1", "specimens": [{"char": "20 mm", "minutes": 9, "flamed": false}]}
	]
}`

func (c *client) fire(body string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(http.MethodPost, "/v1/fire-check", strings.NewReader(body))
	r.Header.Set("Content-Type", "application/json")
	return c.send(r)
}

func TestFireCheck(t *testing.T) {
	c := newClient(t, options())
	w := c.fire(soundFire)
	var a gen.FireCheckAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
		t.Fatalf("status %d, %v: %s", w.Code, err, w.Body)
	}
	if a.Verdict != gen.FireVerdictEvidenceWanted || len(a.Layers) != 2 || a.AsOf != "2026-11-25" || a.Place != "great-britain" {
		t.Errorf("answer %+v", a)
	}
	if a.RuleSet.Version == "" || !strings.HasSuffix(a.Engine, "fire-rules/"+a.RuleSet.Version) || !strings.HasPrefix(a.InputDigest, "sha256:") {
		t.Errorf("rule set %+v, engine %q, digest %q", a.RuleSet, a.Engine, a.InputDigest)
	}
	byRule := make(map[string]gen.FireVerdict)
	for _, l := range a.Layers {
		for _, r := range l.Rules {
			byRule[r.Rule] = r.Verdict
			if r.Instrument == "" || r.Source == "" || r.Say == "" || len(r.Steps) == 0 {
				t.Errorf("%s lacks its citation or its reasons: %+v", r.Rule, r)
			}
		}
	}
	want := map[string]gen.FireVerdict{"uk-cover-match": "evidence-wanted", "uk-cover-cigarette": "evidence-held", "uk-foam-slab": "evidence-wanted"}
	for rule, v := range want {
		if byRule[rule] != v {
			t.Errorf("%s says %q, want %q", rule, byRule[rule], v)
		}
	}
	if len(a.Papers) == 0 || len(a.Cautions) < 3 || len(a.Changes) == 0 || len(a.Notices) != 1 || !strings.Contains(a.NotAdvice, "no legal advice") {
		t.Errorf("%d papers, %d cautions, %d changes, notices %+v, %q", len(a.Papers), len(a.Cautions), len(a.Changes), a.Notices, a.NotAdvice)
	}
	if again := c.fire(soundFire); again.Body.String() != w.Body.String() {
		t.Error("the same request has another answer")
	}
}

// The sheet and the refusal of other forms.
func TestFireCheckForms(t *testing.T) {
	c := newClient(t, options())
	for accept, code := range map[string]int{"image/svg+xml": 200, "application/json": 200, "text/plain": 200, "text/html": 406} {
		r := httptest.NewRequest(http.MethodPost, "/v1/fire-check", strings.NewReader(soundFire))
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("Accept", accept)
		w := c.send(r)
		if w.Code != code || code == 200 && (strings.TrimSuffix(w.Header().Get("Content-Type"), "; charset=utf-8") != accept || w.Header().Get("Cache-Control") != "no-store") {
			t.Errorf("%s: status %d, %v", accept, w.Code, w.Header())
		}
		if accept == "image/svg+xml" && !strings.HasPrefix(w.Body.String(), "<svg ") {
			t.Errorf("the sheet begins %.40q", w.Body)
		}
	}
}

// The list of rules is whole, and is not sent again to who has it.
func TestFireRules(t *testing.T) {
	c := newClient(t, options())
	w := c.do(http.MethodGet, "/v1/fire-rules", "")
	var list gen.FireRuleSet
	if err := json.Unmarshal(w.Body.Bytes(), &list); err != nil || w.Code != http.StatusOK {
		t.Fatalf("status %d, %v", w.Code, err)
	}
	set, err := fire.Load()
	if err != nil {
		t.Fatal(err)
	}
	if len(list.Rules) != len(set.Rules) || len(list.Tests) != len(set.Tests) || len(list.Places) != len(set.Places()) {
		t.Errorf("%d rules, %d tests, %d places", len(list.Rules), len(list.Tests), len(list.Places))
	}
	for _, r := range list.Rules {
		if r.Instrument == "" || r.Source == "" || len(r.Cases) == 0 {
			t.Errorf("%s lacks its citation or its cases", r.Id)
		}
	}
	etag := w.Header().Get("ETag")
	for _, tc := range []struct {
		condition string
		code      int
	}{{etag, 304}, {"W/" + etag, 304}, {"*", 304}, {`"other"`, 200}, {`"other", ` + etag, 304}} {
		w := c.do(http.MethodGet, "/v1/fire-rules", "", "If-None-Match", tc.condition)
		if w.Code != tc.code || tc.code == 304 && w.Body.Len() > 0 || w.Header().Get("ETag") != etag {
			t.Errorf("If-None-Match %s: status %d, %d bytes", tc.condition, w.Code, w.Body.Len())
		}
	}
}

// The words of the contract are those of the engine.
func TestFireWordsAreTheContract(t *testing.T) {
	set, err := fire.Load()
	if err != nil {
		t.Fatal(err)
	}
	schemas := spec(t).Components.Schemas
	words := func(list []any) []string {
		out := make([]string, len(list))
		for i, v := range list {
			out[i] = v.(string)
		}
		return out
	}
	if got := words(schemas["FirePlace"].Value.Enum); !slices.Equal(got, set.Places()) {
		t.Errorf("places are %q, the engine has %q", got, set.Places())
	}
	var tests []string
	for _, one := range set.Tests {
		tests = append(tests, one.ID)
	}
	if got := words(schemas["FireTestId"].Value.Enum); !slices.Equal(got, tests) {
		t.Errorf("tests are %q, the engine has %q", got, tests)
	}
	for _, f := range []struct{ schema, field, words string }{
		{"FireCheckRequest", "use", "use"}, {"FireCheckRequest", "platform", "platform"}, {"FireCheckRequest", "item", "item"},
		{"FireCheckRequest", "transaction", "transaction"}, {"FireCheckRequest", "occupancy", "occupancy"}, {"FireCheckRequest", "hazard", "hazard"},
		{"FireLayer", "role", "role"}, {"FireLayer", "material", "material"}, {"FireLayer", "form", "form"}, {"FireLayer", "supplier", "supplier"},
		{"FireLayer", "coating", "coating"}, {"FireChemical", "kind", "fr-kind"}, {"FirePaper", "kind", "paper"}, {"FirePaper", "result", "result"},
	} {
		if got := words(schemas[f.schema].Value.Properties[f.field].Value.Enum); !slices.Equal(got, fire.Words(f.words)) {
			t.Errorf("%s.%s is %q, the engine has %q", f.schema, f.field, got, fire.Words(f.words))
		}
	}
	for _, name := range words(schemas["FireFibre"].Value.Properties["fibre"].Value.Enum) {
		if !fire.KnownFibre(name) {
			t.Errorf("the engine does not know %s", name)
		}
	}
}

// No answer of the demo requests, and none of the rules, promises anything.
func TestFireAnswersPromiseNothing(t *testing.T) {
	bad := regexp.MustCompile(`(?i)\b(certified|safe|compliant)\b`)
	c := newClient(t, httpapi.DefaultOptions())
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "jobs", "*-fire.json"))
	if err != nil || len(files) < 2 {
		t.Fatalf("%q, %v", files, err)
	}
	texts := []string{c.do(http.MethodGet, "/v1/fire-rules", "").Body.String(), c.fire(soundFire).Body.String()}
	for _, name := range files {
		body, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, place := range []string{"great-britain", "northern-ireland", "ireland", "european-union", "california", "new-york", "canada"} {
			asked := regexp.MustCompile(`"place": "[^"]*"`).ReplaceAllString(string(body), `"place": "`+place+`"`)
			w := c.fire(asked)
			if w.Code != http.StatusOK {
				t.Fatalf("%s in %s: status %d: %s", name, place, w.Code, w.Body)
			}
			texts = append(texts, w.Body.String())
		}
	}
	for _, text := range texts {
		if at := bad.FindStringIndex(text); at != nil {
			t.Errorf("an answer says %q", text[max(at[0]-40, 0):min(at[1]+40, len(text))])
		}
	}
}

// Every field of a fire check, wrong in every way that it can be.
func TestBadFireChecks(t *testing.T) {
	c := newClient(t, options())
	field := func(name, from, to string, want ...string) badRequest { return badRequest{name, from, to, want} }
	for _, tc := range []badRequest{
		field("no day", `"asOf": "2026-11-25", `, ``, "#/asOf missing"),
		field("no place", `"place": "great-britain", `, ``, "#/place missing"),
		field("an unknown place", `"great-britain"`, `"atlantis"`, "#/place not-one-of"),
		field("no day of the calendar", `"2026-11-25"`, `"2026-02-30"`, "#/asOf not-a-date"),
		field("a day by number", `"2026-11-25"`, `20261125`, "#/asOf wrong-type"),
		field("a month for a day", `"2026-11-25"`, `"2026-11"`, "#/asOf not-a-date"),
		field("too early a day", `"2026-11-25"`, `"1995-12-31"`, "#/asOf too-small"),
		field("made about", `"1995"`, `"about 1950"`, "#/made not-a-date"),
		field("made later", `"1995"`, `"2027"`, "#/made too-large"),
		field("use", `"use": "home"`, `"use": "tent"`, "#/use not-one-of"),
		field("platform", `"building"`, `"raft"`, "#/platform not-one-of"),
		field("item", `"seating"`, `"hat"`, "#/item not-one-of"),
		field("transaction", `"reupholstered-for-owner"`, `"theft"`, "#/transaction not-one-of"),
		field("label", `"unknown"`, `"perhaps"`, "#/permanentLabel not-one-of"),
		field("label as a truth value", `"unknown"`, `true`, "#/permanentLabel wrong-type"),
		field("destination is the place", `"use"`, `"destination": "great-britain", "use"`, "#/destination not-allowed"),
		field("unknown field", `"use"`, `"colour": "red", "use"`, "#/colour unknown-field"),
		field("size of half", `"use"`, `"size": {"long": "2 m"}, "use"`, "#/size/wide missing"),
		field("size of nothing", `"use"`, `"size": {"long": "2 m", "wide": "0 mm"}, "use"`, "#/size/wide too-small"),
		field("size too large", `"use"`, `"size": {"long": "12 m", "wide": "1 m"}, "use"`, "#/size/long too-large"),
		field("no layer id", `"id": "FOAM", `, ``, "#/layers/1/id missing"),
		field("layer id twice", `"id": "FOAM"`, `"id": "COVER"`, "#/layers/1/id duplicate"),
		field("no role", `"role": "filling", `, ``, "#/layers/1/role missing"),
		field("role", `"filling"`, `"hat"`, "#/layers/1/role not-one-of"),
		field("material", `"polyurethane-foam"`, `"porridge"`, "#/layers/1/material not-one-of"),
		field("thickness without a unit", `"8 cm"`, `8`, "#/layers/1/thickness not-a-length"),
		field("thickness 0", `"8 cm"`, `"0 cm"`, "#/layers/1/thickness too-small"),
		field("thickness 2 m", `"8 cm"`, `"2 m"`, "#/layers/1/thickness too-large"),
		field("share", `"100 %"`, `"1"`, "#/layers/0/fibres/0/share not-a-share"),
		field("share above all", `"100 %"`, `"100.0001 %"`, "#/layers/0/fibres/0/share too-large"),
		field("share of nothing", `"100 %"`, `"0 %"`, "#/layers/0/fibres/0/share too-small"),
		field("shares above all", `{"fibre": "cotton", "share": "100 %"}`, `{"fibre": "cotton", "share": "60 %"}, {"fibre": "flax", "share": "40.0001 %"}`, "#/layers/0/fibres too-large"),
		field("fibre twice", `{"fibre": "cotton", "share": "100 %"}`, `{"fibre": "cotton", "share": "60 %"}, {"fibre": "cotton", "share": "4 %"}`, "#/layers/0/fibres/1/fibre duplicate"),
		field("fibre", `"cotton"`, `"tin"`, "#/layers/0/fibres/0/fibre not-one-of"),
		field("ppm", `900`, `1000001`, "#/layers/1/flameRetardant/ppm too-large"),
		field("ppm below 0", `900`, `-1`, "#/layers/1/flameRetardant/ppm too-small"),
		field("ppm with a point", `900`, `9.5`, "#/layers/1/flameRetardant/ppm wrong-type"),
		field("none added, and named", `"added": "yes"`, `"added": "no"`, "#/layers/1/flameRetardant/added not-allowed"),
		field("report of no layer", `"layer": "COVER", "test": "uk-sch4-1"`, `"test": "uk-sch4-1"`, "#/papers/0/layer missing"),
		field("report of an unknown layer", `"layer": "COVER", "test": "uk-sch4-1"`, `"layer": "HAT", "test": "uk-sch4-1"`, "#/papers/0/layer unknown-layer"),
		field("report of no test", `"test": "uk-sch4-1", `, ``, "#/papers/0/test missing"),
		field("an unknown test", `"uk-sch4-1"`, `"uk-sch9"`, "#/papers/0/test not-one-of"),
		field("result", `"pass"`, `"good"`, "#/papers/0/result not-one-of"),
		field("the layer in its own composite", `["FOAM"]`, `["COVER"]`, "#/papers/0/composite/0 not-allowed"),
		field("a layer twice in a composite", `["FOAM"]`, `["FOAM", "FOAM"]`, "#/papers/0/composite/1 duplicate"),
		field("an invoice with a test", `"kind": "invoice"`, `"kind": "invoice", "test": "uk-sch4-1"`, "#/papers/1/test not-allowed"),
		field("an invoice with a composite", `"kind": "invoice"`, `"kind": "invoice", "composite": ["FOAM"]`, "#/papers/1/composite not-allowed"),
		field("no kind", `{"kind": "invoice", "date": "2026-05-02"}`, `{"date": "2026-05-02"}`, "#/papers/1/kind missing"),
		field("specimens of another test", `"tb117-2013-1"`, `"tb117-2013-2"`, "#/papers/2/specimens not-allowed"),
		field("char", `"20 mm"`, `"-1 mm"`, "#/papers/2/specimens/0/char too-small"),
		field("minutes", `"minutes": 9`, `"minutes": 601`, "#/papers/2/specimens/0/minutes too-large"),
		field("whether it flamed", `, "flamed": false`, ``, "#/papers/2/specimens/0/flamed missing"),
		{"no layers", "", `{"asOf": "2026-11-25", "place": "ireland", "layers": []}`, one("#/layers too-few")},
		{"17 layers", "", `{"asOf": "2026-11-25", "place": "ireland", "layers": [` + manyLayers(17) + `]}`, one("#/layers too-many")},
		{"49 papers", "", `{"asOf": "2026-11-25", "place": "ireland", "layers": [` + manyLayers(1) + `], "papers": [` + strings.TrimSuffix(strings.Repeat(`{"kind": "invoice"},`, 49), ",") + `]}`, one("#/papers too-many")},
		{"a list", "", `[]`, one("# wrong-type")},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			body := tc.to
			if tc.from != "" {
				if strings.Count(soundFire, tc.from) != 1 {
					t.Fatalf("%q does not stand once in the request", tc.from)
				}
				body = strings.Replace(soundFire, tc.from, tc.to, 1)
			}
			w := c.fire(body)
			if w.Code != http.StatusUnprocessableEntity {
				t.Fatalf("status %d, want 422: %s", w.Code, w.Body)
			}
			if got := faultsOf(t, w); !equal(got, tc.want) {
				t.Errorf("faults are %q, want %q", got, tc.want)
			}
			for _, f := range *problemOf(t, w).Errors {
				if f.Detail == "" || f.Try == nil {
					t.Errorf("%s has no detail or no way out", f.Pointer)
				}
			}
		})
	}
}

func manyLayers(n int) string {
	list := make([]string, n)
	for i := range list {
		list[i] = `{"id": "L` + strings.Repeat("x", i) + `", "role": "cover"}`
	}
	return strings.Join(list, ",")
}

// Whatever comes in, the answer is of the contract, soon, and never a failure.
func FuzzFireCheck(f *testing.F) {
	f.Add([]byte(soundFire))
	f.Add([]byte(`{"asOf":"2021-06-25","place":"california","layers":[` + manyLayers(16) + `],"papers":[null,{"kind":"report"}]}`))
	f.Add([]byte(`{"asOf":"2026-11-25","place":"northern-ireland","destination":"new-york","made":"1908","layers":[{"id":"A","role":"filling","fibres":[{"fibre":"flax","share":"75%"}]}]}`))
	f.Add([]byte(`{"asOf":5,"layers":{"id":[]}}`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		in := &client{t: t, doc: c.doc, handler: c.handler}
		begun := time.Now()
		w := in.fire(string(body))
		if w.Code >= 500 {
			t.Errorf("status %d", w.Code)
		}
		if took := time.Since(begun); took > 2*time.Second {
			t.Errorf("took %v", took)
		}
	})
}

// BenchmarkFireCheck answers the sound request, all the way from its bytes.
func BenchmarkFireCheck(b *testing.B) {
	h := newServer(b, options()).Handler()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/fire-check", strings.NewReader(soundFire))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}
