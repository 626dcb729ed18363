package api_test

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

// stated is where the contract states figures of the table: by the description at
// a pointer, with a # for each figure.
var stated = []struct {
	at, says string
	rows     []any
}{
	{"Panel/properties/joinSeam", "# when left out", []any{practice.PanelJoin}},
	{"CuttingListAllowances/properties/seam", "usually #", []any{practice.CoverSeam}},
	{"CuttingListAllowances/properties/pull", "usually # past the tack line, close # past", []any{workroom(practice.CoverPull), practice.CoverPull}},
	{"CuttingListAllowances/properties/tuck", "usually #, close #.", []any{workroom(practice.CoverTuck), practice.CoverTuck}},
	{"CuttingListAllowances/properties/fly", "usually #, close nothing", []any{workroom(practice.FlyPast)}},
	{"CuttingListAllowances/properties/under", "usually #, close #.", []any{workroom(practice.CoverUnder), practice.CoverUnder}},
	{"CuttingListAllowances/properties/outside", "usually #, close as a seam", []any{workroom(practice.OutsideSide)}},
	{"CuttingListAllowances/properties/backTack", "usually #, close as a seam", []any{workroom(practice.BackTack)}},
	{"CuttingListAllowances/properties/facing", "usually #, # on a board, close as a seam", []any{workroom(practice.FacingTurn), workroom(practice.PlyTurn)}},
	{"CuttingListAllowances/properties/border", "usually #, close as a pull", []any{workroom(practice.BorderEnd)}},
	{"CuttingWay", "with a hand-hold of #, and # out of sight", []any{workroom(practice.CoverPull), workroom(practice.FlyPast)}},
	{"CuttingWay", "at the show line and # past it", []any{practice.CoverPull}},
	{"EstimateRequest/properties/size", "small is # % below the usual measures, large # % above", []any{lessThanWhole(practice.EstimateSmall), lessThanWhole(practice.EstimateLarge)}},
	{"EstimateRequest/properties/clothWidth", "# when it is left out", []any{practice.UsualCloth}},
	{"/v1/estimate/post", "not taken are # % below, at and # % above what is usual", []any{practice.EstimateMeasure, practice.EstimateMeasure}},
	{"/v1/estimate/post", "# % less and # % more", []any{practice.EstimateHoursOff, practice.EstimateHoursOn}},
	{"JobDayTerms/properties/perDay", "# when left out", []any{practice.DayHours}},
	{"JobPieceCloths/properties/lining", "plain lining # wide when left out", []any{practice.UsualLining}},
	{"JobPiping", "# cord when left out", []any{practice.UsualCord}},
	{"JobButtoning", "diamonds # wide and # tall, # or more from the edges, wells # deep, smaller on a small panel, buttons of # lines",
		[]any{practice.UsualDiamondWidth, practice.UsualDiamondHeight, practice.UsualButtonEdge, practice.UsualWells, practice.UsualButton}},
	{"JobFoam", "# kg/m3 of # N for seats and # kg/m3 of # N for backs and arms (at 25 %), in sheets of # by # cut",
		[]any{practice.UsualSeatDensity, practice.UsualSeatHardness, practice.UsualBackDensity, practice.UsualBackHardness, practice.UsualFoamAlong, practice.UsualFoamAcross}},
	{"ButtoningRequest/properties/joinSeam", "# when left out", []any{practice.PanelJoin}},
	{"ButtoningRatio", "# to 2 when left out", []any{twice(practice.DiamondHeight)}},
	{"ButtoningAllowance/properties/amount", "# when left out", []any{practice.ButtoningAmount}},
	{"ButtoningButtons/properties/thickness", "# when left out", []any{practice.ButtonCloth}},
	{"ButtoningButtons/properties/through", "# when left out", []any{practice.ButtonThrough}},
	{"ButtoningButtons/properties/tie", "# when left out", []any{practice.ButtonTie}},
	{"PipingStripWish/properties/thickness", "# when left out", []any{practice.PipingCloth}},
	{"PipingStripWish/properties/seam", "# when left out", []any{practice.PipingSeam}},
	{"PipingStripWish/properties/step", "# when left out, or # with imperial units", []any{practice.PipingStep, practice.PipingStepInch}},
	{"PipingStripWish/properties/leastPiece", "# when left out", []any{practice.PipingLeast}},
	{"PipingStripWish/properties/stretch", "# % on the true bias, # % on the straight", []any{percent(practice.PipingGiveBias), percent(practice.PipingGiveStraight)}},
	{"PipingJoins/properties/seam", "# when left out", []any{practice.PipingJoin}},
	{"PipingJoins/properties/overlap", "# when left out", []any{practice.PipingOverlap}},
	{"PipingJoins/properties/ends", "# when left out", []any{practice.PipingEnds}},
	{"PipingJoins/properties/corner", "# when left out", []any{practice.PipingCorner}},
	{"ReliefCutsRequest/properties/weave", "so # more is kept", []any{practice.ReliefMarginLoose}},
	{"ReliefObstacle/properties/margin", "# where left out, and 1 mm more for each 10 mm of stuffing over #, at most # more",
		[]any{practice.ReliefMargin, practice.ReliefMarginFrom, practice.ReliefMarginMost}},
	{"PleatsRequest/properties/maxDepth", "# where left out", []any{practice.PleatDepth}},
	{"PleatsRequest/properties/margin", "# where left out", []any{practice.SnipMargin}},
	{"FoamItem/properties/fit", "`tight` # on the whole width and depth", []any{practice.FoamOverTight}},
	{"FoamItem/properties/fit", "a seat #, a back or scatter cushion #, an arm or a pad nothing", []any{practice.FoamOverTight, practice.FoamOverSoft}},
	{"FoamRequest/properties/kerf", "# when left out, for a knife", []any{practice.FoamKerf}},
}

