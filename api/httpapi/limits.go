package httpapi

import (
	"fmt"
	"runtime"
	"time"

	"github.com/bridletie/bridletie/api/contract"
)

// Limits are what a client can draw out of the service, all in one place. The
// contract says those of a request; here they may only be made smaller.
type Limits struct {
	contract.Limits // of a request

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
		Limits: contract.Limits{
			BodyBytes: MaxCheckBody, Depth: 32, Values: maxValues,
			Panels: 500, Pieces: 20, Cloths: 1000, Effort: "thorough",
			AddressBytes: 8192, HeaderFields: 100, HeaderBytes: 16 << 10,
		},
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
