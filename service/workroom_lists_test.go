package service_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// handList is a cutting list made by hand, as testdata/workroom/README.md
// describes it. Nothing here asks the engine: the lists are what it is measured
// against, and these tests hold them to their own arithmetic.
type handList struct {
	Name  string
	About string
	Cloth struct{ Width string }
	Tapes map[string]handTape
	// Panels are all that is cut, of the top cover and of other cloths.
	Panels []handPanel
	AreaM2 json.Number
	Piping []struct {
		Run      string
		Count    int
		LengthCm json.Number
		How      string
	}
	Notes []string
}

type handTape struct{ Length, From, To string }

type handPanel struct {
	Name              string
	Count             int
	AcrossCm, AlongCm json.Number
	Cover             string
	How               string
	// Joined says how a panel wider than the cloth is made up.
	Joined *handJoin
}

type handJoin struct {
	AcrossCm  []json.Number
	OverlapCm json.Number
}

// ends are the words that each end of a tape begins with.
var ends = []string{"show line", "crease", "tack line", "seam", "rebate"}

// allowed are the allowances by the words that name them in a sum, from least to
// most in centimetres. What zip strips are wider and longer by is after a trade
// text on cushions; all others are common practice, no source.
var allowed = map[string][2]string{
	"hand-hold":               {"5", "5"},
	"tuck":                    {"7.5", "7.5"},
	"tuck to the rail":        {"20", "20"},
	"seam":                    {"1.5", "1.5"},
	"fly depth":               {"20", "20"},
	"round the side":          {"4", "4"},
	"back-tack":               {"2.5", "2.5"},
	"under the rail":          {"6", "6"},
	"under the outside arm":   {"4", "4"},
	"round the post":          {"5", "5"},
	"round a stuffed facing":  {"2.5", "2.5"},
	"round a flat ply":        {"4", "4"},
	"trim at the rebate":      {"2.5", "2.5"},
	"past the edge":           {"15", "20"},
	"on the underside":        {"2.5", "4"},
	"behind the board":        {"5", "5"},
	"below the board":         {"5", "5"},
	"fullness of a diamond":   {"3.8", "3.8"},
	"for the zip":             {"3.8", "3.8"},
	"longer than the back":    {"25", "30"},
	"fold over the zip's end": {"3", "3"},
	"turned under":            {"1.5", "1.5"},
	"clearance":               {"1", "1"},
	"to the whole centimetre": {"0.1", "0.9"},
}

// at says with which allowances the ends of tapes are met in a sum.
var at = map[string][]string{
	"tack line": {"hand-hold"},
	"crease":    {"tuck", "tuck to the rail"},
	"rebate":    {"trim at the rebate"},
}

// worked are the lists that were settled in the workroom before any tape was
// written: sizes across and along in centimetres, the area of the top cover in
// square metres, and metres in rows on 137 cm. Common practice, no source.
var worked = map[string]struct{ sizes, area, rows string }{
	"wing-chair": {"76×92 68×84 66×58 66×58 74×46 74×46 38×56 38×56 34×60 34×60 66×70 66×70 " +
		"76×16 66×16 66×16 70×20 72×34 76×26 18×46 18×46", "5.56", "5.64"},
	"club-armchair": {"100×82 86×82 70×58 70×58 74×46 74×46 63×65 63×65 63×16 64×16 64×16 63×19 " +
		"74×32 80×26 19×60 19×60", "4.94", "5.11"},
	"low-buttoned-chair": {"78×84 78×92 62×78", "1.86", "2.54"},
	"drop-in-seats":      {"56×56 56×56 56×56 56×56 56×56 56×56", "1.88", "1.68"},
}

const workroom = "../testdata/workroom"

