package httpapi_test

import (
	"net/http"
	"strings"
	"testing"
)

// Every field of a request for the foundation, wrong in every way that it can be.
func TestBadFoundations(t *testing.T) {
	refuses(t, "foundation", frames, []badRequest{
		{"no frames", "", `{}`, one("#/frames missing")},
		{"empty", "", `{"frames": []}`, one("#/frames too-few")},
		{"unknown field", `"build": "traditional"`, `"built": "traditional"`, one("#/built unknown-field")},
		{"build", `"traditional"`, `"old"`, one("#/build not-one-of")},
		{"fixing", `"fixing": "tacks"`, `"fixing": "glue"`, one("#/fixing not-one-of")},
		{"part", `"part": "seat"`, `"part": "leg"`, one("#/frames/0/part not-one-of")},
		{"place", `"easy-chair"`, `"throne"`, one("#/frames/0/place not-one-of")},
		{"shape", `"trapezoid"`, `"heart"`, one("#/frames/0/shape not-one-of")},
		{"no id", `"id": "SEAT", `, ``, one("#/frames/0/id missing")},
		{"bad id", `"id": "SEAT"`, `"id": "S EAT"`, one("#/frames/0/id not-a-name")},
		{"one id twice", `"id": "STOOL"`, `"id": "SEAT"`, one("#/frames/1/id duplicate")},
		{"bad name", `"name": "seat"`, `"name": ""`, one("#/frames/0/name not-a-name")},
		{"no front", `"front": "64 cm", `, ``, one("#/frames/0/front missing")},
		{"front without unit", `"front": "64 cm"`, `"front": "64"`, one("#/frames/0/front not-a-length")},
		{"front of nothing", `"front": "64 cm"`, `"front": "0 cm"`, one("#/frames/0/front too-small")},
		{"front of 5 m", `"front": "64 cm"`, `"front": "5 m"`, one("#/frames/0/front too-large")},
		{"front below 0", `"front": "64 cm"`, `"front": "-64 cm"`, one("#/frames/0/front too-small")},
		{"no back", `"back": "56 cm",`, ``, one("#/frames/0/back missing")},
		{"back of nothing", `"back": "56 cm"`, `"back": "0 cm"`, one("#/frames/0/back too-small")},
		{"back of a circle", `"shape": "circle"`, `"shape": "circle", "back": "30 cm"`, one("#/frames/1/back not-allowed")},
		{"depth of a circle", `"shape": "circle"`, `"shape": "circle", "depth": "30 cm"`, one("#/frames/1/depth not-allowed")},
		{"no depth", `"depth": "17 in", `, ``, one("#/frames/2/depth missing")},
		{"a flat d", `"depth": "17 in"`, `"depth": "8 in"`, one("#/frames/2/depth too-small")},
		{"rail", `"rail": "11 cm"`, `"rail": "1 cm"`, one("#/frames/0/rail too-small")},
		{"rail of nothing", `"rail": "11 cm"`, `"rail": "0 cm"`, one("#/frames/0/rail too-small")},
		{"count 0", `"count": 2`, `"count": 0`, one("#/frames/0/count too-small")},
		{"count 51", `"count": 2`, `"count": 51`, one("#/frames/0/count too-large")},
		{"count 2.0", `"count": 2`, `"count": 2.0`, one("#/frames/0/count wrong-type")},
		{"no webs", `"websAcross": 3`, `"websAcross": 0`, one("#/frames/1/websAcross too-small")},
		{"41 webs", `"websAcross": 3`, `"websAcross": 41`, one("#/frames/1/websAcross too-large")},
		{"webs that overlap", `"websAcross": 3`, `"websAcross": 7`, one("#/frames/1/websAcross too-large")},
		{"webs along that overlap", `"websAlong": 2`, `"websAlong": 7`, one("#/frames/1/websAlong too-large")},
		{"layWebs", `"even"`, `"odd"`, one("#/frames/0/layWebs not-one-of")},
		{"under no springs", `"websAcross": 3, "websAlong": 2`, `"layWebs": "under-springs"`, one("#/frames/1/layWebs not-allowed")},
		{"under springs, and counted", `"layWebs": "even"`, `"layWebs": "under-springs", "websAlong": 3`, one("#/frames/0/layWebs not-allowed")},
		{"sprung", `"sprung": true`, `"sprung": "yes"`, one("#/frames/0/sprung wrong-type")},
		{"modern and sprung", `"traditional"`, `"modern"`, []string{"#/frames/0/sprung not-allowed", "#/frames/2/springRows not-allowed"}},
		{"springs of a drop-in", `"websAcross": 3`, `"springRows": [1]`, one("#/frames/1/springRows not-allowed")},
		{"springs of a place that is not read", `"place": "small-chair"`, `"place": "bench"`, one("#/frames/2/place not-one-of")},
		{"no rows", `[2, 1, 2]`, `[]`, one("#/frames/2/springRows too-few")},
		{"empty row", `[2, 1, 2]`, `[2, 0, 2]`, one("#/frames/2/springRows/1 too-small")},
		{"13 in a row", `[2, 1, 2]`, `[2, 13, 2]`, one("#/frames/2/springRows/1 too-large")},
		{"13 rows", `[2, 1, 2]`, `[1,1,1,1,1,1,1,1,1,1,1,1,1]`, one("#/frames/2/springRows too-many")},
		{"edgeRows", `"edgeRows": 2`, `"edgeRows": 9`, one("#/frames/0/edgeRows too-large")},
		{"edgeRows below 0", `"edgeRows": 2`, `"edgeRows": -1`, one("#/frames/0/edgeRows too-small")},
		{"showWood", `"showWood": true`, `"showWood": 1`, one("#/frames/0/showWood wrong-type")},
		{"setting that there is not", `"web-gap"`, `"web-gape"`, one("#/settings/0/name not-one-of")},
		{"setting of wadding", `"web-gap"`, `"overlap"`, one("#/settings/0/name not-one-of")},
		{"setting twice", `"tack-spare", "number": 0.25`, `"web-gap", "length": "4 cm"`, one("#/settings/1/name duplicate")},
		{"setting without value", `, "length": "5 cm"`, ``, one("#/settings/0 missing")},
		{"setting with two values", `"length": "5 cm"`, `"length": "5 cm", "count": 2`, one("#/settings/0 not-allowed")},
		{"length as a number", `"length": "5 cm"`, `"number": 5`, one("#/settings/0/number not-allowed")},
		{"setting too large", `"length": "5 cm"`, `"length": "5 m"`, one("#/settings/0/length too-large")},
		{"setting below 0", `"number": 0.25`, `"number": -0.25`, one("#/settings/1/number too-small")},
		{"number too large", `"number": 0.25`, `"number": 2`, one("#/settings/1/number too-large")},
		{"number of 7 decimals", `"number": 0.25`, `"number": 0.2500001`, one("#/settings/1/number wrong-type")},
		{"count too small", `"count": 500`, `"count": 1`, one("#/settings/2/count too-small")},
		{"bolt too short", `"name": "web-gap", "length": "5 cm"`, `"name": "hessian-width", "length": "50 cm"`, nil},
		{"bolt and width", `"name": "web-gap", "length": "5 cm"`, `"name": "cloth-bolt", "length": "0 m"`, one("#/settings/0/length too-small")},
	})
}

