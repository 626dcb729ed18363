package api_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/httpapi"
)

// shownExample is an example of an answer in the contract: it is the answer to the
// request that is shown beside it under the same key.
type shownExample struct{ path, media, request, answer string }

// shown are the examples of all operations with a body, and what lacks the other half
// of one.
func shown(doc *openapi3.T) (list []shownExample, lacking []string) {
	for _, path := range slices.Sorted(maps.Keys(doc.Paths.Map())) {
		op := doc.Paths.Value(path).Post
		if op == nil {
			continue
		}
		for media, body := range op.RequestBody.Value.Content {
			answers := maps.Clone(op.Responses.Value("200").Value.Content[media].Examples)
			for _, key := range slices.Sorted(maps.Keys(body.Examples)) {
				answer := answers[key]
				if answer == nil {
					lacking = append(lacking, path+": the request "+key+" has no answer")
					continue
				}
				list = append(list, shownExample{path, media, exampleName(body.Examples[key]), exampleName(answer)})
				delete(answers, key)
			}
			for _, key := range slices.Sorted(maps.Keys(answers)) {
				lacking = append(lacking, path+": the answer "+key+" has no request")
			}
		}
	}
	return list, lacking
}

func exampleName(e *openapi3.ExampleRef) string {
	return strings.TrimPrefix(e.Ref, "#/components/examples/")
}

// Every answer that the contract shows has its request, so that it is held against
// the service, and every operation of the table shows one.
func TestEveryAnswerExampleIsHeld(t *testing.T) {
	doc, err := contract.Open(os.DirFS(root))
	if err != nil {
		t.Fatal(err)
	}
	list, lacking := shown(doc)
	for _, what := range lacking {
		t.Error(what)
	}
	for _, op := range httpapi.Operations() {
		if !slices.ContainsFunc(list, func(e shownExample) bool { return e.path == op.Path }) {
			t.Errorf("%s shows no answer", op.Path)
		}
	}
	media := doc.Paths.Value("/v1/pleats").Post.Responses.Value("200").Value.Content["application/json"]
	media.Examples["lost"] = media.Examples["skirt"]
	delete(media.Examples, "armFront")
	if _, lacking := shown(doc); len(lacking) != 2 {
		t.Errorf("an answer without a request, and a request without an answer: %q", lacking)
	}
}

// The answers that the contract shows are those that are given, with their fields in
// the order in which they are given. The contract is read from its files, so that
// -update and a second run agree.
func TestContractShowsWhatIsAnswered(t *testing.T) {
	doc, err := contract.Open(os.DirFS(root))
	if err != nil {
		t.Fatal(err)
	}
	server := serve(t)
	list, _ := shown(doc)
	for _, one := range list {
		one.hold(t, post(t, server.URL+one.path, body(t, doc, one.request), http.Header{"Content-Type": {one.media}}))
	}
	file := filepath.Join(root, "openapi.yaml")
	fresh := readFile(t, file)
	for _, op := range httpapi.Operations() {
		if page := doc.Paths.Value(op.Path).Post.Responses.Value("200").Value.Content["text/plain"]; page != nil {
			one := list[slices.IndexFunc(list, func(e shownExample) bool { return e.path == op.Path })]
			got := string(post(t, server.URL+op.Path, body(t, doc, one.request), http.Header{"Content-Type": {one.media}, "Accept": {"text/plain"}}))
			if begins, _ := page.Example.(string); !*update && (begins == "" || !strings.HasPrefix(got, begins)) {
				t.Errorf("the page of text of %s is\n%s\nand the contract shows another: look at it, then use -update", op.Path, got)
			}
			fresh = withPage(t, fresh, op.Path, got)
		}
	}
	if *update {
		writeFile(t, file, fresh)
	}
}

