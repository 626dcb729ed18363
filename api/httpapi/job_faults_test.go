package httpapi_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/furniture"
)

const jobStool = `{"pieces": [{"id": "STOOL", "kind": "footstool", "build": "modern", "options": {"piping": "all"}}],
	"cloths": [{"id": "A", "cloth": {"width": "140 cm", "soldBy": "0.1 m"}}]}`

// spoilt is a request with a part replaced.
func spoilt(t *testing.T, body, old, with string) string {
	t.Helper()
	if !strings.Contains(body, old) {
		t.Fatalf("%q is not in the request", old)
	}
	return strings.Replace(body, old, with, 1)
}

// What is wrong with the request by itself is a 422, with every fault where it
// stands.
func TestJobRequestFaults(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	end := `{"id": "END", "size": {"across": "50 cm", "along": "70 cm"}}`
	for _, tc := range []struct {
		name, old, with string
		want            []string
	}{
		{"no kind", `"kind": "footstool", "build": "modern", "options": {"piping": "all"}`, `"build": "keep"`, []string{"#/pieces/0/kind missing"}},
		{"no such kind", `"footstool"`, `"throne"`, []string{"#/pieces/0/kind not-one-of"}},
		{"no such option", `"all"`, `"some"`, []string{"#/pieces/0/options/piping not-one-of"}},
		{"measure", `"build": "modern"`, `"measures": {"seat-width": "9 m"}`, []string{"#/pieces/0/measures/seat-width too-large"}},
		{"no such cloth", `"build": "modern"`, `"cloths": {"top": "B", "piping": "C"}`, []string{"#/pieces/0/cloths/top unknown-cloth", "#/pieces/0/cloths/piping unknown-cloth"}},
		{"cloth twice", `"soldBy": "0.1 m"}}`, `"soldBy": "0.1 m"}}, {"id": "A", "cloth": {"width": "1 m"}}`, []string{"#/cloths/1/id duplicate"}},
		{"cloth's field", `"0.1 m"`, `"200 m"`, []string{"#/cloths/0/cloth/soldBy too-large"}},
		{"piece twice", `"options": {"piping": "all"}}`, `"options": {"piping": "all"}}, {"id": "STOOL", "kind": "headboard"}`, []string{"#/pieces/1/id duplicate"}},
		{"nothing left", `"build": "modern"`, `"drop": ["TOP", "FB", "BB", "SB"]`, []string{"#/pieces/0/drop too-few"}},
		{"replaced", `"build": "modern"`, `"replace": [{"id": "TOP", "size": {"across": "200 m", "along": "1 m"}, "match": {"how": "runs-on", "from": "X", "edge": "top"}}]`,
			[]string{"#/pieces/0/replace/0/size/across too-large"}},
		{"replaced twice", `"build": "modern"`, `"replace": [` + end + `, ` + end + `]`, []string{"#/pieces/0/replace/1/id duplicate"}},
		{"kind and written", `"build": "modern"`, `"written": [{"cover": "top", "panels": [` + end + `]}]`, []string{"#/pieces/0/kind not-allowed", "#/pieces/0/options not-allowed"}},
		{"written twice", `"kind": "footstool", "build": "modern", "options": {"piping": "all"}`, `"written": [{"cover": "top", "panels": [` + end + `,` + end + `]}, {"cover": "top", "panels": []}]`,
			[]string{"#/pieces/0/written/0/panels/1/id duplicate", "#/pieces/0/written/1/cover duplicate", "#/pieces/0/written/1/panels too-few"}},
		{"written, in pairs", `"kind": "footstool", "build": "modern", "options": {"piping": "all"}`,
			`"written": [{"cover": "lining", "panels": [{"id": "END", "pair": "END", "size": {"across": "50 cm", "along": "70 cm"}}]}]`,
			[]string{"#/pieces/0/written/0/panels/0/pair count-differs"}},
		{"run", `"build": "modern"`, `"runs": [{"length": "1 m", "radius": "0 mm"}]`, []string{"#/pieces/0/runs/0/radius too-small"}},
		{"buttoning", `"build": "modern"`, `"buttoning": {"depth": "2 m", "margins": {"side": "3 m"}, "grid": {"how": "counts", "rows": 3}}`,
			[]string{"#/pieces/0/buttoning/depth too-large", "#/pieces/0/buttoning/margins/side too-large", "#/pieces/0/buttoning/grid/columns missing"}},
		{"piping", `"cloths": [`, `"piping": {"cord": {"diameter": "1 m"}, "strip": {"cut": "along", "angle": 45}}, "cloths": [`,
			[]string{"#/piping/cord/diameter too-large", "#/piping/strip/angle not-allowed"}},
		{"foam", `"cloths": [`, `"foam": {"foams": [{"id": "F", "density": "35 kg/m3"}], "sheets": [{"id": "S", "foam": "G", "across": "1 m", "along": "2 m", "thickness": "5 cm"}], "seat": "H"}, "cloths": [`,
			[]string{"#/foam/sheets/0/foam unknown-foam", "#/foam/seat unknown-foam"}},
		{"foam that is not on sale", `"cloths": [`, `"foam": {"foams": [{"id": "F", "density": "35 kg/m3"}, {"id": "G", "density": "25 kg/m3"}], "sheets": [{"id": "S", "foam": "G", "across": "1 m", "along": "2 m", "thickness": "5 cm"}], "seat": "F"}, "cloths": [`,
			[]string{"#/foam/seat not-allowed", "#/foam/back not-allowed", "#/foam/arm not-allowed"}},
		{"settings", `"cloths": [`, `"wadding": {"settings": [{"name": "sheet-step"}]}, "foundation": {"settings": [{"name": "web-width", "length": "5 m"}]}, "cloths": [`,
			[]string{"#/wadding/settings/0 missing", "#/foundation/settings/0/length too-large"}},
		{"fire", `"cloths": [`, `"fire": {"asOf": "1990-01-01", "place": "great-britain", "papers": [{"kind": "report", "layer": "A"}]}, "cloths": [`,
			[]string{"#/fire/asOf too-small", "#/fire/papers/0/test missing"}},
		{"prices without terms", `"cloths": [`, `"prices": [{"article": "cloth/A", "amount": "1", "per": "m"}], "cloths": [`, []string{"#/terms missing"}},
		{"terms", `"cloths": [`, `"terms": {"currency": "GBP", "materialsTax": "VAT"}, "days": {"perDay": "30"}, "cloths": [`,
			[]string{"#/terms/materialsTax not-one-of", "#/days/perDay too-large"}},
		{"too many", `"kind"`, `"count": 40, "kind"`, nil},
		{"long ids", `"options": {"piping": "all"}}`, `"options": {"piping": "all"}, "replace": [{"id": "A-PANEL-WITH-A-VERY-LONG-NAME-1", "size": {"across": "1 m", "along": "1 m"}}]}, {"id": "B", "kind": "headboard"}`,
			[]string{"#/pieces/0/replace/0/id not-a-name"}},
	} {
		t.Run(tc.name, func(t *testing.T) {
			w := c.postJob(spoilt(t, jobStool, tc.old, tc.with))
			if tc.want == nil {
				if w.Code != 200 {
					t.Errorf("status %d: %.300s", w.Code, w.Body)
				}
				return
			}
			got := faultsOf(t, w)
			slices.Sort(got)
			slices.Sort(tc.want)
			if w.Code != 422 || !slices.Equal(got, tc.want) {
				t.Errorf("status %d, %q, want %q", w.Code, got, tc.want)
			}
		})
	}
}

