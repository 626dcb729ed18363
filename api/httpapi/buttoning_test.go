package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
)

// backrest is a sound request about buttoning, for tests to spoil.
const backrest = `{
	"panel": {"name": "backrest", "size": {"across": "60 cm", "along": "50 cm"}, "crown": "0 cm",
		"margins": {"side": "8 cm", "top": "8 cm", "bottom": "8 cm"}, "allow": "5 cm"},
	"grid": {"how": "counts", "rows": 5, "columns": 5},
	"depth": "35 mm",
	"groove": "1 cm",
	"allowance": {"how": "arc", "amount": "1 1/2 in"},
	"edge": "pleated",
	"cloth": {"name": "Quayside trellis", "width": "140 cm",
		"pattern": {"lengthRepeat": "32 cm", "widthRepeat": "28 cm", "motifs": [{"name": "crossing", "across": "14 cm"}, {"name": "bud", "along": "16 cm"}]}},
	"motifSizes": [{"motif": "crossing", "across": "5 cm", "along": "5 cm"}],
	"lies": {"across": "1 cm", "along": "-2 cm"},
	"aim": {"how": "diamonds", "motifs": ["crossing"]},
	"join": "vandyke", "joinSeam": "15 mm",
	"buttons": {"lines": 30, "thickness": "0.8 mm", "behind": "tufts", "through": "5 cm", "tie": "40 cm", "offcuts": [{"across": "20 cm", "along": "9 cm"}]}
}`

func spoilBackrest(t testing.TB, from, to string) string {
	t.Helper()
	if strings.Count(backrest, from) != 1 {
		t.Fatalf("%q does not stand once in the request", from)
	}
	return strings.Replace(backrest, from, to, 1)
}

func (c *client) postButtoning(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/buttoning", body, "Content-Type", "application/json")
}

func (c *client) buttoned(body string) gen.ButtoningAnswer {
	c.t.Helper()
	w := c.postButtoning(body)
	if w.Code != http.StatusOK {
		c.t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	var a gen.ButtoningAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		c.t.Fatal(err)
	}
	return a
}

func TestButtoningAnswer(t *testing.T) {
	c := newClient(t, options())
	a := c.buttoned(backrest)
	// 44 cm in 4 widths, 34 cm in 2 heights; ½√(w² + 16h²) + (w²/8h)·asinh(4h/w)
	// of 110 and 170 over 35 mm, worked out with another program.
	if a.Diamond.Width.Mm != 110 || a.Diamond.Height.Mm != 170 || a.Diamond.ClothWidth.Mm != 134.904 || a.Diamond.ClothHeight.Mm != 187.621 {
		t.Errorf("diamond %+v", a.Diamond)
	}
	if a.Grid.Buttons != 23 || len(a.OnWork) != 5 || len(a.OnCloth[1].XMm) != 4 || a.OnWork[0].TapeXMm[0] != -220 || a.OnCloth[0].TapeXMm[0] != -270 {
		t.Errorf("grid %+v, rows %+v", a.Grid, a.OnWork)
	}
	if a.Allowances[0].Rule.Mm != 148.1 || a.Allowances[0].TwiceDepth.Mm != 180 || a.Allowances[0].RuleLessArc.Mm != 13.196 {
		t.Errorf("allowances %+v", a.Allowances[0])
	}
	if a.Shift == nil || !a.Shift.Complete || !a.Shift.Mirrored || a.Shift.Best < a.Shift.Given || a.SymmetryError.Mm != 0 {
		t.Errorf("shift %+v", a.Shift)
	}
	if a.Tally.Shown+a.Tally.Partly+a.Tally.Swallowed != len(a.Motifs) || len(a.Motifs) == 0 {
		t.Errorf("tally %+v of %d", a.Tally, len(a.Motifs))
	}
	if b := a.Buttons; b.Count != 23 || b.Mould.Mm != 19.05 || b.Circle.Mm != 42 || b.InHand != 8 || b.Strip == nil || b.Strip.Rows != 1 {
		t.Errorf("buttons %+v", b)
	}
	if a.Twine.Each.Mm != 570 || a.Twine.Total.Mm != 23*570 || a.Twine.Behind != gen.ButtoningTwineBehindTufts {
		t.Errorf("twine %+v", a.Twine)
	}
}

