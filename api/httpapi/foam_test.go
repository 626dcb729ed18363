package httpapi_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
)

// cushions is a request for foam without faults, for tests to spoil.
const cushions = `{"currency": "GBP", "kerf": "3 mm",
	"foams": [{"id": "F", "density": "35 kg/m3", "hardnessN": 160, "hardnessAt": "25 %"}, {"id": "S", "density": "22.5 kg/m3"}],
	"sheets": [{"id": "A", "foam": "F", "across": "1200 mm", "along": "2000 mm", "thickness": "100 mm", "trim": "5 mm", "price": "96.00"},
		{"id": "B", "foam": "S", "across": "1200 mm", "along": "2000 mm", "thickness": "25 mm", "price": "27.5"}],
	"items": [
		{"id": "C", "count": 2, "place": "seat", "foam": "F", "thickness": "12 cm", "crown": "5 mm", "shape": {"form": "rectangle", "across": "60 cm", "along": "55 cm"}, "top": {"foam": "S", "thickness": "25 mm"}},
		{"id": "D", "place": "back", "foam": "S", "thickness": "50 mm", "fit": "flush", "shape": {"form": "d", "across": "40 cm", "along": "42 cm"}}]}`

func (c *client) askFoam(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/foam", body, "Content-Type", "application/json")
}

func foamAnswer(t *testing.T, c *client, body string) gen.FoamAnswer {
	t.Helper()
	var a gen.FoamAnswer
	w := c.askFoam(body)
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != 200 {
		t.Fatalf("status %d, %v: %.600s", w.Code, err, w.Body)
	}
	return a
}

// By hand: two cores of 10 cm and two tops of 2.5 cm, 61.2 × 56.2 cm, and a D of
// two layers of 2.5 cm: one sheet of each, 123.50 together. A cushion weighs
// 0.612 · 0.562 · (0.1 · 35 + 0.025 · 22.5) kg = 1.397 kg, the D
// (0.4 · 0.22 + π · 0.2² / 2) · 0.05 · 22.5 kg = 0.1697 kg.
func TestFoamByHand(t *testing.T) {
	c := newClient(t, options())
	a := foamAnswer(t, c, cushions)
	if a.Cost.Amount != "123.50" || a.Cost.Currency != "GBP" || len(a.Sheets) != 2 || !a.Proven {
		t.Errorf("cost %+v, %d sheets", a.Cost, len(a.Sheets))
	}
	if a.Items[0].MassG != 1397 || a.Items[1].MassG != 170 || a.MassG != 2*1397+170 {
		t.Errorf("%d g, %d g, %d g", a.Items[0].MassG, a.Items[1].MassG, a.MassG)
	}
	if l := a.Items[0].Layers; len(l) != 2 || l[0].Part != gen.FoamCutLayersPartCore || l[1].Foam != "S" || l[1].Count != 1 {
		t.Errorf("layers %+v", l)
	}
	if !strings.Contains(said(a.Cautions), "/v1/fire-check") {
		t.Error("no word about fire")
	}
	if adv := a.Items[1].Advice; adv.Class != "A" || !strings.Contains(adv.Source, "BS 3379") {
		t.Errorf("%+v", adv)
	}
}

// A thickness that the stock does not make is said, with how far it is out.
func TestFoamSaysWhatIsOut(t *testing.T) {
	c := newClient(t, options())
	a := foamAnswer(t, c, strings.Replace(cushions, `"12 cm", "crown": "5 mm"`, `"13 cm"`, 1))
	if a.Items[0].Off.Mm != -5 || !strings.Contains(said(a.Warnings), "C: the stock makes 12.5 cm, 0.5 cm thinner than wanted") {
		t.Errorf("%+v, %+v", a.Items[0].Off, a.Warnings)
	}
	a = foamAnswer(t, c, strings.Replace(cushions, `"hardnessN": 160`, `"hardnessN": 100`, 1))
	if !strings.Contains(said(a.Warnings), "C: the foam is too soft for its place: 100 N at 25 %") {
		t.Errorf("%+v", a.Warnings)
	}
}

