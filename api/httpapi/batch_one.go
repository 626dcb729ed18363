package httpapi

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/calc/fault"
)

// oneLine is a line that was parsed without faults.
type oneLine struct {
	id   string
	row  *row
	body []byte
}

// answerLine returns the response to line n, and its status.
func (s *Server) answerLine(ctx context.Context, n int, text []byte) ([]byte, int) {
	s.metrics.linesInFlight.Inc()
	defer s.metrics.linesInFlight.Dec()
	l, answer, p := s.answerCaught(ctx, n, text)
	name := "none"
	if l.row != nil {
		name = l.row.id
	}
	status := http.StatusOK
	if p != nil {
		status = p.Status
	}
	s.metrics.line(name, status)
	return lineText(n, l.id, p, answer), status
}

// answerCaught returns the result of line n, or its problem. A panic becomes a problem
// too, because it would otherwise end the process.
func (s *Server) answerCaught(ctx context.Context, n int, text []byte) (l oneLine, answer []byte, p *Problem) {
	defer func() {
		if v := recover(); v != nil {
			s.metrics.panics.Inc()
			s.opts.Log.ErrorContext(ctx, "panic", "line", n, "error", clipError(fmt.Errorf("%v", v)), "stack", string(debug.Stack()))
			p = problem(internal, "line "+strconv.Itoa(n))
		}
	}()
	if l, p = s.readLine(text); p != nil {
		return oneLine{id: l.id}, nil, p
	}
	answer, p = s.answerInside(ctx, n, l)
	return l, answer, p
}

// readLine parses the envelope of a line: its id, operation and request.
func (s *Server) readLine(text []byte) (oneLine, *Problem) {
	var l oneLine
	doc, err := strictjson.Parse(text, strictjson.Limits{Depth: s.contract.Depth() + 1, Values: maxValues + 16})
	if err != nil {
		return l, malformed(err)
	}
	var faults fault.List
	root := fault.Path{}
	if doc.Kind != strictjson.Object {
		faults.Add(root, fault.WrongType, "", "a line is an object", `{"operation": "/v1/pleats", "request": {...}}`)
		return l, invalid(faults.Faults())
	}
	for _, m := range doc.Members {
		if !slices.Contains([]string{"id", "operation", "request"}, m.Name) {
			faults.Add(root.Field(m.Name), fault.UnknownField, "", "a line has no such field", "id, operation or request")
		}
	}
	l.readID(doc.Get("id"), &faults)
	s.readOperation(&l, doc.Get("operation"), &faults)
	if doc.Get("request") == nil {
		faults.Add(root.Field("request"), fault.Missing, "", "the request is missing", "the body that the operation takes")
	}
	if faults.Len() > 0 {
		list := faults.Faults()
		contract.InPlace(doc, list)
		return l, invalid(list)
	}
	var raw struct{ Request json.RawMessage }
	if err := json.Unmarshal(text, &raw); err != nil {
		return l, problem(malformedJSON, "the document cannot be read")
	}
	l.body = raw.Request
	return l, nil
}

// readID reads the id of the line, if it has one.
func (l *oneLine) readID(given *strictjson.Value, faults *fault.List) {
	switch {
	case given == nil:
	case given.Kind == strictjson.String && formats.IsToken(given.Text, 64):
		l.id = given.Text
	default:
		faults.Add(fault.At("id"), fault.NotAName, given.Text, "this is not an id", "1 to 64 letters, digits, dots, dashes or underscores")
	}
}

// readOperation looks up the operation that a line names.
func (s *Server) readOperation(l *oneLine, named *strictjson.Value, faults *fault.List) {
	at := fault.At("operation")
	switch {
	case named == nil:
		faults.Add(at, fault.Missing, "", "the operation is missing", "the path of one that takes a JSON body, such as /v1/pleats")
		return
	case named.Kind != strictjson.String:
		faults.Add(at, fault.WrongType, named.Text, "this is not a path", "a path such as /v1/pleats")
		return
	}
	i := slices.IndexFunc(s.table, func(r *row) bool { return r.read != nil && r.path == named.Text })
	if i < 0 {
		faults.Add(at, fault.NotOneOf, named.Text, "no operation with a JSON body has this path", strings.Join(s.batchable(), ", "))
		return
	}
	l.row = s.table[i]
}

// batchable returns the sorted paths of the operations that a line may name.
func (s *Server) batchable() []string {
	var list []string
	for _, r := range s.table {
		if r.read != nil {
			list = append(list, r.path)
		}
	}
	slices.Sort(list)
	return list
}

// answerInside runs the request of a line as its operation would.
func (s *Server) answerInside(ctx context.Context, n int, l oneLine) (answer []byte, p *Problem) {
	ctx, end := step(ctx, "line")
	defer end()
	if p = s.mayAsk(ctx, l.row); p != nil {
		return nil, p
	}
	work := &lineWork{}
	account, _ := ctx.Value(accountKey).(*admit.Account)
	begun := time.Now()
	defer func() { account.Charge(time.Since(begun) - work.waited) }()
	q, p := s.read(l.row, l.body)
	if p != nil {
		return nil, p.under("request")
	}
	answer, err := q.answer(context.WithValue(ctx, lineKey, work), s, contract.JSON)
	switch {
	case err == nil:
		return bytes.TrimRight(answer, "\n"), nil
	case errors.As(err, &p):
		return nil, p
	}
	s.opts.Log.ErrorContext(ctx, "failed", "line", n, "error", clipError(err))
	return nil, problem(internal, "line "+strconv.Itoa(n))
}

// lineWork is the work on a line.
type lineWork struct{ waited time.Duration } // for a slot; not charged to the quota

// mayAsk returns a problem if the caller may not send this line, otherwise nil. Each line
// counts as one request, and an operation that needs a key needs it here too.
func (s *Server) mayAsk(ctx context.Context, op *row) *Problem {
	who, ok := ctx.Value(callerKey).(caller)
	switch {
	case !ok: // the lines come from a file, not from a caller
		return nil
	case who.key == "" && s.callers.access.needsKey(op):
		s.gate.denied.Inc()
		return noKey("this operation needs a key")
	case who.account.None():
		return nil
	}
	_, p := s.takeOne(who)
	return p
}

// under prefixes the pointers of the problem with a field, and returns the problem.
func (p *Problem) under(field string) *Problem {
	inner := *p
	inner.Faults = slices.Clone(p.Faults)
	for i, f := range inner.Faults {
		inner.Faults[i].Path = fault.At(field).Then(f.Path)
	}
	return &inner
}

// lineText returns the response line. The bytes of the operation's result are copied
// unchanged.
func lineText(n int, id string, p *Problem, answer []byte) []byte {
	b := strconv.AppendInt([]byte(`{"line":`), int64(n), 10)
	if id != "" {
		b = append(b, `,"id":"`+id+`"`...) // an id needs no escapes
	}
	if p == nil {
		b = append(append(b, `,"status":200,"answer":`...), answer...)
		return append(b, '}', '\n')
	}
	b = strconv.AppendInt(append(b, `,"status":`...), int64(p.Status), 10)
	wire, err := json.Marshal(p.wire())
	if err != nil { // impossible: only strings and numbers
		wire = []byte("{}")
	}
	b = append(append(b, `,"problem":`...), wire...)
	return append(b, '}', '\n')
}
