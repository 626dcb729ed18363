package httpapi_test

import (
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

func (c *client) postCuttingList(body string) *httptest.ResponseRecorder {
	c.t.Helper()
	return c.do(http.MethodPost, "/v1/cutting-list", body, "Content-Type", "application/json")
}

func TestFurnitureIsListed(t *testing.T) {
	c := newClient(t, options())
	w := c.do(http.MethodGet, "/v1/furniture", "")
	var got gen.Furniture
	if err := json.Unmarshal(w.Body.Bytes(), &got); err != nil || w.Code != http.StatusOK {
		t.Fatalf("status %d: %v", w.Code, err)
	}
	if len(got.Kinds) < 16 {
		t.Errorf("%d kinds", len(got.Kinds))
	}
	if w := c.do(http.MethodGet, "/v1/furniture", "", "If-None-Match", w.Header().Get("ETag")); w.Code != http.StatusNotModified {
		t.Errorf("status %d for what the client has", w.Code)
	}
}

// Each kind has a page of its own, as data and as a drawing.
func TestFurnitureOfEachKind(t *testing.T) {
	c := newClient(t, options())
	for _, k := range furniture.Kinds() {
		for _, media := range []string{"application/json", "image/svg+xml", "application/pdf"} {
			w := c.do(http.MethodGet, "/v1/furniture/"+k.ID, "", "Accept", media)
			if w.Code != http.StatusOK || w.Header().Get("Content-Type") != media || w.Body.Len() == 0 {
				t.Errorf("%s as %s: status %d, %s", k.ID, media, w.Code, w.Header().Get("Content-Type"))
			}
			if w := c.do(http.MethodGet, "/v1/furniture/"+k.ID, "", "Accept", media, "If-None-Match", w.Header().Get("ETag")); w.Code != http.StatusNotModified {
				t.Errorf("%s as %s: status %d for what the client has", k.ID, media, w.Code)
			}
		}
	}
	if w := c.do(http.MethodGet, "/v1/furniture/hammock", ""); w.Code != http.StatusNotFound {
		t.Errorf("status %d for a kind that is not there", w.Code)
	}
}

// A cutting list can be sent to /v1/yardage as it is.
func TestCuttingListGoesToYardage(t *testing.T) {
	body, err := os.ReadFile("../../testdata/jobs/wing-chair-measures.json")
	if err != nil {
		t.Fatal(err)
	}
	c := newClient(t, httpapi.DefaultOptions())
	w := c.postCuttingList(string(body))
	if w.Code != http.StatusOK {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	var request struct {
		Cloth json.RawMessage `json:"cloth"`
	}
	var answer struct {
		Covers []struct {
			Cover  string          `json:"cover"`
			Panels json.RawMessage `json:"panels"`
		} `json:"covers"`
	}
	if err := json.Unmarshal(body, &request); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || answer.Covers[0].Cover != "top" {
		t.Fatalf("%v: %s", err, w.Body)
	}
	w = c.post(`{"cloth":` + string(request.Cloth) + `,"panels":` + string(answer.Covers[0].Panels) + `,"effort":"quick"}`)
	if w.Code != http.StatusOK {
		t.Errorf("status %d: %s", w.Code, w.Body)
	}
}

// A panel comes back as it was sent.
func TestPanelsComeBackAsTheyWere(t *testing.T) {
	c := newClient(t, options())
	sent := `[{"allow":{"bottom":"20 mm","left":"5 mm","top":"10 mm"},"count":2,"id":"A","join":"halves","joinSeam":"12 mm","match":{"how":"anchor","motif":"heron","point":{"across":"100 mm","along":"200 mm"},"tolerance":"3 mm"},"name":"one","size":{"across":"300 mm","along":"400 mm"},"turn":"half"},` +
		`{"count":2,"id":"B","match":{"edge":"left","from":"A","how":"runs-on","offset":"7 mm"},"pair":"B","pairAs":"same","size":{"across":"300 mm","along":"400 mm"},"turn":"quarter"},` +
		`{"count":1,"id":"C","match":{"how":"across","point":{"across":"0 mm","along":"0 mm"}},"size":{"across":"300 mm","along":"400 mm"}},` +
		`{"count":1,"id":"D","match":{"how":"along"},"size":{"across":"300 mm","along":"400 mm"}}]`
	w := c.postCuttingList(`{"kind":"carver","drop":["SEAT","IB","OB","PAD"],"replace":` + sent + `}`)
	var answer struct {
		Covers []struct {
			Panels json.RawMessage `json:"panels"`
		} `json:"covers"`
	}
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || len(answer.Covers) != 1 {
		t.Fatalf("%v: %s", err, w.Body)
	}
	if got := string(answer.Covers[0].Panels); got != sent {
		t.Errorf("got\n%s\nwant\n%s", got, sent)
	}
}

// A list is cut in the workroom's way unless it is asked for otherwise, names its way,
// and takes nothing for an allowance.
func TestCuttingListsNameTheirWay(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct{ body, way, top string }{
		{`{"kind":"stuff-over-chair","options":{"back":"pad"}}`, "workroom", "80 mm"}, // an edge of 3 cm and a hold of 5
		{`{"kind":"stuff-over-chair","options":{"back":"pad"},"way":"close"}`, "close", "60 mm"},
		{`{"kind":"stuff-over-chair","options":{"back":"pad"},"allow":{"pull":"0 mm"}}`, "workroom", "30 mm"},
		{`{"kind":"stuff-over-chair","options":{"back":"pad"},"way":"close","allow":{"pull":"0 mm"}}`, "close", ""},
	} {
		c.t = t
		w := c.postCuttingList(tc.body)
		var ans gen.CuttingListAnswer
		if err := json.Unmarshal(w.Body.Bytes(), &ans); err != nil || w.Code != http.StatusOK || ans.Way == nil {
			t.Fatalf("%s: %d %s", tc.body, w.Code, w.Body)
		}
		for _, p := range ans.Covers[0].Panels {
			if p.Id != "IB" {
				continue
			}
			got, _ := json.Marshal(p.Allow)
			if holds := tc.top == "" && string(got) == "null" || tc.top != "" && strings.Contains(string(got), tc.top); !holds || string(*ans.Way) != tc.way {
				t.Errorf("%s: cut %s, the inside back with %s", tc.body, *ans.Way, got)
			}
		}
	}
}

func TestBadCuttingLists(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct{ name, body, want string }{
		{"nothing", `{}`, "#/kind missing"},
		{"unknown kind", `{"kind":"hammock"}`, "#/kind not-one-of"},
		{"kind with capitals", `{"kind":"Carver"}`, "#/kind not-a-name"},
		{"count", `{"kind":"carver","count":0}`, "#/count too-small"},
		{"bare number", `{"kind":"carver","measures":{"seat-width":54}}`, "#/measures/seat-width not-a-length"},
		{"no length", `{"kind":"carver","measures":{"seat-width":"wide"}}`, "#/measures/seat-width not-a-length"},
		{"too wide", `{"kind":"carver","measures":{"seat-width":"3 m"}}`, "#/measures/seat-width too-large"},
		{"unknown measure", `{"kind":"carver","measures":{"wing-width":"20 cm"}}`, "#/measures/wing-width unknown-field"},
		{"odd name", `{"kind":"carver","measures":{"~/":"20 cm"}}`, "#/measures/~0~1 unknown-field"},
		{"unknown option", `{"kind":"carver","options":{"wheels":"yes"}}`, "#/options/wheels unknown-field"},
		{"unknown choice", `{"kind":"carver","options":{"back":"glass"}}`, "#/options/back not-one-of"},
		{"choice of a wrong type", `{"kind":"carver","options":{"back":true}}`, "#/options/back wrong-type"},
		{"unknown way", `{"kind":"carver","way":"mean"}`, "#/way not-one-of"},
		{"huge allowance", `{"kind":"carver","allow":{"seam":"1 m"}}`, "#/allow/seam too-large"},
		{"narrow cloth", `{"kind":"banquette","cloth":{"width":"20 mm"}}`, "#/cloth/width wider-than-cloth"},
		{"nothing left", `{"kind":"drop-in-seat","drop":["SEAT"]}`, "#/drop too-few"},
		{"panel twice", `{"kind":"carver","replace":[{"id":"A","size":{"across":"9 cm","along":"9 cm"}},{"id":"A","size":{"across":"9 cm","along":"9 cm"}}]}`, "#/replace/1/id duplicate"},
		{"panel of nothing", `{"kind":"carver","replace":[{"id":"A","size":{"across":"0 cm","along":"9 cm"}}]}`, "#/replace/0/size/across too-small"},
		{"unknown field", `{"kind":"carver","wheels":4}`, "#/wheels unknown-field"},
	} {
		c.t = t
		w := c.postCuttingList(tc.body)
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
func FuzzCuttingList(f *testing.F) {
	f.Add(`{"kind":"wing-chair","count":2,"measures":{"back-width":"60 cm"},"options":{"skirt":"box"},"allow":{"tuck":"12 cm"}}`)
	f.Add(`{"kind":"corner-settee","cloth":{"width":"137 cm","pattern":{"lengthRepeat":"64 cm","widthRepeat":"68.5 cm","drop":"half"}}}`)
	f.Add(`{"kind":"carver","drop":["SEAT"],"replace":[{"id":"IB","size":{"across":"1 m","along":"1 m"},"match":{"how":"runs-on","from":"IB","edge":"top"}}]}`)
	c := newClient(f, options())
	f.Fuzz(func(t *testing.T, body string) {
		r := httptest.NewRequest(http.MethodPost, "/v1/cutting-list", strings.NewReader(body))
		r.Header.Set("Content-Type", "application/json")
		in := &client{t: t, doc: c.doc, handler: c.handler}
		if w := in.send(r); w.Code >= 500 {
			t.Errorf("status %d", w.Code)
		}
	})
}

// Each kind has a picture, and its size is that of a picture in a form.
func TestPictureOfEachKind(t *testing.T) {
	c := newClient(t, options())
	for _, k := range furniture.Kinds() {
		w := c.do(http.MethodGet, "/v1/furniture/"+k.ID+"/picture", "")
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != "image/svg+xml" || w.Body.Len() > 20000 {
			t.Errorf("%s: status %d, %s, %d bytes", k.ID, w.Code, w.Header().Get("Content-Type"), w.Body.Len())
		}
		if w := c.do(http.MethodGet, "/v1/furniture/"+k.ID+"/picture", "", "If-None-Match", w.Header().Get("ETag")); w.Code != http.StatusNotModified {
			t.Errorf("%s: status %d for what the client has", k.ID, w.Code)
		}
	}
	for _, path := range []string{"/v1/furniture/hammock/picture", "/v1/furniture//picture", "/v1/furniture/wing-chair/picture/x"} {
		if w := c.do(http.MethodGet, path, ""); w.Code != http.StatusNotFound {
			t.Errorf("%s: status %d", path, w.Code)
		}
	}
}

// The sheet of a cutting list as a drawing and on paper.
func TestCuttingListAsASheet(t *testing.T) {
	body, err := os.ReadFile("../../testdata/jobs/wing-chair-measures.json")
	if err != nil {
		t.Fatal(err)
	}
	c := newClient(t, options())
	for media, begins := range map[string]string{"image/svg+xml": "<svg ", "application/pdf": "%PDF-"} {
		w := c.do(http.MethodPost, "/v1/cutting-list", string(body), "Content-Type", "application/json", "Accept", media)
		if w.Code != http.StatusOK || w.Header().Get("Content-Type") != media || !strings.HasPrefix(w.Body.String(), begins) {
			t.Errorf("%s: status %d, %s", media, w.Code, w.Header().Get("Content-Type"))
		}
		if w.Header().Get("Vary") == "" || w.Header().Get("Cache-Control") != "no-store" {
			t.Errorf("%s: headers %v", media, w.Header())
		}
	}
}

// The layers of every kind are in the form in which the fire check takes them.
func TestStacksGoToTheFireCheck(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	for _, k := range furniture.Kinds() {
		var answer struct {
			Fire struct {
				Item, LooseCushions json.RawMessage
				Stacks              []struct {
					Where  string
					Layers json.RawMessage
				}
			}
		}
		w := c.postCuttingList(`{"kind":"` + k.ID + `"}`)
		if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil || len(answer.Fire.Stacks) == 0 {
			t.Fatalf("%s: %v: %s", k.ID, err, w.Body)
		}
		for _, s := range answer.Fire.Stacks {
			w := c.do(http.MethodPost, "/v1/fire-check", `{"asOf":"2026-11-25","place":"great-britain","item":`+string(answer.Fire.Item)+
				`,"looseCushions":`+string(answer.Fire.LooseCushions)+`,"layers":`+string(s.Layers)+`}`, "Content-Type", "application/json")
			if w.Code != http.StatusOK {
				t.Errorf("%s %s: status %d: %s", k.ID, s.Where, w.Code, w.Body)
			}
		}
	}
}

// The grid of every buttoned panel, at the least and the most that may be measured,
// can be sent to /v1/buttoning as it is.
func TestGridsGoToButtoning(t *testing.T) {
	c, sent := newClient(t, httpapi.DefaultOptions()), 0
	for _, k := range furniture.Kinds() {
		for _, extreme := range []func(furniture.Measure) length.Length{
			func(m furniture.Measure) length.Length { return m.Least },
			func(m furniture.Measure) length.Length { return m.Typical },
			func(m furniture.Measure) length.Length { return m.Most },
		} {
			p := furniture.Piece{Kind: k.ID, Count: 1, Measures: map[string]length.Length{}, Options: map[string]string{"back": "buttoned"}}
			measures := make(map[string]string)
			for _, m := range k.Measures {
				p.Measures[m.ID] = extreme(m)
				measures[m.ID] = extreme(m).String()
			}
			if l := p.Faults(fault.Path{}); l.Len() > 0 {
				continue // no back to be buttoned
			}
			given, err := json.Marshal(measures)
			if err != nil {
				t.Fatal(err)
			}
			var answer struct {
				Buttoned []struct {
					Grid          json.RawMessage
					Across, Along struct{ MM float64 }
				}
			}
			w := c.postCuttingList(`{"kind":"` + k.ID + `","options":{"back":"buttoned"},"measures":` + string(given) + `}`)
			if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
				t.Fatal(err)
			}
			for _, b := range answer.Buttoned {
				sent++
				body := fmt.Sprintf(`{"panel":{"size":{"across":"%v mm","along":"%v mm"}},"grid":%s,"depth":"20 mm","cloth":{"width":"140 cm"},"buttons":{"lines":28}}`, b.Across.MM, b.Along.MM, b.Grid)
				if w := c.do(http.MethodPost, "/v1/buttoning", body, "Content-Type", "application/json"); w.Code != http.StatusOK {
					t.Errorf("%s: status %d: %s", k.ID, w.Code, w.Body)
				}
			}
		}
	}
	if sent == 0 {
		t.Error("nothing is buttoned")
	}
}

// Panels go to another cloth where the caller says so, and the outside cloth has a
// pattern of its own.
func TestCuttingListMovesPanels(t *testing.T) {
	c := newClient(t, options())
	w := c.postCuttingList(`{"kind":"carver","options":{"outside":"other"},"covers":{"PAD":"outside","EXTRA":"lining"},` +
		`"replace":[{"id":"EXTRA","size":{"across":"20 cm","along":"20 cm"}}],` +
		`"outsideCloth":{"width":"140 cm","pattern":{"lengthRepeat":"32 cm"}}}`)
	var answer struct {
		Covers []struct {
			Cover  string
			Panels []struct {
				ID    string
				Match struct{ How string }
			}
		}
	}
	if err := json.Unmarshal(w.Body.Bytes(), &answer); err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, k := range answer.Covers {
		for _, p := range k.Panels {
			got = append(got, k.Cover+" "+p.ID+" "+p.Match.How)
		}
	}
	if text := strings.Join(got, ","); text != "top SEAT runs-on,top IB centred,outside OB along,outside PAD ,lining EXTRA " {
		t.Errorf("%s", text)
	}
}

func TestBadChangesOfCuttingLists(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct{ name, body, want string }{
		{"drops what is not there", `{"kind":"carver","drop":["SEAT","WINGS"]}`, "#/drop/1 unknown-panel"},
		{"drops what the options leave out", `{"kind":"carver","options":{"arm-pads":"no"},"drop":["PAD"]}`, "#/drop/0 unknown-panel"},
		{"moves what is not there", `{"kind":"carver","covers":{"WINGS":"lining"}}`, "#/covers/WINGS unknown-panel"},
		{"moves to no cover", `{"kind":"carver","covers":{"SEAT":"canvas"}}`, "#/covers/SEAT not-one-of"},
		{"outside cloth", `{"kind":"carver","outsideCloth":{"width":"9 mm"}}`, "#/outsideCloth/width too-small"},
		{"too narrow an outside cloth", `{"kind":"carver","options":{"outside":"other"},"replace":[{"id":"OB","size":{"across":"40 cm","along":"40 cm"}}],"outsideCloth":{"width":"20 cm"}}`, "#/replace/0/size/across wider-than-cloth"},
		{"more copies than are planned", `{"kind":"three-seat-settee","count":50,"options":{"back":"cushions","flies":"no","collars":"sewn","skirt":"tailored","arms":"square","wings":"yes"}}`, "#/count too-many"},
	} {
		w := c.postCuttingList(tc.body)
		var p struct {
			Errors []struct{ Pointer, Code string }
		}
		if err := json.Unmarshal(w.Body.Bytes(), &p); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, e := range p.Errors {
			got = append(got, e.Pointer+" "+e.Code)
		}
		if text := strings.Join(got, ", "); w.Code != http.StatusUnprocessableEntity || text != tc.want {
			t.Errorf("%s: status %d, %q, want %q", tc.name, w.Code, text, tc.want)
		}
	}
}
