package httpapi_test

import (
	"context"
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/verify"
)

// The document is a right one, its examples included.
func TestContractIsValid(t *testing.T) {
	if err := spec(t).Validate(context.Background(), openapi3.EnableExamplesValidation()); err != nil {
		t.Fatal(err)
	}
}

// The generated routes are those of the document.
func TestRoutesAreTheContract(t *testing.T) {
	e := echo.New()
	gen.RegisterHandlers(e, nil)
	var routes, want []string
	for _, r := range e.Routes() {
		routes = append(routes, r.Method+" "+r.Path)
	}
	for path, item := range spec(t).Paths.Map() {
		for method := range item.Operations() {
			want = append(want, method+" "+strings.NewReplacer("{", ":", "}", "").Replace(path))
		}
	}
	if !equal(routes, want) {
		t.Errorf("routes are %q, the contract has %q", routes, want)
	}
}

// The documents that are served are complete: nothing in them points out of them. The
// one in YAML is openapi.yaml with the files that it refers to, and the one in JSON
// says the same.
func TestDocumentsAgree(t *testing.T) {
	c := newClient(t, options())
	doc := spec(t)
	doc.Servers = openapi3.Servers{{URL: "http://example.com", Description: "Where this document was asked for."}}
	want, err := json.Marshal(doc)
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"/openapi.json", "/openapi.yaml"} {
		doc, err := openapi3.NewLoader().LoadFromData(c.do("GET", path, "").Body.Bytes())
		if err != nil {
			t.Fatalf("%s: %v", path, err)
		}
		got, err := json.Marshal(doc)
		if err != nil {
			t.Fatal(err)
		}
		if string(got) != string(want) {
			t.Errorf("%s is not the contract", path)
		}
		if answer := doc.Components.Examples["CarverPairAnswer"].Value; answer == nil || answer.Value == nil {
			t.Errorf("%s is without an answer", path)
		}
	}
}

// The codes of the domain are those of the document, in both directions.
func TestFaultCodesAreTheContract(t *testing.T) {
	var listed []string
	for _, v := range spec(t).Components.Schemas["FaultCode"].Value.Enum {
		listed = append(listed, v.(string))
	}
	have := []string{
		string(fault.Missing), string(fault.UnknownField), string(fault.WrongType), string(fault.NotOneOf),
		string(fault.NotALength), string(fault.NotAShare), string(fault.NotAFraction), string(fault.NotAName),
		string(fault.TooSmall), string(fault.TooLarge), string(fault.TooFew), string(fault.TooMany),
		string(fault.Duplicate), string(fault.UnknownPanel), string(fault.UnknownMotif), string(fault.Loop),
		string(fault.CountDiffers), string(fault.NeedsPattern), string(fault.NotAllowed),
		string(fault.NotAPrice), string(fault.NotADensity), string(fault.UnknownFoam), string(fault.UnknownCloth),
		string(fault.WiderThanCloth), string(fault.LongerThanBolt), string(fault.NoPlace),
		string(fault.NotADate), string(fault.UnknownLayer),
	}
	if !equal(have, listed) {
		t.Errorf("codes are %q, the contract has %q", have, listed)
	}
}

// The kinds of flaw are those of the document, in both directions, but for
// three that a request without faults cannot have: CheckFaults refuses it.
func TestPlanFaultKindsAreTheContract(t *testing.T) {
	var listed []string
	for _, v := range spec(t).Components.Schemas["PlanFaultKind"].Value.Enum {
		listed = append(listed, v.(string))
	}
	have := []string{
		string(verify.FlawMissing), string(verify.FlawTwice), string(verify.FlawWrongParts), string(verify.FlawWrongSize),
		string(verify.FlawWrongTurn), string(verify.FlawOffTheCloth), string(verify.FlawPastTheEnd), string(verify.FlawOverlap),
		string(verify.FlawWrongLength), string(verify.FlawPastTheBolt), string(verify.FlawBadStart), string(verify.FlawMotifOff),
		string(verify.FlawMotifMisreported), string(verify.FlawJoinOff), string(verify.FlawSeamOff), string(verify.FlawPairOff),
	}
	if !equal(have, listed) {
		t.Errorf("kinds are %q, the contract has %q", have, listed)
	}
	declared := declaredKinds(t)
	if want := append(have, string(verify.FlawBadJob), string(verify.FlawOutOfRange), string(verify.FlawUnknownPanel)); !equal(declared, want) {
		t.Errorf("calc/verify declares %q, this test knows %q", declared, want)
	}
}