// Every way to give the grid, the allowance, the aim and the edge.
func TestButtoningWays(t *testing.T) {
	c := newClient(t, options())
	counts := `{"how": "counts", "rows": 5, "columns": 5}`
	for name, tc := range map[string]struct {
		from, to string
		holds    func(gen.ButtoningAnswer) bool
	}{
		"spacing":     {counts, `{"how": "spacing", "width": "11 cm", "height": "17 cm"}`, func(a gen.ButtoningAnswer) bool { return a.Grid.Buttons == 23 }},
		"about":       {counts, `{"how": "about", "buttons": 20}`, func(a gen.ButtoningAnswer) bool { return a.Grid.Buttons >= 18 && a.Grid.Buttons <= 22 }},
		"proportion":  {counts, `{"how": "proportion", "width": "11 cm", "ratio": {"height": 17, "width": 11}}`, func(a gen.ButtoningAnswer) bool { return a.Diamond.Height.Mm == 170 }},
		"short first": {counts, `{"how": "counts", "rows": 4, "columns": 3, "firstRow": "short"}`, func(a gen.ButtoningAnswer) bool { return a.Grid.Buttons == 10 && len(a.OnWork[0].XMm) == 2 }},
		"varied": {counts, `{"how": "spacing", "width": "104 mm", "height": "150 mm", "vary": "12 mm"}`, func(a gen.ButtoningAnswer) bool {
			return a.Grid.Varied && a.Diamond.Width.Mm > 104 && a.Diamond.Width.Mm <= 116 && a.Diamond.Height.Mm >= 138 && a.Diamond.Height.Mm <= 162
		}},
		"amount":      {`{"how": "arc", "amount": "1 1/2 in"}`, `{"how": "amount", "amount": "4 cm"}`, func(a gen.ButtoningAnswer) bool { return a.Diamond.ClothWidth.Mm == 150 }},
		"twice depth": {`{"how": "arc", "amount": "1 1/2 in"}`, `{"how": "twice-depth"}`, func(a gen.ButtoningAnswer) bool { return a.Diamond.ClothWidth.Mm == 180 }},
		"eased":       {`"edge": "pleated"`, `"edge": "eased"`, func(a gen.ButtoningAnswer) bool { return len(a.Pleats) == 1 }},
		"domed":       {`"crown": "0 cm"`, `"crown": "6 cm"`, func(a gen.ButtoningAnswer) bool { return a.Lines.WorkFromLeft.Mm > 300 }},
		"on the buttons": {`{"how": "diamonds", "motifs": ["crossing"]}`, `{"how": "buttons", "symmetric": false}`, func(a gen.ButtoningAnswer) bool {
			return a.Shift.Places == 23 && !a.Shift.Mirrored
		}},
		"at places": {`{"how": "diamonds", "motifs": ["crossing"]}`, `{"how": "places", "places": [{"motif": "bud", "on": "diamond", "row": 3, "number": 2}]}`,
			func(a gen.ButtoningAnswer) bool { return a.Shift.Places == 1 && *a.Shift.Nearest.Name == "bud" }},
		"no aim": {`"aim": {"how": "diamonds", "motifs": ["crossing"]},`, ``, func(a gen.ButtoningAnswer) bool { return a.Shift == nil && len(a.Motifs) > 0 }},
		"plain": {`,
		"pattern": {"lengthRepeat": "32 cm", "widthRepeat": "28 cm", "motifs": [{"name": "crossing", "across": "14 cm"}, {"name": "bud", "along": "16 cm"}]}},
	"motifSizes": [{"motif": "crossing", "across": "5 cm", "along": "5 cm"}],
	"lies": {"across": "1 cm", "along": "-2 cm"},
	"aim": {"how": "diamonds", "motifs": ["crossing"]}`, `}`, func(a gen.ButtoningAnswer) bool { return len(a.Motifs) == 0 }},
		"joined": {`"width": "140 cm"`, `"width": "60 cm"`, func(a gen.ButtoningAnswer) bool { return len(a.Widths) == 3 && len(a.Joins) == 2 }},
		"motif on each": {`"lines": 30,`, `"lines": 30, "motif": "bud",`, func(a gen.ButtoningAnswer) bool {
			return a.Buttons.Centred != nil && a.Buttons.Strip == nil && len(a.Warnings) > 0
		}},
	} {
		t.Run(name, func(t *testing.T) {
			c.t = t
			if a := c.buttoned(spoilBackrest(t, tc.from, tc.to)); !tc.holds(a) {
				t.Errorf("%+v\n%+v\n%+v", a.Grid, a.Diamond, a.Shift)
			}
		})
	}
}

