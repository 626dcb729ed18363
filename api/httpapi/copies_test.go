package httpapi_test

import (
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/panel"
)

// As many copies as one plan takes are planned, whatever asks for them. One more is
// refused in the same words: how many there are, the limit, and what would do.
func TestCopiesOfOnePlan(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	const cloth = `{"width":"137 cm","pattern":{"lengthRepeat":"64 cm","widthRepeat":"68.5 cm"}}`
	panels := func(counts ...int) string {
		var all []string
		for i, n := range counts {
			all = append(all, fmt.Sprintf(`{"id":"P%d","count":%d,"size":{"across":"50 cm","along":"60 cm"},"match":{"how":"centred"}}`, i, n))
		}
		return "[" + strings.Join(all, ",") + "]"
	}
	for _, op := range []struct {
		name, at string
		ask      func(counts ...int) *httptest.ResponseRecorder
	}{
		{"yardage", "#/panels", func(counts ...int) *httptest.ResponseRecorder {
			return c.post(`{"effort":"quick","cloth":` + cloth + `,"panels":` + panels(counts...) + `}`)
		}},
		{"compare", "#/panels", func(counts ...int) *httptest.ResponseRecorder {
			return c.postCompare(`{"cloths":[{"cloth":` + cloth + `}],"panels":` + panels(counts...) + `}`)
		}},
		{"cutting list", "#/replace", func(counts ...int) *httptest.ResponseRecorder {
			return c.postCuttingList(`{"kind":"carver","drop":["SEAT","IB","OB","PAD"],"cloth":` + cloth + `,"replace":` + panels(counts...) + `}`)
		}},
		{"job", "#/pieces/0/written", func(counts ...int) *httptest.ResponseRecorder {
			return c.postJob(`{"effort":"quick","pieces":[{"id":"A","written":[{"cover":"top","panels":` + panels(counts...) + `}]}],"cloths":[{"id":"C","cloth":` + cloth + `}]}`)
		}},
	} {
		t.Run(op.name, func(t *testing.T) {
			for _, counts := range [][]int{{500}, {panel.MaxCopies}, {panel.MaxCopies / 2, panel.MaxCopies / 2}} {
				if w := op.ask(counts...); w.Code != 200 || strings.Contains(w.Body.String(), "too-many") {
					t.Errorf("%d copies: status %d: %.600s", counts, w.Code, w.Body)
				}
			}
			for _, n := range []int{panel.MaxCopies + 1, 5000} {
				if w := op.ask(n); w.Code != 422 || !strings.Contains(w.Body.String(), `"code":"too-large"`) ||
					!strings.Contains(w.Body.String(), fmt.Sprintf(`"given":"%d"`, n)) || !strings.Contains(w.Body.String(), `/count"`) ||
					!strings.Contains(w.Body.String(), fmt.Sprintf(`"try":"at most %d"`, panel.MaxCopies)) {
					t.Errorf("%d copies of a panel: status %d: %.600s", n, w.Code, w.Body)
				}
			}
			w := op.ask(panel.MaxCopies, panel.MaxCopies, 1)
			var problem struct {
				Errors []struct{ Pointer, Code, Given, Detail, Try string }
			}
			if err := json.Unmarshal(w.Body.Bytes(), &problem); err != nil || w.Code != 422 || len(problem.Errors) != 1 {
				t.Fatalf("%v, status %d: %.900s", err, w.Code, w.Body)
			}
			f := problem.Errors[0]
			if f.Pointer != op.at || f.Code != "too-many" || f.Given != "4001" ||
				f.Detail != "the list has 4001 copies in all; one plan takes at most 2000" ||
				f.Try != "at most 2000: ask for 3 plans or more, each of a part of the list" {
				t.Errorf("%+v", f)
			}
		})
	}

	// In a job the panels of all pieces from one cloth are one plan, and what is wrong
	// with it is said where the plan would be.
	piece := func(id string) string {
		return `{"id":"` + id + `","written":[{"cover":"top","panels":` + panels(1500) + `}]}`
	}
	w := c.postJob(`{"effort":"quick","pieces":[` + piece("A") + `,` + piece("B") + `],"cloths":[{"id":"C","cloth":` + cloth + `}]}`)
	if w.Code != 200 || !strings.Contains(w.Body.String(), `"code":"too-many","detail":"the list has 3000 copies in all; one plan takes at most 2000","given":"3000","pointer":"#/pieces"`) {
		t.Errorf("a job of two pieces: status %d: %.900s", w.Code, w.Body)
	}
}
