package httpapi

import (
	"context"

	"github.com/bridletie/bridletie/api/contract"
)

// Operation describes an operation that takes a request in JSON, for callers that do not
// use HTTP, such as the command line.
type Operation struct {
	ID, Path string
	Command  string   // its name on the command line
	Forms    []string // the media types of its responses, JSON first
	Bytes    int      // limit on the size of a request
	Drawings bool     // whether Server.Drawings supports it
}

// Operations returns all operations that take a request in JSON.
func Operations() []Operation {
	var list []Operation
	for _, r := range operations() {
		if r.read != nil {
			list = append(list, Operation{r.id, r.path, r.command, r.forms, r.size.bytes, r.drawings})
		}
	}
	return list
}

// Drawings returns the drawings for a request of the operation at path, one by one. The
// error is a *Problem when the request is at fault or the operation has no drawings.
func (s *Server) Drawings(ctx context.Context, path string, body []byte) ([]Drawing, error) {
	for _, r := range s.table {
		if r.path != path || !r.drawings {
			continue
		}
		q, p := s.read(r, body)
		if p != nil {
			return nil, p
		}
		return q.drawings(ctx, s)
	}
	return nil, problem(notFound, "")
}

// Forms returns the media types of responses by their short names.
func Forms() map[string]string {
	return map[string]string{"json": contract.JSON, "text": contract.Text, "svg": contract.SVG, "pdf": contract.PDF}
}
