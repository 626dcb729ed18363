package httpapi_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// hand is a right plan made by hand, for tests to spoil. Rows of the pattern
// lie at y = 24, 56, 88 … cm, columns at x = 14, 42, 70 … cm.
const hand = `{
	"cloth": {"name": "Quayside trellis", "width": "140 cm", "soldBy": "0.1 m", "flawAllowance": "10 %",
		"pattern": {"lengthRepeat": "32 cm", "widthRepeat": "28 cm", "motifs": [{"name": "crossing", "across": "14 cm"}]}},
	"panels": [
		{"id": "BACK", "count": 2, "size": {"across": "44 cm", "along": "38 cm"}, "allow": "5 cm", "match": {"how": "centred"}},
		{"id": "SEAT", "count": 2, "size": {"across": "46 cm", "along": "48 cm"},
			"allow": {"top": "8 cm", "bottom": "6 cm", "left": "5 cm", "right": "5 cm"}, "match": {"how": "runs-on", "from": "BACK", "edge": "bottom"}},
		{"id": "ARM", "count": 2, "size": {"across": "20 cm", "along": "20 cm"}, "pair": "ARM"},
		{"id": "WIDE", "size": {"across": "200 cm", "along": "30 cm"}, "join": "halves"}
	],
	"lengths": [{"piece": 0, "start": "8 cm"}],
	"placements": [
		{"panel": "BACK", "copy": 1, "xMm": 150, "yMm": 0, "motif": {"name": "crossing", "xMm": 420, "yMm": 240}},
		{"panel": "BACK", "copy": 2, "xMm": 710, "yMm": 0},
		{"panel": "SEAT", "copy": 1, "xMm": 140, "yMm": 670},
		{"panel": "SEAT", "copy": 2, "xMm": 700, "yMm": 670.0, "turn": "none"},
		{"panel": "ARM", "copy": 1, "xMm": 0, "yMm": 1290, "acrossMm": 200, "alongMm": 200},
		{"panel": "ARM", "copy": 2, "xMm": 360, "yMm": 1290, "piece": 0},
		{"panel": "WIDE", "copy": 1, "part": {"number": 1, "of": 2, "fromMm": 0}, "xMm": 0, "yMm": 1490, "acrossMm": 1015},
		{"panel": "WIDE", "copy": 1, "part": {"number": 2, "of": 2, "fromMm": 985}, "xMm": 145, "yMm": 1810, "acrossMm": 1015}
	]
}`

// spoilHand replaces the one occurrence of a text in the right plan.
func spoilHand(t testing.TB, from, to string) string {
	t.Helper()
	if strings.Count(hand, from) != 1 {
		t.Fatalf("%q does not stand once in the right plan", from)
	}
	return strings.Replace(hand, from, to, 1)
}

// unbounded is the stand-in engine without a bound.
func unbounded(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	ans, err := stacked(ctx, req)
	if err == nil {
		ans.Result.Bound = 0
	}
	return ans, err
}

func checkOptions() httpapi.Options {
	opts := options()
	opts.Yardage = unbounded
	return opts
}

// check asks /v1/yardage/check.
func (c *client) postCheck(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/yardage/check", body, "Content-Type", "application/json")
}