func TestFoamWithoutPrices(t *testing.T) {
	c := newClient(t, options())
	a := foamAnswer(t, c, strings.NewReplacer(`"currency": "GBP", `, "", `, "price": "96.00"`, "", `, "price": "27.5"`, "").Replace(cushions))
	if a.Cost != nil || a.Groups[0].Cost != nil || len(a.Sheets) != 2 {
		t.Errorf("%+v", a.Cost)
	}
}

func TestFoamMedia(t *testing.T) {
	c := newClient(t, options())
	for accept, want := range map[string]string{"application/json": `{"cautions"`, "image/svg+xml": "<svg "} {
		w := c.do(http.MethodPost, "/v1/foam", cushions, "Content-Type", "application/json", "Accept", accept)
		if w.Code != 200 || w.Header().Get("Content-Type") != accept || !strings.HasPrefix(w.Body.String(), want) {
			t.Errorf("%s: %d %s %.40s", accept, w.Code, w.Header().Get("Content-Type"), w.Body)
		}
	}
	if w := c.do(http.MethodPost, "/v1/foam", cushions, "Content-Type", "application/json", "Accept", "text/html"); w.Code != 406 {
		t.Errorf("status %d", w.Code)
	}
	if w := c.do(http.MethodPost, "/v1/foam", cushions, "Content-Type", "text/plain"); w.Code != 415 {
		t.Errorf("status %d", w.Code)
	}
	if w := c.askFoam(strings.Repeat(" ", httpapi.MaxLargeBody) + cushions); w.Code != 413 {
		t.Errorf("status %d", w.Code)
	}
}

