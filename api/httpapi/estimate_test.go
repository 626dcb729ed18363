package httpapi_test

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
)

func (c *client) postEstimate(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/estimate", body, "Content-Type", "application/json")
}

func TestEstimates(t *testing.T) {
	c := newClient(t, options())
	for _, body := range []string{
		`{"kind":"drop-in-seat"}`,
		`{"kind":"three-seat-settee","size":"small","pattern":"plain","clothWidth":"54 in","units":"imperial","count":2}`,
		`{"kind":"club-chair","cloth":{"width":"140 cm","soldBy":"0.1 m","pattern":{"lengthRepeat":"32 cm"}},"tax":"20 %","price":{"low":"10","high":"10.5","currency":"JPY","per":"yd"}}`,
		`{"kind":"headboard","measures":{"back-width":"160 cm"},"labour":{"rate":"30","currency":"KWD"}}`,
	} {
		w := c.postEstimate(body)
		var got gen.EstimateAnswer
		if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != http.StatusOK {
			t.Errorf("%s: status %d: %s", body, w.Code, w.Body)
			continue
		}
		priced := strings.Contains(body, "currency")
		if got.Order.Low.Mm <= 0 || (got.Price != nil) != priced {
			t.Errorf("%s: %s", body, w.Body)
		}
	}
}

// Every note of an estimate is in every form of it: the answer by itself, as a page of
// text and as a line of many. Forms that the contract adds must be added here.
func TestEstimateNotesAreInEveryForm(t *testing.T) {
	c := newClient(t, options())
	content := c.doc.Paths.Value("/v1/estimate").Post.Responses.Value("200").Value.Content
	if len(content) != 2 || content["application/json"] == nil || content["text/plain"] == nil {
		t.Fatalf("forms that are not looked at: %v", content)
	}
	for body, codes := range map[string]string{
		`{"kind": "drop-in-seat"}`: "estimate-no-quotation estimate-without-fillings estimate-cloth-unpriced estimate-work-unpriced " +
			"estimate-measures-usual estimate-cloth-usual estimate-preset-hours",
		`{"kind": "wing-chair", "units": "imperial", "options": {"back": "buttoned", "piping": "all", "outside": "other"}, "price": {"low": "10", "high": "20", "currency": "GBP", "per": "m"}}`: "estimate-no-quotation estimate-without-lining estimate-without-second-cloth estimate-without-piping estimate-without-buttons " +
			"estimate-without-fillings estimate-work-unpriced estimate-without-tax estimate-measures-usual estimate-cloth-usual estimate-preset-hours",
		`{"kind": "headboard", "cloth": {"width": "140 cm"}, "measures": {"back-width": "140 cm"}, "price": {"low": "10", "high": "20", "currency": "GBP", "per": "m"}, "labour": {"rate": "30", "currency": "GBP"}, "tax": "20 %"}`: "estimate-no-quotation estimate-without-lining estimate-without-fillings estimate-measures-usual estimate-preset-hours",
	} {
		var alone struct{ Warnings, Cautions []jobNote }
		decode(t, c.postEstimate(body).Body.Bytes(), &alone)
		var got []string
		for _, n := range alone.Warnings {
			got = append(got, n.Code)
		}
		if strings.Join(got, " ") != codes {
			t.Errorf("%s:\n got %v\nwant %s", body, got, codes)
		}
		var line struct {
			Answer struct{ Warnings, Cautions []jobNote }
		}
		decode(t, c.do(http.MethodPost, "/v1/batch", `{"operation": "/v1/estimate", "request": `+body+"}\n", "Content-Type", "application/x-ndjson").Body.Bytes(), &line)
		if !reflect.DeepEqual(line.Answer, alone) {
			t.Errorf("%s: as a line %+v", body, line.Answer)
		}
		page := c.do(http.MethodPost, "/v1/estimate", body, "Content-Type", "application/json", "Accept", "text/plain").Body.String()
		text := strings.Join(strings.Fields(page), " ")
		for _, n := range slices.Concat(alone.Warnings, alone.Cautions) {
			if !strings.Contains(text, n.Text) {
				t.Errorf("%s: not in the text: %q", body, n.Text)
			}
		}
	}
}

func TestBadEstimates(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct{ name, body, want string }{
		{"nothing", `{}`, "#/kind missing"},
		{"unknown kind", `{"kind":"hammock"}`, "#/kind not-one-of"},
		{"size", `{"kind":"carver","size":"huge"}`, "#/size not-one-of"},
		{"pattern", `{"kind":"carver","pattern":"tartan"}`, "#/pattern not-one-of"},
		{"pattern and cloth", `{"kind":"carver","pattern":"plain","cloth":{"width":"140 cm"}}`, "#/pattern not-allowed"},
		{"width and cloth", `{"kind":"carver","clothWidth":"1 m","cloth":{"width":"140 cm"}}`, "#/clothWidth not-allowed"},
		{"width", `{"kind":"carver","clothWidth":"1 mm"}`, "#/clothWidth too-small"},
		{"narrow", `{"kind":"carver","clothWidth":"2 cm"}`, "#/clothWidth wider-than-cloth"},
		{"measure", `{"kind":"carver","measures":{"seat-width":"9 m"}}`, "#/measures/seat-width too-large"},
		{"band", `{"kind":"carver","price":{"low":"9","high":"8","currency":"GBP","per":"m"}}`, "#/price/high too-small"},
		{"currency", `{"kind":"carver","price":{"low":"9","high":"10","currency":"XYZ","per":"m"}}`, "#/price/currency not-one-of"},
		{"two currencies", `{"kind":"carver","price":{"low":"9","high":"10","currency":"GBP","per":"m"},"labour":{"rate":"3","currency":"EUR"}}`, "#/labour/currency not-allowed"},
		{"rate", `{"kind":"carver","labour":{"rate":"-3","currency":"EUR"}}`, "#/labour/rate not-a-name"},
		{"tax", `{"kind":"carver","tax":"60 %"}`, "#/tax too-large"},
		{"no share", `{"kind":"carver","tax":"a fifth"}`, "#/tax not-a-share"},
	} {
		c.t = t
		w := c.postEstimate(tc.body)
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d: %s", tc.name, w.Code, w.Body)
			continue
		}
		if got := faultsOf(t, w); len(got) != 1 || got[0] != tc.want {
			t.Errorf("%s: faults are %q, want %q", tc.name, got, tc.want)
		}
	}
}

// Whatever is asked, the answer is of the contract and never a failure.
func FuzzEstimate(f *testing.F) {
	f.Add(`{"kind":"wing-chair","size":"large","measures":{"back-width":"60 cm"},"pattern":"medium","price":{"low":"35.00","high":"60.00","currency":"GBP","per":"m"},"labour":{"rate":"34.00","currency":"GBP"},"tax":"20 %"}`)
	f.Add(`{"kind":"corner-settee","count":50,"cloth":{"width":"137 cm","pattern":{"lengthRepeat":"64 cm","widthRepeat":"68.5 cm","drop":"half"}}}`)
	opts := options()
	opts.SolveTime = 500 * time.Millisecond // what takes longer is dropped, and the next tried
	c := newClient(f, opts)
	f.Fuzz(func(t *testing.T, body string) {
		r := httptest.NewRequest(http.MethodPost, "/v1/estimate", strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		in := &client{t: t, doc: c.doc, handler: c.handler}
		if w := in.send(r); w.Code >= 500 && w.Code != http.StatusServiceUnavailable {
			t.Errorf("status %d", w.Code)
		}
	})
}
