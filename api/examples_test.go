package api_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"net/http"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"

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
	doc, err := openapi3.NewLoader().LoadFromData(readFile(t, filepath.Join(root, "openapi.yaml")))
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

// The answers that the contract shows are those that are given. The contract is
// read from its file, so that -update and a second run agree.
func TestContractShowsWhatIsAnswered(t *testing.T) {
	file := filepath.Join(root, "openapi.yaml")
	text := readFile(t, file)
	doc, err := openapi3.NewLoader().LoadFromData(text)
	if err != nil {
		t.Fatal(err)
	}
	server := serve(t)
	fresh := text
	list, _ := shown(doc)
	for _, one := range list {
		request, want := doc.Components.Examples[one.request].Value.Value, doc.Components.Examples[one.answer].Value.Value
		if lines, ok := request.(string); ok {
			got := post(t, server.URL+one.path, []byte(lines), http.Header{"Content-Type": {one.media}})
			one.hold(t, got, string(got) == want)
			fresh = withLines(t, fresh, one.answer, got)
			continue
		}
		got := post(t, server.URL+one.path, inJSON(t, request), http.Header{"Content-Type": {one.media}})
		one.hold(t, got, sameJSON(t, got, inJSON(t, want)))
		fresh = withExample(t, fresh, one.answer, got)
	}
	for _, op := range httpapi.Operations() {
		if page := doc.Paths.Value(op.Path).Post.Responses.Value("200").Value.Content["text/plain"]; page != nil {
			one := list[slices.IndexFunc(list, func(e shownExample) bool { return e.path == op.Path })]
			got := string(post(t, server.URL+op.Path, inJSON(t, doc.Components.Examples[one.request].Value.Value),
				http.Header{"Content-Type": {one.media}, "Accept": {"text/plain"}}))
			begins, _ := page.Example.(string)
			one.answer = "text/plain of " + op.Path
			one.hold(t, []byte(got), begins != "" && strings.HasPrefix(got, begins))
			fresh = withPage(t, fresh, op.Path, got)
		}
	}
	if *update {
		writeFile(t, file, fresh)
	}
}

// hold says what is wrong with an answer that is not the one shown.
func (e shownExample) hold(t *testing.T, got []byte, same bool) {
	t.Helper()
	if !*update && !same {
		t.Errorf("the answer to %s is\n%s\nand the contract shows another as %s: look at it, then use -update", e.request, got, e.answer)
	}
}

func inJSON(t *testing.T, v any) []byte {
	t.Helper()
	text, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return text
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

func sameJSON(t *testing.T, a, b []byte) bool {
	t.Helper()
	return bytes.Equal(canonical(t, a), canonical(t, b))
}

// canonical is a document with its names in order and without spaces.
func canonical(t *testing.T, doc []byte) []byte {
	t.Helper()
	var v any
	if err := json.Unmarshal(doc, &v); err != nil {
		t.Fatalf("%v: %s", err, doc)
	}
	out, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// withExample is the contract with another value of an example, which is
// written as JSON: a field on each line, and so each entry of a list.
func withExample(t *testing.T, text []byte, name string, value []byte) []byte {
	t.Helper()
	block := regexp.MustCompile(`(?m)^    ` + name + `:\n      summary: .*\n      value:\n((?:        .*\n)+)`)
	at := block.FindSubmatchIndex(text)
	if at == nil {
		t.Fatalf("no example %s in the contract", name)
	}
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(value, &fields); err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, field := range slices.Sorted(maps.Keys(fields)) {
		lines = append(lines, `          "`+field+`": `+inLines(t, fields[field]))
	}
	body := "        {\n" + strings.Join(lines, ",\n") + "\n        }\n"
	return slices.Concat(text[:at[2]], []byte(body), text[at[3]:])
}

// withLines is the contract with another value of an example that is lines.
func withLines(t *testing.T, text []byte, name string, lines []byte) []byte {
	t.Helper()
	block := regexp.MustCompile(`(?m)^    ` + name + `:\n      summary: .*\n      value: \|\n((?:        .*\n)+)`)
	at := block.FindSubmatchIndex(text)
	if at == nil {
		t.Fatalf("no example %s in the contract", name)
	}
	var body bytes.Buffer
	for line := range bytes.Lines(lines) {
		body.WriteString("        " + string(line))
	}
	return slices.Concat(text[:at[2]], body.Bytes(), text[at[3]:])
}

// inLines is a value in one line, or a list of objects or texts with an entry on
// each.
func inLines(t *testing.T, value json.RawMessage) string {
	t.Helper()
	var list []json.RawMessage
	if json.Unmarshal(value, &list) != nil || len(list) == 0 {
		return spaced(t, value)
	}
	lines := make([]string, len(list))
	for i, v := range list {
		lines[i] = "            " + spaced(t, v)
	}
	return "[\n" + strings.Join(lines, ",\n") + "\n          ]"
}

// spaced is a value in one line with a space after each colon and comma between
// its parts, as YAML wants it after a colon.
func spaced(t *testing.T, value json.RawMessage) string {
	t.Helper()
	var b bytes.Buffer
	if err := json.Indent(&b, value, "", ""); err != nil {
		t.Fatal(err)
	}
	return strings.NewReplacer("{\n", "{", "\n}", "}", "[\n", "[", "\n]", "]", ",\n", ", ").Replace(strings.TrimSpace(b.String()))
}
