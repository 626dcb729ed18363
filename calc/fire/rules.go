package fire

import (
	_ "embed" // the rules come with the program
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/calc/calendar"
)

// ErrData says that the rules that came with the program are not right. A
// service that meets it must not start.
var ErrData = errors.New("fire: the rules are not right")

// ErrPlace says that no rules are held for a place.
var ErrPlace = errors.New("fire: no rules are held for this place")

//go:embed rules/tests.json
var testsFile string

//go:embed rules/united-kingdom.json
var unitedKingdom string

//go:embed rules/northern-ireland.json
var northernIreland string

//go:embed rules/ireland.json
var ireland string

//go:embed rules/european-union.json
var europeanUnion string

//go:embed rules/us-federal.json
var usFederal string

//go:embed rules/us-california.json
var usCalifornia string

//go:embed rules/us-states.json
var usStates string

//go:embed rules/elsewhere.json
var elsewhere string

//go:embed rules/platforms.json
var platforms string

// files are those that came with the program.
func files() []string {
	return []string{unitedKingdom, northernIreland, ireland, europeanUnion, usFederal, usCalifornia, usStates, elsewhere, platforms}
}

// Set is all rules that are held.
type Set struct {
	Version string       // changes whenever a rule does
	AsAt    calendar.Day // the day on which the sources were last looked at
	Tests   []Test
	Rules   []Rule
	Scopes  []Scope

	places map[string][]*Rule // of each place, in the order of the files
	tests  map[string]*Test
}

// Scope is a name for conditions that several rules of a jurisdiction share.
type Scope struct {
	Jurisdiction, Name string
	When               []string
}

// Test is a test that a report may be of.
type Test struct {
	ID        string `json:"id"`
	Title     string `json:"title"`
	Composite string `json:"composite"` // which layers the specimen must hold: "", beneath, fillings, container or stack
	Soak      bool   `json:"soak"`      // a treated material is soaked in water first
}

// Rule is one rule as it is held.
type Rule struct {
	ID           string
	Jurisdiction string
	Places       []string
	Title        string
	Instrument   string       // with the section
	From, To     calendar.Day // in force; To is 0 for a rule that has no end
	Layers       []string
	Scope        []string // the conditions, all of which must be met for the rule to apply
	Cases        []Case   // the first that is met counts
	Wants        []string
	Papers       []Keep
	Cautions     []string
	Source       string
	Verified     string // read, inferred or from-memory

	scope clause
	by    map[string]bool // Layers
}

// The ways in which a rule may have been verified.
const (
	Read       = "read"
	Inferred   = "inferred"
	FromMemory = "from-memory"
)

// Case is one outcome of a rule, with its conditions.
type Case struct {
	When []string
	Then Verdict
	Say  string

	when clause
}

// Keep is a paper that the rule wants kept, and for how long.
type Keep struct {
	Paper string `json:"paper"`
	Keep  string `json:"keep"`
}

// wireFile is a file of rules.
type wireFile struct {
	Jurisdiction string      `json:"jurisdiction"`
	Places       []string    `json:"places"`
	Scopes       []wireScope `json:"scopes"`
	Rules        []wireRule  `json:"rules"`
}

type wireScope struct {
	Name string   `json:"name"`
	When []string `json:"when"`
}

type wireRule struct {
	ID         string     `json:"id"`
	Places     []string   `json:"places"`
	Title      string     `json:"title"`
	Instrument string     `json:"instrument"`
	From       string     `json:"from"`
	To         string     `json:"to"`
	Layers     []string   `json:"layers"`
	Scope      []string   `json:"scope"`
	Cases      []wireCase `json:"cases"`
	Wants      []string   `json:"wants"`
	Papers     []Keep     `json:"papers"`
	Cautions   []string   `json:"cautions"`
	Source     string     `json:"source"`
	Verified   string     `json:"verified"`
}

type wireCase struct {
	When []string `json:"when"`
	Then string   `json:"then"`
	Say  string   `json:"say"`
}

// Load reads the rules that came with the program. Its error, which is
// ErrData, names everything that is wrong with them.
func Load() (*Set, error) { return load(testsFile, files()) }

func load(tests string, files []string) (*Set, error) {
	var head struct {
		Version string `json:"version"`
		AsAt    string `json:"asAt"`
		Tests   []Test `json:"tests"`
	}
	if err := decode(tests, &head); err != nil {
		return nil, fmt.Errorf("%w: tests: %w", ErrData, err)
	}
	s := &Set{Version: head.Version, Tests: head.Tests, tests: make(map[string]*Test), places: make(map[string][]*Rule)}
	var c checker
	s.AsAt = c.day("asAt", head.AsAt, true)
	for i := range s.Tests {
		t := &s.Tests[i]
		c.test(t, s.tests[t.ID] != nil)
		s.tests[t.ID] = t
	}
	for _, text := range files {
		var f wireFile
		if err := decode(text, &f); err != nil {
			return nil, fmt.Errorf("%w: %w", ErrData, err)
		}
		c.file(s, &f)
	}
	if len(c.wrong) > 0 {
		return nil, fmt.Errorf("%w: %s", ErrData, strings.Join(c.wrong, "; "))
	}
	for i := range s.Rules {
		r := &s.Rules[i]
		for _, p := range r.Places {
			s.places[p] = append(s.places[p], r)
		}
	}
	return s, nil
}

// decode refuses fields that the rules do not have.
func decode(text string, into any) error {
	d := json.NewDecoder(strings.NewReader(text))
	d.DisallowUnknownFields()
	return d.Decode(into)
}

// Places are those for which rules are held, sorted.
func (s *Set) Places() []string {
	out := make([]string, 0, len(s.places))
	for p := range s.places {
		out = append(out, p)
	}
	slices.Sort(out)
	return out
}

// Test is the test with that id.
func (s *Set) Test(id string) (Test, bool) {
	t, ok := s.tests[id]
	if !ok {
		return Test{}, false
	}
	return *t, true
}