// Every fault, by pointer and code.
func TestBadButtoning(t *testing.T) {
	c := newClient(t, options())
	counts := `"how": "counts", "rows": 5, "columns": 5`
	aim := `{"how": "diamonds", "motifs": ["crossing"]}`
	for _, tc := range []badRequest{
		{"nothing", "", `{}`, []string{"#/buttons missing", "#/cloth missing", "#/depth missing", "#/grid missing", "#/panel missing"}},
		{"an unknown field", `"depth": "35 mm"`, `"depth": "35 mm", "wells": 3`, one("#/wells unknown-field")},
		{"a bare depth", `"depth": "35 mm"`, `"depth": 35`, one("#/depth not-a-length")},
		{"a deep well", `"depth": "35 mm"`, `"depth": "31 cm"`, one("#/depth too-large")},
		{"a negative depth", `"depth": "35 mm"`, `"depth": "-1 mm"`, one("#/depth too-small")},
		{"a groove below the well", `"groove": "1 cm"`, `"groove": "4 cm"`, one("#/groove too-large")},
		{"a tiny panel", `"across": "60 cm"`, `"across": "4 cm"`, one("#/panel/size/across too-small")},
		{"a vast panel", `"along": "50 cm"`, `"along": "11 m"`, one("#/panel/size/along too-large")},
		{"a steep crown", `"crown": "0 cm"`, `"crown": "1.1 m"`, one("#/panel/crown too-large")},
		{"a margin below nothing", `"side": "8 cm"`, `"side": "-8 cm"`, one("#/panel/margins/side too-small")},
		{"a vast allowance", `"allow": "5 cm"`, `"allow": "3 m"`, one("#/panel/allow too-large")},
		{"an allowance by side", `"allow": "5 cm"`, `"allow": {"top": "3 m"}`, one("#/panel/allow/top too-large")},
		{"margins that leave nothing", `"side": "8 cm"`, `"side": "30 cm"`, one("#/grid no-place")},
		{"counts without rows", counts, `"how": "counts", "columns": 5`, one("#/grid/rows missing")},
		{"counts with a width", counts, counts + `, "width": "11 cm"`, one("#/grid/width not-allowed")},
		{"spacing without a height", counts, `"how": "spacing", "width": "11 cm"`, one("#/grid/height missing")},
		{"spacing too narrow", counts, `"how": "spacing", "width": "1 cm", "height": "11 cm"`, one("#/grid/width too-small")},
		{"about without how many", counts, `"how": "about"`, one("#/grid/buttons missing")},
		{"a ratio for counts", counts, counts + `, "ratio": {"height": 3, "width": 2}`, one("#/grid/ratio not-allowed")},
		{"61 rows", counts, `"how": "counts", "rows": 61, "columns": 5`, one("#/grid/rows too-large")},
		{"one column", counts, `"how": "counts", "rows": 5, "columns": 1`, one("#/grid/columns too-small")},
		{"no how", counts, `"rows": 5`, one("#/grid/how missing")},
		{"another how", counts, `"how": "squares"`, one("#/grid/how not-one-of")},
		{"varied a lot", counts, counts + `, "vary": "11 cm"`, one("#/grid/vary too-large")},
		{"a large amount", `"amount": "1 1/2 in"`, `"amount": "31 cm"`, one("#/allowance/amount too-large")},
		{"an unknown edge", `"edge": "pleated"`, `"edge": "frilled"`, one("#/edge not-one-of")},
		{"a wide seam", `"joinSeam": "15 mm"`, `"joinSeam": "11 cm"`, one("#/joinSeam too-large")},
		{"an unknown motif of a size", `"motifSizes": [{"motif": "crossing"`, `"motifSizes": [{"motif": "crane"`, one("#/motifSizes/0/motif unknown-motif")},
		{"two sizes of a motif", `"motifSizes": [`, `"motifSizes": [{"motif": "crossing", "across": "1 cm", "along": "1 cm"}, `, one("#/motifSizes/1/motif duplicate")},
		{"a large motif", `"across": "5 cm", "along": "5 cm"`, `"across": "5 cm", "along": "5 m"`, one("#/motifSizes/0/along too-large")},
		{"far away", `"lies": {"across": "1 cm"`, `"lies": {"across": "11 m"`, one("#/lies/across too-large")},
		{"an aim at nothing", aim, `{"how": "diamonds", "motifs": ["crane"]}`, one("#/aim/motifs/0 unknown-motif")},
		{"an aim without places", aim, `{"how": "places"}`, one("#/aim/places missing")},
		{"places for diamonds", aim, `{"how": "diamonds", "places": [{"motif": "bud", "on": "button", "row": 1, "number": 1}]}`, one("#/aim/places not-allowed")},
		{"motifs for places", aim, `{"how": "places", "motifs": ["bud"], "places": [{"motif": "bud", "on": "button", "row": 1, "number": 1}]}`, one("#/aim/motifs not-allowed")},
		{"a place off the grid", aim, `{"how": "places", "places": [{"motif": "bud", "on": "button", "row": 5, "number": 6}]}`, one("#/aim/places/0 no-place")},
		{"a diamond off the grid", aim, `{"how": "places", "places": [{"motif": "bud", "on": "diamond", "row": 1, "number": 1}]}`, one("#/aim/places/0 no-place")},
		{"diamonds where there are none", counts, `"how": "counts", "rows": 2, "columns": 3`, one("#/aim/how not-allowed")},
		{"an aim on plain cloth", `,
		"pattern": {"lengthRepeat": "32 cm", "widthRepeat": "28 cm", "motifs": [{"name": "crossing", "across": "14 cm"}, {"name": "bud", "along": "16 cm"}]}},
	"motifSizes": [{"motif": "crossing", "across": "5 cm", "along": "5 cm"}]`, `}`, one("#/aim needs-pattern")},
		{"a cloth too narrow", `"width": "140 cm"`, `"width": "15 cm"`, one("#/cloth/width wider-than-cloth")},
		{"a fine pattern", `"lengthRepeat": "32 cm", "widthRepeat": "28 cm"`, `"lengthRepeat": "3 mm", "widthRepeat": "2 mm"`, one("#/cloth/pattern too-many")},
		{"no lines", `"lines": 30, `, ``, one("#/buttons/lines missing")},
		{"tiny buttons", `"lines": 30`, `"lines": 11`, one("#/buttons/lines too-small")},
		{"half a line", `"lines": 30`, `"lines": 30.5`, one("#/buttons/lines wrong-type")},
		{"thick cloth", `"thickness": "0.8 mm"`, `"thickness": "11 mm"`, one("#/buttons/thickness too-large")},
		{"a long tie", `"tie": "40 cm"`, `"tie": "3 m"`, one("#/buttons/tie too-large")},
		{"a thick work", `"through": "5 cm"`, `"through": "2 m"`, one("#/buttons/through too-large")},
		{"a tiny offcut", `"along": "9 cm"`, `"along": "9 mm"`, one("#/buttons/offcuts/0/along too-small")},
		{"an unknown motif on each", `"lines": 30`, `"lines": 30, "motif": "crane"`, one("#/buttons/motif unknown-motif")},
		{"a motif of a stripe on each", "", strings.Replace(spoilBackrest(t, `"lines": 30`, `"lines": 30, "motif": "bud"`), `"lengthRepeat": "32 cm", `, ``, 1), []string{
			"#/cloth/pattern/motifs/1/along needs-pattern", "#/buttons/motif needs-pattern"}},
		{"no joins for a narrow cloth", "", strings.Replace(spoilBackrest(t, `"vandyke"`, `"never"`), `140 cm`, `70 cm`, 1), one("#/cloth/width wider-than-cloth")},
		{"varied without an aim", "", strings.Replace(spoilBackrest(t, `"aim": {"how": "diamonds", "motifs": ["crossing"]},`, ``), `"columns": 5`, `"columns": 5, "vary": "1 cm"`, 1), one("#/aim missing")},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			body := tc.to
			if tc.from != "" {
				body = spoilBackrest(t, tc.from, tc.to)
			}
			w := c.postButtoning(body)
			if got := faultsOf(t, w); w.Code != http.StatusUnprocessableEntity || !equal(got, tc.want) {
				t.Fatalf("status %d, faults are %q, want %q", w.Code, got, tc.want)
			}
			for _, f := range *problemOf(t, w).Errors {
				if f.Detail == "" || f.Try == nil {
					t.Errorf("%s has no detail or no way out", f.Pointer)
				}
			}
		})
	}
}

