package httpapi_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie/api/httpapi"
)

// lint is what the contract lacks by the rules of this project.
func lint(doc *openapi3.T) []string {
	var l linter
	for name, ref := range doc.Components.Schemas {
		eachSchema("schema "+name, ref, l.schema)
		eachSchema("schema "+name, ref, l.described)
	}
	l.openness(doc)
	l.problems(doc)
	for path, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			l.operation(path, op)
		}
	}
	return l.findings
}

type linter struct{ findings []string }

func (l *linter) add(format string, args ...any) {
	l.findings = append(l.findings, fmt.Sprintf(format, args...))
}

// schema says what a schema does not bound.
func (l *linter) schema(where string, s *openapi3.Schema) {
	switch {
	case s.Type == nil && len(s.AllOf)+len(s.OneOf) == 0:
		l.add("%s: no type", where)
	case s.Type == nil:
	case s.Type.Is("string") && len(s.Enum) == 0 && s.MaxLength == nil:
		l.add("%s: no maxLength", where)
	case s.Type.Is("array") && s.MaxItems == nil:
		l.add("%s: no maxItems", where)
	case (s.Type.Is("number") || s.Type.Is("integer")) && (s.Min == nil || s.Max == nil):
		l.add("%s: no minimum or no maximum", where)
	case s.Type.Is("number") && s.Format != "double":
		l.add("%s: a number without format double", where)
	}
}

// described says which properties of a schema have no description: neither their own
// nor that of what they are.
func (l *linter) described(where string, s *openapi3.Schema) {
	for name, property := range s.Properties {
		said := property.Value.Description
		for of := property.Value; said == "" && len(of.AllOf) == 1; of = of.AllOf[0].Value {
			said = of.AllOf[0].Value.Description
		}
		if said == "" {
			l.add("%s.%s: no description", where, name)
		}
	}
}

// openness says which schemas are not closed though requests have them, so that a
// name that is mistyped is found, and which are closed though only answers have them.
func (l *linter) openness(doc *openapi3.T) {
	requests, answers := reached(doc)
	for s, where := range requests {
		if s.Type.Is("object") && s.MaxProps == nil && (s.AdditionalProperties.Has == nil || *s.AdditionalProperties.Has) {
			l.add("%s: not closed", where)
		}
	}
	for s, where := range answers {
		if _, both := requests[s]; !both && s.AdditionalProperties.Has != nil && !*s.AdditionalProperties.Has {
			l.add("%s: closed, and only in answers", where)
		}
	}
}

// reached are all schemas that requests and answers have, each with its name.
func reached(doc *openapi3.T) (requests, answers map[*openapi3.Schema]string) {
	requests, answers = make(map[*openapi3.Schema]string), make(map[*openapi3.Schema]string)
	for _, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			for _, p := range op.Parameters {
				reach(op.OperationID+" "+p.Value.Name, p.Value.Schema, requests)
			}
			if op.RequestBody != nil {
				for name, media := range op.RequestBody.Value.Content {
					reach(op.OperationID+" "+name, media.Schema, requests)
				}
			}
			for _, answer := range op.Responses.Map() {
				for name, media := range answer.Value.Content {
					reach(op.OperationID+" "+name, media.Schema, answers)
				}
				for name, header := range answer.Value.Headers {
					reach(op.OperationID+" "+name, header.Value.Schema, answers)
				}
			}
		}
	}
	return requests, answers
}

// reach adds a schema and all that it is made of.
func reach(where string, ref *openapi3.SchemaRef, all map[*openapi3.Schema]string) {
	if ref == nil {
		return
	}
	s := ref.Value
	if name, ok := strings.CutPrefix(ref.Ref, "#/components/schemas/"); ok {
		where = "schema " + name
	}
	if _, been := all[s]; been {
		return
	}
	all[s] = where
	for name, property := range s.Properties {
		reach(where+"."+name, property, all)
	}
	reach(where+"[]", s.Items, all)
	reach(where+"{}", s.AdditionalProperties.Schema, all)
	for i, part := range slices.Concat(s.AllOf, s.OneOf, s.AnyOf) {
		reach(fmt.Sprintf("%s(%d)", where, i), part, all)
	}
}

// The two responses that are problems, and the headers that they are sent with.
var problemHeaders = map[string][]string{
	"ClientProblem": {"Allow", "RateLimit", "RateLimit-Policy", "WWW-Authenticate", "X-Request-Id"},
	"RetryLater":    {"RateLimit", "RateLimit-Policy", "Retry-After", "X-Request-Id"},
}

