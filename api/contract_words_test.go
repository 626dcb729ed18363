package api_test

import (
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"
)

// ambiguous are the words that YAML 1.1 and YAML 1.2 read differently, or that look
// like a text and are none: the booleans and nulls of the first.
var ambiguous = regexp.MustCompile(`^(?i:y|yes|n|no|on|off|null|~|)$`)

// truth are the booleans of both. As a key they are meant as a text.
var truth = regexp.MustCompile(`^(?i:true|false)$`)

// ambiguousIn lists the words without quotes that a reader of YAML 1.1 takes for
// something else, anywhere in a document: keys, values, entries of enums and examples.
func ambiguousIn(t *testing.T, text []byte) (found []string) {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	var walk func(n *yaml.Node, isKey bool)
	walk = func(n *yaml.Node, isKey bool) {
		plain := n.Kind == yaml.ScalarNode && n.Style&(yaml.SingleQuotedStyle|yaml.DoubleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) == 0
		if plain && (ambiguous.MatchString(n.Value) || isKey && truth.MatchString(n.Value)) {
			found = append(found, fmt.Sprintf("line %d: %s", n.Line, n.Value))
		}
		for i, part := range n.Content {
			walk(part, n.Kind == yaml.MappingNode && i%2 == 0)
		}
	}
	walk(&doc, false)
	return found
}

func TestContractQuotesAmbiguousWords(t *testing.T) {
	for _, what := range ambiguousIn(t, readFile(t, filepath.Join(root, "openapi.yaml"))) {
		t.Errorf("openapi.yaml, %s has no quotes", what)
	}
}

// Every such word is found wherever it may stand, and not where it is quoted.
func TestAmbiguousWordsAreFound(t *testing.T) {
	for _, word := range strings.Fields("y Y yes Yes YES n N no No NO on On ON off Off OFF null Null NULL ~") {
		for _, form := range []string{"%s: 1", "a: %s", "enum: [%s, straight]", "enum:\n  - %s", "example: {a: {b: %s}}", "properties:\n  %s:\n    type: string"} {
			text := fmt.Sprintf(form, word)
			if found := ambiguousIn(t, []byte(text)); len(found) != 1 {
				t.Errorf("%q: found %q", text, found)
			}
			quoted := fmt.Sprintf(form, "'"+word+"'")
			if found := ambiguousIn(t, []byte(quoted)); len(found) != 0 {
				t.Errorf("%q: found %q", quoted, found)
			}
		}
	}
	for text, want := range map[string][]string{
		"true: 1":                   {"line 1: true"},
		"a: true":                   nil,
		"a: |\n  on\n":              nil,
		"a:\nb: 1":                  {"line 1: "},
		"a: [once, office, yes-no]": nil,
	} {
		if found := ambiguousIn(t, []byte(text)); !slices.Equal(found, want) {
			t.Errorf("%q: found %q, want %q", text, found, want)
		}
	}
}
