package httpapi

import (
	"context"
	"net/http"
	"strings"

	"github.com/bridletie/bridletie/api/gen"
)

// SpecYaml answers GET /openapi.yaml.
func (h handlers) SpecYaml(ctx context.Context, _ gen.SpecYamlRequestObject) (gen.SpecYamlResponseObject, error) {
	return served{h.contract.yaml, "application/yaml", ifNoneMatch(ctx)}, nil
}

// SpecJson answers GET /openapi.json.
func (h handlers) SpecJson(ctx context.Context, _ gen.SpecJsonRequestObject) (gen.SpecJsonResponseObject, error) {
	return served{h.contract.json, "application/json", ifNoneMatch(ctx)}, nil
}

func ifNoneMatch(ctx context.Context) string {
	condition, _ := ctx.Value(conditionKey).(string)
	return condition
}

// served is a document as an answer, 304 when the client has it.
type served struct {
	document
	media     string
	condition string // If-None-Match
}

// VisitSpecYamlResponse writes the answer.
func (s served) VisitSpecYamlResponse(w http.ResponseWriter) error { return s.write(w) }

// VisitSpecJsonResponse writes the answer.
func (s served) VisitSpecJsonResponse(w http.ResponseWriter) error { return s.write(w) }

func (s served) write(w http.ResponseWriter) error {
	w.Header().Set("ETag", s.etag)
	w.Header().Set("Cache-Control", "no-cache")
	if known(s.condition, s.etag) {
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	w.Header().Set("Content-Type", s.media)
	w.WriteHeader(http.StatusOK)
	_, err := w.Write(s.body)
	return err
}

// known reports whether If-None-Match names this document. The comparison is
// the weak one (RFC 9110, section 13.1.2).
func known(condition, etag string) bool {
	for tag := range strings.SplitSeq(condition, ",") {
		if tag = strings.TrimPrefix(strings.TrimSpace(tag), "W/"); tag == "*" || tag == etag {
			return true
		}
	}
	return false
}
