package httpapi_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
)

// piped is a request without faults, for tests to spoil.
const piped = `{
	"units": "metric",
	"cord": {"diameter": "4 mm", "double": false},
	"strip": {"cut": "bias", "angle": 45, "thickness": "1 mm", "seam": "12 mm", "step": "5 mm", "leastPiece": "20 cm"},
	"joins": {"most": 9, "seam": "6 mm", "overlap": "4 cm", "ends": "25 mm", "corner": "5 cm"},
	"cloth": {"width": "137 cm", "soldBy": "0.1 m"},
	"offcuts": [{"piece": 0, "xMm": 1107, "yMm": 1815, "acrossMm": 263, "alongMm": 1480, "wouldMake": []}, {"name": "end", "size": {"across": "40 cm", "along": "30 cm"}}],
	"runs": [
		{"name": "cushion", "count": 2, "length": "2.32 m", "closed": true, "corners": ["0 cm", "56 cm"], "noJoin": [{"from": "15 cm", "to": "41 cm"}]},
		{"name": "facing", "length": "1 m", "radius": "6 cm", "maxJoins": 3}
	]
}`

func (c *client) postPiping(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/piping", body, "Content-Type", "application/json")
}

func pipingAnswerOf(t testing.TB, w *httptest.ResponseRecorder) gen.PipingAnswer {
	t.Helper()
	var a gen.PipingAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != 200 {
		t.Fatalf("status %d, %v: %.300s", w.Code, err, w.Body)
	}
	return a
}

// spoilPiping is the sound request with one place changed.
func spoilPiping(t *testing.T, from, to string) string {
	t.Helper()
	if strings.Count(piped, from) != 1 {
		t.Fatalf("%q stands %d times in the request", from, strings.Count(piped, from))
	}
	return strings.Replace(piped, from, to, 1)
}

func TestPipingAnswers(t *testing.T) {
	c := newClient(t, options())
	a := pipingAnswerOf(t, c.postPiping(piped))
	// pi*(4+1) + 2*12 = 39.708 mm, to the next 5 mm; both derived in the contract.
	if a.Strip.Exact.Mm != 39.707964 || a.Strip.Width.Mm != 40 || *a.Strip.Angle != 45 {
		t.Errorf("strip %+v", a.Strip)
	}
	// Two of 232 + 4 cm, one of 100 + 5 cm.
	if a.Cord.Mm != 2*2360+1050 || a.Total.Mm != 2*2400+1090 {
		t.Errorf("cord %v, total %v", a.Cord, a.Total)
	}
	// (d+2t)/r = 15 % and 3 %.
	if a.LeastRadius.Bias.Mm != 40 || a.LeastRadius.Straight.Mm != 200 {
		t.Errorf("radius %+v", a.LeastRadius)
	}
	if a.Way == nil || *a.Way != gen.PipingWayNameOffcuts || !a.Keeps || len(a.Ways) != 6 || len(a.Runs) != 3 {
		t.Fatalf("way %v, keeps %v, %d ways", a.Way, a.Keeps, len(a.Ways))
	}
	if a.Runs[1].Copy != 2 || a.Runs[1].Run != 0 || *a.Runs[1].Name != "cushion" || a.Runs[1].ClosesMm == nil || a.Runs[2].ClosesMm != nil {
		t.Errorf("runs %+v", a.Runs)
	}
	for _, r := range a.Runs {
		if !r.Covered || len(r.JoinsMm) != len(r.Pieces)-1 {
			t.Errorf("run %+v", r)
		}
	}
	// Each offcut for both leans; the mirrored strips are as many and as long.
	if len(a.Yields) != 4 || a.Yields[0].Strips == 0 || a.Yields[0].Strips != a.Yields[1].Strips || a.Yields[0].Total != a.Yields[1].Total || a.Yields[0].Lean == a.Yields[1].Lean {
		t.Errorf("yields %+v", a.Yields)
	}
	least := a.Ways[0].Order.Mm
	for _, w := range a.Ways {
		if w.Keeps && w.Order.Mm < least {
			t.Errorf("%s costs less than the way shown", w.Way)
		}
		if w.Keeps != (len(w.Because) == 0) {
			t.Errorf("%s keeps %v because %v", w.Way, w.Keeps, w.Because)
		}
	}
}