// Every field of a request for wadding, wrong in every way that it can be.
func TestBadWaddings(t *testing.T) {
	refuses(t, "wadding", wraps, []badRequest{
		{"no items", "", `{}`, one("#/items missing")},
		{"empty", "", `{"items": []}`, one("#/items too-few")},
		{"no kind", `"kind": "cushion", `, ``, one("#/items/0/kind missing")},
		{"kind", `"kind": "cushion"`, `"kind": "bolster"`, one("#/items/0/kind not-one-of")},
		{"one id twice", `"id": "DOME"`, `"id": "CUSHION"`, one("#/items/1/id duplicate")},
		{"no width", `"width": "60 cm", `, ``, one("#/items/0/width missing")},
		{"width of nothing", `"width": "60 cm"`, `"width": "0 cm"`, one("#/items/0/width too-small")},
		{"width of 6 m", `"width": "60 cm"`, `"width": "6 m"`, one("#/items/0/width too-large")},
		{"no depth", `"depth": "64 cm", `, ``, one("#/items/0/depth missing")},
		{"no thickness", `"thickness": "12 cm", `, ``, one("#/items/0/thickness missing")},
		{"thickness", `"thickness": "12 cm"`, `"thickness": "2 m"`, one("#/items/0/thickness too-large")},
		{"rise of a cushion", `"thickness": "12 cm"`, `"thickness": "12 cm", "rise": "1 cm"`, one("#/items/0/rise not-allowed")},
		{"no rise", `"rise": "4 cm", `, ``, one("#/items/1/rise missing")},
		{"wrap", `"all-round"`, `"twice"`, one("#/items/0/wrap not-one-of")},
		{"wrap of a dome", `"whole": true`, `"wrap": "ends"`, one("#/items/1/wrap not-allowed")},
		{"ends of a dome", `"whole": true`, `"ends": true`, one("#/items/1/ends not-allowed")},
		{"wrap of a kind that is not read", `"kind": "dome"`, `"wrap": "ends", "kind": 3`, one("#/items/1/kind wrong-type")},
		{"layers", `"layers": 2`, `"layers": 11`, one("#/items/0/layers too-large")},
		{"no layers", `"layers": 2`, `"layers": 0`, one("#/items/0/layers too-small")},
		{"layers of hair", `"material": "hair"`, `"material": "hair", "layers": 2`, one("#/items/2/layers not-allowed")},
		{"material", `"cotton-felt"`, `"feathers"`, one("#/items/1/material not-one-of")},
		{"seats of skin", `"fibre"`, `"skin"`, one("#/items/3/material not-allowed")},
		{"seats with a size", `"kind": "seats"`, `"kind": "seats", "width": "40 cm"`, one("#/items/3/width not-allowed")},
		{"place", `"drop-in"`, `"sofa"`, one("#/items/3/place not-one-of")},
		{"place of a pad", `"kind": "pad"`, `"kind": "pad", "place": "easy-chair"`, one("#/items/2/place not-allowed")},
		{"count 101", `"count": 3`, `"count": 101`, one("#/items/0/count too-large")},
		{"too wide and whole", `"width": "48 cm", "depth": "45 cm"`, `"width": "98 cm", "depth": "95 cm"`, one("#/items/1 wider-than-cloth")},
		{"too long", `"name": "overlap", "length": "2 in"`, `"name": "polyester-roll", "length": "1 m"`, one("#/items/0 longer-than-bolt")},
		{"too many pieces", `"count": 3`, `"count": 100`, one("#/items too-many")},
		{"weight twice", `"ouncesPerSquareYard": 9`, `"ouncesPerSquareYard": 9, "number": 300`, one("#/settings/0/ouncesPerSquareYard not-allowed")},
		{"weight too small", `"ouncesPerSquareYard": 9`, `"ouncesPerSquareYard": 0.1`, one("#/settings/0/number too-small")},
		{"ounces of a length", `"overlap", "length": "2 in"`, `"overlap", "ouncesPerSquareYard": 2`, one("#/settings/1/number not-allowed")},
		{"setting of the foundation", `"overlap"`, `"web-gap"`, one("#/settings/1/name not-one-of")},
	})
}

// refuses asks for each spoilt request; one that wants no fault is answered.
func refuses(t *testing.T, op, good string, cases []badRequest) {
	c := newClient(t, options())
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			body := tc.to
			if tc.from != "" {
				if strings.Count(good, tc.from) != 1 {
					t.Fatalf("%q does not stand once in the good request", tc.from)
				}
				body = strings.Replace(good, tc.from, tc.to, 1)
			}
			w := c.ask(op, body)
			if tc.want == nil {
				if w.Code != http.StatusOK {
					t.Fatalf("status %d: %s", w.Code, w.Body)
				}
				return
			}
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