// figure is one that follows from a row.
type figure string

func lessThanWhole(k practice.CountKey) figure {
	return figure(strconv.FormatInt(max(100-k.Default, k.Default-100), 10))
}

// workroom is a row as the workroom's way of cutting has it.
func workroom(k practice.LengthKey) practice.LengthKey {
	s := k.In(practice.Workroom)
	return practice.LengthKey{Setting: &s}
}
func twice(k practice.NumberKey) figure   { return figure(practice.Decimal(2 * k.Default)) }
func percent(k practice.NumberKey) figure { return figure(practice.Decimal(100 * k.Default)) }

// A figure of the table that the contract states is the table's; another wording
// may leave it out, and then its line here goes.
func TestContractStatesTheTable(t *testing.T) {
	all := described(t)
	for _, s := range stated {
		text, there := all[s.at]
		if !there {
			t.Errorf("%s is not described", s.at)
			continue
		}
		pattern := strings.ReplaceAll(regexp.QuoteMeta(s.says), "#", `(\d[\d./]*(?: \d+/\d+)?(?: (?:mm|cm|m|in)\b)?)`)
		found := regexp.MustCompile(pattern).FindStringSubmatch(text)
		if found == nil {
			t.Errorf("%s does not say %q: %s", s.at, s.says, text)
			continue
		}
		for i, row := range s.rows {
			if got := found[i+1]; !holds(row, got) {
				t.Errorf("%s says %s, and the table has %s", s.at, got, rowText(row))
			}
		}
	}
}

// holds reports whether a text is the default of a row.
func holds(row any, text string) bool {
	switch k := row.(type) {
	case practice.LengthKey:
		l, err := length.Parse(text)
		return text == "0" && k.Default == 0 || err == nil && int64(l) == k.Default
	case practice.NumberKey:
		return text == practice.Decimal(k.Default)
	case practice.CountKey:
		return text == strconv.FormatInt(k.Default, 10)
	}
	return text == string(row.(figure))
}

func rowText(row any) string {
	switch k := row.(type) {
	case practice.LengthKey:
		return k.Name + ": " + length.Length(k.Default).String()
	case practice.NumberKey:
		return k.Name + ": " + practice.Decimal(k.Default)
	case practice.CountKey:
		return fmt.Sprint(k.Name, ": ", k.Default)
	}
	return string(row.(figure))
}

// unstated are figures for what is left out that are no trade constants: angles
// that a shape has, and places.
var unstated = []string{"PleatsFrom/properties/angle"}

