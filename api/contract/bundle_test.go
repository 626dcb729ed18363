package contract_test

import (
	"bytes"
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie"
	"github.com/bridletie/bridletie/api/contract"
)

// Each example lies in a file of its own, and there is no other file.
func TestExamplesLieInFiles(t *testing.T) {
	text, err := bridletie.Files.ReadFile("openapi.yaml")
	if err != nil {
		t.Fatal(err)
	}
	entries, err := bridletie.Files.ReadDir("testdata/examples")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		name := strings.TrimSuffix(e.Name(), ".json")
		got = append(got, name)
		if line := "    " + name + ": {$ref: testdata/examples/" + name + ".json}\n"; bytes.Count(text, []byte(line)) != 1 {
			t.Errorf("openapi.yaml does not refer to %s once", e.Name())
		}
	}
	slices.Sort(got)
	if want := slices.Sorted(maps.Keys(spec(t).Components.Examples)); !slices.Equal(got, want) {
		t.Errorf("the files are %q, the examples %q", got, want)
	}
	if most := 315_000; len(text) > most {
		t.Errorf("openapi.yaml has %d bytes, at most %d", len(text), most)
	}
}

// small is a document with an example in a file.
func small(files map[string]string) fstest.MapFS {
	fsys := fstest.MapFS{"openapi.yaml": {Data: []byte(`openapi: 3.0.3
info: {title: small, version: '1'}
paths: {}
components:
  examples:
    Before: {summary: one that stands here, value: 1}
    Answer: {$ref: testdata/examples/Answer.json}
    After:
      value: 2
`)}}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return fsys
}

func TestBundle(t *testing.T) {
	fsys := small(map[string]string{"testdata/examples/Answer.json": "{\n  \"summary\": \"on: off\",\n  \"value\": {\"y\": [\"no\", 3, \"# \\u2014 'a'\"]}\n}\n"})
	text, err := contract.Bundle(fsys)
	if err != nil {
		t.Fatal(err)
	}
	bundled, err := openapi3.NewLoader().LoadFromData(text)
	if err != nil {
		t.Fatalf("%v\n%s", err, text)
	}
	opened, err := contract.Open(fsys)
	if err != nil {
		t.Fatal(err)
	}
	for _, doc := range []*openapi3.T{bundled, opened} {
		got, err := doc.MarshalJSON()
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{`"Before":{"summary":"one that stands here","value":1}`, `"After":{"value":2}`,
			`"Answer":{"summary":"on: off","value":{"y":["no",3,"# — 'a'"]}}`} {
			if !bytes.Contains(got, []byte(want)) {
				t.Errorf("%s is not in %s", want, got)
			}
		}
	}
}

// What is not there, or lies elsewhere, is an error and never left out.
func TestBundleRefuses(t *testing.T) {
	if _, err := contract.Bundle(small(nil)); err == nil {
		t.Error("a file that is not there is bundled")
	}
	if _, err := contract.Open(small(nil)); err == nil {
		t.Error("a file that is not there is opened")
	}
	if _, err := contract.Open(small(map[string]string{"testdata/examples/Answer.json": `{"$ref": "https://example.org/answer.json"}`})); err == nil {
		t.Error("a file of another host is opened")
	}
	if _, err := contract.Open(fstest.MapFS{}); err == nil {
		t.Error("no document is opened")
	}
}