type jobAnswer struct {
	Cloths []struct {
		Cloth string
		Plan  *struct{ Order struct{ Mm float64 } }
		Fault *partFault
	}
	Piping []struct {
		Piping *struct{ Keeps bool }
		Fault  *partFault
	}
	Buttoning []struct {
		Chart *struct{ Cut any }
		Fault *partFault
	}
	Foam, Wadding *struct{ Fault *partFault }
	Foundation    []struct{ Fault *partFault }
	Fire          []struct{ Fault *partFault }
	OrderList     *struct {
		Lines   []struct{ Article string }
		Without []string
	}
}

type partFault struct {
	Count  int
	Errors []struct{ Pointer, Code string }
}

func (f *partFault) String() string {
	if f == nil {
		return ""
	}
	var all []string
	for _, e := range f.Errors {
		all = append(all, e.Pointer+" "+e.Code)
	}
	return strings.Join(all, ", ")
}

// A part that cannot be worked out says why, with pointers into the request, and
// does not keep the others from their answers.
func TestJobPartFaults(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	wide := `{"id": "WIDE", "size": {"across": "3 m", "along": "1 m"}}`
	for _, tc := range []struct {
		name, old, with string
		at              func(a *jobAnswer) *partFault
		want            string
	}{
		{"written panel", `"options": {"piping": "all"}}`, `"options": {"piping": "all"}}, {"id": "B", "written": [{"cover": "top", "panels": [` + wide + `]}]}`,
			func(a *jobAnswer) *partFault { return a.Cloths[0].Fault }, "#/pieces/1/written/0/panels/0/size/across wider-than-cloth"},
		{"replaced panel", `"build": "modern"`, `"build": "modern", "replace": [` + strings.Replace(wide, `"WIDE"`, `"FB"`, 1) + `]`,
			func(a *jobAnswer) *partFault { return a.Cloths[0].Fault }, "#/pieces/0/replace/0/size/across wider-than-cloth"},
		{"narrow cloth", `"140 cm"`, `"2 cm"`, func(a *jobAnswer) *partFault { return a.Cloths[0].Fault }, ""},
		{"chart", `"piping": "all"}`, `"back": "buttoned"}, "buttoning": {"margins": {"side": "40 cm"}}`,
			func(a *jobAnswer) *partFault { return a.Buttoning[0].Fault }, "#/pieces/0/buttoning/grid no-place"},
		{"its plan", `"piping": "all"}`, `"back": "buttoned"}, "buttoning": {"margins": {"side": "40 cm"}}`,
			func(a *jobAnswer) *partFault { return a.Cloths[0].Fault }, "#/pieces/0/buttoning/grid no-place"},
		{"motif of the chart", `"piping": "all"}`, `"back": "buttoned"}, "motif": "heron"`, func(a *jobAnswer) *partFault { return a.Cloths[0].Fault }, ""},
		{"foam", `"cloths": [`, `"foam": {"foams": [{"id": "F", "density": "35 kg/m3"}], "sheets": [{"id": "S", "foam": "F", "across": "20 cm", "along": "20 cm", "thickness": "5 cm"}], "seat": "F"}, "cloths": [`,
			func(a *jobAnswer) *partFault { return a.Foam.Fault }, "#/pieces/0 too-large"},
		{"wadding", `"cloths": [`, `"wadding": {"settings": [{"name": "polyester-roll", "length": "50 cm"}, {"name": "polyester-width", "length": "10 cm"}]}, "cloths": [`,
			func(a *jobAnswer) *partFault { return a.Wadding.Fault }, "#/pieces/0 longer-than-bolt"},
		{"foundation", `"cloths": [`, `"foundation": {"settings": [{"name": "elastic-width", "length": "20 mm"}, {"name": "elastic-gap", "length": "0 mm"}]}, "cloths": [`,
			func(a *jobAnswer) *partFault { return nil }, ""},
		{"fire", `"cloths": [`, `"fire": {"asOf": "2026-11-25", "place": "great-britain", "papers": [{"kind": "treatment-record", "layer": "X"}]}, "cloths": [`,
			func(a *jobAnswer) *partFault { return a.Fire[0].Fault }, "#/fire/papers/0/layer unknown-layer"},
	} {
		t.Run(tc.name, func(t *testing.T) {
			w := c.postJob(spoilt(t, jobStool, tc.old, tc.with))
			if w.Code != 200 {
				t.Fatalf("status %d: %.400s", w.Code, w.Body)
			}
			var a jobAnswer
			decode(t, w.Body.Bytes(), &a)
			if got := tc.at(&a).String(); tc.want != "" && got != tc.want {
				t.Errorf("%q, want %q", got, tc.want)
			}
			if tc.want != "" && len(a.OrderList.Without) == 0 {
				t.Error("the order list does not say what it lacks")
			}
			if tc.want != "" && (a.Wadding == nil || a.Wadding.Fault == nil) && !slices.ContainsFunc(a.OrderList.Lines, func(l struct{ Article string }) bool {
				return strings.HasPrefix(l.Article, "wadding/")
			}) {
				t.Error("the wadding is not ordered")
			}
		})
	}
}

