package httpapi

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie"
)

// contract is openapi.yaml, made ready to be asked.
type contract struct {
	yaml, json         document
	furniture          document
	formats            map[string]openapi3.StringFormatValidator
	operations         map[string]operation
	methods            map[string][]string // by path, what Allow says
	parametrizedPrefix []string            // of paths whose last part is a parameter
}

// document is a form of the contract that is served.
type document struct {
	body []byte
	etag string
}

// operation is what the pipeline knows of an operation before it runs.
type operation struct {
	id     string
	offers []string         // media types of a right answer, the default first
	body   *openapi3.Schema // of the request; nil when there is none, or lines
	lines  bool             // the body is lines, which the handler reads as they come
	reader reader           // of the body
}

// loadContract reads the embedded document. It fails only when the document is
// not a right one.
func loadContract() (*contract, error) {
	doc, err := openapi3.NewLoader().LoadFromData(bridletie.Spec)
	if err != nil {
		return nil, fmt.Errorf("httpapi: openapi.yaml: %w", err)
	}
	// Examples are for the tests: one that is stale must not keep the service,
	// from which it is written anew, from starting.
	if err := doc.Validate(context.Background(), openapi3.DisableExamplesValidation()); err != nil {
		return nil, fmt.Errorf("httpapi: openapi.yaml: %w", err)
	}
	asJSON, err := doc.MarshalJSON()
	if err != nil {
		return nil, fmt.Errorf("httpapi: openapi.json: %w", err)
	}
	kinds, err := furnitureDocument()
	if err != nil {
		return nil, fmt.Errorf("httpapi: furniture: %w", err)
	}
	c := &contract{
		furniture:  kinds,
		yaml:       newDocument(bridletie.Spec),
		json:       newDocument(append(asJSON, '\n')),
		formats:    stringFormats(),
		operations: make(map[string]operation),
		methods:    make(map[string][]string),
	}
	for path, item := range doc.Paths.Map() {
		for method, op := range item.Operations() {
			o, err := newOperation(op)
			if err != nil {
				return nil, err
			}
			c.operations[method+" "+path] = o
			c.methods[path] = append(c.methods[path], method)
			if method == http.MethodGet {
				c.methods[path] = append(c.methods[path], http.MethodHead)
			}
		}
		slices.Sort(c.methods[path])
		if prefix, _, ok := strings.Cut(path, "{"); ok {
			c.parametrizedPrefix = append(c.parametrizedPrefix, prefix)
		}
	}
	return c, nil
}

func newDocument(body []byte) document {
	sum := sha256.Sum256(body)
	return document{body: body, etag: `"` + hex.EncodeToString(sum[:16]) + `"`}
}

func newOperation(op *openapi3.Operation) (operation, error) {
	o := operation{id: op.OperationID}
	for media := range op.Responses.Value("200").Value.Content {
		o.offers = append(o.offers, media)
	}
	slices.SortFunc(o.offers, func(a, b string) int {
		return cmp.Or(cmp.Compare(preference(a), preference(b)), strings.Compare(a, b))
	})
	if op.RequestBody != nil {
		media := op.RequestBody.Value.Content["application/json"]
		if media == nil {
			o.lines = true
			return o, nil
		}
		o.body = media.Schema.Value
		var ok bool
		if o.reader, ok = readers()[o.id]; !ok {
			return o, fmt.Errorf("httpapi: openapi.yaml: nothing reads the body of %s", o.id)
		}
	}
	return o, nil
}

// preference is the place of a media type among those on offer, for a client
// that has none of its own.
func preference(media string) int {
	switch media {
	case "application/json":
		return 0
	case mediaSVG:
		return 1
	}
	return 2
}

// template is the path of the contract that a request's path is of; ok is
// false when there is none.
func (c *contract) template(path string) (string, bool) {
	if _, ok := c.methods[path]; ok && !strings.Contains(path, "{") {
		return path, true
	}
	for _, prefix := range c.parametrizedPrefix {
		rest, ok := strings.CutPrefix(path, prefix)
		if !ok || rest == "" || strings.Contains(rest, "/") {
			continue
		}
		for template := range c.methods {
			if strings.HasPrefix(template, prefix+"{") {
				return template, true
			}
		}
	}
	return "", false
}
