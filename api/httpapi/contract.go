package httpapi

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie"
	"github.com/bridletie/bridletie/api/web"
)

// contract is openapi.yaml, made ready to be asked.
type contract struct {
	yaml, json   document
	furniture    document
	depth        int
	pictures     map[string]func() document // by kind
	formats      map[string]openapi3.StringFormatValidator
	operations   map[string]operation
	methods      map[string][]string // by path, what Allow says
	parametrized []string            // paths with a parameter, in order
}

// document is what is served as it is.
type document struct {
	web.Form
	gzipped func() *web.Form // nil where there is none
}

// operation is what the pipeline knows of an operation before it runs.
type operation struct {
	id     string
	offers []string         // media types of a right answer, the default first
	body   *openapi3.Schema // of the request; nil when there is none, or lines
	shape  *shape           // of the body; nil when every body goes to the validator
	lines  bool             // the body is lines, which the handler reads as they come
	reader reader           // of the body
	public bool             // counts against quotas, and may need a key
}

// sortedOperations are all operations, in the order of their ids.
func sortedOperations(all map[string]operation) []operation {
	return slices.SortedFunc(maps.Values(all), func(a, b operation) int { return strings.Compare(a.id, b.id) })
}

// loadContract reads the embedded document. It fails only when the document is
// not a right one.
func loadContract(l Limits) (*contract, error) {
	doc, err := openapi3.NewLoader().LoadFromData(bridletie.Spec)
	if err != nil {
		return nil, fmt.Errorf("httpapi: openapi.yaml: %w", err)
	}
	// Examples are for the tests: one that is stale must not keep the service,
	// from which it is written anew, from starting.
	if err := doc.Validate(context.Background(), openapi3.DisableExamplesValidation()); err != nil {
		return nil, fmt.Errorf("httpapi: openapi.yaml: %w", err)
	}
	asYAML, tightened := bridletie.Spec, l.tighten(doc)
	asJSON, err := doc.MarshalJSON()
	if err != nil {
		return nil, fmt.Errorf("httpapi: openapi.json: %w", err)
	}
	if tightened {
		asYAML = asJSON // every JSON is YAML
	}
	kinds, err := furnitureDocument()
	if err != nil {
		return nil, fmt.Errorf("httpapi: furniture: %w", err)
	}
	c := &contract{
		furniture:  kinds,
		pictures:   furniturePictures(),
		yaml:       newPacked(asYAML),
		json:       newPacked(append(asJSON, '\n')),
		formats:    stringFormats(),
		depth:      l.Depth,
		operations: make(map[string]operation),
		methods:    make(map[string][]string),
	}
	for path, item := range doc.Paths.Map() {
		for method, op := range item.Operations() {
			o, err := newOperation(op, l)
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
		if strings.Contains(path, "{") {
			c.parametrized = append(c.parametrized, path)
		}
	}
	slices.Sort(c.parametrized)
	return c, nil
}

func newDocument(body []byte) document { return document{Form: web.NewForm(body)} }

// newPacked is a document that is made once and kept compressed too.
func newPacked(body []byte) document { return document{web.NewForm(body), web.Gzipped(body)} }

func newOperation(op *openapi3.Operation, l Limits) (operation, error) {
	o := operation{id: op.OperationID, public: !slices.Contains(op.Tags, "service")}
	for media := range op.Responses.Value("200").Value.Content {
		o.offers = append(o.offers, media)
	}
	slices.SortFunc(o.offers, func(a, b string) int {
		return cmp.Or(cmp.Compare(preference(a), preference(b)), strings.Compare(a, b))
	})
	if op.RequestBody != nil {
		media := op.RequestBody.Value.Content[mediaJSON]
		if media == nil {
			o.lines = true
			return o, nil
		}
		o.body = media.Schema.Value
		o.shape = shapeOf(media.Schema)
		var ok bool
		if o.reader, ok = readers()[o.id]; !ok {
			return o, fmt.Errorf("httpapi: openapi.yaml: nothing reads the body of %s", o.id)
		}
	}
	o.reader.most, o.reader.values = min(o.reader.most, l.BodyBytes), min(o.reader.values, l.Values)
	return o, nil
}

// preference is the place of a media type among those on offer, for a client
// that has none of its own.
func preference(media string) int {
	switch media {
	case mediaJSON:
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
	for _, template := range c.parametrized {
		if fits(path, template) {
			return template, true
		}
	}
	return "", false
}

// fits reports whether a path is of a template: part by part the same, or
// anything but nothing where the template has a parameter.
func fits(path, template string) bool {
	parts, want := strings.Split(path, "/"), strings.Split(template, "/")
	if len(parts) != len(want) {
		return false
	}
	for i, part := range parts {
		if parameter := strings.HasPrefix(want[i], "{"); part == "" && parameter || part != want[i] && !parameter {
			return false
		}
	}
	return true
}
