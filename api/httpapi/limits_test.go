package httpapi_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/panel"
)

// limitsOf are the numbers of an x-limits.
func limitsOf(t *testing.T, extensions map[string]any) map[string]int {
	t.Helper()
	said, ok := extensions["x-limits"].(map[string]any)
	if !ok {
		return nil
	}
	numbers := make(map[string]int)
	for name, v := range said {
		n, ok := v.(float64)
		if !ok {
			t.Fatalf("x-limits.%s is %v", name, v)
		}
		numbers[name] = int(n)
	}
	return numbers
}

// The contract says the limits that the service has.
func TestContractSaysTheLimits(t *testing.T) {
	doc, l := spec(t), httpapi.DefaultLimits()
	root := limitsOf(t, doc.Extensions)
	want := map[string]int{
		"bodyBytes": httpapi.MaxBody, "depth": l.Depth, "values": 20000, "addressBytes": l.AddressBytes, "headerBytes": l.HeaderBytes,
		"headerFields": l.HeaderFields, "panels": l.Panels, "copies": panel.MaxCopies, "placements": panel.MaxPlaced, "pieces": l.Pieces, "cloths": l.Cloths, "answerSeconds": int(l.SolveTime.Seconds()),
	}
	if fmt.Sprint(root) != fmt.Sprint(want) {
		t.Errorf("x-limits is %v, the service has %v", root, want)
	}
	request := doc.Components.Schemas["YardageRequest"].Value.Properties
	if got := *request["panels"].Value.MaxItems; int(got) != l.Panels {
		t.Errorf("%d panels, the service has %d", got, l.Panels)
	}
	lengths := panel.MaxPlaced + 1 // one for each, and the cloth whose start is known
	for _, tc := range []struct {
		schema, property string
		want             int
	}{
		{"Panel", "count", panel.MaxCopies}, {"Placement", "copy", panel.MaxCopies}, {"HandPlacement", "copy", panel.MaxCopies},
		{"JoinedPanel", "copy", panel.MaxCopies}, {"YardageAnswer", "joins", panel.MaxCopies},
		{"YardageAnswer", "placements", panel.MaxPlaced}, {"PiecesAnswer", "placements", panel.MaxPlaced},
		{"YardageCheckRequest", "placements", panel.MaxPlaced}, {"Part", "of", panel.MaxParts},
		{"YardageAnswer", "lengths", lengths}, {"CutLength", "piece", lengths - 1}, {"Offcut", "piece", lengths - 1},
		{"PiecesAnswer", "lengths", lengths + l.Pieces}, {"PieceUse", "piece", lengths + l.Pieces - 1}, {"Placement", "piece", lengths + l.Pieces - 1},
	} {
		s := doc.Components.Schemas[tc.schema].Value.Properties[tc.property].Value
		got := 0
		if s.MaxItems != nil {
			got = int(*s.MaxItems)
		} else if s.Max != nil {
			got = int(*s.Max)
		}
		if got != tc.want {
			t.Errorf("%s.%s is at most %d in the contract, and %d in the service", tc.schema, tc.property, got, tc.want)
		}
	}
	if got := *request["pieces"].Value.MaxItems; int(got) != l.Pieces {
		t.Errorf("%d pieces, the service has %d", got, l.Pieces)
	}
	if got := *doc.Components.Schemas["CompareRequest"].Value.Properties["cloths"].Value.MaxItems; int(got) != l.Cloths {
		t.Errorf("%d cloths, the service has %d", got, l.Cloths)
	}

	c := newClient(t, options())
	for path, item := range doc.Paths.Map() {
		for method, op := range item.Operations() {
			if op.RequestBody == nil || op.RequestBody.Value.Content["application/json"] == nil {
				continue
			}
			said := limitsOf(t, op.Extensions)
			if said == nil {
				said = root
			}
			// One byte and one value more than is said are refused, as many as is said are not.
			spaces := strings.Repeat(" ", said["bodyBytes"]-2)
			for body, status := range map[string]int{
				"{}" + spaces:       422,
				"{} " + spaces:      413,
				values(said, 0):     422,
				values(said, 1):     400,
				nested(root, 0):     422,
				nested(root, 1):     400,
				"{}" + spaces + "x": 413,
			} {
				w := c.do(method, path, body, "Content-Type", "application/json")
				if w.Code != status {
					t.Errorf("%s %s, %d bytes %.20q: status %d, want %d: %.300s", method, path, len(body), body, w.Code, status, w.Body)
				}
			}
		}
	}
}

// values is a list with as many values as is said, itself counted, and some more.
func values(said map[string]int, more int) string {
	return "[" + strings.Repeat("1,", said["values"]-2+more) + "1]"
}

// nested is as many lists in one another as is said, and some more.
func nested(said map[string]int, more int) string {
	n := said["depth"] + more
	return strings.Repeat("[", n) + strings.Repeat("]", n)
}