// declaredKinds are the constants of type FlawKind in the source of calc/verify.
func declaredKinds(t *testing.T) []string {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), filepath.Join("..", "..", "calc", "verify", "check.go"), nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	var kinds []string
	ast.Inspect(file, func(n ast.Node) bool {
		v, ok := n.(*ast.ValueSpec)
		if !ok {
			return true
		}
		if kind, ok := v.Type.(*ast.Ident); ok && kind.Name == "FlawKind" {
			word, err := strconv.Unquote(v.Values[0].(*ast.BasicLit).Value)
			if err != nil {
				t.Fatal(err)
			}
			kinds = append(kinds, word)
		}
		return true
	})
	return kinds
}

// Every example of a request is answered, by the engine itself, with the same
// bytes each time.
func TestExamplesAreAnswered(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	n := 0
	for path, item := range c.doc.Paths.Map() {
		for method, op := range item.Operations() {
			if op.RequestBody == nil {
				continue
			}
			media, examples := requestMedia(op)
			for name, ref := range examples.Examples {
				body, err := json.Marshal(ref.Value.Value)
				if err != nil {
					t.Fatal(err)
				}
				if lines, ok := ref.Value.Value.(string); ok {
					body = []byte(lines)
				}
				n++
				first := c.do(method, path, string(body), "Content-Type", media)
				if first.Code != 200 {
					t.Errorf("%s %s, %s: status %d: %s", method, path, name, first.Code, first.Body)
				}
				if again := c.do(method, path, string(body), "Content-Type", media); again.Body.String() != first.Body.String() {
					t.Errorf("%s %s, %s: other bytes the second time", method, path, name)
				}
			}
		}
	}
	if n == 0 {
		t.Error("there are no examples")
	}
}

// requestMedia is the one form in which an operation takes its body.
func requestMedia(op *openapi3.Operation) (string, *openapi3.MediaType) {
	const lines = "application/x-ndjson"
	if media := op.RequestBody.Value.Content[lines]; media != nil {
		return lines, media
	}
	return "application/json", op.RequestBody.Value.Content["application/json"]
}

func TestLint(t *testing.T) {
	for _, finding := range lint(spec(t)) {
		t.Error(finding)
	}
}

