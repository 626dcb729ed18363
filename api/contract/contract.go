package contract

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"sync"

	"github.com/getkin/kin-openapi/openapi3"

	"github.com/bridletie/bridletie"
)

// Contract is openapi.yaml, made ready to be asked.
type Contract struct {
	yaml         func() ([]byte, error)
	json         func() ([]byte, error)
	right        func() error
	depth        int
	formats      map[string]openapi3.StringFormatValidator
	operations   map[string]*Operation // by method and path
	methods      map[string][]string   // by path, what Allow says
	parametrized []string              // paths with a parameter, in order
}

// Operation is what the contract says of an operation.
type Operation struct {
	ID           string
	Method, Path string   // the path with its parameters in braces
	Offers       []string // media types of a right answer, the default first
	Lines        bool     // the body is lines, which are read as they come
	Public       bool     // counts against quotas, and may need a key
	BodyBytes    int      // that are read at most of a body
	Values       int      // of JSON that are read at most, names counted too

	body  *openapi3.Schema // of the request; nil when there is none, or lines
	shape *shape           // of the body; nil when every body goes to the validator
}

// TakesJSON reports whether the operation has a body of JSON.
func (o *Operation) TakesJSON() bool { return o != nil && o.body != nil }

// Load reads the embedded document and makes its limits no larger than l, and no
// answer take longer than those seconds. It fails only when the document cannot be
// read; Check says whether it is a right one.
func Load(l Limits, answerSeconds int) (*Contract, error) {
	doc, err := openapi3.NewLoader().LoadFromData(bridletie.Spec)
	if err != nil {
		return nil, fmt.Errorf("contract: openapi.yaml: %w", err)
	}
	c := &Contract{
		yaml:       func() ([]byte, error) { return bridletie.Spec, nil },
		json:       sync.OnceValues(func() ([]byte, error) { return jsonOf(doc) }),
		right:      sync.OnceValue(func() error { return checked(doc) }),
		formats:    stringFormats(),
		depth:      l.Depth,
		operations: make(map[string]*Operation),
		methods:    make(map[string][]string),
	}
	if l.tighten(doc, answerSeconds) {
		c.yaml = c.json // every JSON is YAML
	}
	for path, item := range doc.Paths.Map() {
		c.add(path, item, doc.Extensions)
	}
	slices.Sort(c.parametrized)
	return c, nil
}

// add takes in what the document says of a path.
func (c *Contract) add(path string, item *openapi3.PathItem, document map[string]any) {
	for method, op := range item.Operations() {
		c.operations[method+" "+path] = newOperation(method, path, op, document)
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

// checked holds the document against the rules of OpenAPI. Examples are for the tests:
// one that is stale must not keep the service, from which it is written anew, from
// being ready.
func checked(doc *openapi3.T) error {
	if err := doc.Validate(context.Background(), openapi3.DisableExamplesValidation()); err != nil {
		return fmt.Errorf("contract: openapi.yaml: %w", err)
	}
	return nil
}

func jsonOf(doc *openapi3.T) ([]byte, error) {
	text, err := doc.MarshalJSON()
	if err != nil {
		return nil, fmt.Errorf("contract: openapi.json: %w", err)
	}
	return append(text, '\n'), nil
}

func newOperation(method, path string, op *openapi3.Operation, document map[string]any) *Operation {
	o := &Operation{
		ID: op.OperationID, Method: method, Path: path, Public: !slices.Contains(op.Tags, "service"),
		BodyBytes: numberOf("bodyBytes", op.Extensions, document), Values: numberOf("values", op.Extensions, document),
	}
	for media := range op.Responses.Value("200").Value.Content {
		o.Offers = append(o.Offers, media)
	}
	slices.SortFunc(o.Offers, byPreference)
	if op.RequestBody == nil {
		return o
	}
	media := op.RequestBody.Value.Content[JSON]
	if media == nil {
		o.Lines = true
		return o
	}
	o.body = media.Schema.Value
	o.shape = shapeOf(media.Schema)
	return o
}

// YAML is the document as it is served.
func (c *Contract) YAML() ([]byte, error) { return c.yaml() }

// JSON is the document in JSON, written when it is first asked for.
func (c *Contract) JSON() ([]byte, error) { return c.json() }

// Check is what is wrong with the document, looked at when it is first asked for.
func (c *Contract) Check() error { return c.right() }

// Depth is how deep the JSON of a request may be.
func (c *Contract) Depth() int { return c.depth }

// Operations are all operations, in the order of their ids.
func (c *Contract) Operations() []*Operation {
	all := make([]*Operation, 0, len(c.operations))
	for _, op := range c.operations {
		all = append(all, op)
	}
	slices.SortFunc(all, func(a, b *Operation) int { return strings.Compare(a.ID, b.ID) })
	return all
}

// Find is the operation of a method and a path of the contract; nil when there is
// none.
func (c *Contract) Find(method, path string) *Operation { return c.operations[method+" "+path] }