// No description states a default beside those that are held to the table.
func TestContractStatesNothingElse(t *testing.T) {
	known := make(map[string]bool)
	for _, s := range stated {
		known[s.at] = true
	}
	for _, at := range unstated {
		known[at] = true
	}
	figures := regexp.MustCompile(`[1-9][\d./]*( \d+/\d+)?( [a-z%]+)?( \w+)? (when|where) (it is )?left out|usually \d|Left out[:,][^.]*\d`)
	for at, text := range described(t) {
		if m := figures.FindString(text); m != "" && !known[at] && !strings.Contains(m, "at 0, 0") {
			t.Errorf("%s says %q, and no row of the table is named for it", at, m)
		}
	}
}

// The defaults that the contract gives as such are the table's too.
func TestContractDefaults(t *testing.T) {
	doc, err := openapi3.NewLoader().LoadFromData(readFile(t, filepath.Join(root, "openapi.yaml")))
	if err != nil {
		t.Fatal(err)
	}
	days := doc.Components.Schemas["JobDayTerms"].Value.Properties
	for field, k := range map[string]practice.CountKey{"delivery": practice.DayDelivery, "glue": practice.DayGlue} {
		s := days[field].Value
		if got := fmt.Sprint(s.Default); got != fmt.Sprint(k.Default) || *s.Min != float64(k.Least) || *s.Max != float64(k.Most) {
			t.Errorf("%s is %s by default, from %v to %v; the table has %+v", field, got, *s.Min, *s.Max, *k.Setting)
		}
	}
}

// described are all descriptions of the contract, each on one line, by where they
// stand: those of schemas and of paths.
func described(t *testing.T) map[string]string {
	t.Helper()
	doc, err := openapi3.NewLoader().LoadFromData(readFile(t, filepath.Join(root, "openapi.yaml")))
	if err != nil {
		t.Fatal(err)
	}
	text, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	var whole struct {
		Paths      map[string]any
		Components struct{ Schemas map[string]any }
	}
	if err := json.Unmarshal(text, &whole); err != nil {
		t.Fatal(err)
	}
	all := make(map[string]string)
	var walk func(at string, node any)
	walk = func(at string, node any) {
		switch n := node.(type) {
		case map[string]any:
			if d, ok := n["description"].(string); ok {
				all[at] = strings.Join(strings.Fields(d), " ")
			}
			delete(n, "example")
			delete(n, "examples")
			for k, v := range n {
				if at != "" {
					k = at + "/" + k
				}
				walk(k, v)
			}
		case []any:
			for i, v := range n {
				walk(at+"/"+strconv.Itoa(i), v)
			}
		}
	}
	walk("", whole.Components.Schemas)
	for path, v := range whole.Paths {
		walk(path, v)
	}
	if len(all) < 500 {
		t.Fatalf("only %d descriptions were read", len(all))
	}
	return all
}

// The table of searches in DEVELOPERS.md leads where it says: to a formula that
// reads the constant, and to the row.
func TestSearchesTakeTwoSteps(t *testing.T) {
	row := regexp.MustCompile("(?m)^\\| [^|]+ \\| `([^`]+\\.go)` `(\\w+)` \\| `([^`]+\\.go)` `(\\w+)`[^|]*\\|$")
	rows := row.FindAllStringSubmatch(string(readFile(t, filepath.Join(root, "DEVELOPERS.md"))), -1)
	if len(rows) < 10 {
		t.Fatalf("only %d searches were read", len(rows))
	}
	for _, r := range rows {
		formula, constants := string(readFile(t, filepath.Join(root, r[1]))), string(readFile(t, filepath.Join(root, r[3])))
		if !regexp.MustCompile(`(?m)^func (\([^)]*\) )?` + r[2] + `\(`).MatchString(formula) {
			t.Errorf("%s has no function %s", r[1], r[2])
		}
		if strings.HasPrefix(r[3], "calc/practice/") && !strings.Contains(formula, "practice."+r[4]) {
			t.Errorf("%s does not read %s", r[1], r[4])
		}
		if !regexp.MustCompile(`(?m)^(\t|var |type )` + r[4] + `\s`).MatchString(constants) {
			t.Errorf("%s has no %s", r[3], r[4])
		}
	}
}
