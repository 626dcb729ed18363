package httpapi

import (
	"fmt"
	"runtime"
	"slices"
	"time"

	"github.com/getkin/kin-openapi/openapi3"
)

// Limits are what a client can draw out of the service, all in one place. The
// contract says those of a request; here they may only be made smaller.
type Limits struct {
	// Of a request.
	BodyBytes    int    // the largest body of any operation
	Depth        int    // of JSON
	Values       int    // of JSON, names counted too
	Panels       int    // in one list
	Pieces       int    // in hand
	Cloths       int    // to compare
	Effort       string // the most thorough that may be asked for: normal or thorough
	AddressBytes int    // of path and query, else 414
	HeaderFields int    // else 431
	HeaderBytes  int    // which net/http sees to

	// Of work.
	BodyRoom   int           // bytes of bodies, but for the first 16 KiB of each, that are read or wait at the same time
	SolveTime  time.Duration // how long an answer may be worked on before 503
	Solves     int           // heavy answers worked on at the same time
	SolveQueue int           // more that wait for one of those places
	SolveWait  time.Duration // how long they wait before 503
	Lights     int           // short answers worked on at the same time
	LightQueue int           // more that wait
	LightWait  time.Duration // how long they wait before 503
	LightTime  time.Duration // after which a short answer is a heavy one
}

// DefaultLimits leave a core to short answers while plans are made, and hold the
// queues so short that whoever gets into one is answered.
func DefaultLimits() Limits {
	cores := runtime.GOMAXPROCS(0)
	return Limits{
		BodyBytes: MaxCheckBody, Depth: maxDepth, Values: maxCheckValues,
		Panels: 500, Pieces: 20, Cloths: 1000, Effort: "thorough",
		AddressBytes: 8192, HeaderFields: 100, HeaderBytes: 16 << 10,
		BodyRoom: 32 << 20, SolveTime: 50 * time.Second,
		Solves: max(1, cores-1), SolveQueue: max(1, cores-1), SolveWait: 5 * time.Second,
		Lights: 4 * cores, LightQueue: 64 * cores, LightWait: 250 * time.Millisecond, LightTime: 250 * time.Millisecond,
	}
}

// validate names the limit that makes no sense.
func (l Limits) validate() error {
	most := DefaultLimits()
	for name, n := range map[string][3]int{ // what it is, and from and to what it may be
		"BodyBytes":    {l.BodyBytes, 1024, most.BodyBytes},
		"Depth":        {l.Depth, 8, most.Depth},
		"Values":       {l.Values, 100, most.Values},
		"Panels":       {l.Panels, 1, most.Panels},
		"Pieces":       {l.Pieces, 1, most.Pieces},
		"Cloths":       {l.Cloths, 1, most.Cloths},
		"AddressBytes": {l.AddressBytes, 64, most.AddressBytes},
		"HeaderFields": {l.HeaderFields, 16, most.HeaderFields},
		"BodyRoom":     {l.BodyRoom, most.BodyBytes, 1 << 40},
		"HeaderBytes":  {l.HeaderBytes, 1024, most.HeaderBytes},
		"Solves":       {l.Solves, 1, 1024},
		"SolveQueue":   {l.SolveQueue, 0, 1 << 16},
		"Lights":       {l.Lights, 1, 1 << 16},
		"LightQueue":   {l.LightQueue, 0, 1 << 20},
	} {
		if n[0] < n[1] || n[0] > n[2] {
			return fmt.Errorf("httpapi: Limits.%s is %d and must be from %d to %d", name, n[0], n[1], n[2])
		}
	}
	for name, d := range map[string]time.Duration{"SolveWait": l.SolveWait, "LightWait": l.LightWait, "LightTime": l.LightTime} {
		if d < 0 {
			return fmt.Errorf("httpapi: Limits.%s must not be negative", name)
		}
	}
	switch {
	case l.SolveTime <= 0 || l.SolveTime > most.SolveTime:
		return fmt.Errorf("httpapi: Limits.SolveTime is %v and must be more than 0 and at most %v", l.SolveTime, most.SolveTime)
	case l.Effort != "normal" && l.Effort != "thorough": // an effort that is left out is normal
		return fmt.Errorf("httpapi: Limits.Effort is %.20q and must be normal or thorough", l.Effort)
	}
	return nil
}

// tighten writes limits that are smaller than the contract's into it, so that the
// service says what it does. It reports whether there was one.
func (l Limits) tighten(doc *openapi3.T) (smaller bool) {
	lists := map[string]uint64{"panels": uint64(l.Panels), "pieces": uint64(l.Pieces), "cloths": uint64(l.Cloths)} //nolint:gosec // validated
	seen := make(map[*openapi3.Schema]bool)
	var walk func(ref *openapi3.SchemaRef)
	walk = func(ref *openapi3.SchemaRef) {
		if ref == nil || seen[ref.Value] {
			return
		}
		s := ref.Value
		seen[s] = true
		for name, part := range s.Properties {
			most, ok := lists[name]
			if ok && part.Value.MaxItems != nil && most < *part.Value.MaxItems {
				part.Value.MaxItems, smaller = &most, true
			}
			walk(part)
		}
		walk(s.Items)
		for _, part := range slices.Concat(s.AllOf, s.OneOf, s.AnyOf) {
			walk(part)
		}
	}
	for _, item := range doc.Paths.Map() {
		for _, op := range item.Operations() {
			if op.RequestBody == nil {
				continue
			}
			smaller = l.tightenNumbers(op.Extensions) || smaller
			for _, media := range op.RequestBody.Value.Content {
				walk(media.Schema)
			}
		}
	}
	smaller = l.tightenNumbers(doc.Extensions) || smaller
	if effort := doc.Components.Schemas["Effort"]; effort != nil && l.Effort != "thorough" {
		effort.Value.Enum = slices.DeleteFunc(effort.Value.Enum, func(word any) bool { return word == "thorough" })
		smaller = true
	}
	return smaller
}

// tightenNumbers makes the numbers of an x-limits no larger than the limits.
func (l Limits) tightenNumbers(extensions map[string]any) (smaller bool) {
	said, _ := extensions["x-limits"].(map[string]any)
	for name, most := range map[string]int{
		"bodyBytes": l.BodyBytes, "depth": l.Depth, "values": l.Values, "addressBytes": l.AddressBytes, "headerFields": l.HeaderFields, "headerBytes": l.HeaderBytes,
		"panels": l.Panels, "pieces": l.Pieces, "cloths": l.Cloths, "answerSeconds": int(l.SolveTime.Seconds()),
	} {
		if number, ok := said[name].(float64); ok && float64(most) < number {
			said[name], smaller = most, true
		}
	}
	return smaller
}