// handLists are the files of the folder, each by its name without the ending.
func handLists(t *testing.T) map[string]handList {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(workroom, "*.json"))
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]handList{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		var l handList
		d := json.NewDecoder(bytes.NewReader(text))
		d.DisallowUnknownFields()
		if err := d.Decode(&l); err != nil {
			t.Fatalf("%s: %v", file, err)
		}
		out[strings.TrimSuffix(filepath.Base(file), ".json")] = l
	}
	return out
}

func TestHandListsAddUp(t *testing.T) {
	lists := handLists(t)
	if len(lists) < 18 {
		t.Errorf("only %d lists", len(lists))
	}
	for file, l := range lists {
		t.Run(file, func(t *testing.T) {
			for _, wrong := range l.wrong() {
				t.Error(wrong)
			}
		})
	}
}

// Four of the lists are those that the workroom had settled before.
func TestHandListsHoldTheWorkedOnes(t *testing.T) {
	lists := handLists(t)
	for file, want := range worked {
		l, ok := lists[file]
		if !ok {
			t.Errorf("no list %s", file)
			continue
		}
		var got []string
		for _, p := range l.top() {
			for range p.Count {
				got = append(got, p.AcrossCm.String()+"×"+p.AlongCm.String())
			}
		}
		sizes := strings.Fields(want.sizes)
		slices.Sort(got)
		slices.Sort(sizes)
		if !slices.Equal(got, sizes) {
			t.Errorf("%s: sizes %q, want %q", file, got, sizes)
		}
		if area, rows := l.area().FloatString(2), l.rows().FloatString(2); area != want.area || rows != want.rows {
			t.Errorf("%s: %s m² and %s m in rows, want %s and %s", file, area, rows, want.area, want.rows)
		}
	}
}

