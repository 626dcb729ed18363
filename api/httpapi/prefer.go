package httpapi

import (
	"context"
	"strconv"
	"strings"
	"time"

	"github.com/bridletie/bridletie/service"
)

// prefers holds the preferences of a request (RFC 7240). Unknown ones are ignored, as the
// standard requires.
type prefers struct {
	wait    time.Duration // the preferred timeout; 0 when not given
	soFar   bool          // whether a plan that depends on the clock is acceptable
	hurried *bool         // set to true when the search was ended early
}

func (p prefers) given() bool { return p.wait > 0 || p.soFar }

// bestSoFar is the preference for the best plan found when time runs out.
const bestSoFar = "best-so-far"

// readPrefer parses the Prefer headers. The first of several values of a preference
// counts.
func readPrefer(op *row, sent []string) prefers {
	var p prefers
	if len(sent) == 0 {
		return p
	}
	for word := range strings.SplitSeq(strings.Join(sent, ","), ",") {
		word, _, _ = strings.Cut(word, ";") // parameters are ignored
		name, value, _ := strings.Cut(word, "=")
		switch strings.ToLower(strings.TrimSpace(name)) {
		case bestSoFar:
			p.soFar = op.soFar // only such an operation has a partial result
		case "wait":
			seconds, err := strconv.Atoi(strings.Trim(strings.TrimSpace(value), `"`))
			if err == nil && seconds > 0 && seconds < 1e6 && p.wait == 0 {
				p.wait = time.Duration(seconds) * time.Second
			}
		}
	}
	if p.soFar {
		p.hurried = new(bool)
	}
	return p
}

func preferenceOf(ctx context.Context) prefers {
	p, _ := ctx.Value(preferKey).(prefers)
	return p
}

// timeFor returns the time limit of a request: the preferred timeout, if shorter than the
// usual limit. A search that is ended early gets extra time to be checked and encoded.
func (s *Server) timeFor(ctx context.Context) time.Duration {
	d := s.workTime(ctx)
	if preferenceOf(ctx).soFar {
		d += finishTime
	}
	return d
}

func (s *Server) workTime(ctx context.Context) time.Duration {
	if wait := preferenceOf(ctx).wait; wait > 0 {
		return min(wait, s.opts.SolveTime)
	}
	return s.opts.SolveTime
}

// finishTime is the time allowed for checking and encoding the largest plan, with a wide
// margin.
const finishTime = 5 * time.Second

// plan plans a job. With the preference best-so-far it ends the search in time.
func (s *Server) plan(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	p := preferenceOf(ctx)
	if !p.soFar {
		return s.opts.Yardage(ctx, req)
	}
	until := time.Now().Add(s.workTime(ctx))
	late := false // stays true once set
	ans, err := s.opts.Hurried(ctx, req, func() bool {
		late = late || !time.Now().Before(until)
		return late
	})
	if ans != nil && ans.Hurried {
		*p.hurried = true
	}
	return ans, err
}
