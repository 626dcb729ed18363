package httpapi_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"
)

// badRequest is one thing to spoil in the sound request, and what must be said
// of it.
type badRequest struct {
	name     string
	from, to string   // from "" replaces the whole request
	want     []string // pointer and code
}

// Every field, wrong in every way that it can be.
func TestBadRequests(t *testing.T) {
	c := newClient(t, options())
	cases := append(append(append(wrongValues(), wrongShapes()...), wrongLinks()...), wrongOnCloth()...)
	if len(cases) < 60 {
		t.Fatalf("only %d cases", len(cases))
	}
	for _, tc := range cases {
		t.Run(tc.name, func(t *testing.T) {
			c.t = t
			body := tc.to
			if tc.from != "" {
				body = spoil(t, tc.from, tc.to)
			}
			begun := time.Now()
			w := c.post(body)
			if took := time.Since(begun); took > time.Second {
				t.Errorf("took %v", took)
			}
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

func one(fault string) []string { return []string{fault} }

func wrongValues() []badRequest {
	width := func(name, value, code string) badRequest {
		return badRequest{"width " + name, `"width": "137 cm"`, `"width": ` + value, one("#/cloth/width " + code)}
	}
	share := func(name, value, code string) badRequest {
		return badRequest{"share " + name, `"2 %"`, value, one("#/cloth/flawAllowance " + code)}
	}
	drop := func(name, value, code string) badRequest {
		return badRequest{"drop " + name, `"half"`, value, one("#/cloth/pattern/drop " + code)}
	}
	return []badRequest{
		width("in stone", `"13 stone"`, "not-a-length"),
		width("bare number", `137`, "not-a-length"),
		width("bare number in quotes", `"137"`, "not-a-length"),
		width("decimal number", `137.5`, "not-a-length"),
		width("1e400", `1e400`, "not-a-length"),
		width("1e-400", `1e-400`, "not-a-length"),
		width("empty", `""`, "not-a-length"),
		width("unit only", `"cm"`, "not-a-length"),
		width("comma", `"1,37 m"`, "not-a-length"),
		width("exponent", `"1e3 mm"`, "not-a-length"),
		width("NaN in quotes", `"NaN cm"`, "not-a-length"),
		width("Infinity in quotes", `"Infinity cm"`, "not-a-length"),
		width("mixed systems", `"1 m 2 in"`, "not-a-length"),
		width("third of an inch", `"1/3 in"`, "not-a-length"),
		width("65 characters", `"`+strings.Repeat("1", 62)+` cm"`, "not-a-length"),
		width("0 mm", `"0 mm"`, "too-small"),
		width("negative", `"-5 cm"`, "too-small"),
		width("9 mm", `"9 mm"`, "too-small"),
		width("10.001 m", `"10.001 m"`, "too-large"),
		width("1000 km", `"1000000 m"`, "too-large"),
		width("1,000 km", `"1,000 km"`, "not-a-length"),
		width("out of range", `"99999999999999999 m"`, "too-large"),
		width("out of range below", `"-99999999999999999 m"`, "too-small"),
		width("null", `null`, "wrong-type"),
		width("list", `["137 cm"]`, "wrong-type"),
		width("object", `{"cm":137}`, "wrong-type"),
		width("true", `true`, "wrong-type"),
		share("without sign", `"2"`, "not-a-share"),
		share("bare", `2`, "not-a-share"),
		share("of 5 decimals", `"0.00001 %"`, "not-a-share"),
		share("two spaces", `"2  %"`, "not-a-share"),
		share("60", `"60 %"`, "too-large"),
		share("negative", `"-1 %"`, "too-small"),
		drop("word", `"third"`, "not-a-fraction"),
		drop("whole", `"3/3"`, "not-a-fraction"),
		drop("thirteenth", `"1/13"`, "not-a-fraction"),
		drop("zero", `"0/3"`, "not-a-fraction"),
		drop("decimal", `0.5`, "not-a-fraction"),
		{"1 nm repeat", `"lengthRepeat": "64 cm"`, `"lengthRepeat": "0.000001 mm"`, one("#/cloth/pattern/lengthRepeat too-small")},
		{"zero repeat", `"lengthRepeat": "64 cm"`, `"lengthRepeat": "0 cm"`, one("#/cloth/pattern/lengthRepeat too-small")},
		{"zero step", `"soldBy": "0.1 m"`, `"soldBy": "0 m"`, one("#/cloth/soldBy too-small")},
		{"long minimum", `"minimum": "1 m"`, `"minimum": "1001 m"`, one("#/cloth/minimum too-large")},
		{"tiny bolt", `"boltLength": "50 m"`, `"boltLength": "9 cm"`, one("#/cloth/boltLength too-small")},
		{"tiny piece", `["5.5 m"]`, `["5.5 m", "9 mm"]`, one("#/pieces/1 too-small")},
		{"piece of no unit", `["5.5 m"]`, `[5.5, "9 mm"]`, []string{"#/pieces/0 not-a-length", "#/pieces/1 too-small"}},
		{"size of 0", `"size": {"across": "62 cm"`, `"size": {"across": "0 cm"`, one("#/panels/0/size/across too-small")},
		{"size of 101 m", `"along": "15 cm"`, `"along": "101 m"`, one("#/panels/3/size/along too-large")},
		{"allowance by side", `"top": "6 cm"`, `"top": "2.1 m"`, one("#/panels/0/allow/top too-large")},
		{"unit word", `"units": "metric"`, `"units": "furlongs"`, one("#/units not-one-of")},
		{"unit case", `"units": "metric"`, `"units": "Metric"`, one("#/units not-one-of")},
		{"effort number", `"effort": "normal"`, `"effort": 5`, one("#/effort wrong-type")},
		{"one way in quotes", `"oneWay": true`, `"oneWay": "true"`, one("#/cloth/oneWay wrong-type")},
		{"count 0", `"count": 1, "size": {"across": "62 cm"`, `"count": 0, "size": {"across": "62 cm"`, []string{
			"#/panels/0/count too-small"}},
		{"count 1.0", `"id": "OA", "count": 2`, `"id": "OA", "count": 2.0`, one("#/panels/2/count wrong-type")},
		{"count 2e0", `"id": "OA", "count": 2`, `"id": "OA", "count": 2e0`, one("#/panels/2/count wrong-type")},
		{"count in quotes", `"id": "OA", "count": 2`, `"id": "OA", "count": "2"`, one("#/panels/2/count wrong-type")},
		{"count beyond integers", `"id": "OA", "count": 2`, `"id": "OA", "count": 99999999999999999999`, one("#/panels/2/count too-large")},
		{"count far below", `"id": "OA", "count": 2`, `"id": "OA", "count": -99999999999999999999`, one("#/panels/2/count too-small")},
		{"count -0", `"id": "OA", "count": 2`, `"id": "OA", "count": -0`, one("#/panels/2/count too-small")},
		{"count 2^53+1", `"id": "OA", "count": 2`, `"id": "OA", "count": 9007199254740993`, one("#/panels/2/count too-large")},
		{"count 1e-400", `"id": "OA", "count": 2`, `"id": "OA", "count": 1e-400`, one("#/panels/2/count wrong-type")},
		{"count of 400 digits", `"id": "OA", "count": 2`, `"id": "OA", "count": ` + strings.Repeat("9", 400), one("#/panels/2/count too-large")},
		{"id with a space", `"id": "OA"`, `"id": "O A"`, one("#/panels/2/id not-a-name")},
		{"id empty", `"id": "OA"`, `"id": ""`, one("#/panels/2/id not-a-name")},
		{"name with a control character", `"inside back"`, `"inside\u0000back"`, one("#/panels/0/name not-a-name")},
		{"name that turns the text", `"inside back"`, `"inside\u202eback"`, one("#/panels/0/name not-a-name")},
		{"name of 81", `"inside back"`, `"` + strings.Repeat("é", 81) + `"`, one("#/panels/0/name not-a-name")},
		{"name blank", `"inside back"`, `"  "`, one("#/panels/0/name not-a-name")},
	}
}

func wrongShapes() []badRequest {
	return []badRequest{
		{"null", "", `null`, one("# wrong-type")},
		{"list", "", `[]`, one("# wrong-type")},
		{"string", "", `"yardage"`, one("# wrong-type")},
		{"number", "", `7`, one("# wrong-type")},
		{"nothing", "", `{}`, []string{"#/cloth missing", "#/panels missing"}},
		{"null fields", "", `{"cloth":null,"panels":null,"units":null,"pieces":null,"effort":null}`, []string{
			"#/cloth wrong-type", "#/panels wrong-type", "#/units wrong-type", "#/pieces wrong-type", "#/effort wrong-type"}},
		{"lists for objects", "", `{"cloth":[],"panels":{}}`, []string{"#/cloth wrong-type", "#/panels wrong-type"}},
		{"no panels", "", `{"cloth":{"width":"1 m"},"panels":[]}`, one("#/panels too-few")},
		{"panels of the wrong kind", "", `{"cloth":{"width":"1 m"},"panels":[null,5,"x",[]]}`, []string{
			"#/panels/0 wrong-type", "#/panels/1 wrong-type", "#/panels/2 wrong-type", "#/panels/3 wrong-type"}},
		{"unknown field", `"oneWay": true`, `"nap": true`, one("#/cloth/nap unknown-field")},
		{"field in another case", `"width": "137 cm"`, `"width": "137 cm", "Width": "9 cm"`, one("#/cloth/Width unknown-field")},
		{"required field in another case", `"width": "137 cm"`, `"WIDTH": "137 cm"`, []string{
			"#/cloth/WIDTH unknown-field", "#/cloth/width missing"}},
		{"field with a slash and a tilde", `"oneWay": true`, `"a/b~c d": true`, one("#/cloth/a~1b~0c%20d unknown-field")},
		{"field of 65 letters", `"oneWay": true`, `"` + strings.Repeat("k", 65) + `": true`, one("#/cloth unknown-field")},
		{"unknown field of a panel", `"id": "OA"`, `"id": "OA", "grain": "up"`, one("#/panels/2/grain unknown-field")},
		{"missing id", `"id": "OA", `, ``, one("#/panels/2/id missing")},
		{"missing size", `"size": {"across": "50 cm", "along": "40 cm"}, `, ``, one("#/panels/2/size missing")},
		{"missing how", `"match": {"how": "across"}`, `"match": {}`, one("#/panels/2/match/how missing")},
		{"unknown how", `"match": {"how": "across"}`, `"match": {"how": "diagonal", "from": "IB"}`, one("#/panels/2/match/how not-one-of")},
		{"allow null", `"id": "OA"`, `"id": "OA", "allow": null`, one("#/panels/2/allow wrong-type")},
		{"allow true", `"id": "OA"`, `"id": "OA", "allow": true`, one("#/panels/2/allow wrong-type")},
		{"allow list", `"id": "OA"`, `"id": "OA", "allow": ["1 cm"]`, one("#/panels/2/allow wrong-type")},
		{"allow bare", `"id": "OA"`, `"id": "OA", "allow": 5`, one("#/panels/2/allow not-a-length")},
		{"allow of no unit", `"id": "OA"`, `"id": "OA", "allow": "5"`, one("#/panels/2/allow not-a-length")},
		{"allow too much", `"id": "OA"`, `"id": "OA", "allow": "3 m"`, one("#/panels/2/allow too-large")},
		{"allow by unknown side", `"top": "6 cm"`, `"front": "6 cm"`, one("#/panels/0/allow/front unknown-field")},
		{"allow by side of no unit", `"top": "6 cm"`, `"top": 6`, one("#/panels/0/allow/top not-a-length")},
		{"21 pieces", `["5.5 m"]`, `[` + strings.Repeat(`"1 m",`, 20) + `"1 m"]`, one("#/pieces too-many")},
		{"17 motifs", `"motifs": [`, `"motifs": [` + strings.Repeat(`{"name":"m"},`, 15), one("#/cloth/pattern/motifs too-many")},
		{"motif without a name", `{"name": "sedge", `, `{`, one("#/cloth/pattern/motifs/1/name missing")},
	}
}

func wrongLinks() []badRequest {
	free := `"match": {"how": "free"}`
	seat := `{"how": "runs-on", "from": "IB", "edge": "bottom"}`
	return []badRequest{
		{"id twice", `"id": "OA"`, `"id": "IB"`, one("#/panels/2/id duplicate")},
		{"unknown motif", `"motif": "heron"`, `"motif": "crane"`, one("#/panels/0/match/motif unknown-motif")},
		{"motif in another case", `"motif": "heron"`, `"motif": "Heron"`, one("#/panels/0/match/motif unknown-motif")},
		{"runs on from nowhere", `"from": "IB"`, `"from": "IC"`, one("#/panels/1/match/from unknown-panel")},
		{"runs on from itself", `"from": "IB"`, `"from": "SEAT"`, one("#/panels/1/match/from loop")},
		{"loop of 2", `{"how": "centred", "motif": "heron"}`, `{"how": "runs-on", "from": "SEAT", "edge": "top"}`, one("#/panels/0/match/from loop")},
		{"runs on without edge", `"edge": "bottom"`, `"offset": "1 cm"`, one("#/panels/1/match/edge missing")},
		{"runs on without from", `"from": "IB", `, ``, one("#/panels/1/match/from missing")},
		{"runs on with a motif", seat, `{"how": "runs-on", "from": "IB", "edge": "top", "motif": "heron"}`, one("#/panels/1/match/motif not-allowed")},
		{"unlike counts", `"id": "SEAT", "count": 1`, `"id": "SEAT", "count": 2`, one("#/panels/1/match/from count-differs")},
		{"anchor without point", free, `"match": {"how": "anchor"}`, []string{
			"#/panels/3/match/point missing", "#/panels/3/turn not-allowed"}},
		{"anchor outside", seat, `{"how": "anchor", "point": {"across": "61 cm", "along": "-1 cm"}}`, []string{
			"#/panels/1/match/point/across too-large", "#/panels/1/match/point/along too-small"}},
		{"across outside", `{"how": "centred", "motif": "heron"}`, `{"how": "across", "point": {"across": "-1 cm", "along": "0 cm"}}`, one("#/panels/0/match/point/across too-small")},
		{"half a point", seat, `{"how": "anchor", "point": {"across": "1 cm"}}`, one("#/panels/1/match/point/along missing")},
		{"point at the corner on centred", `"motif": "heron"`, `"point": {"across": "0 cm", "along": "0 cm"}`, one("#/panels/0/match/point not-allowed")},
		{"strays under free", free, `"match": {"how": "free", "edge": "top", "offset": "0 cm", "from": "IB", "motif": "heron", "tolerance": "1 mm"}`, []string{
			"#/panels/3/match/edge not-allowed", "#/panels/3/match/offset not-allowed", "#/panels/3/match/from not-allowed",
			"#/panels/3/match/motif not-allowed", "#/panels/3/match/tolerance not-allowed"}},
		{"tolerance over a tenth", `"motif": "heron"`, `"motif": "heron", "tolerance": "6.5 cm"`, one("#/panels/0/match/tolerance too-large")},
		{"pair with nobody", `"id": "OA"`, `"id": "OA", "pair": "OB"`, one("#/panels/2/pair unknown-panel")},
		{"odd pair of its own", `"id": "OA", "count": 2`, `"id": "OA", "pair": "OA", "count": 3`, one("#/panels/2/pair count-differs")},
		{"pair and runs-on", `"id": "SEAT"`, `"id": "SEAT", "pair": "IB"`, one("#/panels/1/pair not-allowed")},
		{"pairAs without pair", `"id": "OA"`, `"id": "OA", "pairAs": "same"`, one("#/panels/2/pairAs not-allowed")},
		{"2001 copies", `"id": "OA", "count": 2`, `"id": "OA", "count": 1997`, one("#/panels too-many")},
		{"10001 copies", `"id": "OA", "count": 2`, `"id": "OA", "count": 10001`, one("#/panels/2/count too-large")},
		{"501 panels", "", `{"cloth":{"width":"1 m"},"panels":[` + panels(501) + `]}`, one("#/panels too-many")},
		{"loop of 3", "", `{"cloth":{"width":"1 m"},"panels":[` + onto("A", "B") + `,` + onto("B", "C") + `,` + onto("C", "A") + `]}`, one("#/panels/0/match/from loop")},
	}
}

// panels are n sound panels.
func panels(n int) string {
	list := make([]string, n)
	for i := range list {
		list[i] = fmt.Sprintf(`{"id":"P%d","size":{"across":"1 cm","along":"1 cm"}}`, i)
	}
	return strings.Join(list, ",")
}

func onto(id, from string) string {
	return fmt.Sprintf(`{"id":%q,"size":{"across":"1 cm","along":"1 cm"},"match":{"how":"runs-on","from":%q,"edge":"top"}}`, id, from)
}

func wrongOnCloth() []badRequest {
	return []badRequest{
		{"wider than the cloth", `"size": {"across": "50 cm"`, `"size": {"across": "138 cm"`, one("#/panels/2/size/across wider-than-cloth")},
		{"wider with allowances", `"left": "3 cm"`, `"left": "73 cm"`, one("#/panels/0/size/across wider-than-cloth")},
		{"longer than the bolt", `"boltLength": "50 m"`, `"boltLength": "90 cm"`, one("#/panels/0/size/along longer-than-bolt")},
		{"half turn, one way", `"id": "OA"`, `"id": "OA", "turn": "half"`, one("#/panels/2/turn not-allowed")},
		{"quarter turn of a wish", `"id": "OA"`, `"id": "OA", "turn": "quarter"`, one("#/panels/2/turn not-allowed")},
		{"start without repeat", "", `{"cloth":{"width":"1 m","startsAt":"0 cm"},"panels":[` + panels(1) + `]}`, one("#/cloth/startsAt needs-pattern")},
		{"start past the repeat", `"oneWay": true`, `"startsAt": "64 cm"`, one("#/cloth/startsAt too-large")},
		{"drop without width repeat", `"widthRepeat": "68.5 cm", `, ``, []string{
			"#/cloth/pattern/drop needs-pattern", "#/cloth/pattern/motifs/0/across needs-pattern", "#/panels/2/match/how needs-pattern"}},
		{"motif twice", `"name": "sedge"`, `"name": "heron"`, one("#/cloth/pattern/motifs/1/name duplicate")},
		{"motif far off", `"along": "32 cm"`, `"along": "11 m"`, one("#/cloth/pattern/motifs/1/along too-large")},
		// what follows from a fault is not a fault of its own
		{"pattern of the wrong kind", `"pattern": {`, `"pattern": [], "oneway": {`, []string{
			"#/cloth/pattern wrong-type", "#/cloth/oneway unknown-field"}},
		{"repeat of no unit", `"widthRepeat": "68.5 cm"`, `"widthRepeat": 68.5`, one("#/cloth/pattern/widthRepeat not-a-length")},
		{"id that others refer to", `"id": "IB"`, `"id": "I B"`, one("#/panels/0/id not-a-name")},
	}
}

// Faults of shape, of format, of the domain and between fields come at once, in
// the order of the document.
func TestAllFaultsAtOnce(t *testing.T) {
	c := newClient(t, options())
	w := c.post(`{
		"units": "furlongs",
		"cloth": {"width": "13 stone", "nap": true, "soldBy": "0 m",
			"pattern": {"lengthRepeat": "64 cm", "widthRepeat": "1 nm", "motifs": [{"name": "heron"}]}},
		"panels": [
			{"id": "A", "size": {"across": "0 mm"}, "match": {"how": "centred", "motif": "crane"}},
			{"id": "A", "size": {"across": "1 m", "along": "1 m"}, "match": {"how": "runs-on", "from": "B", "edge": "front"}, "turn": "half"}
		]}`)
	want := []string{
		"#/units not-one-of",
		"#/cloth/width not-a-length",
		"#/cloth/nap unknown-field",
		"#/cloth/soldBy too-small",
		"#/cloth/pattern/widthRepeat not-a-length",
		"#/panels/0/size/along missing",
		"#/panels/0/size/across too-small",
		"#/panels/0/match/motif unknown-motif",
		"#/panels/1/id duplicate",
		"#/panels/1/match/from unknown-panel",
		"#/panels/1/match/edge not-one-of",
	}
	if w.Code != http.StatusUnprocessableEntity {
		t.Fatalf("status %d", w.Code)
	}
	if got := faultsOf(t, w); strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("faults are\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if p := problemOf(t, w); *p.Count != len(want) {
		t.Errorf("count %d, want %d", *p.Count, len(want))
	}
}

// At most 20 faults are shown, the first of the document, and all are counted.
func TestManyFaults(t *testing.T) {
	c := newClient(t, options())
	var list []string
	for i := range 300 {
		list = append(list, fmt.Sprintf(`{"id":"P%d","size":{"across":"1 league","along":"1 cm"}}`, i))
	}
	w := c.post(`{"cloth":{"width":"1 m"},"panels":[` + strings.Join(list, ",") + `]}`)
	p := problemOf(t, w)
	if *p.Count != 300 || len(*p.Errors) != 20 || (*p.Errors)[19].Pointer != "#/panels/19/size/across" {
		t.Errorf("count %d, %d shown", *p.Count, len(*p.Errors))
	}
}
