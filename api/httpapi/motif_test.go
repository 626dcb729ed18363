package httpapi_test

import (
	"encoding/json"
	"fmt"
	"testing"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
)

// A place of a motif in a direction in which the pattern does not repeat is refused,
// and the way out that the fault names is one: a repeat as wide as the cloth has the
// motif in one column, where the panel then lies.
func TestOneMotifInTheWidth(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	request := func(pattern string) string {
		return `{"effort":"quick","cloth":{"width":"137 cm","pattern":{` + pattern + `"motifs":[{"name":"heron","across":"50 cm","along":"20 cm"}]}},
			"panels":[{"id":"IB","count":3,"size":{"across":"60 cm","along":"70 cm"},"allow":"2 cm","match":{"how":"centred","motif":"heron"}}]}`
	}
	for pattern, want := range map[string]string{
		`"lengthRepeat":"64 cm",`: "[#/cloth/pattern/motifs/0/across needs-pattern]",
		`"widthRepeat":"64 cm",`:  "[#/cloth/pattern/motifs/0/along needs-pattern]",
		``:                        "[#/cloth/pattern/motifs/0/across needs-pattern #/cloth/pattern/motifs/0/along needs-pattern #/panels/0/match/how needs-pattern]",
	} {
		w := c.post(request(pattern))
		if got := fmt.Sprint(faultsOf(t, w)); w.Code != 422 || got != want {
			t.Errorf("with %s status %d, faults %s, want %s", pattern, w.Code, got, want)
		}
	}
	w := c.post(request(`"lengthRepeat":"64 cm","widthRepeat":"137 cm",`))
	var answer gen.YardageAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || w.Code != 200 {
		t.Fatalf("%v, status %d: %.600s", err, w.Code, w.Body)
	}
	for _, p := range answer.Placements {
		if p.Motif == nil || p.Motif.XMm != 500 || p.XMm != 180 {
			t.Errorf("%+v lies with its motif at %+v: want the one column, 500 mm from the selvedge", p, p.Motif)
		}
	}
}