func (l *linter) problems(doc *openapi3.T) {
	for name, headers := range problemHeaders {
		r := doc.Components.Responses[name].Value
		if has := slices.Sorted(maps.Keys(r.Headers)); !slices.Equal(has, headers) {
			l.add("%s: the headers are %v", name, has)
		}
		media := r.Content["application/problem+json"]
		if media == nil || media.Schema.Ref != "#/components/schemas/Problem" || len(media.Examples) == 0 || len(r.Content) != 1 {
			l.add("%s: not a problem", name)
		}
	}
}

func (l *linter) operation(path string, op *openapi3.Operation) {
	if op.OperationID == "" || op.Summary == "" || len(op.Tags) == 0 {
		l.add("%s: no summary", op.OperationID)
	}
	if op.RequestBody != nil {
		if _, media := requestMedia(op); media == nil || len(media.Examples) == 0 {
			l.add("%s: the request has no example", op.OperationID)
		}
		if len(op.RequestBody.Value.Content) != 1 {
			l.add("%s: a body that is not only JSON", op.OperationID)
		}
	}
	l.refusals(op)
	for code, ref := range op.Responses.Map() {
		if code < "4" {
			l.answer(op, ref.Value)
		}
	}
	l.parameters(path, op)
}

// refusals holds the problems of an operation against what it takes, and its
// responses against the problems.
func (l *linter) refusals(op *openapi3.Operation) {
	listed, can := problemsOf(op), problemsThatCanBe(op)
	for _, name := range can {
		if !slices.Contains(listed, name) {
			l.add("%s: %s is not listed", op.OperationID, name)
		}
	}
	kinds := httpapi.Kinds()
	for _, name := range listed {
		status, ok := kinds[name]
		if !ok {
			l.add("%s: there is no problem %s", op.OperationID, name)
			continue
		}
		if !slices.Contains(can, name) {
			l.add("%s: %s is listed, and cannot be", op.OperationID, name)
		}
		want := "ClientProblem"
		if status == 429 || status >= 500 {
			want = "RetryLater"
		}
		switch r := op.Responses.Status(status); {
		case r == nil:
			l.add("%s: no response to %s, %d", op.OperationID, name, status)
		case r.Ref != "#/components/responses/"+want:
			l.add("%s: %s is answered as %s", op.OperationID, name, strings.TrimPrefix(r.Ref, "#/components/responses/"))
		}
	}
}

// problemsThatCanBe are those of an operation, by what it takes.
func problemsThatCanBe(op *openapi3.Operation) []string {
	can := []string{"not-acceptable", "address-too-long", "headers-too-large", "internal"}
	if op.Tags[0] != "service" {
		can = append(can, "no-key", "quota-exceeded")
	}
	if slices.ContainsFunc(op.Parameters, func(p *openapi3.ParameterRef) bool { return p.Value.In == "path" }) {
		can = append(can, "not-found")
	}
	if op.RequestBody != nil {
		can = append(can, "malformed-json", "body-too-large", "unsupported-media-type", "invalid-request")
	}
	if op.RequestBody != nil || op.OperationID == "readyz" {
		can = append(can, "unavailable", "took-too-long")
	}
	return can
}

// parameters holds what is sent beside the body. Every operation takes a trace, and
// those that work may be told how long.
func (l *linter) parameters(path string, op *openapi3.Operation) {
	want := []string{"traceparent"}
	if op.RequestBody != nil {
		want = append(want, "Prefer")
	}
	for _, name := range want {
		if op.Parameters.GetByInAndName("header", name) == nil {
			l.add("%s: no parameter %s", op.OperationID, name)
		}
	}
	for _, p := range op.Parameters {
		if p.Value.Description == "" {
			l.add("%s: parameter %s has no description", op.OperationID, p.Value.Name)
		}
		if p.Value.Schema == nil || p.Value.Content != nil {
			l.add("%s: parameter %s has no schema of its own", op.OperationID, p.Value.Name)
			continue
		}
		eachSchema(path+" parameter "+p.Value.Name, p.Value.Schema, l.schema)
	}
}

func (l *linter) answer(op *openapi3.Operation, r *openapi3.Response) {
	for name, media := range r.Content {
		eachSchema(op.OperationID+" "+name, media.Schema, l.schema)
		if (op.RequestBody == nil || name == "application/json") && media.Example == nil && len(media.Examples) == 0 {
			l.add("%s: the answer has no example", op.OperationID)
		}
	}
}
