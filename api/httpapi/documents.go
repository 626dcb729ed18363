package httpapi

import (
	"context"
	"net/http"
	"strings"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/web"
)

// SpecYaml answers GET /openapi.yaml.
func (h handlers) SpecYaml(ctx context.Context, _ gen.SpecYamlRequestObject) (gen.SpecYamlResponseObject, error) {
	text, err := h.contract.YAML()
	return serve(ctx, newPacked(text), "application/yaml"), err
}

// SpecJson answers GET /openapi.json.
func (h handlers) SpecJson(ctx context.Context, _ gen.SpecJsonRequestObject) (gen.SpecJsonResponseObject, error) {
	text, err := h.contract.JSON()
	return serve(ctx, newPacked(text), "application/json"), err
}

func ifNoneMatch(ctx context.Context) string {
	condition, _ := ctx.Value(conditionKey).(string)
	return condition
}

// serve is a document as an answer to a request.
func serve(ctx context.Context, d document, media string) served {
	return served{d, media, ifNoneMatch(ctx), takesGzip(ctx)}
}

// served is a document as an answer, 304 when the client has it.
type served struct {
	document
	media     string
	condition string // If-None-Match
	gzip      bool   // whether the client takes it compressed
}

// VisitSpecYamlResponse writes the answer.
func (s served) VisitSpecYamlResponse(w http.ResponseWriter) error { return s.write(w) }

// VisitSpecJsonResponse writes the answer.
func (s served) VisitSpecJsonResponse(w http.ResponseWriter) error { return s.write(w) }

func (s served) write(w http.ResponseWriter) error { return s.writeFor(w, "no-cache") }

// writeFor writes the answer with what Cache-Control says.
func (s served) writeFor(w http.ResponseWriter, cache string) error {
	h, form, packed := w.Header(), s.Form, (*web.Form)(nil)
	if s.gzipped != nil {
		h.Add("Vary", "Accept-Encoding")
		if s.gzip {
			packed = s.gzipped()
		}
	}
	if packed != nil {
		form = *packed
	}
	h.Set("ETag", form.ETag)
	h.Set("Cache-Control", cache)
	if known(s.condition, form.ETag) {
		w.WriteHeader(http.StatusNotModified)
		return nil
	}
	if packed != nil {
		h.Set("Content-Encoding", "gzip")
	}
	h.Set("Content-Type", s.media)
	w.WriteHeader(http.StatusOK)
	_, err := w.Write(form.Body)
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

// document is what is served as it is.
type document struct {
	web.Form
	gzipped func() *web.Form // nil where there is none
}

func newDocument(body []byte) document { return document{Form: web.NewForm(body)} }

// newPacked is a document that is made once and kept compressed too.
func newPacked(body []byte) document { return document{web.NewForm(body), web.Gzipped(body)} }
