package httpapi

import (
	"encoding/json"
	"errors"
	"net/http"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/strictjson"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/calc/fault"
)

// MaxFaults is how many faults a problem shows; its count says how many there
// are.
const MaxFaults = wire.MaxFaults

// Problem is an answer that is not the one asked for (RFC 9457).
type Problem struct {
	Type   string // a path under /problems
	Title  string
	Status int
	Detail string
	Count  int           // of all faults
	Faults []fault.Fault // the first MaxFaults

	Violated []string // the quotas that are used

	header http.Header // what else the answer must carry
	left   bool        // stands for an answer that was not made, since the request had ended
}

// Error is the title and the detail.
func (p *Problem) Error() string {
	if p.Detail == "" {
		return p.Title
	}
	return p.Title + ": " + p.Detail
}

// Readable is the problem in lines for a terminal.
func (p *Problem) Readable() string {
	var b strings.Builder
	b.WriteString(p.Error() + "\n")
	for _, f := range p.Faults {
		b.WriteString("  " + f.Pointer() + ": " + f.Detail + " (" + string(f.Code) + ")")
		if f.Given != "" {
			b.WriteString("\n    given: " + strconv.Quote(f.Given))
		}
		if f.Try != "" {
			b.WriteString("\n    try: " + f.Try)
		}
		b.WriteString("\n")
	}
	if more := p.Count - len(p.Faults); more > 0 {
		b.WriteString("  and " + strconv.Itoa(more) + " more\n")
	}
	return b.String()
}

// wire is the problem as the contract has it.
func (p *Problem) wire() gen.Problem {
	w := gen.Problem{Type: p.Type, Title: p.Title, Status: p.Status, Detail: optional(p.Detail)}
	if len(p.Violated) > 0 {
		var names []gen.ProblemViolatedPolicies
		for _, name := range p.Violated {
			names = append(names, gen.ProblemViolatedPolicies(name))
		}
		w.ViolatedPolicies = &names
	}
	if p.Count == 0 {
		return w
	}
	w.Count = &p.Count
	list := wire.FaultsOut(p.Faults)
	w.Errors = &list
	return w
}

func optional(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// write sends the problem.
func (p *Problem) write(w http.ResponseWriter) error {
	body, err := json.Marshal(p.wire())
	if err != nil {
		return err
	}
	h := w.Header()
	for name, values := range p.header {
		h[name] = values
	}
	h.Set("Content-Type", "application/problem+json")
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Length", strconv.Itoa(len(body)+1))
	w.WriteHeader(p.Status)
	_, err = w.Write(append(body, '\n'))
	return err
}

// with adds a header to the answer.
func (p *Problem) with(name, value string) *Problem {
	if p.header == nil {
		p.header = http.Header{}
	}
	p.header.Set(name, value)
	return p
}

// problem is a Problem of that kind.
func problem(name, detail string) *Problem {
	k, ok := kindOf(name)
	if !ok {
		k, _ = kindOf(internal)
	}
	return &Problem{Type: "/problems/" + k.name, Title: k.title, Status: k.status, Detail: detail}
}

// invalid is the problem of a request with faults, which come in order.
func invalid(faults []fault.Fault) *Problem {
	detail := "1 fault"
	if n := len(faults); n != 1 {
		detail = strconv.Itoa(n) + " faults"
	}
	p := problem(invalidRequest, detail)
	p.Count = len(faults)
	p.Faults = faults[:min(len(faults), MaxFaults)]
	return p
}

// ReadProblem is the problem in the body of an answer of this server.
func ReadProblem(status int, body []byte) *Problem {
	var w gen.Problem
	if err := json.Unmarshal(body, &w); err != nil {
		return &Problem{Title: "the answer cannot be read", Status: status}
	}
	p := &Problem{Type: w.Type, Title: w.Title, Status: w.Status}
	if w.Detail != nil {
		p.Detail = *w.Detail
	}
	if w.Count != nil {
		p.Count = *w.Count
	}
	if w.Errors != nil {
		p.Faults = wire.FaultsIn(*w.Errors)
	}
	return p
}

// malformed is the problem of a body that strictjson refuses.
func malformed(err error) *Problem {
	var refused *strictjson.Error
	if !errors.As(err, &refused) {
		return problem(malformedJSON, "")
	}
	return problem(malformedJSON, refused.Error())
}
