package httpapi

import (
	"context"
	"strconv"
	"strings"
	"time"

	"github.com/bridletie/bridletie/service"
)

// prefers is what a request would rather have (RFC 7240). What is not known is
// left aside, as the standard says.
type prefers struct {
	wait    time.Duration // the longest that it wants to wait; 0 when it does not say
	soFar   bool          // a plan that depends on the clock rather than none
	hurried *bool         // becomes true when that was done
}

func (p prefers) given() bool { return p.wait > 0 || p.soFar }

// bestSoFar is the preference for a plan that the clock ended.
const bestSoFar = "best-so-far"

// readPrefer is what the Prefer headers say. The first of a name counts.
func readPrefer(op *row, sent []string) prefers {
	var p prefers
	if len(sent) == 0 {
		return p
	}
	for word := range strings.SplitSeq(strings.Join(sent, ","), ",") {
		word, _, _ = strings.Cut(word, ";") // parameters mean nothing here
		name, value, _ := strings.Cut(word, "=")
		switch strings.ToLower(strings.TrimSpace(name)) {
		case bestSoFar:
			p.soFar = op.soFar // the one search that has a plan at any time
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

// timeFor is how long work on a request may take: less than usual where it says so,
// never more. A search that is hurried gets time to be checked and written down.
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

// finishTime is what the largest plan takes to be checked, with much to spare.
const finishTime = 5 * time.Second

// plan plans a job, and where the request would rather have some plan than none,
// ends the search in time.
func (s *Server) plan(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
	p := preferenceOf(ctx)
	if !p.soFar {
		return s.opts.Yardage(ctx, req)
	}
	until := time.Now().Add(s.workTime(ctx))
	late := false // once it is, it stays so
	ans, err := s.opts.Hurried(ctx, req, func() bool {
		late = late || !time.Now().Before(until)
		return late
	})
	if ans != nil && ans.Hurried {
		*p.hurried = true
	}
	return ans, err
}
