package httpapi

import (
	"fmt"
	"runtime"
	"time"

	"github.com/bridletie/bridletie/api/contract"
)

// Limits are all limits on what a client can use. Those of a request are in the contract,
// and can only be lowered here.
type Limits struct {
	contract.Limits // of a request

	// Of work.
	BodyRoom   int           // bytes of bodies, but for the first 16 KiB of each, that are read or wait at the same time
	SolveTime  time.Duration // deadline of a request; beyond it 503
	Solves     int           // slots of the heavy lane
	SolveQueue int           // length of the queue for the heavy lane
	SolveWait  time.Duration // timeout in that queue; beyond it 503
	Lights     int           // slots of the light lane
	LightQueue int           // length of the queue for the light lane
	LightWait  time.Duration // timeout in that queue; beyond it 503
	LightTime  time.Duration // time in the light lane after which a request moves to the heavy lane
}

// DefaultLimits leave one core to short requests while plans are made. The queues are so
// short that a request in one is normally served.
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

// validate returns an error that names the invalid limit.
func (l Limits) validate() error {
	most := DefaultLimits()
	for name, n := range map[string][3]int{ // value, minimum and maximum
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
	case l.Effort != "normal" && l.Effort != "thorough": // the default effort is normal
		return fmt.Errorf("httpapi: Limits.Effort is %.20q and must be normal or thorough", l.Effort)
	}
	return nil
}
