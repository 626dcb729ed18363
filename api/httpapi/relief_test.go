package httpapi_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
)

// reliefSound is a request without faults, for tests to spoil.
const reliefSound = `{
	"panel": {"id": "SEAT", "name": "seat", "size": {"across": "50 cm", "along": "46 cm"}, "allow": {"top": "9 cm", "left": "7 cm", "right": "7 cm", "bottom": "7 cm"}},
	"weave": "close", "stretch": {"least": "1 %", "most": "3 %"},
	"obstacles": [
		{"id": "POST", "what": "post", "corner": "top-left", "width": "4 cm", "deep": "5 cm", "stuffing": "5 cm", "edgeThickness": "1 cm", "covered": "2 mm"},
		{"id": "ARM", "what": "upright", "shape": "square", "edge": "right", "at": "28 cm", "width": "6 cm", "deep": "3 cm", "lean": 10, "margin": "11 mm"}
	]
}`

// pleatsSound is a request without faults, for tests to spoil.
const pleatsSound = `{"units": "metric", "name": "corner", "from": {"how": "corner", "radius": "8 cm", "angle": 90, "turnOver": "6 cm", "concave": false},
	"style": "fan", "count": 5, "maxDepth": "15 mm", "lie": "away", "over": "10 cm", "margin": "13 mm"}`

func spoilRelief(t testing.TB, whole, from, to string) string {
	t.Helper()
	if strings.Count(whole, from) != 1 {
		t.Fatalf("%q does not stand once in the request", from)
	}
	return strings.Replace(whole, from, to, 1)
}

func (c *client) postRelief(path, body string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, path, body, append([]string{"Content-Type", "application/json"}, header...)...)
}

func TestReliefCuts(t *testing.T) {
	c := newClient(t, options())
	w := c.postRelief("/v1/relief-cuts", reliefSound)
	var a gen.ReliefCutsAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
		t.Fatalf("status %d: %v: %s", w.Code, err, w.Body)
	}
	if !a.Whole || len(a.Obstacles) != 2 || a.Obstacles[0].Cut != "diagonal" || len(a.Obstacles[1].Stops) != 2 || a.Obstacles[0].Margin == nil {
		t.Errorf("%s", w.Body)
	}
	if a.Cut.Across.Mm != 640 || a.Cut.Along.Mm != 620 || a.Centre.AcrossMm != 320 || a.Centre.AlongMm != 320 {
		t.Errorf("cut %v, centre %v", a.Cut, a.Centre)
	}
	svg := c.postRelief("/v1/relief-cuts", reliefSound, "Accept", "image/svg+xml")
	if svg.Code != http.StatusOK || svg.Header().Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(svg.Body.String(), "<svg ") {
		t.Errorf("status %d, %q", svg.Code, svg.Header().Get("Content-Type"))
	}
	if w := c.postRelief("/v1/relief-cuts", reliefSound, "Accept", "text/html"); w.Code != http.StatusNotAcceptable {
		t.Errorf("text/html: status %d", w.Code)
	}
	again := c.postRelief("/v1/relief-cuts", reliefSound)
	if again.Body.String() != w.Body.String() {
		t.Error("the same request has two answers")
	}
	// no cut: a way out, and 200
	none := spoilRelief(t, spoilRelief(t, reliefSound, `"corner": "top-left", "width": "4 cm", "deep": "5 cm"`, `"edge": "top", "at": "20 cm", "width": "4 cm", "deep": "0 cm"`), `"top": "9 cm"`, `"top": "5 mm"`)
	w = c.postRelief("/v1/relief-cuts", none)
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || a.Whole || a.Obstacles[0].Allowance == nil || a.Obstacles[0].Cut != "none" || len(a.Warnings) == 0 {
		t.Errorf("%v: %s", err, w.Body)
	}
	c.postRelief("/v1/relief-cuts", none, "Accept", "image/svg+xml")
}

