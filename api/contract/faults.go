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
		if e.Code != fault.UnknownField { // which does not affect the fields of the contract
			wrong.add(strings.Split(e.Pointer(), "/"))
		}
	}
	anywhere := make(map[string]bool) // cached results, because many faults share a pattern
	touched := func(pattern string) bool {
		if !strings.Contains(pattern, "*") {
			return wrong.touch(strings.Split(pattern, "/"))
		}
		yes, known := anywhere[pattern]
		if !known {
			yes = wrong.touch(strings.Split(pattern, "/"))
			anywhere[pattern] = yes
		}
		return yes
	}
	var kept []fault.Fault
	for _, f := range faults {
		if !slices.ContainsFunc(append(causesOf(f), f.Pointer()), touched) {
			kept = append(kept, f)
		}
	}
	return kept
}

// places is a tree of pointers, by their tokens.
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

// causesOf returns the fields that make f appear without need when they cannot be read.
func causesOf(f fault.Fault) []string {
	pointer := f.Pointer()
	cut := max(strings.LastIndexByte(pointer, '/'), 0)
	parent, last := pointer[:cut], pointer[cut:]
	switch f.Code {
	case fault.NeedsPattern:
		return []string{"#/cloth/pattern/lengthRepeat", "#/cloth/pattern/widthRepeat"}
	case fault.UnknownMotif:
		if last == "/name" { // of a placement: a cloth with unreadable repeats looks plain
			return []string{"#/cloth/pattern/motifs", "#/cloth/pattern/lengthRepeat", "#/cloth/pattern/widthRepeat"}
		}
		return []string{"#/cloth/pattern/motifs"}
	case fault.UnknownPanel:
		return []string{"#/panels/*/id"}
	case fault.CountDiffers:
		return []string{"#/panels/*/id", "#/panels/*/count"}
	case fault.TooLarge:
		if last == "/copy" {
			return []string{"#/panels/*/id", "#/panels/*/count"}
		}
	case fault.Duplicate:
		if last == "/piece" {
			return []string{"#/lengths/*/piece"}
		}
	case fault.Missing:
		return []string{parent + "/how", parent + "/part", parent + "/shape", parent + "/kind", parent + "/material", parent + "/corner", parent + "/form"}
	case fault.NotAllowed:
		return []string{parent + "/how", parent + "/match/how", parent + "/pair", "#/cloth/railroad", "#/cloth/oneWay",
			"#/build", parent + "/shape", parent + "/kind", parent + "/material", parent + "/place", parent + "/part", parent + "/sprung", parent + "/name",
			parent + "/hardnessN", parent + "/form", "#/currency"}
	case fault.WiderThanCloth, fault.LongerThanBolt:
		panel := strings.TrimSuffix(parent, "/size")
		return []string{"#/cloth/width", "#/cloth/railroad", "#/cloth/boltLength", panel + "/turn", panel + "/join", panel + "/joinSeam", panel + "/allow", parent}
	case fault.UnknownLayer:
		return []string{"#/layers/*/id"}
	case fault.UnknownFoam:
		return []string{"#/foams/*/id"}
	}
	return nil
}

// InPlace sorts faults by their position in the document, and sets the given value of
// each.
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
