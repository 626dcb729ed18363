package httpapi

import (
	"net/url"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// unrelated are the faults that stand by themselves: not at, under or above a
// place where something is wrong already, and not a mere consequence of it.
func unrelated(faults, earlier []fault.Fault) []fault.Fault {
	var kept []fault.Fault
	for _, f := range faults {
		causes := append(causesOf(f), f.Pointer)
		if !slices.ContainsFunc(earlier, func(e fault.Fault) bool {
			return slices.ContainsFunc(causes, func(cause string) bool {
				return related(e.Pointer, cause) && (e.Code != fault.UnknownField || e.Pointer == f.Pointer)
			})
		}) {
			kept = append(kept, f)
		}
	}
	return kept
}

// related reports whether one pointer is at, under or above the other, in
// which * stands for any one token.
func related(pointer, pattern string) bool {
	a, b := strings.Split(pointer, "/"), strings.Split(pattern, "/")
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] && b[i] != "*" {
			return false
		}
	}
	return true
}

// causesOf are the fields that, when they cannot be read, make f appear
// without need.
func causesOf(f fault.Fault) []string {
	parent := f.Pointer[:max(strings.LastIndexByte(f.Pointer, '/'), 0)]
	switch f.Code {
	case fault.NeedsPattern:
		return []string{"#/cloth/pattern/lengthRepeat", "#/cloth/pattern/widthRepeat"}
	case fault.UnknownMotif:
		return []string{"#/cloth/pattern/motifs"}
	case fault.UnknownPanel:
		return []string{"#/panels/*/id"}
	case fault.CountDiffers:
		return []string{"#/panels/*/id", "#/panels/*/count"}
	case fault.Missing:
		return []string{parent + "/how"}
	case fault.NotAllowed:
		return []string{parent + "/how", parent + "/match/how", parent + "/pair", "#/cloth/railroad", "#/cloth/oneWay"}
	case fault.WiderThanCloth, fault.LongerThanBolt:
		panel := strings.TrimSuffix(parent, "/size")
		return []string{"#/cloth/width", "#/cloth/railroad", "#/cloth/boltLength", panel + "/turn", panel + "/join", panel + "/joinSeam", panel + "/allow", parent}
	}
	return nil
}

// inPlace sorts faults by where they stand in the document, and gives each
// what stands there.
func inPlace(doc *strictjson.Value, faults []fault.Fault) {
	type placed struct {
		fault.Fault
		start int
	}
	list := make([]placed, len(faults))
	for i, f := range faults {
		v, whole := doc.At(tokensOf(f.Pointer))
		if whole && f.Given != "" && v.Text != "" {
			f.Given = fault.Clip(v.Text)
		}
		list[i] = placed{f, v.Start}
	}
	slices.SortStableFunc(list, func(a, b placed) int {
		if a.start != b.start {
			return a.start - b.start
		}
		if n := strings.Compare(a.Pointer, b.Pointer); n != 0 {
			return n
		}
		return strings.Compare(string(a.Code), string(b.Code))
	})
	for i := range list {
		faults[i] = list[i].Fault
	}
}

// tokensOf are the unescaped tokens of a pointer that is a URI fragment.
func tokensOf(pointer string) []string {
	tokens := strings.Split(strings.TrimPrefix(pointer, "#"), "/")[1:]
	for i, token := range tokens {
		if plain, err := url.PathUnescape(token); err == nil {
			token = plain
		}
		tokens[i] = strings.ReplaceAll(strings.ReplaceAll(token, "~1", "/"), "~0", "~")
	}
	return tokens
}