func TestBadReliefCuts(t *testing.T) {
	c := newClient(t, options())
	arm := `"at": "28 cm", "width": "6 cm", "deep": "3 cm", "lean": 10`
	for _, tc := range []badRequest{
		{"nothing", "", `{}`, []string{"#/panel missing", "#/obstacles missing"}},
		{"no obstacles", "", `{"panel": {"size": {"across": "5 cm", "along": "5 cm"}}, "obstacles": []}`, one("#/obstacles too-few")},
		{"41 obstacles", "", `{"panel": {"size": {"across": "5 m", "along": "5 m"}}, "obstacles": [` + manyPosts(41) + `]}`, one("#/obstacles too-many")},
		{"size of no unit", `"across": "50 cm"`, `"across": "50"`, one("#/panel/size/across not-a-length")},
		{"size of nothing", `"across": "50 cm"`, `"across": "0 cm"`, one("#/panel/size/across too-small")},
		{"size beyond", `"along": "46 cm"`, `"along": "101 m"`, one("#/panel/size/along too-large")},
		{"no size", `"size": {"across": "50 cm", "along": "46 cm"}, `, ``, one("#/panel/size missing")},
		{"allowance beyond", `"top": "9 cm"`, `"top": "3 m"`, one("#/panel/allow/top too-large")},
		{"allowance below", `{"top": "9 cm", "left": "7 cm", "right": "7 cm", "bottom": "7 cm"}`, `"-1 cm"`, one("#/panel/allow too-small")},
		{"unknown weave", `"weave": "close"`, `"weave": "open"`, one("#/weave not-one-of")},
		{"stretch of no share", `"least": "1 %"`, `"least": "1"`, one("#/stretch/least not-a-share")},
		{"stretch beyond", `"most": "3 %"`, `"most": "51 %"`, one("#/stretch/most too-large")},
		{"stretch reversed", `"most": "3 %"`, `"most": "0.5 %"`, one("#/stretch/most too-small")},
		{"unknown kind", `"what": "post"`, `"what": "pillar"`, one("#/obstacles/0/what not-one-of")},
		{"unknown shape", `"shape": "square"`, `"shape": "oval"`, one("#/obstacles/1/shape not-one-of")},
		{"unknown edge", `"edge": "right"`, `"edge": "side"`, one("#/obstacles/1/edge not-one-of")},
		{"unknown corner", `"corner": "top-left"`, `"corner": "left-top"`, one("#/obstacles/0/corner not-one-of")},
		{"the same id", `"id": "ARM"`, `"id": "POST"`, one("#/obstacles/1/id duplicate")},
		{"no id", `"id": "ARM", `, ``, one("#/obstacles/1/id missing")},
		{"neither edge nor corner", `"corner": "top-left", `, ``, one("#/obstacles/0/edge missing")},
		{"edge and corner", `"edge": "right"`, `"edge": "right", "corner": "top-right"`, []string{"#/obstacles/1/corner not-allowed", "#/obstacles/1/lean not-allowed"}},
		{"corner and at", `"corner": "top-left"`, `"corner": "top-left", "at": "5 cm"`, one("#/obstacles/0/at not-allowed")},
		{"edge without at", `"at": "28 cm", `, ``, one("#/obstacles/1/at missing")},
		{"past the end", arm, `"at": "45 cm", "width": "6 cm", "deep": "3 cm"`, one("#/obstacles/1/at too-large")},
		{"before the start", arm, `"at": "2 cm", "width": "6 cm", "deep": "3 cm"`, one("#/obstacles/1/at too-small")},
		{"wider than the edge", arm, `"at": "23 cm", "width": "47 cm", "deep": "3 cm"`, one("#/obstacles/1/width too-large")},
		{"of no width", arm, `"at": "23 cm", "width": "0 cm", "deep": "3 cm"`, one("#/obstacles/1/width too-small")},
		{"below the edge", arm, `"at": "23 cm", "width": "6 cm", "deep": "-3 cm"`, one("#/obstacles/1/deep too-small")},
		{"to the middle", arm, `"at": "23 cm", "width": "6 cm", "deep": "25 cm"`, one("#/obstacles/1/deep too-large")},
		{"to the middle from a corner", `"width": "4 cm", "deep": "5 cm"`, `"width": "25 cm", "deep": "23 cm"`, []string{"#/obstacles/0/width too-large", "#/obstacles/0/deep too-large"}},
		{"leans too far", `"lean": 10`, `"lean": 61`, one("#/obstacles/1/lean too-large")},
		{"leans out of its edge", arm, `"at": "42 cm", "width": "6 cm", "deep": "3 cm", "lean": 60`, one("#/obstacles/1/lean not-allowed")},
		{"leans in a corner", `"corner": "top-left"`, `"corner": "top-left", "lean": 5`, one("#/obstacles/0/lean not-allowed")},
		{"leans and is round", `"shape": "square"`, `"shape": "round"`, one("#/obstacles/1/lean not-allowed")},
		{"lean in words", `"lean": 10`, `"lean": "10"`, one("#/obstacles/1/lean wrong-type")},
		{"stuffing beyond", `"stuffing": "5 cm"`, `"stuffing": "2 m"`, one("#/obstacles/0/stuffing too-large")},
		{"thickness below", `"edgeThickness": "1 cm"`, `"edgeThickness": "-1 cm"`, one("#/obstacles/0/edgeThickness too-small")},
		{"covered beyond", `"covered": "2 mm"`, `"covered": "51 cm"`, one("#/obstacles/0/covered too-large")},
		{"no margin", `"margin": "11 mm"`, `"margin": "0 mm"`, one("#/obstacles/1/margin too-small")},
		{"margin beyond", `"margin": "11 mm"`, `"margin": "21 cm"`, one("#/obstacles/1/margin too-large")},
		{"an unknown field", `"weave": "close"`, `"loose": true`, one("#/loose unknown-field")},
		{"units of none", `"weave": "close"`, `"units": "feet"`, one("#/units not-one-of")},
	} {
		t.Run(tc.name, func(t *testing.T) { checkBadRelief(t, c, "/v1/relief-cuts", reliefSound, tc) })
	}
}