// checked is the answer to a check.
func (c *client) checked(body string) gen.YardageCheckAnswer {
	c.t.Helper()
	w := c.postCheck(body)
	if w.Code != http.StatusOK {
		c.t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	var a gen.YardageCheckAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil {
		c.t.Fatal(err)
	}
	if a.Right != (a.Count == 0) || len(a.Faults) != min(a.Count, 100) {
		c.t.Errorf("right %v, count %d, %d faults", a.Right, a.Count, len(a.Faults))
	}
	return a
}

// kindsOf are the kinds of the faults, each once.
func kindsOf(a gen.YardageCheckAnswer) string {
	var kinds []string
	for _, f := range a.Faults {
		kinds = append(kinds, string(f.Kind))
	}
	slices.Sort(kinds)
	return strings.Join(slices.Compact(kinds), " ")
}

func TestCheckOfARightPlan(t *testing.T) {
	a := newClient(t, checkOptions()).checked(hand)
	if !a.Right {
		t.Fatalf("faults: %+v", a.Faults)
	}
	quantity := func(name string, q gen.Quantity, mm float64) {
		t.Helper()
		if q.Mm != mm {
			t.Errorf("%s = %v mm, want %v", name, q.Mm, mm)
		}
	}
	quantity("length", a.Length, 2110)
	quantity("orderByHand", a.OrderByHand, 2400)   // 2110 and 10 % are 2321
	quantity("engineNeeded", a.EngineNeeded, 2900) // 2 × 480, 2 × 620, 2 × 200 and 300, stacked
	quantity("engineOrder", a.EngineOrder, 3200)   // 2900 and 10 % are 3190
	quantity("wouldSave", a.WouldSave, -790)
	quantity("start", a.Lengths[0].Start, 80)
	quantity("order", a.Lengths[0].Order, 2400)
	if len(a.Lengths) != 1 || len(a.Warnings) == 0 || !strings.Contains(a.Warnings[0].Text, "shorter than the engine's by 79 cm") {
		t.Errorf("lengths %+v, warnings %+v", a.Lengths, a.Warnings)
	}
	if a.Engine != service.EngineVersion || !strings.HasPrefix(a.InputDigest, "sha256:") || len(a.Cautions) == 0 {
		t.Errorf("engine %q, digest %q, cautions %+v", a.Engine, a.InputDigest, a.Cautions)
	}
}

// Every kind of fault in the contract, with what brings it about.
func TestEveryPlanFault(t *testing.T) {
	c := newClient(t, checkOptions())
	cases := []struct {
		name, from, to, want string
	}{
		{"an arm left out", `,
		{"panel": "ARM", "copy": 2, "xMm": 360, "yMm": 1290, "piece": 0}`, ``, "missing"},
		{"an arm twice", `"copy": 2, "xMm": 360, "yMm": 1290, "piece": 0}`, `"copy": 2, "xMm": 360, "yMm": 1290}, {"panel": "ARM", "copy": 1, "xMm": 900, "yMm": 1290}`, "twice"},
		{"a part begun too soon", `"fromMm": 985`, `"fromMm": 705`, "wrong-parts"},
		{"a part left out", `,
		{"panel": "WIDE", "copy": 1, "part": {"number": 2, "of": 2, "fromMm": 985}, "xMm": 145, "yMm": 1810, "acrossMm": 1015}`, ``, "missing"},
		{"cut too narrow", `"acrossMm": 200, `, `"acrossMm": 199.999999, `, "wrong-size"},
		{"top down", `"turn": "none"`, `"turn": "half"`, "wrong-turn"},
		{"over the selvedge", `"xMm": 145`, `"xMm": 425`, "off-the-cloth"},
		{"before the beginning", `"xMm": 710, "yMm": 0`, `"xMm": 710, "yMm": -320`, "off-the-cloth"},
		{"said to be shorter", `"start": "8 cm"`, `"start": "8 cm", "length": "2.1 m"`, "past-the-end wrong-length"},
		{"said to be longer", `"start": "8 cm"`, `"start": "8 cm", "length": "2.2 m"`, "wrong-length"},
		{"one over the other", `"xMm": 360`, `"xMm": 80`, "overlap"},
		{"longer than a bolt", `"soldBy": "0.1 m"`, `"boltLength": "2 m"`, "past-the-bolt"},
		{"another start than that of the cloth", `"soldBy": "0.1 m"`, `"startsAt": "10 cm"`, "bad-start"},
		{"no place in the repeat", `"start": "8 cm"`, `"start": "40 cm"`, "bad-start"},
		{"a back beside its motif", `"xMm": 150, "yMm": 0, "motif": {"name": "crossing", "xMm": 420, "yMm": 240}`, `"xMm": 130, "yMm": 0`, "motif-off seam-off"},
		{"a back beside its motif, which is named", `"xMm": 150`, `"xMm": 130`, "motif-off seam-off"},
		{"begun elsewhere", `"start": "8 cm"`, `"start": "7.9 cm"`, "motif-off"},
		{"a motif that is not there", `"yMm": 240`, `"yMm": 230`, "motif-misreported"},
		{"a join that is out", `"xMm": 145`, `"xMm": 155`, "join-off"},
		{"a seam that is out", `"xMm": 140`, `"xMm": 130`, "seam-off"},
		{"an arm that is no mirror image", `"xMm": 360`, `"xMm": 370`, "pair-off"},
	}
	reached := make(map[string]bool)
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			a := c.checked(spoilHand(t, tc.from, tc.to))
			if got := kindsOf(a); got != tc.want {
				t.Errorf("kinds %q, want %q: %+v", got, tc.want, a.Faults)
			}
			for _, f := range a.Faults {
				reached[string(f.Kind)] = true
			}
		})
	}
	for _, kind := range c.doc.Components.Schemas["PlanFaultKind"].Value.Enum {
		if !reached[kind.(string)] {
			t.Errorf("no case has a fault of the kind %s", kind)
		}
	}
}

