package api_test

import (
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"

	"github.com/bridletie/bridletie/api/contract"
)

// inOrder are the answers that are written in the order in which the contract lists
// their fields, with the field that comes first.
var inOrder = map[string]string{
	"YardageAnswer": "order", "YardageCheckAnswer": "right", "CompareAnswer": "cloths", "EstimateAnswer": "order",
	"CuttingListAnswer": "covers", "JobAnswer": "title", "ButtoningAnswer": "cut", "PipingAnswer": "order",
	"FoamAnswer": "groups", "FoundationAnswer": "totals", "WaddingAnswer": "rolls", "FireCheckAnswer": "verdict",
	"RepeatAnswer": "order",
}

// What matters most comes first on the wire, and the fields follow in the order in
// which the contract lists them.
func TestAnswersAreInTheOrderOfTheContract(t *testing.T) {
	listed := listedFields(t)
	doc, err := contract.Open(os.DirFS(root))
	if err != nil {
		t.Fatal(err)
	}
	list, _ := shown(doc)
	seen := make(map[string]bool)
	for _, one := range list {
		media := doc.Paths.Value(one.path).Post.Responses.Value("200").Value.Content[one.media]
		schema := strings.TrimPrefix(media.Schema.Ref, "#/components/schemas/")
		first, ok := inOrder[schema]
		if !ok {
			continue
		}
		seen[schema] = true
		var file struct{ Value json.RawMessage }
		if err := json.Unmarshal(readFile(t, filepath.Join(root, "testdata", "examples", one.answer+".json")), &file); err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, f := range fieldsOf(t, file.Value) {
			got = append(got, f.name)
		}
		want := slices.DeleteFunc(slices.Clone(listed[schema]), func(name string) bool { return !slices.Contains(got, name) })
		if !slices.Equal(got, want) || got[0] != first {
			t.Errorf("%s: the fields are %q; the contract lists %q, and %s comes first", one.answer, got, want, first)
		}
	}
	if len(seen) != len(inOrder) {
		t.Errorf("only %d answers are looked at, of %d", len(seen), len(inOrder))
	}
}

// listedFields are the fields of each schema in the order in which openapi.yaml
// lists them.
func listedFields(t *testing.T) map[string][]string {
	t.Helper()
	var doc struct {
		Components struct {
			Schemas map[string]struct{ Properties yaml.Node }
		}
	}
	if err := yaml.Unmarshal(readFile(t, filepath.Join(root, "openapi.yaml")), &doc); err != nil {
		t.Fatal(err)
	}
	all := make(map[string][]string)
	for name, schema := range doc.Components.Schemas {
		for i := 0; i < len(schema.Properties.Content); i += 2 {
			all[name] = append(all[name], schema.Properties.Content[i].Value)
		}
	}
	return all
}