// Each rule finds what it is for.
func TestLintBites(t *testing.T) {
	for _, tc := range []struct {
		name  string
		spoil func(*openapi3.T)
		want  string
	}{
		{"string", func(d *openapi3.T) { d.Components.Schemas["Share"].Value.MaxLength = nil }, "schema Share: no maxLength"},
		{"string within", func(d *openapi3.T) {
			d.Components.Schemas["Quantity"].Value.Properties["text"].Value.MaxLength = nil
		}, "schema Quantity.text: no maxLength"},
		{"list", func(d *openapi3.T) {
			d.Components.Schemas["YardageRequest"].Value.Properties["panels"].Value.MaxItems = nil
		}, "schema YardageRequest.panels: no maxItems"},
		{"number", func(d *openapi3.T) { d.Components.Schemas["Coordinate"].Value.Max = nil }, "schema Coordinate: no minimum or no maximum"},
		{"open object", func(d *openapi3.T) {
			d.Components.Schemas["Match"].Value.AdditionalProperties = openapi3.AdditionalProperties{}
		}, "schema Match: not closed"},
		{"float", func(d *openapi3.T) { d.Components.Schemas["Coordinate"].Value.Format = "" }, "schema Coordinate: a number without format double"},
		{"summary", func(d *openapi3.T) { d.Paths.Value("/livez").Get.Summary = "" }, "livez: no summary"},
		{"example", func(d *openapi3.T) {
			d.Paths.Value("/v1/yardage").Post.RequestBody.Value.Content["application/json"].Examples = nil
		}, "yardage: the request has no example"},
		{"answer example", func(d *openapi3.T) {
			d.Paths.Value("/livez").Get.Responses.Value("200").Value.Content["application/json"].Example = nil
		}, "livez: the answer has no example"},
		{"answer example of a body", func(d *openapi3.T) {
			d.Paths.Value("/v1/yardage").Post.Responses.Value("200").Value.Content["application/json"].Examples = nil
		}, "yardage: the answer has no example"},
		{"closed answer", func(d *openapi3.T) {
			d.Components.Schemas["CutLength"].Value.AdditionalProperties.Has = new(bool)
		}, "schema CutLength: closed, and only in answers"},
		{"closed within an answer", func(d *openapi3.T) {
			d.Components.Schemas["FireChange"].Value.Properties["mends"].Value.Items.Value.AdditionalProperties.Has = new(bool)
		}, "schema FireChange.mends[]: closed, and only in answers"},
		{"open in both", func(d *openapi3.T) {
			d.Components.Schemas["FireLayer"].Value.AdditionalProperties = openapi3.AdditionalProperties{}
		}, "schema FireLayer: not closed"},
		{"errors", func(d *openapi3.T) { d.Paths.Value("/v1/yardage").Post.Responses.Delete("4XX") }, "yardage: no response to invalid-request, 422"},
		{"errors that pass", func(d *openapi3.T) { d.Paths.Value("/v1/yardage").Post.Responses.Delete("429") }, "yardage: quota-exceeded is answered as ClientProblem"},
		{"problem not listed", func(d *openapi3.T) {
			d.Paths.Value("/livez").Get.Extensions["x-problems"] = []any{"not-acceptable", "address-too-long", "headers-too-large"}
		}, "livez: internal is not listed"},
		{"problem that cannot be", func(d *openapi3.T) {
			op := d.Paths.Value("/livez").Get
			op.Extensions["x-problems"] = append(op.Extensions["x-problems"].([]any), "invalid-request")
		}, "livez: invalid-request is listed, and cannot be"},
		{"problem that is none", func(d *openapi3.T) {
			op := d.Paths.Value("/livez").Get
			op.Extensions["x-problems"] = append(op.Extensions["x-problems"].([]any), "lost")
		}, "livez: there is no problem lost"},
		{"error without a header", func(d *openapi3.T) { delete(d.Components.Responses["RetryLater"].Value.Headers, "Retry-After") }, "RetryLater: the headers are [RateLimit RateLimit-Policy X-Request-Id]"},
		{"errors of another form", func(d *openapi3.T) { d.Components.Responses["ClientProblem"].Value.Content = openapi3.Content{} }, "ClientProblem: not a problem"},
		{"property", func(d *openapi3.T) {
			d.Components.Schemas["Cloth"].Value.Properties["oneWay"].Value.Description = ""
		}, "schema Cloth.oneWay: no description"},
		{"property within", func(d *openapi3.T) {
			d.Components.Schemas["FireChange"].Value.Properties["mends"].Value.Items.Value.Properties["rule"].Value.Description = ""
		}, "schema FireChange.mends[].rule: no description"},
		{"property that is named", func(d *openapi3.T) { d.Components.Schemas["Cloth"].Value.Description = "" }, "schema YardageRequest.cloth: no description"},
		{"property that is named and more", func(d *openapi3.T) {
			d.Components.Schemas["Cloth"].Value.Properties["width"].Value.Description = ""
			d.Components.Schemas["Length"].Value.Description = ""
		}, "schema Cloth.width: no description"},
		{"parameter", func(d *openapi3.T) { d.Components.Parameters["Prefer"].Value.Description = "" }, "yardage: parameter Prefer has no description"},
		{"parameter left out", func(d *openapi3.T) { d.Paths.Value("/v1/yardage").Post.Parameters = nil }, "yardage: no parameter Prefer"},
		{"multipart", func(d *openapi3.T) {
			d.Paths.Value("/v1/yardage").Post.RequestBody.Value.Content["multipart/form-data"] = openapi3.NewMediaType()
		}, "yardage: a body that is not only JSON"},
		{"parameter by content", func(d *openapi3.T) {
			p := d.Paths.Value("/problems/{name}").Get.Parameters[0].Value
			p.Schema, p.Content = nil, openapi3.NewContentWithJSONSchema(openapi3.NewStringSchema())
		}, "problem: parameter name has no schema of its own"},
	} {
		doc := spec(t)
		tc.spoil(doc)
		if got := lint(doc); !slices.Contains(got, tc.want) {
			t.Errorf("%s: lint = %q, want %q among them", tc.name, got, tc.want)
		}
	}
}

// The engine itself passes the check of readyz, and draws.
func TestEngineIsReady(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	if w := c.do("GET", "/readyz", ""); w.Code != 200 {
		t.Errorf("readyz: status %d: %s", w.Code, w.Body)
	}
	w := c.do("POST", "/v1/yardage", sound, "Content-Type", "application/json", "Accept", "image/svg+xml")
	if w.Code != 200 || !strings.HasPrefix(w.Body.String(), "<svg ") {
		t.Errorf("svg: status %d: %.100s", w.Code, w.Body)
	}
}

// The validator is one without the faults that are known of older ones
// (GHSA-r277-6w6q-xmqw, GHSA-jpcw-4wr7-c3vq: mended in 0.144.0).
func TestValidatorIsNewEnough(t *testing.T) {
	text, err := os.ReadFile("../../go.mod")
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`github\.com/getkin/kin-openapi v0\.(\d+)\.`).FindSubmatch(text)
	if m == nil {
		t.Fatal("no version of the validator in go.mod")
	}
	if minor, err := strconv.Atoi(string(m[1])); err != nil || minor < 144 {
		t.Errorf("kin-openapi 0.%s, want at least 0.144", m[1])
	}
}