func TestButtoningMedia(t *testing.T) {
	c := newClient(t, options())
	for accept, begins := range map[string]string{"application/json": `{"cut":`, "image/svg+xml": "<svg "} {
		w := c.do(http.MethodPost, "/v1/buttoning", backrest, "Content-Type", "application/json", "Accept", accept)
		if w.Code != http.StatusOK || !strings.HasPrefix(w.Header().Get("Content-Type"), accept) || !strings.HasPrefix(w.Body.String(), begins) || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: status %d, %v, %.60s", accept, w.Code, w.Header(), w.Body)
		}
	}
	if w := c.do(http.MethodPost, "/v1/buttoning", backrest, "Content-Type", "application/json", "Accept", "text/html"); w.Code != http.StatusNotAcceptable {
		t.Errorf("text/html: status %d", w.Code)
	}
}

// sixty is the largest grid, in a pattern of many motifs.
func sixty(t testing.TB) string {
	body := spoilBackrest(t, `"how": "counts", "rows": 5, "columns": 5`, `"how": "counts", "rows": 60, "columns": 60`)
	for _, r := range []string{`"across": "60 cm", "along": "50 cm"|"across": "7 m", "along": "7 m"`, `"how": "diamonds", "motifs": ["crossing"]|"how": "diamonds", "symmetric": false`} {
		from, to, _ := strings.Cut(r, "|")
		body = strings.Replace(body, from, to, 1)
	}
	return body
}