// Smaller limits hold, and the documents that are served say them.
func TestSmallerLimits(t *testing.T) {
	opts := options()
	opts.BodyBytes, opts.Depth, opts.Values = 2048, 9, 200
	opts.Panels, opts.Pieces, opts.Cloths, opts.Effort = 3, 1, 2, "normal"
	opts.SolveTime = 7 * time.Second
	c := newClient(t, opts)
	for name, tc := range map[string]struct {
		body   string
		status int
		fault  string
	}{
		"sound":          {sound, 422, "#/panels too-many"},
		"two pieces":     {strings.Replace(spoil(t, `"5.5 m"`, `"5.5 m", "2 m"`), `"FLY", "count": 2`, `"FLY", "count": 2`, 1), 422, "#/pieces too-many"},
		"thorough":       {spoil(t, `"effort": "normal"`, `"effort": "thorough"`), 422, "#/effort not-one-of"},
		"2049 bytes":     {sound + strings.Repeat(" ", 2049-len(sound)), 413, ""},
		"ten levels":     {strings.Repeat("[", 10) + strings.Repeat("]", 10), 400, ""},
		"too many words": {"[" + strings.Repeat("1,", 200) + "1]", 400, ""},
	} {
		w := c.post(tc.body)
		if w.Code != tc.status || tc.fault != "" && !strings.Contains(strings.Join(faultsOf(t, w), "|"), tc.fault) {
			t.Errorf("%s: status %d, want %d with %q: %.600s", name, w.Code, tc.status, tc.fault, w.Body)
		}
	}
	for _, path := range []string{"/openapi.json", "/openapi.yaml"} {
		doc, err := openapi3.NewLoader().LoadFromData(c.do(http.MethodGet, path, "").Body.Bytes())
		if err != nil {
			t.Fatal(err)
		}
		said := limitsOf(t, doc.Extensions)
		if said["bodyBytes"] != 2048 || said["panels"] != 3 || said["answerSeconds"] != 7 || said["headerFields"] != 100 {
			t.Errorf("%s says %v", path, said)
		}
		if said := limitsOf(t, doc.Paths.Value("/v1/foam").Post.Extensions); said["bodyBytes"] != 2048 || said["values"] != 200 {
			t.Errorf("%s says %v for foam", path, said)
		}
		if got := doc.Components.Schemas["Effort"].Value.Enum; len(got) != 2 {
			t.Errorf("%s: efforts %v", path, got)
		}
		if got := *doc.Components.Schemas["CompareRequest"].Value.Properties["panels"].Value.MaxItems; got != 3 {
			t.Errorf("%s: %d panels to compare", path, got)
		}
	}
	if got := newClient(t, options()).do(http.MethodGet, "/openapi.json", "").Body.String(); !json.Valid([]byte(got)) || !strings.Contains(got, `"thorough"`) {
		t.Error("another server's document was changed")
	}
}

func TestBadLimits(t *testing.T) {
	for name, spoil := range map[string]func(*httpapi.Options){
		"BodyBytes, small": func(o *httpapi.Options) { o.BodyBytes = 100 },
		"BodyBytes, large": func(o *httpapi.Options) { o.BodyBytes = 2 << 20 },
		"Depth":            func(o *httpapi.Options) { o.Depth = 33 },
		"Values":           func(o *httpapi.Options) { o.Values = 0 },
		"Panels":           func(o *httpapi.Options) { o.Panels = 501 },
		"Pieces":           func(o *httpapi.Options) { o.Pieces = 0 },
		"Cloths":           func(o *httpapi.Options) { o.Cloths = 1001 },
		"Effort":           func(o *httpapi.Options) { o.Effort = "quick" },
		"AddressBytes":     func(o *httpapi.Options) { o.AddressBytes = 1 },
		"HeaderFields":     func(o *httpapi.Options) { o.HeaderFields = 1000 },
		"SolveTime":        func(o *httpapi.Options) { o.SolveTime = time.Minute },
		"no SolveTime":     func(o *httpapi.Options) { o.SolveTime = 0 },
		"SolveQueue":       func(o *httpapi.Options) { o.SolveQueue = -1 },
		"Lights":           func(o *httpapi.Options) { o.Lights = 0 },
		"LightQueue":       func(o *httpapi.Options) { o.LightQueue = -1 },
		"LightWait":        func(o *httpapi.Options) { o.LightWait = -1 },
		"LightTime":        func(o *httpapi.Options) { o.LightTime = -1 },
	} {
		opts := options()
		spoil(&opts)
		if _, err := httpapi.New(opts); err == nil || !strings.Contains(err.Error(), strings.TrimPrefix(strings.Split(name, ",")[0], "no ")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// An address of 8192 bytes and 100 fields are read, one more is not.
func TestSizes(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		path   string
		fields int
		status int
	}{
		{"/livez?" + strings.Repeat("q", 8192-7), 0, 200},
		{"/livez?" + strings.Repeat("q", 8192-6), 0, 414},
		{"/" + strings.Repeat("q", 8192), 0, 414},
		{"/livez", 100, 200},
		{"/livez", 101, 431},
		{"/nowhere", 101, 431},
	} {
		var header []string
		for range tc.fields {
			header = append(header, "X-Q", "q")
		}
		if w := c.do(http.MethodGet, tc.path, "", header...); w.Code != tc.status {
			t.Errorf("%.20s, %d bytes, %d fields: status %d, want %d", tc.path, len(tc.path), tc.fields, w.Code, tc.status)
		}
	}
}
