package httpapi_test

import (
	"context"
	"reflect"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

const mm, cm, metre = length.Millimetre, length.Centimetre, length.Metre

// received is the request that reaches the use case.
func received(t *testing.T, body string) service.YardageRequest {
	t.Helper()
	var got service.YardageRequest
	opts := options()
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		got = req
		return stacked(ctx, req)
	}
	if w := newClient(t, opts).post(body); w.Code != 200 {
		t.Fatalf("status %d: %s", w.Code, w.Body)
	}
	return got
}

// Every field of the wire form arrives.
func TestRequestFromWire(t *testing.T) {
	got := received(t, `{
		"units": "imperial", "effort": "thorough",
		"cloth": {"name": "Reed", "width": "140 cm", "oneWay": false, "railroad": "allowed", "startsAt": "1 cm",
			"soldBy": "0.5 m", "minimum": "2 m", "boltLength": "30 m", "flawAllowance": "2.5%", "shrinkage": "0.0001 %",
			"pattern": {"lengthRepeat": "32 cm", "widthRepeat": "35 cm", "drop": "2/8", "motifs": [{"name": "crossing", "across": "17.5 cm"}, {"name": "bud", "along": "3 cm"}]}},
		"pieces": ["2 m", "54 in"],
		"panels": [
			{"id": "A", "name": "seat", "count": 2, "size": {"across": "50 cm", "along": "48 cm"}, "allow": "15 mm",
				"match": {"how": "anchor", "motif": "bud", "point": {"across": "1 cm", "along": "2 cm"}, "tolerance": "3 mm"}, "turn": "half", "pair": "A", "pairAs": "same"},
			{"id": "B", "count": 2, "size": {"across": "2 m", "along": "30 cm"}, "allow": {"top": "1 cm", "right": "2 cm"}, "join": "sides", "joinSeam": "1 cm",
				"match": {"how": "runs-on", "from": "A", "edge": "left", "offset": "-4 cm"}},
			{"id": "C", "size": {"across": "10 cm", "along": "10 cm"}, "join": "halves", "turn": "quarter", "match": {"how": "along"}},
			{"id": "D", "size": {"across": "10 cm", "along": "10 cm"}, "match": {"how": "runs-on", "from": "C", "edge": "top"}},
			{"id": "E", "size": {"across": "10 cm", "along": "10 cm"}, "match": {"how": "runs-on", "from": "C", "edge": "right"}}
		]}`)
	want := service.YardageRequest{
		Units: length.Imperial, Effort: plan.Thorough,
		Cloth: cloth.Cloth{Name: "Reed", Width: 140 * cm, Railroad: cloth.RailroadAllowed, StartsAt: new(cm),
			Pattern: cloth.Pattern{LengthRepeat: 32 * cm, WidthRepeat: 35 * cm, Drop: cloth.Drop{Num: 1, Den: 4},
				Motifs: []cloth.Motif{{Name: "crossing", Across: 175 * mm}, {Name: "bud", Along: 3 * cm}}}},
		Sold:   cloth.Sold{Step: 50 * cm, Minimum: 2 * metre, Bolt: 30 * metre, Flaw: 25_000, Shrinkage: 1},
		Pieces: []length.Length{2 * metre, 54 * length.Inch},
		Panels: []panel.Panel{
			{ID: "A", Name: "seat", Count: 2, Size: panel.Size{Across: 50 * cm, Along: 48 * cm},
				Allow: panel.Sides{Top: 15 * mm, Bottom: 15 * mm, Left: 15 * mm, Right: 15 * mm},
				Match: panel.Match{How: panel.Anchor, Motif: "bud", Point: panel.Point{Across: cm, Along: 2 * cm}, Tolerance: 3 * mm},
				Turn:  panel.Half, JoinSeam: 15 * mm, Pair: "A", PairAs: panel.SameMotif},
			{ID: "B", Count: 2, Size: panel.Size{Across: 2 * metre, Along: 30 * cm}, Allow: panel.Sides{Top: cm, Right: 2 * cm},
				Match: panel.Match{How: panel.RunsOn, From: "A", Edge: panel.LeftEdge, Offset: -4 * cm},
				Join:  panel.JoinSides, JoinSeam: cm},
			{ID: "C", Count: 1, Size: panel.Size{Across: 10 * cm, Along: 10 * cm}, Match: panel.Match{How: panel.Along},
				Turn: panel.Quarter, Join: panel.JoinHalves, JoinSeam: 15 * mm},
			{ID: "D", Count: 1, Size: panel.Size{Across: 10 * cm, Along: 10 * cm}, Match: panel.Match{How: panel.RunsOn, From: "C", Edge: panel.TopEdge}, JoinSeam: 15 * mm},
			{ID: "E", Count: 1, Size: panel.Size{Across: 10 * cm, Along: 10 * cm}, Match: panel.Match{How: panel.RunsOn, From: "C", Edge: panel.RightEdge}, JoinSeam: 15 * mm},
		},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("request is\n%+v\nwant\n%+v", got, want)
	}
}

