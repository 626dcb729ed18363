package httpapi_test

import (
	"encoding/json"
	"math"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/wadding"
)

const frames = `{
	"build": "traditional", "fixing": "tacks",
	"frames": [
		{"id": "SEAT", "name": "seat", "part": "seat", "place": "easy-chair", "count": 2, "shape": "trapezoid", "front": "64 cm", "back": "56 cm",
			"depth": "62 cm", "rail": "11 cm", "layWebs": "even", "sprung": true, "edgeRows": 2, "showWood": true},
		{"id": "STOOL", "place": "drop-in", "shape": "circle", "front": "38 cm", "websAcross": 3, "websAlong": 2},
		{"id": "DINING", "place": "small-chair", "shape": "d", "front": "18 in", "depth": "17 in", "springRows": [2, 1, 2]}
	],
	"settings": [{"name": "web-gap", "length": "5 cm"}, {"name": "tack-spare", "number": 0.25}, {"name": "tack-box", "count": 500}]
}`

const wraps = `{
	"items": [
		{"id": "CUSHION", "name": "cushion", "kind": "cushion", "count": 3, "width": "60 cm", "depth": "64 cm", "thickness": "12 cm", "wrap": "all-round", "ends": true, "layers": 2},
		{"id": "DOME", "kind": "dome", "width": "48 cm", "depth": "45 cm", "rise": "4 cm", "material": "cotton-felt", "whole": true},
		{"id": "FILL", "kind": "pad", "width": "40 cm", "depth": "50 cm", "thickness": "5 cm", "material": "hair"},
		{"id": "SEATS", "kind": "seats", "count": 6, "material": "fibre", "place": "drop-in"}
	],
	"settings": [{"name": "polyester-weight", "ouncesPerSquareYard": 9}, {"name": "overlap", "length": "2 in"}]
}`

func (c *client) ask(op, body string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/"+op, body, append([]string{"Content-Type", "application/json"}, header...)...)
}

func answered[A any](c *client, op, body string) A {
	c.t.Helper()
	w := c.ask(op, body)
	if w.Code != http.StatusOK {
		c.t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	var a A
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		c.t.Fatal(err)
	}
	return a
}

func TestFoundationAnswer(t *testing.T) {
	a := answered[gen.FoundationAnswer](newClient(t, options()), "foundation", frames)
	if len(a.Frames) != 3 || len(a.Cloths) != 4 || a.Engine == "" || !strings.HasPrefix(a.InputDigest, "sha256:") || len(a.Cautions) == 0 {
		t.Fatalf("%+v", a)
	}
	seat, stool, dining := a.Frames[0], a.Frames[1], a.Frames[2]
	if seat.Count != 2 || seat.Springs == nil || seat.Springs.Height.Mm != 220 || seat.Gimp == nil || seat.Twine == nil || seat.Stuffing == nil {
		t.Errorf("seat %+v", seat)
	}
	if stool.Springs != nil || stool.Gimp != nil || len(stool.Webbing.Webs) != 5 || stool.Webbing.Across != 3 {
		t.Errorf("stool %+v", stool)
	}
	if dining.Springs == nil || dining.Springs.Count != 5 || !slices.Equal(dining.Springs.Rows, []int{2, 1, 2}) || dining.Springs.Wire != nil {
		t.Errorf("dining %+v", dining.Springs)
	}
	// The totals are the sums of the frames, each with its copies.
	webbing, springs := 0.0, 0
	for _, f := range a.Frames {
		for _, w := range f.Webbing.Webs {
			webbing += float64(f.Count) * w.Cut.Mm
			if dx, dy := w.X2Mm-w.X1Mm, w.Y2Mm-w.Y1Mm; math.Abs(math.Hypot(dx, dy)-w.Span.Mm) > 0.0011 {
				t.Errorf("%s: web %d from %v to %v is not %v long", f.Id, w.Number, w.X1Mm, w.X2Mm, w.Span.Mm)
			}
		}
		if f.Springs != nil {
			springs += f.Count * f.Springs.Count
		}
	}
	if math.Abs(webbing-a.Totals.Webbing.Needed.Mm) > 1e-6 || springs != a.Totals.Springs {
		t.Errorf("webbing %v and %d springs, totals %+v", webbing, springs, a.Totals)
	}
	for _, f := range a.Totals.Fixings {
		if f.Kind == gen.FoundationFixedKindTack && f.Boxes != int(math.Ceil(float64(f.Count)*1.25/500)) {
			t.Errorf("%+v: not boxes of 500 with a quarter to spare", f)
		}
	}
	given := 0
	for _, s := range a.Settings {
		if s.Source == "" || s.Value == "" {
			t.Errorf("%+v", s)
		}
		if s.Given {
			given++
		}
	}
	if given != 3 {
		t.Errorf("%d settings are said to be given, want 3", given)
	}
}

