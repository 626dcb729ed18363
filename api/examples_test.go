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
)

// answered are the examples of answers in the contract: each is the answer to
// the request with the same name, word for word.
var answered = []struct{ path, request, answer string }{
	{"/v1/yardage", "CarverPair", "CarverPairAnswer"},
	{"/v1/yardage/check", "CheckRight", "CheckRightAnswer"},
	{"/v1/yardage/check", "CheckWrong", "CheckWrongAnswer"},
	{"/v1/yardage/compare", "CompareCarverPair", "CompareCarverPairAnswer"},
	{"/v1/estimate", "EstimateWingChair", "EstimateWingChairAnswer"},
	{"/v1/cutting-list", "CuttingListWingChair", "CuttingListWingChairAnswer"},
	{"/v1/buttoning", "ButtoningStool", "ButtoningStoolAnswer"},
	{"/v1/buttoning", "ButtoningInsideBack", "ButtoningInsideBackAnswer"},
	{"/v1/piping", "PipingCushion", "PipingCushionAnswer"},
	{"/v1/piping", "PipingOffcuts", "PipingOffcutsAnswer"},
	{"/v1/repeat", "RepeatHalfDrop", "RepeatHalfDropAnswer"},
	{"/v1/relief-cuts", "ReliefCarverSeat", "ReliefCarverSeatAnswer"},
	{"/v1/pleats", "PleatsArmFront", "PleatsArmFrontAnswer"},
	{"/v1/pleats", "PleatsSkirt", "PleatsSkirtAnswer"},
	{"/v1/wadding", "WaddingCushions", "WaddingCushionsAnswer"},
	{"/v1/foundation", "FoundationWingChair", "FoundationWingChairAnswer"},
	{"/v1/fire-check", "FireArmchair", "FireArmchairAnswer"},
	{"/v1/foam", "FoamSettee", "FoamSetteeAnswer"},
	{"/v1/job", "JobStool", "JobStoolAnswer"},
	{"/v1/batch", "BatchTwoLines", "BatchTwoLinesAnswer"},
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
	for _, one := range answered {
		if lines, ok := doc.Components.Examples[one.request].Value.Value.(string); ok {
			got := post(t, server.URL+one.path, []byte(lines), http.Header{"Content-Type": {"application/x-ndjson"}})
			if want := doc.Components.Examples[one.answer].Value.Value; !*update && string(got) != want {
				t.Errorf("the answer to %s is\n%s\nand the contract shows as %s\n%s\nlook at it, then use -update", one.request, got, one.answer, want)
			}
			fresh = withLines(t, fresh, one.answer, got)
			continue
		}
		request, err := json.Marshal(doc.Components.Examples[one.request].Value.Value)
		if err != nil {
			t.Fatal(err)
		}
		got := post(t, server.URL+one.path, request, http.Header{"Content-Type": {"application/json"}})
		want, err := json.Marshal(doc.Components.Examples[one.answer].Value.Value)
		if err != nil {
			t.Fatal(err)
		}
		if !*update && !sameJSON(t, got, want) {
			t.Errorf("the answer to %s is\n%s\nand the contract shows as %s\n%s\nlook at it, then use -update", one.request, got, one.answer, want)
		}
		fresh = withExample(t, fresh, one.answer, got)
	}
	if *update {
		writeFile(t, file, fresh)
	}
}

// Every answer in JSON of an operation with a body is among the examples that
// are held against the service.
func TestEveryAnswerExampleIsHeld(t *testing.T) {
	doc, err := openapi3.NewLoader().LoadFromData(readFile(t, filepath.Join(root, "openapi.yaml")))
	if err != nil {
		t.Fatal(err)
	}
	var shown, held []string
	for path, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			if op.RequestBody == nil {
				continue
			}
			for _, media := range op.Responses.Value("200").Value.Content {
				for _, e := range media.Examples {
					shown = append(shown, path+" "+strings.TrimPrefix(e.Ref, "#/components/examples/"))
				}
			}
		}
	}
	for _, one := range answered {
		held = append(held, one.path+" "+one.answer)
	}
	slices.Sort(shown)
	slices.Sort(held)
	if !slices.Equal(shown, held) {
		t.Errorf("the contract shows %q, held are %q", shown, held)
	}
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