// body is a request that the contract shows, as it is sent.
func body(t *testing.T, doc *openapi3.T, name string) []byte {
	t.Helper()
	value := doc.Components.Examples[name].Value.Value
	if lines, ok := value.(string); ok {
		return []byte(lines)
	}
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// hold says where an answer is not the one shown, and with -update writes it into
// its file.
func (e shownExample) hold(t *testing.T, got []byte) {
	t.Helper()
	file := filepath.Join(root, "testdata", "examples", e.answer+".json")
	before := readFile(t, file)
	var stands struct{ Summary string }
	if err := json.Unmarshal(before, &stands); err != nil || stands.Summary == "" {
		t.Fatalf("%s has no summary: %v", file, err)
	}
	want := exampleFile(t, stands.Summary, e.media, got)
	switch {
	case *update:
		writeFile(t, file, want)
	case !bytes.Equal(before, want):
		t.Errorf("the answer to %s is\n%s\nand the contract shows another as %s: look at it, then use -update", e.request, got, e.answer)
	}
}

// exampleFile is the file of an example: JSON with its fields in the order of the
// answer, a field on each line, and so each entry of a list. Lines are a text.
func exampleFile(t *testing.T, summary, media string, answer []byte) []byte {
	t.Helper()
	value := string(quoted(t, string(answer)))
	if media == "application/json" {
		var lines []string
		for _, f := range fieldsOf(t, answer) {
			lines = append(lines, "    "+string(quoted(t, f.name))+": "+inLines(t, f.value, "    "))
		}
		value = "{\n" + strings.Join(lines, ",\n") + "\n  }"
	}
	return []byte("{\n  \"summary\": " + string(quoted(t, summary)) + ",\n  \"value\": " + value + "\n}\n")
}

// quoted is a text in JSON, as a person would write it.
func quoted(t *testing.T, text string) []byte {
	t.Helper()
	var b bytes.Buffer
	to := json.NewEncoder(&b)
	to.SetEscapeHTML(false)
	if err := to.Encode(text); err != nil {
		t.Fatal(err)
	}
	return bytes.TrimSpace(b.Bytes())
}

// namedValue is a field of an object.
type namedValue struct {
	name  string
	value json.RawMessage
}

// fieldsOf are the fields of an object in their order.
func fieldsOf(t *testing.T, object []byte) (fields []namedValue) {
	t.Helper()
	from := json.NewDecoder(bytes.NewReader(object))
	if open, err := from.Token(); err != nil || open != json.Delim('{') {
		t.Fatalf("no object: %v: %.100s", err, object)
	}
	for from.More() {
		name, err := from.Token()
		if err != nil {
			t.Fatal(err)
		}
		f := namedValue{name: name.(string)}
		if err := from.Decode(&f.value); err != nil {
			t.Fatal(err)
		}
		fields = append(fields, f)
	}
	return fields
}

// withPage is the contract with the first lines of another page of text.
func withPage(t *testing.T, text []byte, path, page string) []byte {
	t.Helper()
	const lines = 6
	from := bytes.Index(text, []byte("\n  "+path+":\n"))
	block := regexp.MustCompile(`(?m)^            text/plain:\n              schema: .*\n              example: \|\n((?:                .*\n|\n)+)`)
	at := block.FindSubmatchIndex(text[max(from, 0):])
	if from < 0 || at == nil {
		t.Fatalf("%s shows no page of text", path)
	}
	var body strings.Builder
	for i, line := range strings.Split(page, "\n") {
		if i < lines {
			body.WriteString(strings.TrimRight("                "+line, " ") + "\n")
		}
	}
	return slices.Concat(text[:from+at[2]], []byte(body.String()), text[from+at[3]:])
}

// inLines is a value in one line, or a list of objects or texts with an entry on
// each, in a field that is indented.
func inLines(t *testing.T, value json.RawMessage, indent string) string {
	t.Helper()
	var list []json.RawMessage
	if json.Unmarshal(value, &list) != nil || len(list) == 0 {
		return spaced(t, value)
	}
	lines := make([]string, len(list))
	for i, v := range list {
		lines[i] = indent + "  " + spaced(t, v)
	}
	return "[\n" + strings.Join(lines, ",\n") + "\n" + indent + "]"
}

// spaced is a value in one line with a space after each colon and comma between
// its parts.
func spaced(t *testing.T, value json.RawMessage) string {
	t.Helper()
	var b bytes.Buffer
	if err := json.Indent(&b, value, "", ""); err != nil {
		t.Fatal(err)
	}
	return strings.NewReplacer("{\n", "{", "\n}", "}", "[\n", "[", "\n]", "]", ",\n", ", ").Replace(strings.TrimSpace(b.String()))
}
