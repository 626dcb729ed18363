package httpapi_test

import (
	"net/http"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
)

// A panel that says what it must pass is drawn with its relief cuts: the same
// plan, with a ring at every stop that /v1/relief-cuts answers. A fault of an
// obstacle points at it.
func TestYardageShowsReliefCuts(t *testing.T) {
	const plain = `{"cloth":{"width":"140 cm"},"panels":[{"id":"SEAT","size":{"across":"56 cm","along":"54 cm"},"allow":"10 cm"OBSTACLES}]}`
	const posts = `[{"id":"BL","what":"post","corner":"top-left","width":"4 cm","deep":"4 cm"},{"id":"AL","what":"upright","edge":"left","at":"30 cm","width":"5 cm","deep":"3 cm"}]`
	c := newClient(t, httpapi.DefaultOptions())
	with := strings.Replace(plain, "OBSTACLES", `,"obstacles":`+posts, 1)
	without := strings.Replace(plain, "OBSTACLES", "", 1)
	svg := []string{"Content-Type", "application/json", "Accept", "image/svg+xml"}
	rings := func(body string) int {
		return strings.Count(c.do(http.MethodPost, "/v1/yardage", body, svg...).Body.String(), "<circle")
	}
	stops := strings.Count(c.do(http.MethodPost, "/v1/relief-cuts",
		`{"panel":{"size":{"across":"56 cm","along":"54 cm"},"allow":"10 cm"},"obstacles":`+posts+`}`, svg[:2]...).Body.String(), `"fromLeft"`) // each stop has it
	if more := rings(with) - rings(without); more != stops+1 || stops == 0 { // and one in the legend
		t.Errorf("%d rings more than without obstacles, for %d stops", more, stops)
	}
	for to, want := range map[string]string{
		strings.Replace(with, `"at":"30 cm"`, `"at":"54 cm"`, 1):  "#/panels/0/obstacles/1/at too-large",
		strings.Replace(with, `"id":"AL"`, `"id":"BL"`, 1):        "#/panels/0/obstacles/1/id duplicate",
		strings.Replace(with, `"what":"post"`, `"what":"hat"`, 1): "#/panels/0/obstacles/0/what not-one-of",
	} {
		w := c.post(to)
		if got := faultsOf(t, w); len(got) != 1 || got[0] != want {
			t.Errorf("faults are %q, want %q", got, want)
		}
	}
}
