package fault_test

import (
	"net/url"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/fault"
)

// drawn is a path with the tokens that it is made of.
func drawn(t *rapid.T, name string) (fault.Path, []string) {
	var p fault.Path
	var tokens []string
	for _, field := range rapid.SliceOfN(rapid.Bool(), 0, 6).Draw(t, name) {
		if field {
			token := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "~", "/", "~1", "0", "a b", "%41"})).Draw(t, "field")
			p, tokens = p.Field(token), append(tokens, token)
		} else {
			n := rapid.IntRange(0, 2000).Draw(t, "entry")
			p, tokens = p.Index(n), append(tokens, strconv.Itoa(n))
		}
	}
	return p, tokens
}

// A pointer is read back, by the rules of RFC 6901, as the tokens that it was made
// of, and paths that are put together point where both would one after the other.
func TestPathsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, first := drawn(t, "a")
		b, second := drawn(t, "b")
		both, all := a.Then(b), append(slices.Clone(first), second...)
		if got := both.Tokens(); !slices.Equal(got, all) {
			t.Fatalf("tokens %q, want %q", got, all)
		}
		read := strings.Split(both.Pointer(), "/")
		for i, token := range read[1:] {
			plain, err := url.PathUnescape(token)
			if err != nil {
				t.Fatal(err)
			}
			if plain = strings.ReplaceAll(strings.ReplaceAll(plain, "~1", "/"), "~0", "~"); plain != all[i] {
				t.Fatalf("%s has %q where %q was put", both.Pointer(), plain, all[i])
			}
		}
		if read[0] != "#" || len(read)-1 != len(all) || both.IsBody() != (len(all) == 0) {
			t.Fatalf("%s of %q", both.Pointer(), all)
		}
		if !both.Is(a.Then(b)) || both.Is(both.Field("")) || both.Is(both.Index(0)) {
			t.Fatalf("%s is not itself, or is what stands in it", both.Pointer())
		}
		l := fault.List{}
		l.Add(b, fault.Missing, "", "", "")
		if got := l.Below(a).Faults()[0].Pointer(); got != both.Pointer() {
			t.Fatalf("below %s: %s, want %s", a.Pointer(), got, both.Pointer())
		}
	})
}

// A path is taken apart at its first step only, and a field with a number for its
// name is no entry of a list.
func TestPathsTakenApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rest, _ := drawn(t, "rest")
		name, n := rapid.SampledFrom([]string{"", "0", "cloth", "a/b"}).Draw(t, "name"), rapid.IntRange(0, 9).Draw(t, "n")
		field, entry := fault.At(name).Then(rest), fault.Path{}.Index(n).Then(rest)
		if got, ok := field.In(name); !ok || !got.Is(rest) {
			t.Fatalf("in %q: %s, %v", name, got.Pointer(), ok)
		}
		if got, after, ok := entry.Entry(); !ok || got != n || !after.Is(rest) {
			t.Fatalf("entry %d, %s, %v", got, after.Pointer(), ok)
		}
		_, another := field.In(name + "x")
		_, asEntry := entry.In(strconv.Itoa(n))
		_, _, asField := field.Entry()
		if another || asEntry || asField {
			t.Fatalf("%s and %s mistaken: %v %v %v", field.Pointer(), entry.Pointer(), another, asEntry, asField)
		}
	})
	body := fault.Path{}
	if _, ok := body.In(""); ok {
		t.Error("the body leads through a field")
	}
	if _, _, ok := body.Entry(); ok {
		t.Error("the body leads through an entry")
	}
}