// When nothing that was asked for can be answered, the whole is refused with the
// faults of all.
func TestJobNothingAnswered(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	w := c.postJob(`{"pieces": [{"id": "A", "written": [{"cover": "top", "panels": [{"id": "X", "size": {"across": "3 m", "along": "1 m"}}]}]}],
		"cloths": [{"id": "C", "cloth": {"width": "1 m"}}],
		"sections": {"cuttingLists": false, "orderList": false, "dayPlan": false, "cost": false}}`)
	if got := faultsOf(t, w); w.Code != 422 || !slices.Equal(got, []string{"#/pieces/0/written/0/panels/0/size/across wider-than-cloth"}) {
		t.Errorf("status %d, %q", w.Code, got)
	}
	w = c.postJob(`{"pieces": [{"id": "A", "kind": "footstool", "build": "keep", "options": {"back": "buttoned"}, "buttoning": {"margins": {"side": "40 cm"}}}],
		"cloths": [{"id": "C", "cloth": {"width": "1 m"}}], "sections": {"cuttingLists": false, "wadding": false}}`)
	if got := faultsOf(t, w); w.Code != 422 || !slices.Equal(got, []string{"#/pieces/0/buttoning/grid no-place"}) {
		t.Errorf("status %d, %q", w.Code, got)
	}
}

