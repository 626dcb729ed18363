package httpapi

import (
	"context"
	"slices"
)

// Bodies are the operations that read JSON.
func (s *Server) Bodies() []string {
	var all []string
	for _, op := range s.contract.Operations() {
		if op.TakesJSON() {
			all = append(all, op.Method+" "+op.Path)
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