// Each way can be asked for by name, and is then the one shown.
func TestPipingShowsTheWayAskedFor(t *testing.T) {
	c := newClient(t, options())
	for _, way := range []string{"offcuts", "bias-strips", "bias-piece", "continuous", "across-strips", "along-strips"} {
		a := pipingAnswerOf(t, c.postPiping(spoilPiping(t, `"units": "metric"`, `"way": "`+way+`"`)))
		if a.Way == nil || string(*a.Way) != way {
			t.Errorf("asked for %s, shown %v", way, a.Way)
		}
		if way == "continuous" && (a.Ways[3].Tube == nil || a.Ways[3].Tube.Strips < 1) {
			t.Errorf("tube %+v", a.Ways[3].Tube)
		}
	}
}

// A one-way cloth makes all strips lean alike, unless told otherwise.
func TestPipingLeans(t *testing.T) {
	c := newClient(t, options())
	leans := func(change string) map[gen.PipingStripLean]int {
		body := strings.Replace(piped, `"soldBy": "0.1 m"`, change, 1)
		body = strings.Replace(body, `"across": "40 cm", "along": "30 cm"`, `"across": "148 cm", "along": "26 cm"`, 1)
		out := map[gen.PipingStripLean]int{}
		for _, s := range pipingAnswerOf(t, c.postPiping(strings.Replace(body, `"length": "1 m"`, `"count": 6, "length": "1 m"`, 1))).Strips {
			out[s.Lean]++
		}
		return out
	}
	if got := leans(`"oneWay": false`); len(got) != 2 {
		t.Errorf("leans %v, want both where they may", got)
	}
	if got := leans(`"oneWay": true`); len(got) != 1 {
		t.Errorf("leans %v, want one", got)
	}
}

// When nothing can be cut the answer says so and shows no way.
func TestPipingWithoutAWay(t *testing.T) {
	c := newClient(t, options())
	a := pipingAnswerOf(t, c.postPiping(`{"cord":{"diameter":"4 mm"},"offcuts":[{"acrossMm":20,"alongMm":20}],"runs":[{"length":"1 m"}]}`))
	if a.Way != nil || a.Keeps || len(a.Strips) != 0 || len(a.Warnings) == 0 || a.Ways[0].Possible {
		t.Errorf("%+v", a)
	}
}

func TestPipingDrawing(t *testing.T) {
	c := newClient(t, options())
	w := c.do(http.MethodPost, "/v1/piping", piped, "Content-Type", "application/json", "Accept", "image/svg+xml")
	if w.Code != 200 || w.Header().Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(w.Body.String(), "<svg ") {
		t.Errorf("status %d, %s: %.100s", w.Code, w.Header().Get("Content-Type"), w.Body)
	}
	if w := c.do(http.MethodPost, "/v1/piping", piped, "Content-Type", "text/plain"); w.Code != http.StatusUnsupportedMediaType {
		t.Errorf("status %d for a body of text", w.Code)
	}
}