// A fault says by how much, whose it is and with what.
func TestPlanFaultOnTheWire(t *testing.T) {
	c := newClient(t, checkOptions())
	a := c.checked(strings.Replace(spoilHand(t, `"xMm": 360`, `"xMm": 80`), `"xMm": 140`, `"xMm": 120.25`, 1))
	if len(a.Faults) != 2 {
		t.Fatalf("faults %+v", a.Faults)
	}
	seam, over := a.Faults[0], a.Faults[1]
	if seam.Kind != gen.PlanFaultKindSeamOff || *seam.Panel != "SEAT" || *seam.Copy != 1 || *seam.Placement != 2 || *seam.Piece != 0 ||
		seam.Out.Mm != 19.75 || seam.Out.Text != "2 cm" || *seam.Other != (gen.OtherPlacement{Panel: "BACK", Copy: 1, Placement: 0}) {
		t.Errorf("seam: %+v, other %+v", seam, seam.Other)
	}
	if over.Kind != gen.PlanFaultKindOverlap || *over.Placement != 5 || over.Out.Mm != 120 || over.Other.Placement != 4 {
		t.Errorf("overlap: %+v, other %+v", over, over.Other)
	}
	a = c.checked(spoilHand(t, `,
		{"panel": "ARM", "copy": 2, "xMm": 360, "yMm": 1290, "piece": 0}`, ``))
	if f := a.Faults[0]; *f.Panel != "ARM" || *f.Copy != 2 || f.Placement != nil || f.Piece != nil || f.Out != nil || f.Other != nil {
		t.Errorf("missing: %+v", f)
	}
	a = c.checked(spoilHand(t, `"soldBy": "0.1 m"`, `"boltLength": "2 m"`))
	if f := a.Faults[0]; f.Panel != nil || f.Copy != nil || f.Placement != nil || *f.Piece != 0 || f.Out.Mm != 110 {
		t.Errorf("past the bolt: %+v", f)
	}
}

// Faults come in cutting order, those about the whole first; 100 are shown and
// all are counted.
func TestPlanFaultsInOrder(t *testing.T) {
	c := newClient(t, checkOptions())
	var list []string
	for i := range 150 {
		list = append(list, fmt.Sprintf(`{"panel":"P","copy":%d,"xMm":500,"yMm":%d}`, 150-i, 20*i))
	}
	a := c.checked(`{"cloth":{"width":"50 cm"},"panels":[{"id":"P","count":200,"size":{"across":"1 cm","along":"2 cm"}}],"placements":[` + strings.Join(list, ",") + `]}`)
	if a.Count != 151 || len(a.Faults) != 100 {
		t.Fatalf("count %d, %d shown", a.Count, len(a.Faults))
	}
	if f := a.Faults[0]; f.Kind != gen.PlanFaultKindMissing || *f.Copy != 151 {
		t.Errorf("first %+v", f)
	}
	for i, f := range a.Faults[1:] {
		if f.Kind != gen.PlanFaultKindOffTheCloth || *f.Placement != i || *f.Copy != 150-i {
			t.Fatalf("fault %d is %+v", i+1, f)
		}
	}
}

