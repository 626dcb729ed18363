package httpapi_test

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service/buying"
	"github.com/bridletie/bridletie/service/drawing"
)

// jobOfAllParts has every part that a job can have, each cloth in a use of its own:
// a chair built up traditionally, and a stool with foam.
const jobOfAllParts = `{"effort": "quick",
	"pieces": [
		{"id": "CHAIR", "kind": "wing-chair", "build": "traditional", "options": {"back": "buttoned", "cushion": "loose", "piping": "all", "outside": "other"},
			"cloths": {"top": "MAIN", "outside": "SECOND", "lining": "FLIES", "piping": "CORDS"}},
		{"id": "STOOL", "kind": "footstool", "build": "modern", "cloths": {"top": "THIRD", "outside": "THIRD"}}],
	"cloths": [
		{"id": "MAIN", "cloth": {"width": "137 cm", "soldBy": "0.1 m"}},
		{"id": "SECOND", "cloth": {"width": "138 cm", "soldBy": "0.1 m"}},
		{"id": "THIRD", "cloth": {"width": "139 cm", "soldBy": "0.1 m"}},
		{"id": "FLIES", "cloth": {"width": "140 cm", "soldBy": "0.1 m"}},
		{"id": "CORDS", "cloth": {"width": "141 cm", "soldBy": "0.1 m"}}],
	"foam": {"foams": [{"id": "F", "density": "35 kg/m3"}], "seat": "F", "back": "F", "arm": "F",
		"sheets": [{"id": "S", "foam": "F", "across": "120 cm", "along": "200 cm", "thickness": "10 cm"}, {"id": "T", "foam": "F", "across": "120 cm", "along": "200 cm", "thickness": "15 cm"}]},
	"wadding": {"settings": []}, "foundation": {"settings": []},
	"fire": {"asOf": "2026-11-25", "place": "great-britain", "papers": []},
	"terms": {"currency": "GBP", "labour": {"rate": "36"}}, "prices": []}`

// priced is a request with a price for every article that its order list has.
func priced(t *testing.T, s *httpapi.Server, body string) string {
	t.Helper()
	var prices []map[string]string
	for _, l := range answeredJob(t, s, body).Orders {
		per := [...]string{buying.Count: "each", buying.Length: "m", buying.Mass: "kg"}[l.Measure]
		prices = append(prices, map[string]string{"article": l.Article, "amount": "1.25", "per": per})
	}
	list, err := json.Marshal(prices)
	if err != nil {
		t.Fatal(err)
	}
	return spoilt(t, body, `"prices": []`, `"prices": `+string(list))
}