// manyPosts are posts along the top edge of a panel 5 m wide.
func manyPosts(n int) string {
	posts := make([]string, n)
	for i := range posts {
		posts[i] = fmt.Sprintf(`{"id": "P%d", "what": "post", "edge": "top", "at": "%d mm", "width": "50 mm", "deep": "4 cm"}`, i, 60+120*i)
	}
	return strings.Join(posts, ",")
}

func checkBadRelief(t *testing.T, c *client, path, whole string, tc badRequest) {
	c.t = t
	body := tc.to
	if tc.from != "" {
		body = spoilRelief(t, whole, tc.from, tc.to)
	}
	w := c.postRelief(path, body)
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
}

func TestPleats(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		body, kind, style string
		count             int
	}{
		{pleatsSound, "pleats", "fan", 5},
		{`{"from": {"how": "corner", "radius": "0 cm", "turnOver": "5 cm"}}`, "pleats", "pairs", 2},
		{`{"from": {"how": "scroll-arm", "radius": "9 cm", "turnOver": "6 cm"}}`, "pleats", "fan", 5},
		{`{"from": {"how": "round-seat", "radius": "20 cm", "turnOver": "6 cm"}, "style": "darts"}`, "darts", "darts", 10},
		{`{"from": {"how": "corner", "radius": "20 cm", "turnOver": "6 cm", "concave": true}}`, "snips", "snips", 10},
		{`{"from": {"how": "lengths", "cloth": "50 cm", "finished": "60 cm", "turnOver": "5 cm"}}`, "snips", "snips", 10},
		{`{"from": {"how": "lengths", "cloth": "60 cm", "finished": "60 cm"}}`, "none", "none", 0},
		{`{"from": {"how": "buttons", "cloth": "18 cm", "finished": "15 cm", "buttons": 4}}`, "pleats", "fan", 4},
		{`{"from": {"how": "lengths", "cloth": "80 cm", "finished": "60 cm"}, "style": "box", "count": 1, "face": "8 cm"}`, "pleats", "box", 1},
		{`{"from": {"how": "round-seat", "radius": "20 m", "turnOver": "2 m"}, "maxDepth": "1 mm"}`, "pleats", "fan", 400},
	} {
		w := c.postRelief("/v1/pleats", tc.body)
		var a gen.PleatsAnswer
		if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != http.StatusOK {
			t.Fatalf("status %d: %v: %s", w.Code, err, w.Body)
		}
		if string(a.Kind) != tc.kind || string(a.Style) != tc.style || a.Count != tc.count || len(a.Marks) != tc.count || a.Excess.Mm != a.Absorbed.Mm {
			t.Errorf("%s: %s", tc.body, w.Body)
		}
		svg := c.postRelief("/v1/pleats", tc.body, "Accept", "image/svg+xml")
		if svg.Code != http.StatusOK || !strings.HasPrefix(svg.Body.String(), "<svg ") {
			t.Errorf("%s: status %d", tc.body, svg.Code)
		}
	}
	if w := c.postRelief("/v1/pleats", pleatsSound, "Accept", "text/html"); w.Code != http.StatusNotAcceptable {
		t.Errorf("text/html: status %d", w.Code)
	}
}