// What is left out is taken from the panel, and several lengths each have their
// start and their length.
func TestCheckOverSeveralLengths(t *testing.T) {
	var got service.YardageRequest
	opts := checkOptions()
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		got = req
		return unbounded(ctx, req)
	}
	c := newClient(t, opts)
	body := `{"units":"imperial","effort":"quick",
		"cloth":{"width":"60 cm","railroad":"allowed","pattern":{"lengthRepeat":"30 cm"},"minimum":"1 m"},
		"panels":[{"id":"A","count":2,"size":{"across":"20 cm","along":"30 cm"},"match":{"how":"along"}},{"id":"F","size":{"across":"50 cm","along":"10 cm"},"turn":"quarter"}],
		"lengths":[{"piece":2,"start":"5 cm"},{"start":"15 cm"}],
		"placements":[
			{"panel":"A","copy":2,"piece":2,"xMm":0,"yMm":100},
			{"panel":"F","copy":1,"xMm":200,"yMm":0,"turn":"quarter"},
			{"panel":"A","copy":1,"xMm":0,"yMm":0}]}`
	a := c.checked(body)
	if !a.Right || len(a.Lengths) != 3 {
		t.Fatalf("faults %+v, lengths %+v", a.Faults, a.Lengths)
	}
	for i, want := range []struct{ long, start, order float64 }{{500, 150, 1000}, {0, 0, 0}, {400, 50, 1000}} {
		if l := a.Lengths[i]; l.Piece != i || l.Length.Mm != want.long || l.Start.Mm != want.start || l.Order.Mm != want.order {
			t.Errorf("length %d is %+v, want %+v", i, l, want)
		}
	}
	if a.OrderByHand.Mm != 2000 || a.Length.Mm != 900 || a.Length.Text != "2 ft 11 7/16 in" {
		t.Errorf("order %v, length %v", a.OrderByHand, a.Length)
	}
	if got.Effort != plan.Quick || got.Units != length.Imperial || len(got.Panels) != 2 || got.Pieces != nil || got.Panels[1].Turn != panel.Quarter {
		t.Errorf("the engine was asked %+v", got)
	}
}

// A known start is that of every length that does not say its own.
func TestCheckBeginsWhereTheClothDoes(t *testing.T) {
	body := strings.Replace(spoilHand(t, `"soldBy": "0.1 m"`, `"startsAt": "8 cm"`), `"lengths": [{"piece": 0, "start": "8 cm"}],`, "", 1)
	if a := newClient(t, checkOptions()).checked(body); !a.Right || a.Lengths[0].Start.Mm != 80 {
		t.Errorf("start %v, faults %+v", a.Lengths[0].Start, a.Faults)
	}
}

// The same request gives the same bytes, also drawn; the drawing marks the
// panels with faults and lists them.
func TestCheckIsDrawn(t *testing.T) {
	c := newClient(t, checkOptions())
	wrong := spoilHand(t, `"xMm": 360`, `"xMm": 80`)
	draw := func(body string) string {
		w := c.do(http.MethodPost, "/v1/yardage/check", body, "Content-Type", "application/json", "Accept", "image/svg+xml")
		if w.Code != 200 || w.Header().Get("Content-Type") != "image/svg+xml" || w.Header().Get("Vary") != "Accept" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("status %d, headers %v", w.Code, w.Header())
		}
		return w.Body.String()
	}
	first := draw(wrong)
	if first != draw(wrong) || c.postCheck(wrong).Body.String() != c.postCheck(wrong).Body.String() {
		t.Error("the same request gave other bytes")
	}
	if strings.Count(first, ">fault 1<") != 2 || !strings.Contains(first, "Wrong: 1 fault.") || !strings.Contains(first, "overlap by 12 cm") {
		t.Errorf("the drawing does not show the overlap")
	}
	if right := draw(hand); strings.Contains(right, ">fault") || !strings.Contains(right, "Right: ") {
		t.Errorf("the drawing of a right plan shows faults")
	}
}

