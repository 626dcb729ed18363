package httpapi

import (
	"context"
	"slices"

	"github.com/bridletie/bridletie/api/strictjson"
)

// Bodies are the operations that read JSON.
func (s *Server) Bodies() []string {
	var all []string
	for path, op := range s.contract.operations {
		if op.body != nil {
			all = append(all, path)
		}
	}
	slices.Sort(all)
	return all
}

// HasShape reports whether the bodies of an operation are looked at quickly.
func (s *Server) HasShape(operation string) bool {
	return s.contract.operations[operation].shape != nil
}

// Takes reports whether a body is JSON, and whether the shape and the validator
// take it.
func (s *Server) Takes(operation string, body []byte) (read, byShape, byValidator bool) {
	op := s.contract.operations[operation]
	doc, err := strictjson.Parse(body, strictjson.Limits{Depth: s.contract.depth, Values: op.reader.values})
	if err != nil {
		return false, false, false
	}
	return true, op.shape.holds(doc), len(s.contract.schemaFaults(doc, op.body)) == 0
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

// The parts of three operations, for handlers that do nothing but calculate.
var (
	PipingFromWire, WirePiping = pipingFromWire, wirePiping
	RepeatFromWire, WireRepeat = repeatFromWire, wireRepeat
	FoamFromWire, WireFoam     = foamFromWire, wireFoam
)
