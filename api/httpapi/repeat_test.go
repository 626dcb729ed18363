package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
)

// soundRepeat is a request about drops without faults, for tests to spoil.
const soundRepeat = `{
	"units": "metric",
	"cloth": {"name": "Heron and sedge", "width": "137 cm",
		"pattern": {"lengthRepeat": "64 cm", "widthRepeat": "137 cm", "drop": "half", "motifs": [{"name": "heron", "across": "34.2 cm"}]},
		"soldBy": "0.1 m"},
	"drops": [
		{"name": "curtains", "length": "250 cm", "count": 2, "widths": 2, "motif": {"name": "heron", "fromTop": "40 cm"}},
		{"length": "90 cm"}
	],
	"seamAllowance": "0 mm",
	"rule": "exact",
	"centre": {"finishedWidth": "200 cm", "motif": "heron"},
	"panel": {"across": "62 cm", "along": "78 cm", "motif": "heron", "motifAcross": "30 cm", "motifAlong": "40 cm"}
}`

func (c *client) postRepeat(body string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/repeat", body, append([]string{"Content-Type", "application/json"}, header...)...)
}

func repeatOf(t *testing.T, body string) gen.RepeatAnswer {
	t.Helper()
	w := newClient(t, options()).postRepeat(body)
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	var a gen.RepeatAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		t.Fatal(err)
	}
	return a
}

func TestRepeatAnswer(t *testing.T) {
	a := repeatOf(t, soundRepeat)
	if len(a.Cuts) != 5 || len(a.Rules) != 4 || len(a.Drops) != 2 || a.Centre == nil || a.Window == nil {
		t.Fatalf("%+v", a)
	}
	if a.Seam.Offset.Mm != 0 || a.Seam.NextStart.Mm != 320 || a.Unmatched.Mm != 10900 || a.MatchingCosts.Mm != a.Needed.Mm-10900 {
		t.Errorf("%+v", a)
	}
	if a.Order.Mm < a.AnyStart.Mm || a.AnyStart.Mm < a.Needed.Mm {
		t.Errorf("order %v, any start %v, needed %v", a.Order, a.AnyStart, a.Needed)
	}
}

// Each rule is answered by its own total; with a placed motif any start takes a
// repeat more.
func TestRepeatRules(t *testing.T) {
	for _, rule := range []string{"exact", "half-repeat-once", "half-repeat-each-width", "in-turn"} {
		a := repeatOf(t, strings.Replace(soundRepeat, `"rule": "exact"`, `"rule": "`+rule+`"`, 1))
		at := slices.IndexFunc(a.Rules, func(r gen.RepeatRuleTotal) bool { return string(r.Rule) == rule })
		if string(a.Rule) != rule || a.Needed.Mm != a.Rules[at].Total.Mm || a.AnyStart.Mm > a.Needed.Mm+640 || a.Needed.Mm < a.Rules[0].Total.Mm {
			t.Errorf("%s: needed %v, any start %v of %v", rule, a.Needed, a.AnyStart, a.Rules)
		}
	}
}

// Where nothing is placed, matched or joined, the answer is plain.
func TestRepeatPlain(t *testing.T) {
	a := repeatOf(t, `{"cloth": {"width": "140 cm"}, "drops": [{"length": "90 cm", "count": 3, "widths": 2}]}`)
	if a.Needed.Mm != 5400 || a.MatchingCosts.Mm != 0 || a.AnyStart.Mm != 5400 || len(a.Rules) != 1 || !a.Seam.CanMeet {
		t.Errorf("%+v", a)
	}
	a = repeatOf(t, `{"cloth": {"width": "140 cm", "pattern": {"lengthRepeat": "64 cm"}, "startsAt": "10 cm", "soldBy": "0.1 m"},
		"drops": [{"length": "90 cm", "count": 2, "motif": {"fromTop": "40 cm"}}]}`)
	if a.Lead.Mm != 140 || a.Needed.Mm != 140+1280+900 || a.Order.Mm != 2400 || a.Cuts[0].StartMm != 240 {
		t.Errorf("%+v", a)
	}
}