// A bound above a right plan is a fault of the engine, and is not answered.
func TestFalseBound(t *testing.T) {
	w := newClient(t, options()).postCheck(hand) // whose stand-in takes its own length for the bound
	if w.Code != http.StatusInternalServerError {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
	if w := newClient(t, options()).postCheck(spoilHand(t, `"xMm": 360`, `"xMm": 80`)); w.Code != 200 {
		t.Errorf("a wrong plan, which is no proof: status %d", w.Code)
	}
}

// sentBack is the request to check an answer of the engine to a job.
func sentBack(t *testing.T, job []byte, a gen.YardageAnswer) map[string]any {
	t.Helper()
	var req map[string]any
	if err := json.Unmarshal(job, &req); err != nil {
		t.Fatal(err)
	}
	delete(req, "pieces")
	lengths := []any{}
	for _, l := range a.Lengths {
		lengths = append(lengths, map[string]any{"piece": l.Piece, "start": exact(l.Start), "length": exact(l.Needed)})
	}
	req["placements"], req["lengths"] = a.Placements, lengths
	return req
}

// exact is a quantity as a length of a request.
func exact(q gen.Quantity) string { return strconv.FormatFloat(q.Mm, 'f', -1, 64) + " mm" }

// demoJobs are the requests in testdata/jobs that ask for a plan.
func demoJobs(t *testing.T) map[string][]byte {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", "jobs", "*.json"))
	if err != nil {
		t.Fatal(err)
	}
	jobs := make(map[string][]byte)
	for _, name := range files {
		body, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var fields map[string]json.RawMessage
		if err := json.Unmarshal(body, &fields); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if fields["cloth"] != nil && fields["panels"] != nil && fields["placements"] == nil {
			jobs[strings.TrimSuffix(filepath.Base(name), ".json")] = body
		}
	}
	if len(jobs) < 4 {
		t.Fatalf("only %d jobs", len(jobs))
	}
	return jobs
}

// answerOf is the engine's answer to a job.
func answerOf(t *testing.T, c *client, job []byte) gen.YardageAnswer {
	t.Helper()
	var a gen.YardageAnswer
	w := c.post(string(job))
	if err := json.Unmarshal(w.Body.Bytes(), &a); err != nil || w.Code != 200 {
		t.Fatalf("status %d, %v: %.300s", w.Code, err, w.Body)
	}
	return a
}

// The engine's own answer, sent back as it is, is right and saves nothing; the
// answer for a job of several bolts too.
func TestAnswerSentBackIsRight(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	jobs := demoJobs(t)
	jobs["short bolts"] = bytes.Replace(jobs["banquette"], []byte(`"12 m"`), []byte(`"3 m"`), 1)
	jobs["third drop"] = []byte(`{"cloth":{"width":"140 cm","pattern":{"lengthRepeat":"64.1 cm","widthRepeat":"23.3 cm","drop":"1/3"}},
		"panels":[{"id":"A","count":5,"size":{"across":"31.1 cm","along":"43.7 cm"},"match":{"how":"centred"}}],"effort":"quick"}`)
	for name, job := range jobs {
		t.Run(name, func(t *testing.T) {
			c.t = t
			a := answerOf(t, c, job)
			body, err := json.Marshal(sentBack(t, job, a))
			if err != nil {
				t.Fatal(err)
			}
			got := c.checked(string(body))
			if !got.Right || got.WouldSave.Mm != 0 || got.Length != a.Needed || got.EngineNeeded != a.Needed || got.EngineOrder != a.Order || got.Bound != a.Bound {
				t.Errorf("right %v, saves %v, length %v of %v: %+v", got.Right, got.WouldSave, got.Length, a.Needed, got.Faults)
			}
			if name == "short bolts" && len(got.Lengths) < 2 {
				t.Errorf("%d lengths", len(got.Lengths))
			}
		})
	}
}

// A panel with a wish that is moved by a millimetre, across or along where the
// wish binds it, makes a right plan wrong, and the fault names it.
func TestAMillimetreIsSeen(t *testing.T) {
	job := demoJobs(t)["wing-chair"]
	var solved *service.YardageAnswer
	opts := httpapi.DefaultOptions()
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		if solved != nil {
			return solved, nil
		}
		var err error
		solved, err = service.Yardage(ctx, req)
		return solved, err
	}
	c := newClient(t, opts)
	req := sentBack(t, job, answerOf(t, c, job))
	delete(req, "lengths")
	req["lengths"] = []any{map[string]any{"start": solved.Result.Cut[0].Start.String()}}
	placements := req["placements"].([]gen.Placement)
	binds := make(map[string]string)
	for _, p := range req["panels"].([]any) {
		if match, ok := p.(map[string]any)["match"].(map[string]any); ok {
			binds[p.(map[string]any)["id"].(string)] = match["how"].(string)
		}
	}
	moved := 0
	for i := range placements {
		how := binds[placements[i].Panel]
		for _, by := range []struct{ x, y float64 }{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
			if how == "free" || how == "across" && by.y != 0 || how == "along" && by.x != 0 {
				continue
			}
			was := placements[i]
			placements[i].XMm, placements[i].YMm = was.XMm+by.x, was.YMm+by.y
			body, err := json.Marshal(req)
			if err != nil {
				t.Fatal(err)
			}
			placements[i] = was
			moved++
			if a := c.checked(string(body)); a.Right || !names(a, i) {
				t.Errorf("%s moved by %v: right %v, faults %+v", was.Panel, by, a.Right, a.Faults)
			}
		}
	}
	if moved < 40 {
		t.Errorf("only %d moves", moved)
	}
}