// The largest grid with the widest search answers, in JSON and drawn, within a
// bound that only what grows with the square would break on a busy machine.
func TestLargestButtoning(t *testing.T) {
	c := newClient(t, options())
	motifs := `{"name": "m0"}`
	for _, n := range "123456789abcdef" {
		motifs += `, {"name": "m` + string(n) + `", "across": "` + string("0123456789"[int(n)%10]) + ` cm"}`
	}
	many := strings.Replace(sixty(t), `[{"name": "crossing", "across": "14 cm"}, {"name": "bud", "along": "16 cm"}]`, `[`+motifs+`]`, 1)
	many = strings.Replace(strings.Replace(many, `"motifSizes": [{"motif": "crossing", "across": "5 cm", "along": "5 cm"}],`, ``, 1), `"lengthRepeat": "32 cm", "widthRepeat": "28 cm"`, `"lengthRepeat": "122 cm", "widthRepeat": "128 cm"`, 1)
	many = strings.Replace(many, `"columns": 60`, `"columns": 60, "vary": "10 cm"`, 1)
	for name, body := range map[string]string{"sixty": sixty(t), "and sixteen motifs, varied": many} {
		for _, accept := range []string{"application/json", "image/svg+xml"} {
			begun := time.Now()
			w := c.do(http.MethodPost, "/v1/buttoning", body, "Content-Type", "application/json", "Accept", accept)
			if took := time.Since(begun); w.Code != http.StatusOK || took > 10*time.Second || w.Body.Len() > 16<<20 {
				t.Errorf("%s: status %d in %v, %d bytes: %.200s", name, w.Code, took, w.Body.Len(), w.Body)
			} else {
				t.Logf("%s as %s: %v, %d bytes", name, accept, took, w.Body.Len())
			}
		}
	}
}

func FuzzButtoning(f *testing.F) {
	f.Add([]byte(backrest))
	f.Add([]byte(spoilBackrest(f, `"how": "counts", "rows": 5, "columns": 5`, `"how": "about", "buttons": 60, "vary": "1 cm"`)))
	f.Add([]byte(`{"panel":{"size":null,"allow":[]},"grid":{"how":"proportion","ratio":{}},"depth":"1/0 in","cloth":5,"buttons":{}}`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		r := httptest.NewRequest(http.MethodPost, "/v1/buttoning", strings.NewReader(string(body)))
		r.Header.Set("Content-Type", "application/json")
		in := &client{t: t, doc: c.doc, handler: c.handler}
		begun := time.Now()
		if w := in.send(r); w.Code >= 500 {
			t.Errorf("status %d", w.Code)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("took %v", took)
		}
	})
}

// benchmarkButtoning is a request through the whole handler, warm.
func benchmarkButtoning(b *testing.B, body string) {
	h := freshServer(b).Handler()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/buttoning", strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		h.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatalf("status %d: %s", w.Code, w.Body)
		}
	}
}

func BenchmarkButtoningTypical(b *testing.B) { benchmarkButtoning(b, backrest) }

func BenchmarkButtoningDemo(b *testing.B) {
	body, err := os.ReadFile("../../testdata/jobs/wing-chair-back.json")
	if err != nil {
		b.Fatal(err)
	}
	benchmarkButtoning(b, string(body))
}

func BenchmarkButtoningSixtyBySixty(b *testing.B) { benchmarkButtoning(b, sixty(b)) }
