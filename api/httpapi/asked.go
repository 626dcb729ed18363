package httpapi

import (
	"context"

	"github.com/bridletie/bridletie/api/contract"
)

// Operation is an operation that is asked with a request in JSON, for what asks them
// otherwise than over HTTP.
type Operation struct {
	ID, Path string
	Command  string   // its name on the command line
	Forms    []string // the media types of its answers, JSON first
	Bytes    int      // of a request, at most
	Drawings bool     // whether its drawings may be asked for one by one
}

// Operations are all that are asked with a request in JSON.
func Operations() []Operation {
	var list []Operation
	for _, r := range operations() {
		if r.read != nil {
			list = append(list, Operation{r.id, r.path, r.command, r.forms, r.size.bytes, r.drawings})
		}
	}
	return list
}

// Drawings are the drawings of the answer to a request, one by one. The error is a
// *Problem when the request is at fault.
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

// Forms are the names of the media types that answers are asked for by.
func Forms() map[string]string {
	return map[string]string{"json": contract.JSON, "text": contract.Text, "svg": contract.SVG, "pdf": contract.PDF}
}