func TestBadPleats(t *testing.T) {
	c := newClient(t, options())
	const lengths = `"from": {"how": "lengths", "cloth": "50 cm", "finished": "60 cm"`
	for _, tc := range []badRequest{
		{"nothing", "", `{}`, one("#/from missing")},
		{"no geometry", "", `{"from": {"how": "corner"}}`, []string{"#/from/radius missing", "#/from/turnOver missing"}},
		{"no lengths", "", `{"from": {"how": "lengths"}}`, []string{"#/from/cloth missing", "#/from/finished missing"}},
		{"no buttons", "", `{"from": {"how": "buttons", "cloth": "18 cm", "finished": "15 cm"}}`, one("#/from/buttons missing")},
		{"unknown geometry", `"how": "corner"`, `"how": "edge"`, one("#/from/how not-one-of")},
		{"radius of no unit", `"radius": "8 cm"`, `"radius": 8`, one("#/from/radius not-a-length")},
		{"radius below", `"radius": "8 cm"`, `"radius": "-8 cm"`, one("#/from/radius too-small")},
		{"radius beyond", `"radius": "8 cm"`, `"radius": "21 m"`, one("#/from/radius too-large")},
		{"angle of none", `"angle": 90`, `"angle": 0`, one("#/from/angle too-small")},
		{"angle beyond", `"angle": 90`, `"angle": 361`, one("#/from/angle too-large")},
		{"angle in parts", `"angle": 90`, `"angle": 90.5`, one("#/from/angle wrong-type")},
		{"turn-over of nothing", `"turnOver": "6 cm"`, `"turnOver": "0 cm"`, one("#/from/turnOver too-small")},
		{"turn-over beyond", `"turnOver": "6 cm"`, `"turnOver": "3 m"`, one("#/from/turnOver too-large")},
		{"concave past its middle", `"concave": false`, `"concave": true, "cloth": "5 cm"`, one("#/from/cloth not-allowed")},
		{"a turn-over past the middle of its round", "", `{"from": {"how": "corner", "radius": "5 cm", "turnOver": "5 cm", "concave": true}}`, one("#/from/turnOver too-large")},
		{"a turn-over within the margin", "", `{"from": {"how": "corner", "radius": "5 cm", "turnOver": "12 mm", "concave": true}}`, one("#/from/turnOver too-small")},
		{"short lengths without a turn-over", "", `{` + lengths + `}}`, one("#/from/turnOver missing")},
		{"short lengths with a style", "", `{` + lengths + `, "turnOver": "5 cm"}, "style": "fan"}`, one("#/style not-allowed")},
		{"cloth of nothing", "", `{"from": {"how": "lengths", "cloth": "0 cm", "finished": "60 cm"}}`, one("#/from/cloth too-small")},
		{"finished beyond", "", `{"from": {"how": "lengths", "cloth": "60 cm", "finished": "201 m"}}`, one("#/from/finished too-large")},
		{"a radius of lengths", "", `{"from": {"how": "lengths", "cloth": "60 cm", "finished": "50 cm", "radius": "5 cm", "angle": 5, "concave": true, "buttons": 2}}`,
			[]string{"#/from/radius not-allowed", "#/from/angle not-allowed", "#/from/concave not-allowed", "#/from/buttons not-allowed"}},
		{"buttons that lie too close", "", `{"from": {"how": "buttons", "cloth": "14 cm", "finished": "15 cm", "buttons": 3}}`, one("#/from/cloth too-small")},
		{"201 buttons", "", `{"from": {"how": "buttons", "cloth": "16 cm", "finished": "15 cm", "buttons": 201}}`, one("#/from/buttons too-large")},
		{"buttons in pairs and counted", "", `{"from": {"how": "buttons", "cloth": "16 cm", "finished": "15 cm", "buttons": 4}, "style": "pairs", "count": 4}`,
			[]string{"#/count not-allowed", "#/style not-allowed"}},
		{"unknown style", `"style": "fan"`, `"style": "knife"`, one("#/style not-one-of")},
		{"count of none", `"count": 5`, `"count": 0`, one("#/count too-small")},
		{"count beyond", `"count": 5`, `"count": 401`, one("#/count too-large")},
		{"pairs of five", `"style": "fan", "count": 5, "maxDepth": "15 mm", "lie": "away"`, `"style": "pairs", "count": 5`, one("#/count not-allowed")},
		{"darts that lie away", `"style": "fan"`, `"style": "darts"`, one("#/lie not-allowed")},
		{"depth of nothing", `"maxDepth": "15 mm"`, `"maxDepth": "0 mm"`, one("#/maxDepth too-small")},
		{"depth beyond", `"maxDepth": "15 mm"`, `"maxDepth": "2 m"`, one("#/maxDepth too-large")},
		{"spread past the edge", `"over": "10 cm"`, `"over": "13 cm"`, one("#/over too-large")},
		{"a face of a fan", `"over": "10 cm"`, `"face": "1 cm"`, one("#/face not-allowed")},
		{"margin beyond", `"margin": "13 mm"`, `"margin": "21 cm"`, one("#/margin too-large")},
		{"margin of nothing", `"margin": "13 mm"`, `"margin": "0 mm"`, one("#/margin too-small")},
		{"unknown lie", `"lie": "away"`, `"lie": "left"`, one("#/lie not-one-of")},
		{"an unknown field", `"lie": "away"`, `"direction": "left"`, one("#/direction unknown-field")},
	} {
		t.Run(tc.name, func(t *testing.T) { checkBadRelief(t, c, "/v1/pleats", pleatsSound, tc) })
	}
}