// A job of which some part could not be worked out is not complete: the cost says
// so, names the part, and is printed with that before any sum. Whichever part it
// is.
func TestCostIsNotCompleteWithoutAPart(t *testing.T) {
	s := newServer(t, httpapi.DefaultOptions())
	c := newClient(t, httpapi.DefaultOptions())
	whole := priced(t, s, jobOfAllParts)
	sound := answeredJob(t, s, whole)
	if !sound.Cost.Complete || len(sound.Cost.Missing) > 0 || len(sound.Without()) > 0 || strings.Contains(drawing.JobText(sound), "NOT COMPLETE") {
		t.Fatalf("not complete from the first: %+v", sound.Cost.Missing)
	}
	narrow := func(width string) [2]string { return [2]string{`"width": "` + width + `"`, `"width": "2 cm"`} }
	setting := func(of, settings string) [2]string {
		return [2]string{`"` + of + `": {"settings": []}`, `"` + of + `": {"settings": [` + settings + `]}`}
	}
	for part, edit := range map[string][2]string{ // by the part as the order list names it
		"cloth MAIN":             narrow("137 cm"),
		"cloth SECOND":           narrow("138 cm"),
		"cloth THIRD":            narrow("139 cm"),
		"cloth FLIES":            narrow("140 cm"),
		"piping CORDS":           narrow("141 cm"),
		"buttoning CHAIR.IB":     {`"id": "CHAIR",`, `"id": "CHAIR", "buttoning": {"margins": {"side": "40 cm"}},`},
		"foam":                   {`"across": "120 cm", "along": "200 cm"`, `"across": "20 cm", "along": "20 cm"`},
		"wadding":                setting("wadding", `{"name": "polyester-roll", "length": "50 cm"}, {"name": "polyester-width", "length": "10 cm"}`),
		"traditional foundation": setting("foundation", `{"name": "cloth-bolt", "length": "1 m"}, {"name": "hessian-turn", "length": "50 cm"}`),
		"modern foundation":      setting("foundation", `{"name": "cloth-bolt", "length": "1 m"}, {"name": "bottoming-turn", "length": "50 cm"}`),
		"fire check of CHAIR":    {`"papers": []`, `"papers": [{"kind": "treatment-record", "layer": "X"}]`},
	} {
		t.Run(part, func(t *testing.T) {
			if strings.Count(whole, edit[0]) == 0 {
				t.Fatalf("%q is not in the request", edit[0])
			}
			body := strings.ReplaceAll(whole, edit[0], edit[1])
			w := c.postJob(body)
			if w.Code != 200 {
				t.Fatalf("status %d: %.300s", w.Code, w.Body)
			}
			var got struct{ Cost gen.JobCost }
			decode(t, w.Body.Bytes(), &got)
			named := slices.ContainsFunc(got.Cost.Missing, func(m gen.JobUnpriced) bool { return m.Name == part && m.Article != "" && m.Why.Text != "" })
			if got.Cost.Complete || !named || !strings.Contains(got.Cost.Warnings[0].Text, part) {
				t.Errorf("complete %v, missing %+v, warnings %+v", got.Cost.Complete, got.Cost.Missing, got.Cost.Warnings)
			}
			ans := answeredJob(t, s, body)
			for _, without := range ans.Without() {
				if !slices.ContainsFunc(ans.Cost.Missing, func(m buying.Unpriced) bool { return m.Name == without }) {
					t.Errorf("nothing is ordered for %s, and the cost does not say so: %+v", without, ans.Cost.Missing)
				}
			}
			sheet, chart := "", ""
			for _, d := range drawing.JobDrawings(ans) {
				switch {
				case strings.HasSuffix(d.Name, "-cover"):
					sheet = string(d.Picture.SVG())
				case strings.HasSuffix(d.Name, "-cost"):
					chart = string(d.Picture.SVG())
				}
			}
			text := drawing.JobText(ans)
			_, cost, _ := strings.Cut(text, "COST, in GBP")
			saysFirst(t, "text", text, "COST, in GBP", firstSum.FindString(cost), part)
			saysFirst(t, "drawing", sheet, "Job sheet", "Net, GBP", part)
			saysFirst(t, "chart", chart, "What the job comes to", "TOTAL", part)
		})
	}
}

// firstSum is a sum in a text.
var firstSum = regexp.MustCompile(`(?m)^ +[0-9]+\.[0-9]{2} `)

// saysFirst wants what is printed to say that the cost is not complete, and which
// part it is without, after one text and before another.
func saysFirst(t *testing.T, form, printed, after, before, part string) {
	t.Helper()
	_, rest, found := strings.Cut(printed, after)
	head, _, more := strings.Cut(rest, before)
	if !found || !more || !strings.Contains(head, "NOT COMPLETE") {
		t.Errorf("%s: not said first: %.300s", form, head)
		return
	}
	// Lines are broken anywhere, and a line of a drawing is an element of its own.
	_, head, _ = strings.Cut(head, "NOT COMPLETE")
	words := strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(head, " ")), " ")
	if !strings.Contains(words, part) {
		t.Errorf("%s: %s is not named: %.300s", form, part, words)
	}
}