func TestRepeatFaults(t *testing.T) {
	for _, tc := range []struct {
		from, to string
		want     []string
	}{
		{`"width": "137 cm"`, `"width": "137"`, []string{"#/cloth/width not-a-length"}},
		{`"length": "90 cm"`, `"length": "0 cm"`, []string{"#/drops/1/length too-small"}},
		{`"length": "90 cm"`, `"length": "101 m"`, []string{"#/drops/1/length too-large"}},
		{`{"length": "90 cm"}`, `{}`, []string{"#/drops/1/length missing"}},
		{`"count": 2`, `"count": 501`, []string{"#/drops/0/count too-large"}},
		{`"widths": 2`, `"widths": 0`, []string{"#/drops/0/widths too-small"}},
		{`"count": 2, "widths": 2`, `"count": 500, "widths": 4`, []string{"#/drops too-many"}},
		{`{"name": "heron", "fromTop": "40 cm"}`, `{"name": "gull", "fromTop": "-1 cm"}`, []string{"#/drops/0/motif/fromTop too-small", "#/drops/0/motif/name unknown-motif"}},
		{`{"name": "heron", "fromTop": "40 cm"}`, `{}`, []string{"#/drops/0/motif/fromTop missing"}},
		{`"seamAllowance": "0 mm"`, `"seamAllowance": "70 cm"`, []string{"#/seamAllowance too-large"}},
		{`"seamAllowance": "0 mm"`, `"seamAllowance": "-1 mm"`, []string{"#/seamAllowance too-small"}},
		{`"rule": "exact"`, `"rule": "by guess"`, []string{"#/rule not-one-of"}},
		{`"drop": "half"`, `"drop": "1/3", "x": 1`, []string{"#/cloth/pattern/x unknown-field"}},
		{`"finishedWidth": "200 cm", "motif": "heron"`, `"finishedWidth": "0 cm", "motif": "gull"`, []string{"#/centre/finishedWidth too-small", "#/centre/motif unknown-motif"}},
		{`"across": "62 cm"`, `"across": "620 m"`, []string{"#/panel/across too-large"}},
		{`"motifAlong": "40 cm"`, `"motifAlong": "40"`, []string{"#/panel/motifAlong not-a-length"}},
		{`"along": "78 cm", "motif": "heron"`, `"along": "78 cm", "motif": "gull"`, []string{"#/panel/motif unknown-motif"}},
	} {
		if strings.Count(soundRepeat, tc.from) != 1 {
			t.Fatalf("%q does not stand once in the sound request", tc.from)
		}
		w := newClient(t, options()).postRepeat(strings.Replace(soundRepeat, tc.from, tc.to, 1))
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d", tc.to, w.Code)
			continue
		}
		if got := faultsOf(t, w); !equal(got, tc.want) {
			t.Errorf("%s: %q, want %q", tc.to, got, tc.want)
		}
	}
	for body, want := range map[string][]string{
		`{"cloth": {"width": "140 cm"}, "drops": []}`: {"#/drops too-few"},
		`{"cloth": {"width": "140 cm"}}`:              {"#/drops missing"},
		`{"cloth": {"width": "140 cm"}, "drops": [{"length": "1 m", "motif": {"fromTop": "1 cm"}}], "rule": "in-turn", "centre": {"finishedWidth": "1 m"},
			"panel": {"across": "1 m", "along": "1 m", "motifAcross": "1 cm", "motifAlong": "1 cm"}}`: {
			"#/drops/0/motif needs-pattern", "#/rule needs-pattern", "#/centre needs-pattern", "#/panel needs-pattern"},
		`{"cloth": {"width": "140 cm", "pattern": {"lengthRepeat": "64 cm", "widthRepeat": "70 cm", "drop": "1/3"}}, "drops": [{"length": "1 m"}], "rule": "in-turn"}`: {"#/rule needs-pattern"},
	} {
		if got := faultsOf(t, newClient(t, options()).postRepeat(body)); !equal(got, want) {
			t.Errorf("%s: %q, want %q", body, got, want)
		}
	}
}

func TestRepeatMedia(t *testing.T) {
	c := newClient(t, options())
	w := c.postRepeat(soundRepeat, "Accept", "image/svg+xml")
	if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(w.Body.String(), "<svg") && !strings.HasPrefix(w.Body.String(), "<?xml") {
		t.Errorf("status %d, %s: %.80s", w.Code, w.Header().Get("Content-Type"), w.Body)
	}
	if w := c.postRepeat(soundRepeat, "Accept", "text/html"); w.Code != http.StatusNotAcceptable {
		t.Errorf("status %d for HTML", w.Code)
	}
	if w := c.do(http.MethodPost, "/v1/repeat", soundRepeat, "Content-Type", "text/plain"); w.Code != http.StatusUnsupportedMediaType {
		t.Errorf("status %d for text", w.Code)
	}
}

// The most that may be asked is answered in good time, in every form.
func TestRepeatLargest(t *testing.T) {
	drop := `{"length": "99.9 m", "count": 1, "widths": 100, "motif": {"fromTop": "7 mm"}}`
	body := `{"cloth": {"width": "10 mm", "pattern": {"lengthRepeat": "9.999 m", "widthRepeat": "1 mm", "drop": "5/12"}}, "drops": [` +
		strings.TrimSuffix(strings.Repeat(drop+",", 12), ",") + `]}`
	c := newClient(t, options())
	begun := time.Now()
	for _, media := range []string{"application/json", "image/svg+xml"} {
		if w := c.postRepeat(body, "Accept", media); w.Code != http.StatusOK || w.Body.Len() > 16_000_000 {
			t.Errorf("%s: status %d, %d bytes", media, w.Code, w.Body.Len())
		}
	}
	if took := time.Since(begun); took > 5*time.Second {
		t.Errorf("took %v", took)
	}
}

func FuzzRepeat(f *testing.F) {
	f.Add([]byte(soundRepeat))
	f.Add([]byte(`{"cloth": {"width": "54 in", "pattern": {"lengthRepeat": "4 1/2 in"}}, "drops": [{"length": "114 in", "widths": 2}]}`))
	f.Add([]byte(`{"cloth": {"width": "10 m", "pattern": {"lengthRepeat": "1 mm", "widthRepeat": "1 mm", "drop": "11/12"}, "startsAt": "0.5 mm"}, "drops": [{"length": "1 mm", "count": 20, "widths": 100}]}`))
	f.Add([]byte(`{"cloth": null, "drops": [null, {"length": 5}], "centre": {}, "panel": []}`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		in := &client{t: t, doc: c.doc, handler: c.handler}
		for _, media := range []string{"application/json", "image/svg+xml"} {
			begun := time.Now()
			if w := in.postRepeat(string(body), "Accept", media); w.Code >= 500 {
				t.Errorf("status %d", w.Code)
			}
			if took := time.Since(begun); took > 5*time.Second {
				t.Errorf("took %v", took)
			}
		}
	})
}

func BenchmarkRepeat(b *testing.B) {
	h := newServer(b, options()).Handler()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/repeat", strings.NewReader(soundRepeat))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}