// Every field, wrong in the ways that it can be.
func TestBadPiping(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []badRequest{
		{"no cord", `"cord": {"diameter": "4 mm", "double": false},`, ``, one("#/cord missing")},
		{"cord without a unit", `"4 mm"`, `"4"`, one("#/cord/diameter not-a-length")},
		{"cord of 0.9 mm", `"4 mm"`, `"0.9 mm"`, one("#/cord/diameter too-small")},
		{"cord of 61 mm", `"4 mm"`, `"61 mm"`, one("#/cord/diameter too-large")},
		{"cord of stone", `"4 mm"`, `"4 stone"`, one("#/cord/diameter not-a-length")},
		{"double as a word", `"double": false`, `"double": "no"`, one("#/cord/double wrong-type")},
		{"cut upwards", `"cut": "bias"`, `"cut": "upwards"`, one("#/strip/cut not-one-of")},
		{"an angle of 14", `"angle": 45`, `"angle": 14`, one("#/strip/angle too-small")},
		{"an angle of 76", `"angle": 45`, `"angle": 76`, one("#/strip/angle too-large")},
		{"an angle of straight strips", `"cut": "bias"`, `"cut": "along"`, one("#/strip/angle not-allowed")},
		{"thick cloth", `"thickness": "1 mm"`, `"thickness": "11 mm"`, one("#/strip/thickness too-large")},
		{"cloth of less than nothing", `"thickness": "1 mm"`, `"thickness": "-1 mm"`, one("#/strip/thickness too-small")},
		{"no seam", `"seam": "12 mm"`, `"seam": "0 mm"`, one("#/strip/seam too-small")},
		{"a wide seam", `"seam": "12 mm"`, `"seam": "11 cm"`, one("#/strip/seam too-large")},
		{"no step", `"step": "5 mm"`, `"step": "0 mm"`, one("#/strip/step too-small")},
		{"a wide step", `"step": "5 mm"`, `"step": "11 cm"`, one("#/strip/step too-large")},
		{"a width of nothing", `"step": "5 mm"`, `"width": "0 mm"`, one("#/strip/width too-small")},
		{"a width of 4 mm", `"step": "5 mm"`, `"width": "4 mm"`, one("#/strip/width too-small")},
		{"a width of 51 cm", `"step": "5 mm"`, `"width": "51 cm"`, one("#/strip/width too-large")},
		{"cord and seams of 50 cm", `"diameter": "4 mm", "double": false`, `"diameter": "60 mm", "double": true`, nil},
		{"a piece of 9 mm", `"leastPiece": "20 cm"`, `"leastPiece": "9 mm"`, one("#/strip/leastPiece too-small")},
		{"a piece of 6 m", `"leastPiece": "20 cm"`, `"leastPiece": "6 m"`, one("#/strip/leastPiece too-large")},
		{"no stretch", `"step": "5 mm"`, `"stretch": "0 %"`, one("#/strip/stretch too-small")},
		{"a stretch of 51 %", `"step": "5 mm"`, `"stretch": "51 %"`, one("#/strip/stretch too-large")},
		{"a stretch that is none", `"step": "5 mm"`, `"stretch": "much"`, one("#/strip/stretch not-a-share")},
		{"101 joins", `"most": 9`, `"most": 101`, one("#/joins/most too-large")},
		{"half a join", `"most": 9`, `"most": 0.5`, one("#/joins/most wrong-type")},
		{"a join of 6 cm", `"seam": "6 mm"`, `"seam": "6 cm"`, one("#/joins/seam too-large")},
		{"an overlap of 51 cm", `"overlap": "4 cm"`, `"overlap": "51 cm"`, one("#/joins/overlap too-large")},
		{"ends of less than nothing", `"ends": "25 mm"`, `"ends": "-1 mm"`, one("#/joins/ends too-small")},
		{"a corner of 51 cm", `"corner": "5 cm"`, `"corner": "51 cm"`, one("#/joins/corner too-large")},
		{"a cloth without width", `"width": "137 cm", `, ``, one("#/cloth/width missing")},
		{"a cloth of 5 mm", `"137 cm"`, `"5 mm"`, one("#/cloth/width too-small")},
		{"sold by nothing", `"0.1 m"`, `"0 m"`, one("#/cloth/soldBy too-small")},
		{"an offcut without size", `"acrossMm": 263, `, ``, one("#/offcuts/0/acrossMm missing")},
		{"an offcut without length", `, "alongMm": 1480`, ``, one("#/offcuts/0/alongMm missing")},
		{"a size twice", `"name": "end", `, `"acrossMm": 1, `, one("#/offcuts/1/size not-allowed")},
		{"half a place", `"xMm": 1107, `, ``, one("#/offcuts/0/xMm missing")},
		{"the other half", `"yMm": 1815, `, ``, one("#/offcuts/0/yMm missing")},
		{"a place before the plan", `"xMm": 1107`, `"xMm": -1`, one("#/offcuts/0/xMm too-small")},
		{"an offcut of nothing", `"acrossMm": 263`, `"acrossMm": 0`, one("#/offcuts/0 too-small")},
		{"an offcut of 101 m", `"alongMm": 1480`, `"alongMm": 101000`, one("#/offcuts/0 too-large")},
		{"offcuts that share cloth", `{"name": "end", "size": {"across": "40 cm", "along": "30 cm"}}`,
			`{"xMm": 1369, "yMm": 3294, "acrossMm": 5, "alongMm": 5}`, one("#/offcuts/1 not-allowed")},
		{"an unknown field", `"name": "facing"`, `"nap": 1`, one("#/runs/1/nap unknown-field")},
		{"a run without length", `"length": "1 m", `, ``, one("#/runs/1/length missing")},
		{"a run of 9 mm", `"length": "1 m"`, `"length": "9 mm"`, one("#/runs/1/length too-small")},
		{"a run of 1001 m", `"length": "1 m"`, `"length": "1001 m"`, one("#/runs/1/length too-large")},
		{"a run that cannot be read", `"length": "2.32 m"`, `"length": "2.32"`, one("#/runs/0/length not-a-length")},
		{"no copies", `"count": 2`, `"count": 0`, one("#/runs/0/count too-small")},
		{"ten thousand and one", `"count": 2`, `"count": 10000`, one("#/runs too-many")},
		{"more than 100 km", `"count": 2, "length": "2.32 m"`, `"count": 101, "length": "1000 m"`, nil},
		{"a corner past the end", `"56 cm"`, `"2.33 m"`, one("#/runs/0/corners/1 too-large")},
		{"a span past the end", `"to": "41 cm"`, `"to": "2.4 m"`, one("#/runs/0/noJoin/0/to too-large")},
		{"a span before the beginning", `"from": "15 cm"`, `"from": "-1 cm"`, one("#/runs/0/noJoin/0/from too-small")},
		{"a span of an open run over its ends", `"closed": true, `, ``, nil},
		{"no radius", `"radius": "6 cm"`, `"radius": "0 cm"`, one("#/runs/1/radius too-small")},
		{"a radius of 101 m", `"radius": "6 cm"`, `"radius": "101 m"`, one("#/runs/1/radius too-large")},
		{"101 joins in a run", `"maxJoins": 3`, `"maxJoins": 101`, one("#/runs/1/maxJoins too-large")},
		{"a way that there is not", `"units": "metric"`, `"way": "by eye"`, one("#/way not-one-of")},
		{"no closing", `"noJoin": [{"from": "15 cm", "to": "41 cm"}]`, `"noJoin": [{"from": "0 cm", "to": "2.32 m"}, {"from": "2.3 m", "to": "1 cm"}]`, one("#/runs/0 no-place")},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			w := c.postPiping(spoilPiping(t, tc.from, tc.to))
			if tc.want == nil {
				if w.Code != 200 && w.Code != 422 {
					t.Errorf("status %d", w.Code)
				}
				return
			}
			if w.Code != http.StatusUnprocessableEntity {
				t.Fatalf("status %d, want 422: %.300s", w.Code, w.Body)
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

// Faults of whole requests.
func TestBadPipingRequests(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct{ name, body, want string }{
		{"nothing to cut from", `{"cord":{"diameter":"4 mm"},"runs":[{"length":"1 m"}]}`, "#/cloth missing"},
		{"no runs", `{"cord":{"diameter":"4 mm"},"cloth":{"width":"1 m"},"runs":[]}`, "#/runs too-few"},
		{"a way without offcuts", `{"cord":{"diameter":"4 mm"},"cloth":{"width":"1 m"},"runs":[{"length":"1 m"}],"way":"offcuts"}`, "#/way not-allowed"},
		{"a way without cloth", `{"cord":{"diameter":"4 mm"},"offcuts":[{"acrossMm":300,"alongMm":300}],"runs":[{"length":"1 m"}],"way":"continuous"}`, "#/way not-allowed"},
		{"a span of an open run over its ends", `{"cord":{"diameter":"4 mm"},"cloth":{"width":"1 m"},"runs":[{"length":"1 m","noJoin":[{"from":"60 cm","to":"20 cm"}]}]}`, "#/runs/0/noJoin/0 not-allowed"},
		{"too wide a strip", `{"cord":{"diameter":"60 mm","double":true},"strip":{"thickness":"1 cm","seam":"10 cm"},"cloth":{"width":"1 m"},"runs":[{"length":"1 m"}]}`, "#/strip/width too-large"},
		{"too many strips", `{"cord":{"diameter":"4 mm"},"strip":{"width":"5 mm"},"offcuts":[{"acrossMm":60000,"alongMm":60000}],"runs":[{"length":"1 m"}]}`, "#/offcuts too-many"},
		{"more than 100 km", `{"cord":{"diameter":"4 mm"},"cloth":{"width":"1 m"},"runs":[{"count":101,"length":"1000 m"}]}`, "#/runs too-large"},
	} {
		w := c.postPiping(tc.body)
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d: %.200s", tc.name, w.Code, w.Body)
			continue
		}
		if got := faultsOf(t, w); !equal(got, one(tc.want)) {
			t.Errorf("%s: faults are %q, want %q", tc.name, got, tc.want)
		}
	}
}

// manyPipedRuns is a request of n runs of different lengths, with corners.
func manyPipedRuns(n int) string {
	var b strings.Builder
	b.WriteString(`{"cord":{"diameter":"4 mm"},"cloth":{"width":"137 cm"},"offcuts":[{"acrossMm":700,"alongMm":30000}],"runs":[`)
	for i := range n {
		if i > 0 {
			b.WriteByte(',')
		}
		fmt.Fprintf(&b, `{"length":"%d cm","closed":%v,"corners":["0 cm"]}`, 30+i*7919%270, i%3 == 0)
	}
	return b.String() + "]}"
}

// Ten thousand runs are answered and drawn within what the contract says.
func TestTenThousandRuns(t *testing.T) {
	c := newClient(t, options())
	body := manyPipedRuns(10000)
	a := pipingAnswerOf(t, c.postPiping(body))
	if len(a.Runs) != 10000 || !a.Keeps {
		t.Errorf("%d runs, keeps %v", len(a.Runs), a.Keeps)
	}
	w := c.do(http.MethodPost, "/v1/piping", body, "Content-Type", "application/json", "Accept", "image/svg+xml")
	if w.Code != 200 || w.Body.Len() > 2_000_000 {
		t.Errorf("status %d, a drawing of %d bytes", w.Code, w.Body.Len())
	}
	if w := c.postPiping(manyPipedRuns(10001)); w.Code != http.StatusUnprocessableEntity {
		t.Errorf("status %d for one more", w.Code)
	}
}

// The worst that may be asked ends soon: runs that fail again and again.
func TestHopelessRunsEndSoon(t *testing.T) {
	var spans []string
	for i := range 50 {
		spans = append(spans, fmt.Sprintf(`{"from":"%d cm","to":"%d cm"}`, 20*i+1, 20*i+19))
	}
	body := `{"cord":{"diameter":"1 mm"},"strip":{"width":"5 mm","leastPiece":"1 cm"},"cloth":{"width":"20 cm"},
		"offcuts":[{"acrossMm":200,"alongMm":60000},{"acrossMm":300,"alongMm":30000}],
		"runs":[{"count":10000,"length":"9.9 m","closed":true,"noJoin":[` + strings.Join(spans[:49], ",") + `]}]}`
	c := newClient(t, options())
	begun := time.Now()
	if w := c.postPiping(body); w.Code != 200 {
		t.Errorf("status %d: %.300s", w.Code, w.Body)
	}
	if took := time.Since(begun); took > 10*time.Second {
		t.Errorf("took %v", took)
	}
}

// Whatever comes in, the answer is of the contract and never a failure.
func FuzzPiping(f *testing.F) {
	f.Add([]byte(piped))
	f.Add([]byte(`{"cord":{"diameter":"5/32 in","double":true},"units":"imperial","cloth":{"width":"54 in","oneWay":true},"runs":[{"length":"2 yd","closed":true}]}`))
	f.Add([]byte(`{"cord":{},"runs":[null,{"length":5},{"corners":{}}],"offcuts":[7,{"size":null}],"strip":[]}`))
	f.Add([]byte(`{"cord":{"diameter":"60 mm"},"strip":{"cut":"across","width":"5 mm"},"cloth":{"width":"10 mm"},"runs":[{"length":"1000 m","count":100,"maxJoins":0}]}`))
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		r := httptest.NewRequest(http.MethodPost, "/v1/piping", strings.NewReader(string(body)))
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

func BenchmarkPiping(b *testing.B) {
	job, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "wing-chair-piping.json"))
	if err != nil {
		b.Fatal(err)
	}
	for name, body := range map[string]string{"wing chair": string(job), "10000 runs": manyPipedRuns(10000)} {
		b.Run(name, func(b *testing.B) {
			s := freshServer(b).Handler()
			for b.Loop() {
				r := httptest.NewRequest(http.MethodPost, "/v1/piping", strings.NewReader(body))
				r.Header.Set("Content-Type", "application/json")
				w := httptest.NewRecorder()
				if s.ServeHTTP(w, r); w.Code != 200 {
					b.Fatalf("status %d", w.Code)
				}
			}
		})
	}
}