// What is too much is refused at once; the most that is taken is answered within
// the server's time.
func TestJobLimits(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	pieces := func(n, count int, kind string) string {
		var all []string
		for i := range n {
			all = append(all, fmt.Sprintf(`{"id": "P%d", "kind": %q, "count": %d}`, i, kind, count))
		}
		return `{"effort": "quick", "pieces": [` + strings.Join(all, ",") + `], "cloths": [{"id": "A", "cloth": {"width": "140 cm", "oneWay": true,
			"pattern": {"lengthRepeat": "64 cm", "widthRepeat": "70 cm", "drop": "half"}}}]}`
	}
	for _, tc := range []struct {
		name, body string
		want       []string
	}{
		{"50 pieces of 50", pieces(50, 50, "wing-chair"), nil},
		{"20 pieces of 40", pieces(20, 40, "wing-chair"), []string{"#/pieces too-many"}},
		{"20 pieces of 3", pieces(20, 3, "corner-settee"), []string{"#/pieces too-many"}},
	} {
		begun := time.Now()
		w := c.postJob(tc.body)
		if got := faultsOf(t, w); w.Code != 422 || tc.want != nil && !slices.Equal(got, tc.want) {
			t.Errorf("%s: status %d, %q", tc.name, w.Code, got)
		}
		if took := time.Since(begun); took > 5*time.Second {
			t.Errorf("%s: refused after %v", tc.name, took)
		}
	}
	if testing.Short() {
		return
	}
	if w := c.postJob(pieces(1, 40, "corner-settee")); w.Code != 200 {
		t.Errorf("40 corner settees: status %d: %.300s", w.Code, w.Body)
	}
}