// names reports whether a fault is of a placement, or with it.
func names(a gen.YardageCheckAnswer, placement int) bool {
	return slices.ContainsFunc(a.Faults, func(f gen.PlanFault) bool {
		return f.Placement != nil && *f.Placement == placement || f.Other != nil && f.Other.Placement == placement
	})
}

// Whatever comes in, the answer is of the contract and never a failure.
func FuzzCheck(f *testing.F) {
	f.Add([]byte(hand))
	f.Add([]byte(`{"cloth":{"width":"1 m"},"panels":[{"id":"A","size":{"across":"1 cm","along":"1 cm"}}],"placements":[{"panel":"A","copy":1,"xMm":-2e8,"yMm":199999999.999999}]}`))
	f.Add([]byte(`{"cloth":{"width":"1 m"},"panels":[{"id":"A","size":{"across":"1 cm","along":"1 cm"}}],"placements":[null,{"panel":5,"part":{}},{"panel":"B","copy":3,"motif":{"name":""}}],"lengths":[{},{}]}`))
	f.Add([]byte(`{"placements":[{"panel":"A","copy":1,"xMm":1e400,"yMm":-0.0,"piece":200,"acrossMm":0,"alongMm":-1}]}`))
	c := newClient(f, checkOptions())
	f.Fuzz(func(t *testing.T, body []byte) {
		begun := time.Now()
		in := &client{t: t, doc: c.doc, handler: c.handler}
		if w := in.postCheck(string(body)); w.Code >= 500 {
			t.Errorf("status %d", w.Code)
		}
		r := httptest.NewRequest(http.MethodPost, "/v1/yardage/check", bytes.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("Accept", "image/svg+xml")
		if w := in.send(r); w.Code >= 500 {
			t.Errorf("drawn: status %d", w.Code)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("took %v", took)
		}
	})
}
