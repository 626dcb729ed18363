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

// question is a request that was read without faults.
type question interface {
	digest() string // names it by what it says
	// answer is the answer in a form.
	answer(ctx context.Context, s *Server, media string) ([]byte, error)
	// lines sends the answer line by line while it is made.
	lines(ctx context.Context, s *Server, send func(any)) error
	// drawings are the drawings of the answer, one by one.
	drawings(ctx context.Context, s *Server) ([]Drawing, error)
}

// Drawing is a file with a drawing in it.
type Drawing struct {
	Name string // with its ending
	Body []byte
}

// operation is an operation that reads a request R and answers with an A.
type operation[R, A any] struct {
	id, path string
	command  string // the path's words, when it is left out
	lane     lane
	size     size
	soFar    bool

	read    func(*contract.Document) (R, fault.List, error) // with the faults that only its form on the wire can show
	fields  func(R) fault.List                              // of each field by itself, where a part could not be read
	prepare func(R) (service.Ready[A], fault.List)          // all faults, and what makes the answer; or else:
	faults  func(R) fault.List                              // all faults
	answer  func(*Server, context.Context, R) (*A, error)
	after   func(*Server, *A) error // when the turn is over; may be nil

	write    func(a *A, digest string) any // on the wire
	picture  func(*A) drawn                // nil when it is not drawn
	text     func(*A) string               // a page for a terminal; nil when there is none
	lines    func(s *Server, ctx context.Context, req R, digest string, send func(any)) error
	drawings func(*A) ([]Drawing, error)
}

// drawn is what can be drawn and printed: a picture, or several.
type drawn interface {
	SVG() []byte
	Printed() ([]byte, error)
}

// row is the operation without its types.
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

// ask reads a body, and says everything that is wrong with it.
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

// asked is a question to an operation.
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

// work is the answer itself, when its turn has come.
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

// written is something in a form; only that is made.
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

// from reads a request by its form on the wire.
func from[W, R any](in func(*W) (R, fault.List)) func(*contract.Document) (R, fault.List, error) {
	return func(d *contract.Document) (request R, form fault.List, err error) {
		var body W
		if err = d.Decode(&body); err == nil {
			request, form = in(&body)
		}
		return request, form, err
	}
}

// to writes an answer in its form on the wire.
func to[A, W any](out func(*A, string) W) func(*A, string) any {
	return func(a *A, digest string) any { return out(a, digest) }
}

// draws draws an answer.
func draws[A any, D drawn](picture func(*A) D) func(*A) drawn {
	return func(a *A) drawn { return picture(a) }
}