// The table of the folder's README says of each list what the list says.
func TestHandListsTable(t *testing.T) {
	text, err := os.ReadFile(filepath.Join(workroom, "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	lists := handLists(t)
	for file, l := range lists {
		pieces := 0
		for _, p := range l.top() {
			pieces += p.Count
		}
		row := fmt.Sprintf("| `%s.json` | %d | %s | %s |", file, pieces, l.area().FloatString(2), l.rows().FloatString(2))
		if !strings.Contains(string(text), "\n"+row+"\n") {
			t.Errorf("README has no row %s", row)
		}
	}
	if rows := strings.Count(string(text), "\n| `"); rows != len(lists) {
		t.Errorf("README has %d rows for %d lists", rows, len(lists))
	}
}

// What a slip of the pen would leave in a list is found.
func TestHandListsRefuse(t *testing.T) {
	const good = "across: 60 width + 2 × 5 hand-hold = 70; along: 50 height + 5 hand-hold + 7.5 tuck + 1.5 seam = 64"
	for _, tc := range []struct{ how, about string }{
		{good, ""},
		{strings.Replace(good, "= 70", "= 71", 1), "no sum that ends in 70"},
		{strings.Replace(good, "1.5 seam", "2 × 1.5 seam", 1), "adds up to 65.5"},
		{strings.Replace(good, "60 width", "61 width", 1), "the tape is 60 cm"},
		{strings.Replace(good, "60 width", "60 wide", 1), "neither a tape nor an allowance"},
		{strings.Replace(good, "2 × 5 hand-hold", "10 hand-hold", 1), "from 5 to 5"},
		{strings.Replace(good, "2 × 5 hand-hold", "5 hand-hold", 1), "1 of hand-hold"},
		{strings.Replace(good, "7.5 tuck + 1.5 seam", "9 seam", 1), "from 1.5 to 1.5"},
		{strings.Replace(good, "7.5 tuck", "2 × 7.5 tuck", 1), "2 of tuck"},
		{strings.Replace(good, "50 height", "50 along the cut back", 1), "no panel back"},
		{strings.Replace(good, "50 height", "63 along the cut seat", 1), "the cut is 64 cm"},
		{strings.Replace(good, "; along", ", along", 1), "not a sum across and a sum along"},
		{"across: 70; along: 64", "no sum"},
	} {
		l := oneSeat(tc.how)
		wrong := strings.Join(l.wrong(), "\n")
		if (wrong == "") != (tc.about == "") || !strings.Contains(wrong, tc.about) {
			t.Errorf("%s: %q, want %q", tc.how, wrong, tc.about)
		}
	}
}

func TestHandListsRefuseTheRest(t *testing.T) {
	for about, slip := range map[string]func(*handList){
		"tape depth is in no sum": func(l *handList) { l.Tapes["depth"] = handTape{"5 cm", "seam", "crease"} },
		"tape width":              func(l *handList) { l.Tapes["width"] = handTape{"60 cm", "the left", "tack line"} },
		"area 0.45":               func(l *handList) { l.AreaM2 = "0.45" },
		"not joined":              func(l *handList) { l.Cloth.Width = "69 cm" },
		"named twice":             func(l *handList) { l.Panels = append(l.Panels, l.Panels[0]) },
		"of no cloth":             func(l *handList) { l.Panels[0].Cover = "calico" },
		"cloth of":                func(l *handList) { l.Cloth.Width = "54 in" },
		"joined to 72":            func(l *handList) { l.Panels[0].Joined = &handJoin{[]json.Number{"50", "25"}, "3"} },
		"a piece wider":           func(l *handList) { l.Panels[0].Joined = &handJoin{[]json.Number{"140"}, "3"} },
	} {
		l := oneSeat("across: 60 width + 2 × 5 hand-hold = 70; along: 50 height + 5 hand-hold + 7.5 tuck + 1.5 seam = 64")
		slip(&l)
		if wrong := strings.Join(l.wrong(), "\n"); !strings.Contains(wrong, about) {
			t.Errorf("want %q, got %q", about, wrong)
		}
	}
}

// oneSeat is a list of one seat, cut 70 × 64.
func oneSeat(how string) handList {
	l := handList{Name: "a", About: "b", AreaM2: "0.448", Tapes: map[string]handTape{
		"width":  {"60 cm", "tack line on the left", "tack line on the right"},
		"height": {"50 cm", "tack line on top", "crease at the seat"},
	}, Panels: []handPanel{{Name: "seat", Count: 1, AcrossCm: "70", AlongCm: "64", Cover: "top", How: how}}}
	l.Cloth.Width = "137 cm"
	return l
}

// wrong lists what does not agree in a list.
func (l handList) wrong() []string {
	var out []string
	note := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if l.Name == "" || l.About == "" || len(l.Panels) == 0 {
		note("no name, no about or no panels")
	}
	width, ok := centimetres(l.Cloth.Width)
	if !ok {
		note("cloth of %q", l.Cloth.Width)
		return out
	}
	said := "" // all sums, to find the tapes that none of them uses
	names := map[string]bool{}
	for _, p := range l.Panels {
		if p.Name == "" || names[p.Name] || p.Count < 1 || !slices.Contains([]string{"top", "lining", "outside"}, p.Cover) {
			note("%q: named twice, not counted, or of no cloth", p.Name)
		}
		names[p.Name] = true
		said += p.How + "\n"
		across, along, ok := strings.Cut(p.How, "; along: ")
		across, begins := strings.CutPrefix(across, "across: ")
		if !ok || !begins {
			note("%s: not a sum across and a sum along", p.Name)
			continue
		}
		out = append(out, l.sum(p.Name+" across", across, p.AcrossCm, true)...)
		out = append(out, l.sum(p.Name+" along", along, p.AlongCm, true)...)
		out = append(out, p.joins(width)...)
	}
	for _, r := range l.Piping {
		if r.Run == "" || r.Count < 1 {
			note("piping without a run or a count")
		}
		said += r.How + "\n"
		out = append(out, l.sum("piping "+r.Run, r.How, r.LengthCm, false)...)
	}
	out = append(out, l.untaped(said)...)
	if got := l.area(); got.FloatString(4) != rat(l.AreaM2).FloatString(4) {
		note("area %s m², the panels have %s", l.AreaM2, got.FloatString(4))
	}
	return out
}

// untaped lists the tapes without a length or without two ends, and those that none
// of the sums uses. Where buttons stand is kept for the marking out only.
func (l handList) untaped(sums string) []string {
	var out []string
	for name, tape := range l.Tapes {
		if _, ok := centimetres(tape.Length); !ok || tape.end(tape.From) == "" || tape.end(tape.To) == "" {
			out = append(out, fmt.Sprintf("tape %s: %+v", name, tape))
		}
		buttons := strings.HasPrefix(name, "diamond ") || strings.HasPrefix(name, "first button ")
		if !buttons && !strings.Contains(sums, " "+name+" ") {
			out = append(out, fmt.Sprintf("tape %s is in no sum", name))
		}
	}
	return out
}

var term = regexp.MustCompile(`^(?:(\d+) × )?(half of )?(\d+(?:\.\d+)?) (.+)$`)

// sum says what is wrong with a sum in words and figures: a term that is neither
// a tape, an allowance nor the cut size of another panel, an end of a tape without
// its allowance where the size is cut, or a result other than the size.
func (l handList) sum(of, text string, size json.Number, cut bool) []string {
	var out []string
	note := func(format string, args ...any) { out = append(out, of+": "+fmt.Sprintf(format, args...)) }
	terms, result, ok := strings.Cut(text, " = ")
	if !ok || result != size.String() || rat(size).Sign() <= 0 {
		note("no sum that ends in %s", size)
		return out
	}
	total := new(big.Rat)
	found := map[string]int{} // how many of each end and of each allowance
	terms = strings.ReplaceAll(terms, " - ", " + -")
	for _, t := range strings.Split(terms, " + ") {
		t, minus := strings.CutPrefix(t, "-")
		m := term.FindStringSubmatch(t)
		if m == nil {
			note("%q is no term", t)
			continue
		}
		times, err := strconv.Atoi(cmp.Or(m[1], "1"))
		if err != nil {
			note("%q: %v", t, err)
		}
		if minus {
			times = -times
		}
		if wrong := l.figure(m[3], m[4]); wrong != "" {
			note("%q: %s", t, wrong)
		}
		worth := new(big.Rat).Mul(rat(json.Number(m[3])), big.NewRat(int64(times), 1))
		if m[2] != "" {
			worth.Quo(worth, big.NewRat(2, 1))
		}
		total.Add(total, worth)
		if tape, ok := l.Tapes[m[4]]; ok {
			found[tape.end(tape.From)] += times
			found[tape.end(tape.To)] += times
		}
		found[m[4]] += times
	}
	if total.Cmp(rat(size)) != 0 {
		note("adds up to %s, not %s", total.FloatString(2), size)
	}
	for end, with := range at {
		n := 0
		for _, w := range with {
			n += found[w]
		}
		if cut && n != found[end] {
			note("%d of %s for %d ends at a %s", n, with[0], found[end], end)
		}
	}
	return out
}

// figure says what is wrong with a figure and the words after it.
func (l handList) figure(figure, words string) string {
	value := rat(json.Number(figure))
	if tape, ok := l.Tapes[words]; ok {
		if is, _ := centimetres(tape.Length); is == nil || is.Cmp(value) != 0 {
			return "the tape is " + tape.Length
		}
		return ""
	}
	if a, ok := allowed[words]; ok {
		if value.Cmp(rat(json.Number(a[0]))) < 0 || value.Cmp(rat(json.Number(a[1]))) > 0 {
			return "from " + a[0] + " to " + a[1]
		}
		return ""
	}
	way, panel, ok := strings.Cut(words, " the cut ")
	if !ok || way != "across" && way != "along" {
		return "neither a tape nor an allowance"
	}
	for _, p := range l.Panels {
		cut := p.AcrossCm
		if way == "along" {
			cut = p.AlongCm
		}
		switch {
		case p.Name != panel:
		case rat(cut).Cmp(value) != 0:
			return "the cut is " + cut.String() + " cm"
		default:
			return ""
		}
	}
	return "no panel " + panel
}

// joins says what is wrong with the pieces that a wide panel is joined of. A
// lining may be turned, so it needs none.
func (p handPanel) joins(width *big.Rat) []string {
	if p.Joined == nil {
		if p.Cover != "lining" && rat(p.AcrossCm).Cmp(width) > 0 {
			return []string{p.Name + ": wider than the cloth, and not joined"}
		}
		return nil
	}
	total := new(big.Rat)
	for _, piece := range p.Joined.AcrossCm {
		if rat(piece).Cmp(width) > 0 || rat(piece).Sign() <= 0 {
			return []string{p.Name + ": a piece wider than the cloth"}
		}
		total.Add(total, rat(piece))
	}
	lost := big.NewRat(int64(len(p.Joined.AcrossCm)-1), 1)
	total.Sub(total, lost.Mul(lost, rat(p.Joined.OverlapCm)))
	if total.Cmp(rat(p.AcrossCm)) != 0 {
		return []string{fmt.Sprintf("%s: joined to %s, not %s", p.Name, total.FloatString(2), p.AcrossCm)}
	}
	return nil
}

// top is what is cut from the top cover.
func (l handList) top() []handPanel {
	return slices.DeleteFunc(slices.Clone(l.Panels), func(p handPanel) bool { return p.Cover != "top" })
}

// area is that of the top cover in square metres, before any join.
func (l handList) area() *big.Rat {
	out := new(big.Rat)
	for _, p := range l.top() {
		one := new(big.Rat).Mul(rat(p.AcrossCm), rat(p.AlongCm))
		out.Add(out, one.Mul(one, big.NewRat(int64(p.Count), 1)))
	}
	return out.Quo(out, big.NewRat(10_000, 1))
}

// rows is the length of the top cover in metres when it is chalked in rows across
// the cloth, the tallest first, each panel in the first row with room.
func (l handList) rows() *big.Rat {
	type piece struct{ across, along *big.Rat }
	var pieces []piece
	for _, p := range l.top() {
		widths := []json.Number{p.AcrossCm}
		if p.Joined != nil {
			widths = p.Joined.AcrossCm
		}
		for range p.Count {
			for _, w := range widths {
				pieces = append(pieces, piece{rat(w), rat(p.AlongCm)})
			}
		}
	}
	slices.SortStableFunc(pieces, func(a, b piece) int { return cmp.Or(b.along.Cmp(a.along), b.across.Cmp(a.across)) })
	width, _ := centimetres(l.Cloth.Width)
	length := new(big.Rat)
	var left []*big.Rat // of each row
	for _, p := range pieces {
		i := slices.IndexFunc(left, func(room *big.Rat) bool { return room.Cmp(p.across) >= 0 })
		if i < 0 {
			i = len(left)
			left = append(left, new(big.Rat).Set(width))
			length.Add(length, p.along)
		}
		left[i].Sub(left[i], p.across)
	}
	return length.Quo(length, big.NewRat(100, 1))
}

// end is the kind of line that one end of a tape is said to be at.
func (handTape) end(said string) string {
	i := slices.IndexFunc(ends, func(e string) bool { return strings.HasPrefix(said, e) })
	if i < 0 {
		return ""
	}
	return ends[i]
}

// centimetres reads a length such as "75.5 cm".
func centimetres(text string) (*big.Rat, bool) {
	figure, ok := strings.CutSuffix(text, " cm")
	if !ok {
		return nil, false
	}
	out, ok := new(big.Rat).SetString(figure)
	return out, ok && out.Sign() > 0
}

// rat is an exact figure, or nought where there is none.
func rat(n json.Number) *big.Rat {
	if out, ok := new(big.Rat).SetString(n.String()); ok {
		return out
	}
	return new(big.Rat)
}
