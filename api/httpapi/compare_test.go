package httpapi_test

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
)

func (c *client) postCompare(body string, header ...string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/yardage/compare", body, append([]string{"Content-Type", "application/json"}, header...)...)
}

func compareJob(t testing.TB) string {
	t.Helper()
	body, err := os.ReadFile("../../testdata/jobs/wing-chair-cloths.json")
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}

// The three forms of one answer say the same.
func TestCompareForms(t *testing.T) {
	c := newClient(t, options())
	w := c.postCompare(compareJob(t))
	var whole gen.CompareAnswer
	if err := json.Unmarshal(w.Body.Bytes(), &whole); err != nil || w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	if len(whole.Cloths) != 7 || whole.RankedBy != gen.CompareRankCost || len(whole.Sensitivity) != 3*5 {
		t.Errorf("%d cloths by %s, %d tried", len(whole.Cloths), whole.RankedBy, len(whole.Sensitivity))
	}
	w = c.postCompare(compareJob(t), "Accept", "application/x-ndjson")
	lines := strings.Split(strings.TrimSuffix(w.Body.String(), "\n"), "\n")
	if w.Header().Get("Content-Type") != "application/x-ndjson" || len(lines) != 8 {
		t.Fatalf("%s with %d lines: %s", w.Header().Get("Content-Type"), len(lines), w.Body)
	}
	var end struct {
		Ranking     []int
		InputDigest string
	}
	if err := json.Unmarshal([]byte(lines[7]), &end); err != nil || end.InputDigest != whole.InputDigest {
		t.Errorf("last line %s", lines[7])
	}
	var ranked []int
	for _, one := range whole.Cloths {
		ranked = append(ranked, one.Cloth)
		want, err := json.Marshal(one)
		if err != nil || lines[one.Cloth] != string(want) {
			t.Errorf("line %d is\n%s, want\n%s", one.Cloth, lines[one.Cloth], want)
		}
	}
	if !slices.Equal(ranked, end.Ranking) {
		t.Errorf("ranking %v, want %v", end.Ranking, ranked)
	}
	w = c.postCompare(compareJob(t), "Accept", "image/svg+xml")
	for d := xml.NewDecoder(w.Body); ; {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

func TestBadCompares(t *testing.T) {
	const panels = `"panels":[{"id":"A","size":{"across":"30 cm","along":"30 cm"}}]`
	cloth := func(price string) string { return `{"cloth":{"width":"140 cm"}` + price + `}` }
	price := func(amount, currency, per string) string {
		return `,"price":{"amount":"` + amount + `","currency":"` + currency + `","per":"` + per + `"}`
	}
	c := newClient(t, options())
	for _, tc := range []struct{ name, body, want string }{
		{"nothing", `{}`, "#/cloths missing"},
		{"no cloth", `{"cloths":[],` + panels + `}`, "#/cloths too-few"},
		{"no width", `{"cloths":[{"cloth":{}}],` + panels + `}`, "#/cloths/0/cloth/width missing"},
		{"amount", `{"cloths":[` + cloth(price("-1", "GBP", "m")) + `],` + panels + `}`, "#/cloths/0/price/amount not-a-name"},
		{"power of ten", `{"cloths":[` + cloth(price("1e9", "GBP", "m")) + `],` + panels + `}`, "#/cloths/0/price/amount not-a-name"},
		{"currency", `{"cloths":[` + cloth(price("1", "QQQ", "m")) + `],` + panels + `}`, "#/cloths/0/price/currency not-one-of"},
		{"small letters", `{"cloths":[` + cloth(price("1", "gbp", "m")) + `],` + panels + `}`, "#/cloths/0/price/currency not-a-name"},
		{"per", `{"cloths":[` + cloth(price("1", "GBP", "ell")) + `],` + panels + `}`, "#/cloths/0/price/per not-one-of"},
		{"cost without price", `{"rankBy":"cost","cloths":[` + cloth("") + `],` + panels + `}`, "#/cloths/0/price missing"},
		{"two currencies", `{"rankBy":"cost","cloths":[` + cloth(price("1", "GBP", "m")) + `,` + cloth(price("1", "EUR", "m")) + `],` + panels + `}`, "#/cloths/1/price/currency not-allowed"},
		{"rank", `{"rankBy":"beauty","cloths":[` + cloth("") + `],` + panels + `}`, "#/rankBy not-one-of"},
		{"no panels", `{"cloths":[` + cloth("") + `],"panels":[]}`, "#/panels too-few"},
		{"width to try", `{"sensitivity":{"widths":["1 mm"]},"cloths":[` + cloth("") + `],` + panels + `}`, "#/sensitivity/widths/0 too-small"},
		{"too many", `{"cloths":[` + strings.Repeat(cloth("")+",", 50) + cloth("") + `],"panels":[{"id":"A","count":2000,"size":{"across":"1 cm","along":"1 cm"}}]}`, "#/cloths too-many"},
	} {
		c.t = t
		w := c.postCompare(tc.body)
		if w.Code != http.StatusUnprocessableEntity {
			t.Errorf("%s: status %d: %s", tc.name, w.Code, w.Body)
			continue
		}
		if got := faultsOf(t, w); len(got) == 0 || got[0] != tc.want {
			t.Errorf("%s: faults are %q, want %q", tc.name, got, tc.want)
		}
	}
}

// Whatever is asked, the answer is of the contract and never a failure.
func FuzzCompare(f *testing.F) {
	f.Add(`{"cloths":[{"cloth":{"width":"140 cm","pattern":{"lengthRepeat":"32 cm"}},"price":{"amount":"3.5","currency":"JPY","per":"yd"}}],"panels":[{"id":"A","size":{"across":"30 cm","along":"30 cm"},"match":{"how":"centred"},"turn":"quarter"}],"sensitivity":{"lengthRepeats":["5 mm"]}}`)
	f.Add(`{"cloths":[{"cloth":{"width":"140 cm"}},{"cloth":{"width":"54 in","oneWay":true},"price":{"amount":"35","currency":"GBP","per":"m"}}],"panels":[{"id":"A","size":{"across":"30 cm","along":"30 cm"}}],"effort":"quick"}`)
	f.Add(`{"cloths":[null,{"cloth":{"width":5}},{"price":{"amount":"-1"}}],"panels":[{}],"sensitivity":[],"effort":"slow"}`)
	opts := options()
	opts.SolveTime = 500 * time.Millisecond // what takes longer is dropped, and the next tried
	c := newClient(f, opts)
	f.Fuzz(func(t *testing.T, body string) {
		r := httptest.NewRequest(http.MethodPost, "/v1/yardage/compare", strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		in := &client{t: t, doc: c.doc, handler: c.handler}
		if w := in.send(r); w.Code >= 500 && w.Code != http.StatusServiceUnavailable {
			t.Errorf("status %d", w.Code)
		}
	})
}
