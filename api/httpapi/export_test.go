package httpapi

import (
	"context"
	"slices"
)

// Bodies are the operations that read JSON.
func (s *Server) Bodies() []string {
	var all []string
	for _, r := range s.table {
		if r.read != nil {
			all = append(all, r.method+" "+r.path)
		}
	}
	slices.Sort(all)
	return all
}

// BreakLines makes the reading of every line panic.
func (s *Server) BreakLines() { s.contract = nil }

// HoldLight takes a place in the light lane until it is released.
func (s *Server) HoldLight(release chan bool) {
	leave, err := s.light.Enter(context.Background())
	if err != nil {
		panic(err)
	}
	go func() {
		<-release
		leave()
	}()
}

// Answered is the answer to a request, short of writing it down.
func Answered[R, A any](ctx context.Context, s *Server, path string, body []byte) (*A, error) {
	for _, r := range s.table {
		if r.path != path {
			continue
		}
		q, p := s.read(r, body)
		if p != nil {
			return nil, p
		}
		return q.(*asked[R, A]).work(ctx, s)
	}
	return nil, problem(notFound, "")
}

// Kinds are the kinds of problem with their statuses.
func Kinds() map[string]int {
	all := make(map[string]int)
	for _, k := range kinds() {
		all[k.name] = k.status
	}
	return all
}
