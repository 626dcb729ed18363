package httpapi_test

import (
	"context"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/buttoning"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/buying"
	jobs "github.com/bridletie/bridletie/service/job"
)

var demoSheets = []string{"wing-chair", "carver-pair", "settee", "banquette", "suite"}

// postJob asks /v1/job.
func (c *client) postJob(body string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/job", body, append([]string{"Content-Type", "application/json"}, header...)...)
}

// answered is a job of this process.
func answeredJob(t testing.TB, s *httpapi.Server, body string) *jobs.Answer {
	t.Helper()
	ans, err := httpapi.Answered[jobs.Request, jobs.Answer](context.Background(), s, "/v1/job", []byte(body))
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

// Every part of a job is the answer of the single operation asked alone.
func TestJobPartsAreTheSingleAnswers(t *testing.T) {
	ctx := context.Background()
	s := newServer(t, httpapi.DefaultOptions())
	rules, err := fire.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range demoSheets {
		ans := answeredJob(t, s, jobFile(t, name))
		for _, l := range ans.Lists {
			if l.Request.Piece.Kind != "" {
				sameAlone(t, name+": cutting list", l, service.CuttingList(l.Request), nil)
			}
		}
		for _, p := range ans.Plans {
			alone, err := service.Yardage(ctx, p.Plan.Answer.Request)
			sameAlone(t, name+": plan", p.Plan.Answer, alone, err)
		}
		for _, p := range ans.Piping {
			alone, err := service.Piping(ctx, p.Piping.Answer.Request)
			sameAlone(t, name+": piping", p.Piping.Answer, alone, err)
		}
		for _, b := range ans.Buttoning {
			for _, one := range b.Copies {
				alone, err := service.Buttoning(ctx, one.Request)
				sameAlone(t, name+": buttoning", one, alone, err)
			}
		}
		if ans.Foam != nil {
			alone, err := service.Foam(ctx, ans.Foam.Answer.Request)
			sameAlone(t, name+": foam", ans.Foam.Answer, alone, err)
		}
		if ans.Wadding != nil {
			alone, err := service.Wadding(ctx, ans.Wadding.Answer.Request)
			sameAlone(t, name+": wadding", ans.Wadding.Answer, alone, err)
		}
		for _, f := range ans.Foundation {
			alone, err := service.Foundation(ctx, f.Foundation.Answer.Request)
			sameAlone(t, name+": foundation", f.Foundation.Answer, alone, err)
		}
		for _, f := range ans.Fire {
			alone, err := service.FireCheck(rules, f.Check.Answer.Request)
			if err != nil {
				t.Fatal(err)
			}
			if got, want := f.Check.Answer, alone; got.Report.Verdict != want.Report.Verdict ||
				!reflect.DeepEqual(got.Papers, want.Papers) || !reflect.DeepEqual(got.Warnings, want.Warnings) {
				t.Errorf("%s: the fire check alone differs", name)
			}
		}
	}
}

func sameAlone[A any](t *testing.T, what string, got, alone *A, err error) {
	t.Helper()
	if err != nil || !reflect.DeepEqual(got, alone) {
		t.Errorf("%s: alone it is another answer (%v)", what, err)
	}
}

// The panels that a job answers, sent to /v1/yardage with their cloth, give the
// plan that the job has, byte for byte but for the digest.
func TestJobPanelsAreARequest(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	for _, name := range demoSheets {
		body := jobFile(t, name)
		var request struct {
			Units  string
			Cloths []struct {
				ID    string
				Cloth json.RawMessage
			}
		}
		var answer struct {
			Cloths []struct {
				Cloth, Effort string
				Panels        json.RawMessage
				Plan          map[string]any
			}
		}
		decode(t, []byte(body), &request)
		decode(t, c.postJob(body).Body.Bytes(), &answer)
		tried := 0
		for _, part := range answer.Cloths {
			for _, cloth := range request.Cloths {
				if cloth.ID != part.Cloth {
					continue
				}
				alone, err := json.Marshal(map[string]any{"units": or(request.Units, "metric"), "cloth": cloth.Cloth, "panels": part.Panels, "effort": part.Effort})
				if err != nil {
					t.Fatal(err)
				}
				var got map[string]any
				decode(t, c.post(string(alone)).Body.Bytes(), &got)
				delete(got, "inputDigest")
				delete(part.Plan, "inputDigest")
				if !reflect.DeepEqual(got, part.Plan) {
					t.Errorf("%s: the panels of %s alone have another plan", name, part.Cloth)
				}
				tried++
			}
		}
		if tried == 0 {
			t.Errorf("%s: no cloth was tried", name)
		}
	}
}

func or(s, other string) string {
	if s == "" {
		return other
	}
	return s
}

func decode(t *testing.T, text []byte, into any) {
	t.Helper()
	if err := json.Unmarshal(text, into); err != nil {
		t.Fatalf("%v: %.300s", err, text)
	}
}

// The bytes do not depend on how many parts are worked on at a time.
func TestJobDoesNotDependOnScheduling(t *testing.T) {
	for _, name := range demoSheets {
		body, want := jobFile(t, name), ""
		for _, workers := range []int{1, 2, 7} {
			opts := httpapi.DefaultOptions()
			opts.Solves = workers
			got := newClient(t, opts).postJob(body).Body.String()
			if want == "" {
				want = got
			}
			if got != want {
				t.Errorf("%s: %d at a time give other bytes than one", name, workers)
			}
		}
	}
}

// A section that is switched off is gone, and the others stay as they are.
func TestJobSectionsStandApart(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	for _, name := range []string{"wing-chair", "banquette"} {
		var request, full map[string]any
		decode(t, []byte(jobFile(t, name)), &request)
		decode(t, c.postJob(jobFile(t, name)).Body.Bytes(), &full)
		sections := []string{"cuttingLists", "cloths", "piping", "buttoning", "foam", "wadding", "foundation", "fire", "orderList", "cost", "dayPlan"}
		for _, off := range sections {
			request["sections"] = map[string]bool{off: false}
			body, err := json.Marshal(request)
			if err != nil {
				t.Fatal(err)
			}
			var got map[string]any
			decode(t, c.postJob(string(body)).Body.Bytes(), &got)
			if _, ok := got[off]; ok {
				t.Errorf("%s: %s is switched off and answered", name, off)
			}
			for _, other := range sections {
				if other != off && !reflect.DeepEqual(undigested(got[other]), undigested(full[other])) {
					t.Errorf("%s: without %s, %s is another", name, off, other)
				}
			}
		}
	}
}

// undigested is a value without the digests of its request.
func undigested(v any) any {
	switch v := v.(type) {
	case map[string]any:
		out := maps.Clone(v)
		delete(out, "inputDigest")
		for k := range out {
			out[k] = undigested(out[k])
		}
		return out
	case []any:
		out := slices.Clone(v)
		for i := range out {
			out[i] = undigested(out[i])
		}
		return out
	}
	return v
}

// A suite that shares a cloth takes no more of it than its pieces one by one, each
// with an order of its own. The search has a budget, so that 2 % are allowed for.
func TestJobSuiteTakesNoMore(t *testing.T) {
	s := newServer(t, httpapi.DefaultOptions())
	for _, name := range []string{"suite", "banquette"} {
		var request map[string]any
		decode(t, []byte(jobFile(t, name)), &request)
		suite := ordersOf(answeredJob(t, s, jobFile(t, name)))
		alone := make(map[string]length.Length)
		for _, piece := range request["pieces"].([]any) {
			one := maps.Clone(request)
			one["pieces"] = []any{piece}
			delete(one, "fire")
			body, err := json.Marshal(one)
			if err != nil {
				t.Fatal(err)
			}
			for id, l := range ordersOf(answeredJob(t, s, string(body))) {
				alone[id] += l
			}
		}
		for id, l := range suite {
			if l > alone[id]*102/100 {
				t.Errorf("%s: %s: the suite takes %s, its pieces one by one %s", name, id, l, alone[id])
			}
			t.Logf("%s: %s: the suite takes %s, its pieces one by one %s", name, id, l, alone[id])
		}
	}
}

func ordersOf(ans *jobs.Answer) map[string]length.Length {
	out := make(map[string]length.Length)
	for _, p := range ans.Plans {
		out[ans.Cloths[p.Cloth].ID] = p.Order
	}
	return out
}

// What is ordered of a cloth is what its parts take together, as it is sold; it is
// the figure of the order list and of the plan's part alike.
func TestJobOrderAddsUp(t *testing.T) {
	s := newServer(t, httpapi.DefaultOptions())
	for _, name := range demoSheets {
		ans := answeredJob(t, s, jobFile(t, name))
		for _, p := range ans.Plans {
			c := ans.Cloths[p.Cloth]
			want, err := c.Sold.Order(p.ForPanels + p.ForPiping + p.ForButtons)
			if err != nil {
				t.Fatal(err)
			}
			if p.Order != want {
				t.Errorf("%s: of %s is ordered %s, and its parts take %s as it is sold", name, c.ID, p.Order, want)
			}
			n := slices.IndexFunc(ans.Orders, func(l buying.Line) bool { return l.Article == "cloth/"+c.ID })
			if n < 0 || ans.Orders[n].Order != int64(p.Order) {
				t.Errorf("%s: the order list has another order of %s", name, c.ID)
			}
		}
	}
}

// A buttoned panel is cut as large as its chart says, in as many widths, and the
// cloth lies in the plan as the chart has it: from the corner of each width, the
// first motif is where the chart shifts it to.
func TestJobPlanKeepsTheChart(t *testing.T) {
	s := newServer(t, httpapi.DefaultOptions())
	long := spoilt(t, jobFile(t, "wing-chair"), `"kind": "wing-chair"`, `"kind": "banquette"`)
	long = regexp.MustCompile(`(?s)"measures": \{.*?\},`).ReplaceAllString(long, "")
	long = spoilt(t, long, `"cushion": "loose", `, "")
	for body, most := range map[string]int{jobFile(t, "wing-chair"): 1, long: 9} {
		ans := answeredJob(t, s, body)
		chart := ans.Buttoning[0].Chart.Answer
		if n := len(chart.Joined.Parts); n > most || most > 1 && n < 3 {
			t.Fatalf("%d widths", n)
		}
		y := ans.Plans[0].Plan.Answer
		for n, part := range chart.Joined.Parts {
			id := "IB"
			if len(chart.Joined.Parts) > 1 {
				id = fmt.Sprintf("IB-%d", n+1)
			}
			keepsTheChart(t, y, chart, id, part)
		}
	}
}

// keepsTheChart holds one width in the plan against the chart.
func keepsTheChart(t *testing.T, y *service.YardageAnswer, chart *service.ButtoningAnswer, id string, part buttoning.Part) {
	t.Helper()
	at := slices.IndexFunc(y.Request.Panels, func(p panel.Panel) bool { return p.ID == id })
	if at < 0 {
		t.Fatalf("%s is not in the plan", id)
	}
	cut := y.Request.Panels[at].Cut()
	if off := cut.Across - (part.To - part.From); off < 0 || off >= length.Millimetre || cut.Along < chart.Work.Cut().Along {
		t.Errorf("%s: the plan cuts %v, the chart %s", id, cut, part.To-part.From)
	}
	for _, l := range y.Result.Cut {
		for _, pl := range l.Placements {
			if pl.Panel != at {
				continue
			}
			p := y.Request.Cloth.Pattern
			x := pl.X - part.From + chart.Shift.X - p.Principal()[0].Across
			down := pl.Y + chart.Work.Lines().Along + chart.Shift.Y - p.Principal()[0].Along + l.Start
			column := nearest(x, p.WidthRepeat)
			off := x - column*p.WidthRepeat
			down -= p.LengthRepeat * length.Length(p.Drop.Num) * column / length.Length(p.Drop.Den)
			along := down - nearest(down, p.LengthRepeat)*p.LengthRepeat
			if max(off, -off, along, -along) > length.Millimetre {
				t.Errorf("%s: the first motif is %s across and %s along beside where the chart has it", id, off, along)
			}
			return
		}
	}
	t.Errorf("the plan does not place %s", id)
}

// nearest is how many repeats are nearest to a place.
func nearest(at, repeat length.Length) length.Length {
	n := at / repeat
	switch rest := at % repeat; {
	case 2*rest > repeat:
		n++
	case 2*rest < -repeat:
		n--
	}
	return n
}

// Every form of the sheet is answered, and the drawings say in words what they
// show.
func TestJobForms(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	for _, name := range demoSheets {
		svg := c.postJob(jobFile(t, name), "Accept", "image/svg+xml")
		if svg.Code != 200 || !strings.HasPrefix(svg.Body.String(), "<svg") || !strings.Contains(svg.Body.String(), "Order list") {
			t.Errorf("%s: svg: status %d, %.100s", name, svg.Code, svg.Body)
		}
		pdf := c.postJob(jobFile(t, name), "Accept", "application/pdf")
		if pdf.Code != 200 || !strings.HasPrefix(pdf.Body.String(), "%PDF") {
			t.Errorf("%s: pdf: status %d, %.100s", name, pdf.Code, pdf.Body)
		}
	}
}