func badFoam() []badRequest {
	shape := func(name, to string, want ...string) badRequest {
		return badRequest{"shape " + name, `{"form": "rectangle", "across": "60 cm", "along": "55 cm"}`, to, want}
	}
	at := "#/items/0/shape"
	return []badRequest{
		{"nothing", "", `{}`, []string{"#/foams missing", "#/sheets missing", "#/items missing"}},
		{"empty lists", "", `{"foams": [], "sheets": [], "items": []}`, []string{"#/foams too-few", "#/sheets too-few", "#/items too-few"}},
		{"currency", `"GBP"`, `"gbp"`, one("#/currency not-a-name")},
		{"no such currency", `"GBP"`, `"QQQ"`, one("#/currency not-one-of")},
		{"no currency", `"currency": "GBP", `, ``, []string{"#/sheets/0/price not-allowed", "#/sheets/1/price not-allowed"}},
		{"no price", `, "price": "27.5"`, ``, one("#/sheets/1/price missing")},
		{"price with a comma", `"27.5"`, `"27,5"`, one("#/sheets/1/price not-a-price")},
		{"price as a number", `"27.5"`, `27.5`, one("#/sheets/1/price wrong-type")},
		{"price of a million", `"27.5"`, `"100000.01"`, one("#/sheets/1/price too-large")},
		{"kerf", `"3 mm"`, `"21 mm"`, one("#/kerf too-large")},
		{"kerf below nothing", `"3 mm"`, `"-1 mm"`, one("#/kerf too-small")},
		{"density without a unit", `"22.5 kg/m3"`, `"22.5"`, one("#/foams/1/density not-a-density")},
		{"light as air", `"22.5 kg/m3"`, `"1.2 kg/m3"`, one("#/foams/1/density too-small")},
		{"dense as water", `"22.5 kg/m3"`, `"1000 kg/m3"`, one("#/foams/1/density too-large")},
		{"hardness at without hardness", `"hardnessN": 160, `, ``, one("#/foams/0/hardnessAt not-allowed")},
		{"hardness of nothing", `"hardnessN": 160`, `"hardnessN": 0`, one("#/foams/0/hardnessN too-small")},
		{"hardness at 65 %", `"25 %"`, `"65 %"`, one("#/foams/0/hardnessAt not-one-of")},
		{"foam twice", `{"id": "S", "density"`, `{"id": "F", "density"`, []string{"#/foams/1/id duplicate",
			"#/sheets/1/foam unknown-foam", "#/items/0/top/foam unknown-foam", "#/items/1/foam unknown-foam"}},
		{"foam without an id", `{"id": "S", "density"`, `{"id": "S S", "density"`, one("#/foams/1/id not-a-name")},
		{"sheet of an unknown foam", `"id": "B", "foam": "S"`, `"id": "B", "foam": "X"`, []string{"#/sheets/1/foam unknown-foam", "#/items/0/top/foam not-allowed", "#/items/1/foam not-allowed"}},
		{"sheet twice", `"id": "B", "foam"`, `"id": "A", "foam"`, one("#/sheets/1/id duplicate")},
		{"sheet too small", `"along": "2000 mm", "thickness": "25 mm"`, `"along": "99 mm", "thickness": "25 mm"`, one("#/sheets/1/along too-small")},
		{"sheet too thick", `"thickness": "100 mm"`, `"thickness": "501 mm"`, one("#/sheets/0/thickness too-large")},
		{"trim", `"trim": "5 mm"`, `"trim": "21 mm"`, one("#/sheets/0/trim too-large")},
		{"item twice", `"id": "D"`, `"id": "C"`, one("#/items/1/id duplicate")},
		{"item nowhere", `"place": "back"`, `"place": "leg"`, one("#/items/1/place not-one-of")},
		{"count 0", `"count": 2`, `"count": 0`, one("#/items/0/count too-small")},
		{"1001", `"count": 2`, `"count": 1000`, one("#/items too-many")},
		{"no thickness", `"thickness": "50 mm", `, ``, one("#/items/1/thickness missing")},
		{"thin", `"thickness": "50 mm"`, `"thickness": "2 mm"`, one("#/items/1/thickness too-small")},
		{"thick", `"thickness": "50 mm"`, `"thickness": "1001 mm"`, one("#/items/1/thickness too-large")},
		{"crown", `"crown": "5 mm"`, `"crown": "21 cm"`, one("#/items/0/crown too-large")},
		{"over-cut", `"fit": "flush"`, `"overCut": "101 mm"`, one("#/items/1/overCut too-large")},
		{"fit", `"fit": "flush"`, `"fit": "loose"`, one("#/items/1/fit not-one-of")},
		{"top as thick as all", `"thickness": "25 mm"}`, `"thickness": "125 mm"}`, one("#/items/0/top/thickness too-large")},
		{"tops as thick as all", `"thickness": "25 mm"}`, `"thickness": "63 mm", "both": true}`, one("#/items/0/top/thickness too-large")},
		{"field of another form", `"across": "40 cm", "along": "42 cm"`, `"across": "40 cm", "along": "42 cm", "radius": "1 cm"`, one("#/items/1/shape/radius not-allowed")},
		{"shallow d", `"along": "42 cm"`, `"along": "19 cm"`, one("#/items/1/shape/along too-small")},
		shape("without a form", `{"across": "60 cm"}`, at+"/form missing"),
		shape("without measures", `{"form": "t"}`, at+"/across missing", at+"/along missing", at+"/earAcross missing", at+"/earAlong missing"),
		shape("all ears", `{"form": "t", "across": "60 cm", "along": "50 cm", "earAcross": "30 cm", "earAlong": "10 cm"}`, at+"/earAcross too-large"),
		shape("ears to the back", `{"form": "t", "across": "60 cm", "along": "50 cm", "earAcross": "10 cm", "earAlong": "50 cm"}`, at+"/earAlong too-large"),
		shape("ears of an l", `{"form": "l", "across": "60 cm", "along": "50 cm", "notchAcross": "10 cm", "notchAlong": "10 cm", "ears": "left"}`, at+"/ears not-allowed"),
		shape("all notch", `{"form": "l", "across": "60 cm", "along": "50 cm", "notchAcross": "60 cm", "notchAlong": "50 cm"}`, at+"/notchAcross too-large", at+"/notchAlong too-large"),
		shape("too round", `{"form": "rounded", "across": "60 cm", "along": "50 cm", "radius": "26 cm"}`, at+"/radius too-large"),
		shape("pointed trapezoid", `{"form": "trapezoid", "across": "60 cm", "along": "50 cm", "back": "1 cm"}`, at+"/back too-small"),
		shape("small circle", `{"form": "circle", "diameter": "19 mm"}`, at+"/diameter too-small"),
		shape("larger than the sheet", `{"form": "rectangle", "across": "1.3 m", "along": "2 m"}`, at+" too-large"),
		shape("with the over-cut larger than the sheet", `{"form": "rectangle", "across": "1.18 m", "along": "1.98 m"}`, at+" too-large"),
		shape("outline of two", `{"form": "outline", "points": [{"xMm": 0, "yMm": 0}, {"xMm": 100, "yMm": 0}]}`, at+"/points too-few"),
		shape("outline that crosses itself", `{"form": "outline", "points": [{"xMm": 0, "yMm": 0}, {"xMm": 300, "yMm": 300}, {"xMm": 300, "yMm": 0}, {"xMm": 0, "yMm": 300}]}`, at+"/points not-allowed"),
		shape("outline with a line", `{"form": "outline", "points": [{"xMm": 0, "yMm": 0}, {"xMm": 300, "yMm": 0}, {"xMm": 100, "yMm": 0}]}`, at+"/points too-small"),
		shape("outline with a narrow notch", `{"form": "outline", "points": [{"xMm": 0, "yMm": 0}, {"xMm": 100, "yMm": 0}, {"xMm": 100, "yMm": 100}, {"xMm": 105, "yMm": 100}, {"xMm": 105, "yMm": 0}, {"xMm": 300, "yMm": 0}, {"xMm": 300, "yMm": 300}, {"xMm": 0, "yMm": 300}]}`, at+"/points not-allowed"),
		shape("unknown field", `{"form": "rectangle", "across": "60 cm", "along": "55 cm", "height": "1 m"}`, at+"/height unknown-field"),
	}
}

