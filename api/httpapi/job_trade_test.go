package httpapi_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/service/buying"
	jobs "github.com/bridletie/bridletie/service/job"
)

// jobOf is the answer for one piece in a plain cloth, with an hourly rate.
func jobOf(t *testing.T, s *httpapi.Server, pieces string) *jobs.Answer {
	t.Helper()
	return answeredJob(t, s, `{"effort": "quick", "pieces": [`+pieces+`], "cloths": [{"id": "A", "cloth": {"width": "140 cm"}}],
		"terms": {"currency": "GBP", "labour": {"rate": "30.00", "preset": "rebuild"}}}`)
}

func hoursOf(ans *jobs.Answer, operation string) string {
	for _, l := range ans.Cost.Quote.Labour {
		if l.Name == operation {
			return l.Quantity.String()
		}
	}
	return "0"
}

// What has no frame, and a frame that is kept, is not repaired, and nothing waits
// for glue.
func TestJobRepairsFramesThatAreRebuilt(t *testing.T) {
	s := newServer(t, httpapi.DefaultOptions())
	for pieces, want := range map[string]string{
		`{"id": "P", "kind": "bench-cushion"}`:                                                                       "0",
		`{"id": "P", "kind": "headboard", "build": "modern"}`:                                                        "0",
		`{"id": "P", "kind": "carver", "count": 2}`:                                                                  "1.5",
		`{"id": "P", "kind": "carver"}, {"id": "Q", "kind": "carver", "count": 3, "build": "keep"}`:                  "0.75",
		`{"id": "P", "kind": "footstool", "count": 2}, {"id": "Q", "kind": "bench-cushion", "cloths": {"top": "A"}}`: "1.5",
	} {
		ans := jobOf(t, s, pieces)
		if got := hoursOf(ans, costing.FrameRepair); got != want {
			t.Errorf("%s: %s h of frame repair, wanted %s", pieces, got, want)
		}
		glue := slices.ContainsFunc(ans.Days.Waits, func(w buying.Wait) bool { return w.For == "glue" })
		if glue != (want != "0") {
			t.Errorf("%s: waits for glue: %v", pieces, glue)
		}
	}
}

// A bar stool is webbed and stuffed, and not sprung with one spring.
func TestJobBarStoolHasNoSprings(t *testing.T) {
	ans := jobOf(t, newServer(t, httpapi.DefaultOptions()), `{"id": "P", "kind": "bar-stool"}`)
	webs := false
	for _, l := range ans.Orders {
		if strings.HasPrefix(l.Article, "springs/") || l.Article == "cord/lashing" {
			t.Errorf("a bar stool is ordered %s", l.Name)
		}
		webs = webs || strings.HasPrefix(l.Article, "webbing/")
	}
	if !webs {
		t.Error("a bar stool is ordered no webbing")
	}
}

// A traditional build says which pads it orders no stuffing for; foam is ordered
// for them all, by its name.
func TestJobSaysWhatIsNotStuffed(t *testing.T) {
	s := newServer(t, httpapi.DefaultOptions())
	for pieces, want := range map[string]string{
		`{"id": "P", "kind": "headboard"}`:                    "pad",
		`{"id": "P", "kind": "club-chair"}`:                   "arm pad",
		`{"id": "P", "kind": "footstool"}`:                    "",
		`{"id": "P", "kind": "headboard", "build": "modern"}`: "",
		`{"id": "P", "kind": "headboard", "build": "keep"}`:   "",
	} {
		ans, got := jobOf(t, s, pieces), ""
		for _, w := range ans.Warnings {
			if w.Code == note.Unstuffed {
				got = w.Text(length.Metric)
			}
		}
		if (got == "") != (want == "") || !strings.HasSuffix(got, want) {
			t.Errorf("%s: %q, wanted it to name %q", pieces, got, want)
		}
		for _, l := range ans.Orders {
			if l.Group == buying.Foam && !strings.HasPrefix(l.Name, "soft back foam, 26 kg/m³, ") && !strings.HasPrefix(l.Name, "firm seat foam, 35 kg/m³, ") {
				t.Errorf("%s: foam is ordered as %s", pieces, l.Name)
			}
		}
	}
}

// One thing is spoken of as one.
func TestJobCountsInWords(t *testing.T) {
	ans := jobOf(t, newServer(t, httpapi.DefaultOptions()), `{"id": "P", "kind": "headboard"}`)
	if !slices.ContainsFunc(ans.Warnings, func(n note.Note) bool {
		return strings.HasPrefix(n.Text(length.Metric), "1 piece of cotton felt is joined: ")
	}) {
		t.Errorf("no join of the wadding is told of: %v", ans.Warnings)
	}
}