// Where one web passes over another, that one passes under.
func TestFoundationInterlaces(t *testing.T) {
	for _, f := range answered[gen.FoundationAnswer](newClient(t, options()), "foundation", frames).Frames {
		for _, a := range f.Webbing.Webs {
			for _, b := range f.Webbing.Webs {
				if a.Way != b.Way && slices.Contains(a.Over, b.Number) == slices.Contains(b.Over, a.Number) {
					t.Errorf("%s: %s %d and %s %d", f.Id, a.Way, a.Number, b.Way, b.Number)
				}
			}
		}
	}
}

func TestWaddingAnswer(t *testing.T) {
	a := answered[gen.WaddingAnswer](newClient(t, options()), "wadding", wraps)
	if len(a.Items) != 4 || len(a.Rolls) != 2 || len(a.Loose) != 2 || len(a.Cautions) == 0 {
		t.Fatalf("%+v", a)
	}
	pieces := a.Rolls[0].Cutting.Panels
	if len(pieces) != 2 || pieces[0].Id != "CUSHION" || pieces[0].Count != 6 || pieces[0].Along.Mm != 2*640+2*120+50.8 || pieces[1].Id != "CUSHION-end" || pieces[1].Count != 12 {
		t.Errorf("pieces %+v", pieces)
	}
	if l := a.Items[0]; l.Laid.Mm != 50 || l.UnderCover.Mm != 30 || l.Lost.Mm != 20 {
		t.Errorf("laid %+v", l)
	}
	if a.Loose[0].Mass.Grams != 800 || a.Loose[1].Mass.Grams != 6*454 || a.Loose[1].Bags != 1 { // 0.2 m² × 5 cm × 80 kg/m³
		t.Errorf("loose %+v", a.Loose)
	}
	for _, s := range a.Settings {
		if s.Name == "polyester-weight" && (s.Number == nil || math.Abs(*s.Number-305.1517) > 0.001 || !s.Given) {
			t.Errorf("9 oz/yd² is %+v", s)
		}
	}
}

// Drawn, in both units, and the same bytes again.
func TestBenchMediaTypes(t *testing.T) {
	c := newClient(t, options())
	for op, body := range map[string]string{"foundation": frames, "wadding": wraps} {
		for _, units := range []string{"metric", "imperial"} {
			body := `{"units": "` + units + `",` + body[1:]
			svg := c.ask(op, body, "Accept", "image/svg+xml")
			if svg.Code != http.StatusOK || svg.Header().Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(svg.Body.String(), "<svg ") {
				t.Errorf("%s: %d %s", op, svg.Code, svg.Header().Get("Content-Type"))
			}
			first, again := c.ask(op, body).Body.String(), c.ask(op, body).Body.String()
			if first != again {
				t.Errorf("%s: two answers to one request differ", op)
			}
		}
		if w := c.ask(op, body, "Accept", "text/html"); w.Code != http.StatusNotAcceptable {
			t.Errorf("%s as text/html: %d", op, w.Code)
		}
		if w := c.do(http.MethodPost, "/v1/"+op, body, "Content-Type", "text/plain"); w.Code != http.StatusUnsupportedMediaType {
			t.Errorf("%s from text/plain: %d", op, w.Code)
		}
		if w := c.do(http.MethodGet, "/v1/"+op, ""); w.Code != http.StatusMethodNotAllowed {
			t.Errorf("GET %s: %d", op, w.Code)
		}
	}
}

// The contract lists the settings that there are, in their order.
func TestContractListsTheSettings(t *testing.T) {
	doc := spec(t)
	for schema, book := range map[string]*practice.Book{"FoundationSettingName": foundation.Book(), "WaddingSettingName": wadding.Book()} {
		var want []any
		for _, s := range book.Settings() {
			want = append(want, s.Name)
		}
		if got := doc.Components.Schemas[schema].Value.Enum; !slices.Equal(got, want) {
			t.Errorf("%s has %d names, the book %d:\n%v\n%v", schema, len(got), len(want), got, want)
		}
	}
}

func FuzzFoundation(f *testing.F) { fuzzOperation(f, "foundation", frames) }
func FuzzWadding(f *testing.F)    { fuzzOperation(f, "wadding", wraps) }

// fuzzOperation: whatever comes in, the answer is of the contract, never a failure
// and never late.
func fuzzOperation(f *testing.F, op, good string) {
	f.Add([]byte(good))
	f.Add([]byte(strings.ReplaceAll(good, " cm", " m")))
	f.Add([]byte(strings.ReplaceAll(good, `"count": `, `"count": 1`)))
	f.Add([]byte(`{"frames": [{"id": "A", "front": "4 m", "depth": "4 m"}], "items": [{}], "settings": [{}, null]}`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		in := &client{t: t, doc: c.doc, handler: c.handler}
		begun := time.Now()
		if w := in.ask(op, string(body)); w.Code >= 500 {
			t.Errorf("status %d: %s", w.Code, w.Body)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("took %v", took)
		}
	})
}

func BenchmarkFoundationRequest(b *testing.B) { benchOperation(b, "foundation", frames) }
func BenchmarkWaddingRequest(b *testing.B)    { benchOperation(b, "wadding", wraps) }

func benchOperation(b *testing.B, op, body string) {
	handler := newServer(b, options()).Handler()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, "/v1/"+op, strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Code)
		}
	}
}