// What is left out has the defaults of the contract.
func TestRequestDefaults(t *testing.T) {
	got := received(t, `{"cloth":{"width":"1 m","railroad":"always"},"panels":[{"id":"A","size":{"across":"1 cm","along":"1 cm"}}],"effort":"quick"}`)
	want := service.YardageRequest{
		Effort: plan.Quick,
		Cloth:  cloth.Cloth{Width: metre, Railroad: cloth.RailroadAlways},
		Panels: []panel.Panel{{ID: "A", Count: 1, Size: panel.Size{Across: cm, Along: cm}, JoinSeam: 15 * mm}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("request is %+v, want %+v", got, want)
	}
}

// What follows from a field that cannot be read is left unsaid; what does not
// is said.
func TestConsequences(t *testing.T) {
	c := newClient(t, options())
	for _, tc := range []struct {
		name, from, to string
		want           []string
	}{
		{"motifs", `{"name": "heron", "across": "34.2 cm", "along": "0 cm"}`, `{"name": 5}`, []string{
			"#/cloth/pattern/motifs/0/name wrong-type"}},
		{"a motif of another", `"across": "34.2 cm"`, `"accross": "34.2 cm"`, []string{
			"#/cloth/pattern/motifs/0/accross unknown-field"}},
		{"count", `"id": "SEAT", "count": 1`, `"id": "SEAT", "count": "x"`, []string{"#/panels/1/count wrong-type"}},
		{"how", `{"how": "centred", "motif": "heron"}`, `{"how": 1, "motif": "heron", "tolerance": "1 mm"}`, []string{"#/panels/0/match/how wrong-type"}},
		{"railroad", `"railroad": "never"`, `"railroad": "often"`, []string{"#/cloth/railroad not-one-of"}},
		{"width", `"width": "137 cm"`, `"width": "37"`, []string{"#/cloth/width not-a-length"}},
		{"join", `"id": "OA", "count": 2, "size": {"across": "50 cm"`, `"id": "OA", "join": "side", "size": {"across": "150 cm"`, []string{"#/panels/2/join not-one-of"}},
		{"a panel", `{"id": "IB", "name": "inside back", "count": 1, "size": {"across": "62 cm", "along": "78 cm"},`, `{"id": "IB", "size": 1,`, []string{
			"#/panels/0/size wrong-type"}},
		{"pair", `"id": "OA"`, `"id": "OA", "pairAs": "same", "pair": 5`, []string{"#/panels/2/pair wrong-type"}},
		{"one thing and another", `"id": "OA", "count": 2, "size": {"across": "50 cm"`, `"id": "OA", "turn": "upside", "size": {"across": "0 cm"`, []string{
			"#/panels/2/turn not-one-of", "#/panels/2/size/across too-small"}},
	} {
		if got := faultsOf(t, c.post(spoil(t, tc.from, tc.to))); !equal(got, tc.want) {
			t.Errorf("%s: faults are %q, want %q", tc.name, got, tc.want)
		}
	}
}

func TestOptions(t *testing.T) {
	for name, change := range map[string]func(*httpapi.Options){
		"Yardage":   func(o *httpapi.Options) { o.Yardage = nil },
		"Solves":    func(o *httpapi.Options) { o.Solves = 0 },
		"SolveWait": func(o *httpapi.Options) { o.SolveWait = -time.Second },
		"SolveTime": func(o *httpapi.Options) { o.SolveTime = 0 },
	} {
		opts := httpapi.DefaultOptions()
		change(&opts)
		if s, err := httpapi.New(opts); err == nil || s != nil {
			t.Errorf("%s: no error", name)
		}
	}
}
