package httpapi

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/service"
)

// question is a valid request of some operation.
type question interface {
	digest() string // a hash of the canonical request
	// answer returns the result in a media type.
	answer(ctx context.Context, s *Server, media string) ([]byte, error)
	// lines streams the result line by line.
	lines(ctx context.Context, s *Server, send func(any)) error
	// drawings returns the drawings of the result, one by one.
	drawings(ctx context.Context, s *Server) ([]Drawing, error)
}

// Drawing is a drawing as a file.
type Drawing struct {
	Name string // with its file extension
	Body []byte
}

// operation is an operation that reads a request R and answers with an A.
type operation[R, A any] struct {
	id, path string
	command  string // by default derived from the path
	lane     lane
	size     size
	soFar    bool

	read    func(*contract.Document) (R, fault.List, error) // also returns the faults that can only be found in the wire form
	fields  func(R) fault.List                              // returns the faults of single fields, when a part could not be read
	prepare func(R) (service.Ready[A], fault.List)          // returns all faults, and the work; or nil, with faults and answer set
	faults  func(R) fault.List                              // returns all faults of a request
	answer  func(*Server, context.Context, R) (*A, error)
	after   func(*Server, *A) error // called after the slot is released; may be nil

	write    func(a *A, digest string) any // returns the wire form
	picture  func(*A) drawn                // nil for none
	text     func(*A) string               // a page of text; nil for none
	lines    func(s *Server, ctx context.Context, req R, digest string, send func(any)) error
	drawings func(*A) ([]Drawing, error)
}

// drawn is a picture, or several, that can be drawn and printed.
type drawn interface {
	SVG() []byte
	Printed() ([]byte, error)
}

// row returns the row of the operation, without its types.
func (o *operation[R, A]) row() row {
	r := row{
		id: o.id, method: "POST", path: o.path, command: o.command, lane: o.lane, size: o.size, soFar: o.soFar, drawings: o.drawings != nil,
		read: o.ask, forms: []string{contract.JSON},
	}
	if r.command == "" {
		r.command = strings.ReplaceAll(strings.TrimPrefix(o.path, "/v1/"), "/", "-")
	}
	if o.lines != nil {
		r.forms = append(r.forms, contract.Lines)
	}
	if o.picture != nil {
		r.forms = append(r.forms, contract.SVG, contract.PDF)
	}
	if o.text != nil {
		r.forms = append(r.forms, contract.Text)
	}
	return r
}

// ask validates a body. It returns a question, or a problem with all faults.
func (o *operation[R, A]) ask(d *contract.Document) (question, *Problem) {
	request, form, err := o.read(d)
	if err != nil {
		return nil, problem(malformedJSON, "the document cannot be read")
	}
	q := &asked[R, A]{op: o, request: request}
	found := d.Faults(form, q.faults, func() fault.List { return o.fields(request) })
	if len(found) > 0 {
		return nil, invalid(found)
	}
	q.name = d.Digest()
	return q, nil
}

// asked is a valid request of an operation, with its types.
type asked[R, A any] struct {
	op      *operation[R, A]
	request R
	ready   service.Ready[A] // nil where the operation answers the request itself
	name    string
}

// faults are everything wrong with the request.
func (q *asked[R, A]) faults() (wrong fault.List) {
	if q.op.prepare == nil {
		return q.op.faults(q.request)
	}
	q.ready, wrong = q.op.prepare(q.request)
	return wrong
}

func (q *asked[R, A]) digest() string { return q.name }

// work waits for a slot and computes the result.
func (q *asked[R, A]) work(ctx context.Context, s *Server) (*A, error) {
	work := q.ready
	if work == nil {
		work = func(ctx context.Context) (*A, error) { return q.op.answer(s, ctx, q.request) }
	}
	var ans *A
	var err error
	if q.op.lane == laneShort {
		ans, err = work(ctx)
	} else {
		ans, err = inTurn(ctx, s, work)
	}
	if err == nil && q.op.after != nil {
		err = q.op.after(s, ans)
	}
	if err != nil {
		return nil, err
	}
	return ans, nil
}

func (q *asked[R, A]) answer(ctx context.Context, s *Server, media string) ([]byte, error) {
	calc, end := step(ctx, "calc")
	ans, err := q.work(calc, s)
	end()
	if err != nil {
		return nil, err
	}
	name := "draw"
	if media == contract.JSON {
		name = "write"
	}
	_, end = step(ctx, name)
	defer end()
	return written(media, func() any { return q.op.write(ans, q.name) }, func() drawn { return q.op.picture(ans) }, func() string { return q.op.text(ans) })
}

func (q *asked[R, A]) lines(ctx context.Context, s *Server, send func(any)) error {
	return q.op.lines(s, ctx, q.request, q.name, send)
}

func (q *asked[R, A]) drawings(ctx context.Context, s *Server) ([]Drawing, error) {
	ans, err := q.work(ctx, s)
	if err != nil {
		return nil, err
	}
	return q.op.drawings(ans)
}

// written returns a result in one media type. It calls only the function that this type
// needs.
func written(media string, wire func() any, picture func() drawn, text func() string) ([]byte, error) {
	switch media {
	case contract.SVG:
		return picture().SVG(), nil
	case contract.PDF:
		return picture().Printed()
	case contract.Text:
		return []byte(text()), nil
	}
	var b bytes.Buffer
	err := json.NewEncoder(&b).Encode(wire())
	return b.Bytes(), err
}

// from adapts a translator of wire requests to a decoded document.
func from[W, R any](in func(*W) (R, fault.List)) func(*contract.Document) (R, fault.List, error) {
	return func(d *contract.Document) (request R, form fault.List, err error) {
		var body W
		if err = d.Decode(&body); err == nil {
			request, form = in(&body)
		}
		return request, form, err
	}
}

// to adapts a translator to wire responses.
func to[A, W any](out func(*A, string) W) func(*A, string) any {
	return func(a *A, digest string) any { return out(a, digest) }
}

// draws adapts a drawing function to operation.picture.
func draws[A any, D drawn](picture func(*A) D) func(*A) drawn {
	return func(a *A) drawn { return picture(a) }
}