func TestBadFoam(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range badFoam() {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			body := tc.to
			if tc.from != "" {
				if strings.Count(cushions, tc.from) != 1 {
					t.Fatalf("%q does not stand once", tc.from)
				}
				body = strings.Replace(cushions, tc.from, tc.to, 1)
			}
			w := c.askFoam(body)
			if w.Code != http.StatusUnprocessableEntity {
				t.Fatalf("status %d: %.300s", w.Code, w.Body)
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

// manyCushions asks for n cushions of as many sizes from so many sheets of each of
// so many foams.
func manyCushions(n, foams, sheets int, thick string) string {
	list := func(n int, f func(int) string) string {
		all := make([]string, n)
		for i := range all {
			all[i] = f(i)
		}
		return strings.Join(all, ",")
	}
	return fmt.Sprintf(`{"kerf":"3 mm","foams":[%s],"sheets":[%s],"items":[%s]}`,
		list(foams, func(i int) string { return fmt.Sprintf(`{"id":"F%d","density":"%d kg/m3"}`, i, 20+i) }),
		list(foams*sheets, func(i int) string {
			return fmt.Sprintf(`{"id":"S%d","foam":"F%d","across":"%d mm","along":"%d mm","thickness":"%d mm"}`, i, i/sheets, 1200+i%7*10, 2000-i%5*10, []int{50, 25, 100, 30, 20, 15}[i%sheets])
		}),
		list(n, func(i int) string {
			return fmt.Sprintf(`{"id":"C%d","place":"seat","foam":"F%d","thickness":"%s","shape":{"form":"rectangle","across":"%d mm","along":"%d mm"}}`, i, i%foams, thick, 400+i*37%300, 450+i*53%250)
		}))
}

// smallPads leave a large sheet with many free places.
func smallPads() string {
	var b strings.Builder
	b.WriteString(`{"kerf":"1 mm","foams":[{"id":"F","density":"20 kg/m3"}],"sheets":[`)
	for i := range 6 {
		fmt.Fprintf(&b, `%s{"id":"S%d","foam":"F","across":"4 m","along":"%d mm","thickness":"10 mm"}`, strings.Repeat(",", min(i, 1)), i, 4000-i)
	}
	b.WriteString(`],"items":[`)
	for i := range 500 {
		fmt.Fprintf(&b, `%s{"id":"C%d","count":2,"place":"arm","fit":"flush","foam":"F","thickness":"60 mm","shape":{"form":"rectangle","across":"%d mm","along":"%d mm"}}`,
			strings.Repeat(",", min(i, 1)), i, 20+i*37%90, 20+i*53%80)
	}
	return b.String() + "]}"
}

// 500 cushions on sheets in under a second at normal effort, and the worst that
// may be asked ends.
func TestManyCushions(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		name, body string
		most       time.Duration
	}{
		{"500 of two thicknesses", manyCushions(500, 1, 2, "75 mm"), 10 * time.Second}, // the machine may be busy: see BenchmarkFoam500
		{"500 of six foams with six sheets", manyCushions(500, 6, 6, "135 mm"), 40 * time.Second},
		{"500 of one foam with six sheets", manyCushions(500, 1, 6, "180 mm"), 40 * time.Second},
		{"1000 small pieces of six layers on few large sheets", smallPads(), 40 * time.Second},
	} {
		begun := time.Now()
		w := c.askFoam(tc.body)
		took := time.Since(begun)
		t.Logf("%s: status %d in %v, %d bytes", tc.name, w.Code, took, w.Body.Len())
		if w.Code != 200 || took > tc.most {
			t.Errorf("%s: status %d in %v: %.300s", tc.name, w.Code, took, w.Body)
		}
	}
}

// Whatever comes in, the answer is of the contract and never a failure.
func FuzzFoam(f *testing.F) {
	f.Add([]byte(cushions))
	f.Add([]byte(`{"foams":[{"id":"F","density":"5 kg/m3"}],"sheets":[{"id":"A","foam":"F","across":"4 m","along":"10 cm","thickness":"3 mm"}],"items":[{"id":"C","place":"arm","foam":"F","thickness":"1 m","shape":{"form":"circle","diameter":"2 cm"}}]}`))
	f.Add([]byte(`{"foams":[null],"sheets":[{}],"items":[{"shape":{"form":"outline","points":[{},null]},"top":{}}]}`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		in := &client{t: t, doc: c.doc, handler: c.handler}
		for _, accept := range []string{"application/json", "image/svg+xml"} {
			if w := in.do(http.MethodPost, "/v1/foam", string(body), "Content-Type", "application/json", "Accept", accept); w.Code >= 500 {
				t.Errorf("status %d", w.Code)
			}
		}
	})
}

func benchmarkFoam(b *testing.B, body string) {
	s := freshServer(b)
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/foam", strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		if s.Handler().ServeHTTP(w, r); w.Code != 200 {
			b.Fatal(w.Body.String())
		}
	}
}

func BenchmarkFoamSettee(b *testing.B) {
	body, err := os.ReadFile("../../testdata/jobs/settee-foam.json")
	if err != nil {
		b.Fatal(err)
	}
	benchmarkFoam(b, string(body))
}

func BenchmarkFoam500(b *testing.B) { benchmarkFoam(b, manyCushions(500, 1, 2, "75 mm")) }