// Whatever comes in, the answers are of the contract and never a failure, drawn
// or not.
func FuzzReliefCuts(f *testing.F) {
	f.Add([]byte(reliefSound))
	f.Add([]byte(`{"panel":{"size":{"across":"1 mm","along":"100 m"},"allow":"2 m"},"stretch":{"most":"50 %"},"obstacles":[{"id":"A","what":"leg","shape":"round","corner":"bottom-right","width":"0.4 mm","deep":"0 mm"}]}`))
	f.Add([]byte(`{"panel":{"size":{"across":"1 m","along":"1 m"}},"obstacles":[{"id":"A","what":"leg","shape":"round","edge":"left","at":"50 cm","width":"1 m","deep":"49 cm","margin":"1 mm"}]}`))
	fuzzRelief(f, "/v1/relief-cuts")
}

func FuzzPleats(f *testing.F) {
	f.Add([]byte(pleatsSound))
	f.Add([]byte(`{"from":{"how":"lengths","cloth":"1.000001 mm","finished":"1 mm"},"style":"pairs","count":400,"units":"imperial"}`))
	f.Add([]byte(`{"from":{"how":"buttons","cloth":"200 m","finished":"1 mm","buttons":200},"style":"box","face":"1 m"}`))
	fuzzRelief(f, "/v1/pleats")
}

func fuzzRelief(f *testing.F, path string) {
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		in := &client{t: t, doc: c.doc, handler: c.handler}
		begun := time.Now()
		for _, accept := range []string{"application/json", "image/svg+xml"} {
			w := in.postRelief(path, string(body), "Accept", accept)
			if w.Code >= 500 {
				t.Errorf("status %d", w.Code)
			}
			if strings.Contains(w.Body.String(), "NaN") || strings.Contains(w.Body.String(), "Inf") {
				t.Errorf("no number in %.300s", w.Body)
			}
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("took %v", took)
		}
	})
}

func BenchmarkReliefCuts(b *testing.B) { benchRelief(b, "/v1/relief-cuts", reliefSound) }

func BenchmarkPleats(b *testing.B) { benchRelief(b, "/v1/pleats", pleatsSound) }

// benchRelief answers one request from the bytes of the body to those of the answer.
func benchRelief(b *testing.B, path, body string) {
	handler := newServer(b, options()).Handler()
	for b.Loop() {
		r := httptest.NewRequest(http.MethodPost, path, strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, r)
		if w.Code != http.StatusOK {
			b.Fatal(w.Body)
		}
	}
}