// Every kind with every choice of style is a job of which all parts are answered.
func TestJobOfEveryKind(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	n := 0
	for _, k := range furniture.Kinds() {
		pieces := []map[string]any{{"id": "P", "kind": k.ID, "build": "modern"}}
		for _, o := range k.Options {
			for _, choice := range o.Choices[1:] {
				pieces = append(pieces, map[string]any{"id": "P", "kind": k.ID, "options": map[string]string{o.ID: choice.ID}})
			}
		}
		for i, p := range pieces {
			if testing.Short() && i%3 != 0 {
				continue
			}
			body, err := json.Marshal(map[string]any{
				"effort": "quick", "pieces": []any{p},
				"cloths": []any{map[string]any{"id": "A", "cloth": map[string]any{"width": "140 cm", "oneWay": i%2 == 0,
					"pattern": map[string]any{"lengthRepeat": "32 cm", "widthRepeat": "28 cm", "motifs": []any{map[string]any{"name": "crossing", "across": "14 cm"}}}}}},
				"fire": map[string]any{"asOf": "2026-11-25", "place": "great-britain"},
			})
			if err != nil {
				t.Fatal(err)
			}
			w := c.postJob(string(body))
			n++
			if w.Code != 200 || strings.Contains(w.Body.String(), `"fault":`) {
				at := strings.Index(w.Body.String(), `"fault":`)
				t.Errorf("%s: status %d: %.400s", body, w.Code, w.Body.String()[max(at, 0):])
			}
		}
	}
	t.Logf("%d jobs", n)
}

// The budget of a job is shared out by how much is cut from each cloth.
func TestJobEffortIsShared(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	var cloths, pieces []string
	for i := range 8 {
		cloths = append(cloths, fmt.Sprintf(`{"id": "C%d", "cloth": {"width": "140 cm"}}`, i))
		pieces = append(pieces, fmt.Sprintf(`{"id": "P%d", "cloths": {"top": "C%d"}, "written": [{"cover": "top", "panels": [{"id": "A", "size": {"across": "1 m", "along": "%d cm"}}]}]}`, i, i, 20+10*i))
	}
	w := c.postJob(`{"effort": "thorough", "pieces": [` + strings.Join(pieces, ",") + `], "cloths": [` + strings.Join(cloths, ",") + `]}`)
	var a struct {
		Cloths []struct{ Cloth, Effort string }
	}
	decode(t, w.Body.Bytes(), &a)
	var got []string
	for _, one := range a.Cloths {
		got = append(got, one.Cloth+" "+one.Effort)
	}
	want := []string{"C0 glance", "C1 glance", "C2 quick", "C3 quick", "C4 quick", "C5 quick", "C6 thorough", "C7 thorough"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// With pieces of the cloth in hand only what is short is bought, and piping is cut
// from new cloth, since the offcuts are not known yet.
func TestJobWithPiecesInHand(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	short := spoilt(t, jobStool, `"soldBy": "0.1 m"}}`, `"soldBy": "0.1 m"}, "pieces": ["20 cm"]}`)
	plenty := spoilt(t, jobStool, `"soldBy": "0.1 m"}}`, `"soldBy": "0.1 m"}, "pieces": ["5 m"]}`)
	orders := make(map[string]float64)
	for name, body := range map[string]string{"none": jobStool, "short": short, "plenty": plenty} {
		var a struct {
			Cloths []struct {
				Order, ForPanels, ForPiping struct{ Mm float64 }
				Why                         struct{ Code, Text string }
			}
			Piping []struct{ Piping struct{ Way string } }
		}
		decode(t, c.postJob(body).Body.Bytes(), &a)
		orders[name] = a.Cloths[0].Order.Mm
		if name == "plenty" && (a.Cloths[0].ForPanels.Mm != 0 || !strings.Contains(a.Cloths[0].Why.Text, "pieces in hand")) {
			t.Errorf("with plenty in hand: %+v", a.Cloths[0])
		}
		if name != "none" && (a.Cloths[0].ForPiping.Mm == 0 || a.Piping[0].Piping.Way == "offcuts") {
			t.Errorf("%s: piping out of offcuts that are not known", name)
		}
	}
	if orders["plenty"] >= orders["none"] || orders["short"] < orders["plenty"] {
		t.Errorf("orders %v", orders)
	}
}
