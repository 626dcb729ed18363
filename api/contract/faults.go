package contract

import (
	"slices"
	"strings"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// unrelated returns the faults that are independent of the earlier ones: not at, under or
// above a place with an earlier fault, and not caused by one. There may be as many faults
// as a body has values, so earlier ones are indexed, not searched one by one.
func unrelated(faults, earlier []fault.Fault) []fault.Fault {
	var wrong places
	for _, e := range earlier {
		if e.Code != fault.UnknownField { // which leaves what the contract has as it was
			wrong.add(e.Path.Tokens())
		}
	}
	anywhere := make(map[string]bool) // of patterns that many faults share
	touched := func(pattern []string) bool {
		if !slices.Contains(pattern, "*") {
			return wrong.touch(pattern)
		}
		key := strings.Join(pattern, "/")
		yes, known := anywhere[key]
		if !known {
			yes = wrong.touch(pattern)
			anywhere[key] = yes
		}
		return yes
	}
	var kept []fault.Fault
	for _, f := range faults {
		tokens := f.Path.Tokens()
		if !wrong.touch(tokens) && !slices.ContainsFunc(causesOf(f.Code, tokens), touched) {
			kept = append(kept, f)
		}
	}
	return kept
}

// places are paths by their tokens.
type places struct {
	here  bool
	under map[string]*places
}

func (p *places) add(tokens []string) {
	for _, token := range tokens {
		if p.under == nil {
			p.under = make(map[string]*places)
		}
		next := p.under[token]
		if next == nil {
			next = &places{}
			p.under[token] = next
		}
		p = next
	}
	p.here = true
}

// touch reports whether one of the places is at, under or above a pattern, in which *
// matches any one token.
func (p *places) touch(pattern []string) bool {
	switch {
	case p.here || len(pattern) == 0:
		return true
	case pattern[0] != "*":
		next := p.under[pattern[0]]
		return next != nil && next.touch(pattern[1:])
	}
	for _, next := range p.under {
		if next.touch(pattern[1:]) {
			return true
		}
	}
	return false
}

// causesOf are the fields that, when they cannot be read, make a fault of that code
// at that place appear without need.
func causesOf(code fault.Code, tokens []string) [][]string {
	var parent []string
	last := ""
	if n := len(tokens); n > 0 {
		parent, last = tokens[:n-1], tokens[n-1]
	}
	switch code {
	case fault.NeedsPattern:
		return under(nil, "cloth/pattern/lengthRepeat", "cloth/pattern/widthRepeat")
	case fault.UnknownMotif:
		if last == "name" { // of a placement: a cloth whose repeats cannot be read looks plain
			return under(nil, "cloth/pattern/motifs", "cloth/pattern/lengthRepeat", "cloth/pattern/widthRepeat")
		}
		return under(nil, "cloth/pattern/motifs")
	case fault.UnknownPanel:
		return under(nil, "panels/*/id")
	case fault.CountDiffers:
		return under(nil, "panels/*/id", "panels/*/count")
	case fault.TooLarge:
		if last == "copy" {
			return under(nil, "panels/*/id", "panels/*/count")
		}
	case fault.Duplicate:
		if last == "piece" {
			return under(nil, "lengths/*/piece")
		}
	case fault.Missing:
		return under(parent, "how", "part", "shape", "kind", "material", "corner", "form")
	case fault.NotAllowed:
		return append(under(nil, "cloth/railroad", "cloth/oneWay", "build", "currency"),
			under(parent, "how", "match/how", "pair", "shape", "kind", "material", "place", "part", "sprung", "name", "hardnessN", "form")...)
	case fault.WiderThanCloth, fault.LongerThanBolt:
		panel := parent
		if n := len(parent); n > 0 && parent[n-1] == "size" {
			panel = parent[:n-1]
		}
		return append(under(nil, "cloth/width", "cloth/railroad", "cloth/boltLength"), append(under(panel, "turn", "join", "joinSeam", "allow"), parent)...)
	case fault.UnknownLayer:
		return under(nil, "layers/*/id")
	case fault.UnknownFoam:
		return under(nil, "foams/*/id")
	}
	return nil
}

// under are patterns below a place.
func under(place []string, patterns ...string) [][]string {
	out := make([][]string, len(patterns))
	for i, p := range patterns {
		out[i] = slices.Concat(place, strings.Split(p, "/"))
	}
	return out
}

// InPlace sorts faults by where they stand in the document, and gives each
// what stands there.
func InPlace(doc *strictjson.Value, faults []fault.Fault) {
	type placed struct {
		fault.Fault
		start int
	}
	list := make([]placed, len(faults))
	at := finder{}
	for i, f := range faults {
		v, whole := at.find(doc, f.Path.Tokens())
		if whole && f.Given != "" && v.Text != "" {
			f.Given = fault.Clip(v.Text)
		}
		list[i] = placed{f, v.Start}
	}
	slices.SortStableFunc(list, func(a, b placed) int {
		if a.start != b.start {
			return a.start - b.start
		}
		if n := strings.Compare(a.Pointer(), b.Pointer()); n != 0 {
			return n
		}
		return strings.Compare(string(a.Code), string(b.Code))
	})
	for i := range list {
		faults[i] = list[i].Fault
	}
}

// finder finds values in a document. It indexes large objects, so that each look-up takes
// constant time.
type finder map[*strictjson.Value]map[string]*strictjson.Value

// manyMembers is the number of members from which an object is indexed.
const manyMembers = 32

// find is Value.At, with the index.
func (m finder) find(v *strictjson.Value, tokens []string) (deepest *strictjson.Value, whole bool) {
	for i, token := range tokens {
		if len(v.Members) < manyMembers {
			next, ok := v.At(tokens[i : i+1])
			if !ok {
				return v, false
			}
			v = next
			continue
		}
		names := m[v]
		if names == nil {
			names = make(map[string]*strictjson.Value, len(v.Members))
			for k := range v.Members {
				names[v.Members[k].Name] = &v.Members[k].Value
			}
			m[v] = names
		}
		next := names[token]
		if next == nil {
			return v, false
		}
		v = next
	}
	return v, true
}
