package httpapi_test

import (
	"fmt"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"
)

// Every field of a plan, wrong in every way that it can be.
func TestBadChecks(t *testing.T) {
	c := newClient(t, checkOptions())
	cases := append(append(wrongPlacements(), wrongLengths()...), wrongPlans()...)
	if len(cases) < 50 {
		t.Fatalf("only %d cases", len(cases))
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			body := tc.to
			if tc.from != "" {
				body = spoilHand(t, tc.from, tc.to)
			}
			w := c.postCheck(body)
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

func wrongPlacements() []badRequest {
	x := func(name, value, code string) badRequest {
		return badRequest{"x " + name, `"xMm": 360`, `"xMm": ` + value, one("#/placements/5/xMm " + code)}
	}
	arm := func(name, more string, want ...string) badRequest {
		return badRequest{"an arm with " + name, `"xMm": 360, "yMm": 1290, "piece": 0`, `"xMm": 360, "yMm": 1290, ` + more, want}
	}
	return []badRequest{
		x("in quotes", `"360"`, "wrong-type"),
		x("with a unit", `"36 cm"`, "wrong-type"),
		x("null", `null`, "wrong-type"),
		x("list", `[360]`, "wrong-type"),
		x("true", `true`, "wrong-type"),
		x("with an exponent", `3.6e2`, "wrong-type"),
		x("whole with an exponent", `36E1`, "wrong-type"),
		x("of 7 decimals", `360.0000001`, "wrong-type"),
		x("of 7 decimals that are nought", `360.0000000`, "wrong-type"),
		x("1e400", `1e400`, "wrong-type"),
		x("beyond 200 km", `200000000.000001`, "too-large"),
		x("beyond 200 km to the left", `-200000001`, "too-small"),
		x("beyond integers", `99999999999999999999`, "too-large"),
		x("of 400 digits", strings.Repeat("9", 400), "too-large"),
		x("of 400 digits and decimals", strings.Repeat("9", 400)+".5", "too-large"),
		x("of 400 digits below", "-"+strings.Repeat("9", 400)+".5", "too-small"),
		{"no x", `"xMm": 360, `, ``, one("#/placements/5/xMm missing")},
		{"no y", `, "yMm": 1290, "piece": 0`, `, "piece": 0`, one("#/placements/5/yMm missing")},
		{"no panel", `{"panel": "ARM", "copy": 2, `, `{"copy": 2, `, one("#/placements/5/panel missing")},
		{"no copy", `"copy": 2, "xMm": 360`, `"xMm": 360`, one("#/placements/5/copy missing")},
		{"copy 0", `"copy": 2, "xMm": 360`, `"copy": 0, "xMm": 360`, one("#/placements/5/copy too-small")},
		{"copy 1.0", `"copy": 2, "xMm": 360`, `"copy": 1.0, "xMm": 360`, one("#/placements/5/copy wrong-type")},
		{"copy 3 of 2", `"copy": 2, "xMm": 360`, `"copy": 3, "xMm": 360`, one("#/placements/5/copy too-large")},
		{"copy 2001", `"copy": 2, "xMm": 360`, `"copy": 2001, "xMm": 360`, one("#/placements/5/copy too-large")},
		{"unknown panel", `{"panel": "ARM", "copy": 2`, `{"panel": "LEG", "copy": 2`, one("#/placements/5/panel unknown-panel")},
		{"panel in another case", `{"panel": "ARM", "copy": 2`, `{"panel": "arm", "copy": 2`, one("#/placements/5/panel unknown-panel")},
		{"panel that is no id", `{"panel": "ARM", "copy": 2`, `{"panel": "A R M", "copy": 2`, one("#/placements/5/panel not-a-name")},
		{"panel by number", `{"panel": "ARM", "copy": 2`, `{"panel": 2, "copy": 2`, one("#/placements/5/panel wrong-type")},
		arm("piece -1", `"piece": -1`, "#/placements/5/piece too-small"),
		arm("piece 201", `"piece": 201`, "#/placements/5/piece too-large"),
		arm("piece in quotes", `"piece": "0"`, "#/placements/5/piece wrong-type"),
		arm("an unknown turn", `"turn": "upright"`, "#/placements/5/turn not-one-of"),
		arm("a turn in degrees", `"turn": 90`, "#/placements/5/turn wrong-type"),
		arm("an unknown field", `"rotated": true`, "#/placements/5/rotated unknown-field"),
		arm("a field in another case", `"acrossMM": 5`, "#/placements/5/acrossMM unknown-field"),
		arm("an extent in quotes", `"acrossMm": "5"`, "#/placements/5/acrossMm wrong-type"),
		arm("an extent of 7 decimals", `"alongMm": 0.0000001`, "#/placements/5/alongMm wrong-type"),
		arm("an unknown motif", `"motif": {"name": "crane", "xMm": 0, "yMm": 0}`, "#/placements/5/motif/name unknown-motif"),
		arm("a motif nowhere", `"motif": {"name": "crossing", "xMm": 0}`, "#/placements/5/motif/yMm missing"),
		arm("a motif by name", `"motif": "crossing"`, "#/placements/5/motif wrong-type"),
		arm("a part without a width", `"part": {"number": 1, "of": 2, "fromMm": 0}`, "#/placements/5/acrossMm missing"),
		arm("a part of a width that is none", `"part": {"number": 1, "of": 2, "fromMm": 0}, "acrossMm": "5"`, "#/placements/5/acrossMm wrong-type"),
		arm("half a part", `"part": {"number": 0, "of": 101}`,
			"#/placements/5/part/number too-small", "#/placements/5/part/of too-large", "#/placements/5/part/fromMm missing"),
	}
}

func wrongLengths() []badRequest {
	lengths := func(name, to string, want ...string) badRequest {
		return badRequest{"lengths " + name, `[{"piece": 0, "start": "8 cm"}]`, to, want}
	}
	return []badRequest{
		lengths("of no unit", `[{"start": "8"}]`, "#/lengths/0/start not-a-length"),
		lengths("as a number", `[{"start": 8}]`, "#/lengths/0/start not-a-length"),
		lengths("begun before", `[{"start": "-1 mm"}]`, "#/lengths/0/start too-small"),
		lengths("begun beyond every repeat", `[{"start": "10.001 m"}]`, "#/lengths/0/start too-large"),
		lengths("of nothing", `[{"length": "0 m"}]`, "#/lengths/0/length too-small"),
		lengths("below nothing", `[{"length": "-1 m"}]`, "#/lengths/0/length too-small"),
		lengths("of 251 km", `[{"length": "251000 m"}]`, "#/lengths/0/length too-large"),
		lengths("twice", `[{"start": "8 cm"}, {"piece": 0}]`, "#/lengths/1/piece duplicate"),
		lengths("201", `[{"piece": 201}]`, "#/lengths/0/piece too-large"),
		lengths("of one whose number is none", `[{"piece": "0"}, {}]`, "#/lengths/0/piece wrong-type"),
		lengths("null", `[null, {"piece": 0}, {"piece": 0}]`, "#/lengths/0 wrong-type"),
		lengths("as an object", `{"start": "8 cm"}`, "#/lengths wrong-type"),
		lengths("with an unknown field", `[{"begin": "8 cm"}]`, "#/lengths/0/begin unknown-field"),
		lengths("of 202", `[`+strings.Repeat(`{},`, 201)+`{}]`, "#/lengths too-many"),
	}
}

func wrongPlans() []badRequest {
	const job = `"cloth":{"width":"1 m"},"panels":[{"id":"A","size":{"across":"1 cm","along":"1 cm"}}]`
	placed := `{"panel":"A","copy":1,"xMm":0,"yMm":0}`
	return []badRequest{
		{"nothing", "", `{}`, []string{"#/cloth missing", "#/panels missing", "#/placements missing"}},
		{"no plan", "", `{` + job + `}`, one("#/placements missing")},
		{"empty plan", "", `{` + job + `,"placements":[]}`, one("#/placements too-few")},
		{"plan as an object", "", `{` + job + `,"placements":{}}`, one("#/placements wrong-type")},
		{"placements of the wrong kind", "", `{` + job + `,"placements":[null,5,[],` + placed + `]}`, []string{
			"#/placements/0 wrong-type", "#/placements/1 wrong-type", "#/placements/2 wrong-type"}},
		{"6001 placements", "", `{` + job + `,"placements":[` + strings.Repeat(placed+",", 6000) + placed + `]}`, one("#/placements too-many")},
		{"pieces in hand", "", `{` + job + `,"pieces":["1 m"],"placements":[` + placed + `]}`, one("#/pieces unknown-field")},
		{"a motif on plain cloth", "", `{` + job + `,"placements":[{"panel":"A","copy":1,"xMm":0,"yMm":0,"motif":{"name":"","xMm":0,"yMm":0}}]}`,
			one("#/placements/0/motif/name unknown-motif")},
		{"251 km in all", "", `{` + job + `,"placements":[{"panel":"A","copy":1,"xMm":0,"yMm":200000000},{"panel":"A","copy":1,"piece":1,"xMm":0,"yMm":51000000}]}`,
			one("#/placements too-large")},
		// what is wrong with the job is said as it is for the job alone
		{"panel wider than the cloth", `"id": "ARM", "count": 2, "size": {"across": "20 cm"`, `"id": "ARM", "count": 2, "size": {"across": "150 cm"`,
			one("#/panels/2/size/across wider-than-cloth")},
		{"half a panel wider than the cloth", `"width": "140 cm"`, `"width": "100 cm"`, one("#/panels/3/size/across wider-than-cloth")},
		// and what follows from it is not said again
		{"an id that placements refer to", `{"id": "ARM",`, `{"id": "A R M",`, []string{"#/panels/2/id not-a-name"}},
		{"a count that placements refer to", `"id": "BACK", "count": 2`, `"id": "BACK", "count": "2"`, []string{"#/panels/0/count wrong-type"}},
		{"a repeat that motifs refer to", `"lengthRepeat": "32 cm", "widthRepeat": "28 cm"`, `"lengthRepeat": 32, "widthRepeat": 28`, []string{
			"#/cloth/pattern/lengthRepeat not-a-length", "#/cloth/pattern/widthRepeat not-a-length"}},
		{"panels of the wrong kind", "", `{"cloth":{"width":"1 m"},"panels":{},"placements":[` + placed + `]}`, one("#/panels wrong-type")},
	}
}

// Faults of the job and of the plan come at once, in the order of the document.
func TestAllCheckFaultsAtOnce(t *testing.T) {
	c := newClient(t, checkOptions())
	w := c.postCheck(`{"placements": [{"panel": "A", "copy": 2, "xMm": 1, "yMm": 1.12345678}, {"panel": "Z", "copy": 1, "xMm": 1, "yMm": 1, "part": {"number": 2, "of": 2, "fromMm": 1}}],
		"lengths": [{"start": "-1 m"}, {}],
		"cloth": {"width": "1 m"}, "panels": [{"id": "A", "size": {"across": "2 m", "along": "1 cm"}}]}`)
	want := []string{
		"#/placements/0/copy too-large",
		"#/placements/0/yMm wrong-type",
		"#/placements/1/acrossMm missing",
		"#/placements/1/panel unknown-panel",
		"#/lengths/0/start too-small",
		"#/lengths/1/piece duplicate",
		"#/panels/0/size/across wider-than-cloth",
	}
	if got := faultsOf(t, w); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("faults are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// A plan may take more room than a job, and no more.
func TestCheckLimits(t *testing.T) {
	c := newClient(t, checkOptions())
	fits := hand + strings.Repeat(" ", 1048576-len(hand))
	if w := c.postCheck(fits); w.Code != http.StatusOK {
		t.Errorf("1048576 bytes: status %d", w.Code)
	}
	if w := c.postCheck(fits + " "); w.Code != http.StatusRequestEntityTooLarge || !strings.Contains(w.Body.String(), "1048576") {
		t.Errorf("1048577 bytes: status %d: %s", w.Code, w.Body)
	}
	for _, tc := range []struct {
		method, path string
		allow        string
		status       int
	}{
		{"GET", "/v1/yardage/check", "POST", 405},
		{"POST", "/v1/yardage/check/", "", 404},
		{"POST", "/v1/yardage/checks", "", 404},
	} {
		if w := c.do(tc.method, tc.path, ""); w.Code != tc.status || w.Header().Get("Allow") != tc.allow {
			t.Errorf("%s %s: status %d, Allow %q", tc.method, tc.path, w.Code, w.Header().Get("Allow"))
		}
	}
}

// The largest plan is checked and drawn, however badly it is laid, and the worst
// requests cost little more than their size.
func TestLargeChecksAreCheap(t *testing.T) {
	c := newClient(t, checkOptions())
	job := `{"cloth":{"width":"140 cm","pattern":{"lengthRepeat":"1 mm","widthRepeat":"1 mm","drop":"11/12"}},"panels":[{"id":"A","count":2000,"size":{"across":"10 cm","along":"10 cm"},"match":{"how":"centred"}}],"placements":[%s]`
	list := func(n int, one func(i int) string) string {
		all := make([]string, n)
		for i := range all {
			all[i] = one(i)
		}
		return strings.Join(all, ",")
	}
	wrongPanels := `{"cloth":{"width":"1 m"},"placements":[],"panels":[` + list(500, func(i int) string {
		return fmt.Sprintf(`{"id":"P%d","size":{"across":"2 m","along":"1 cm"},"turn":"half",%s}`, i, unknownKeys(150)[1:len(unknownKeys(150))-1])
	}) + `]}`
	for _, tc := range []struct {
		name, body string
		status     int
	}{
		{"6000 on one place", fmt.Sprintf(job, list(6000, func(i int) string {
			return fmt.Sprintf(`{"panel":"A","copy":%d,"xMm":0,"yMm":0}`, i%2000+1)
		})) + "}", 200},
		{"6000 far apart", fmt.Sprintf(job, list(6000, func(i int) string {
			return fmt.Sprintf(`{"panel":"A","copy":%d,"piece":%d,"xMm":%d,"yMm":-%d}`, i%2000+1, i%200, i, 33333*i)
		})) + "}", 200},
		{"as wide as may be", fmt.Sprintf(job, `{"panel":"A","copy":1,"xMm":-200000000,"yMm":0,"acrossMm":200000000,"alongMm":200000000}`) + "}", 200},
		{"6000 unknown panels", fmt.Sprintf(job, list(6000, func(int) string { return `{"panel":"B","copy":1,"xMm":0,"yMm":0}` })) + "}", 422},
		{"wrong types", fmt.Sprintf(job, list(6000, func(int) string {
			return `{"panel":1,"copy":"","xMm":"","yMm":"","turn":1,"piece":"","part":1,"motif":1}`
		})) + "}", 422},
		{"lists for placements", fmt.Sprintf(job, list(190000, func(int) string { return `[]` })) + "}", 422},
		{"90000 unknown keys", unknownKeys(90000), 422},
		{"75000 unknown keys and faults of all panels", wrongPanels, 422},
		{"90000 unknown keys of a placement", fmt.Sprintf(job, unknownKeys(90000)) + "}", 422},
		{"200001 values", `[` + strings.Repeat("1,", 200000) + `1]`, 400},
	} {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			for _, accept := range []string{"application/json", "image/svg+xml"} {
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				begun := time.Now()
				w := c.do(http.MethodPost, "/v1/yardage/check", tc.body, "Content-Type", "application/json", "Accept", accept)
				took := time.Since(begun)
				runtime.ReadMemStats(&after)
				if w.Code != tc.status {
					t.Fatalf("status %d, want %d: %.300s", w.Code, tc.status, w.Body)
				}
				if took > 30*time.Second { // what grows with the square takes minutes; the machine may be busy
					t.Errorf("%d bytes took %v", len(tc.body), took)
				}
				if used := after.TotalAlloc - before.TotalAlloc; used > 512<<20 {
					t.Errorf("%d bytes took %d MB of memory", len(tc.body), used>>20)
				}
				if w.Body.Len() > 16<<20 {
					t.Errorf("an answer of %d bytes", w.Body.Len())
				}
				t.Logf("%d bytes: %d in %v, %d MB, %d bytes", len(tc.body), w.Code, took, (after.TotalAlloc-before.TotalAlloc)>>20, w.Body.Len())
			}
		})
	}
}
