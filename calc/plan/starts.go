package plan

import (
	"sort"

	"github.com/bridletie/bridletie/calc/length"
)

// startEffort is how hard plans for other starts of the repeat are looked for.
type startEffort struct {
	plans   int     // kept at most
	shares  []int64 // parts of the repeat to try after the worst start
	orders  int     // constructions tried for each
	changes int     // and changes to the best of them
}

func startEffortOf(e Effort) startEffort {
	switch e {
	case Quick, Glance:
		return startEffort{4, []int64{8, 3}, 4, 0}
	case Thorough:
		return startEffort{64, []int64{32, 16, 8, 4, 3, 2}, 20, 400}
	default:
		return startEffort{12, []int64{16, 8, 4, 2}, 8, 40}
	}
}

// anyStart looks for plans that between them serve every start of the repeat,
// beginning with the best plan. A plan that begins at sigma serves a roll that
// begins earlier in the repeat: the cloth up to sigma is passed over. It ends
// when nothing better is found. Only for a plan that is bound to the rows of the
// cloth.
func (s *searcher) anyStart(how startEffort) []*found {
	plans := []*found{s.best}
	v := s.m.grid.V
	for len(plans) < how.plans && !s.stop() {
		peak, at := worstStart(plans, v)
		var add *found
		least := peak
		for _, share := range how.shares {
			ahead := max(v/share, 1)
			if f := s.planAt(length.Mod(at+ahead, v), least-ahead, how); f != nil && f.top+ahead < least {
				add, least = f, f.top+ahead
			}
		}
		if add == nil {
			break
		}
		plans = append(plans, add)
	}
	sort.Slice(plans, func(a, b int) bool { return plans[a].sigma < plans[b].sigma })
	return plans
}

// worstStart is the length that serves every start, and the start after which
// it is needed.
func worstStart(plans []*found, v int64) (worst, at int64) {
	for _, p := range plans {
		need := p.top + v
		for _, q := range plans {
			if ahead := length.Mod(q.sigma-p.sigma, v); ahead > 0 {
				need = min(need, q.top+ahead)
			}
		}
		if need > worst {
			worst, at = need, p.sigma
		}
	}
	return worst, at
}

// planAt is the best plan found for a roll that begins at sigma, shorter than
// upper; nil when none was.
func (s *searcher) planAt(sigma, upper int64, how startEffort) *found {
	var best *found
	consider := func(g genes) {
		top, ok := s.d.decodeAt(&g, sigma, upper)
		if !ok || top >= upper {
			return
		}
		upper = top
		best = &found{top: top, sigma: sigma, spots: append([]spot(nil), s.d.spots...), genes: g}
	}
	consider(s.best.genes)
	for _, g := range s.first[:min(how.orders, len(s.first))] {
		consider(g)
	}
	g := s.best.genes.clone()
	if best != nil {
		g = best.genes.clone()
	}
	for range how.changes {
		next := g.clone()
		if _, ok := s.change(&next); !ok {
			continue
		}
		before := upper
		consider(next)
		if upper < before {
			g = next
		}
	}
	return best
}

// AtStart is the plan for cloth that begins at start in the length repeat: the
// kept plan that needs the least, moved along past the cloth that precedes it.
// It is for results of one length, and longer than a bolt where what is enough for
// every start is.
func (r Result) AtStart(job Job, start length.Length) Layout {
	v := job.Cloth.Pattern.LengthRepeat
	if !r.RowBound {
		v = 0
	}
	plans := r.Starts
	if len(plans) == 0 {
		plans = r.Cut[:1]
	}
	best, ahead := plans[0], length.Length(0)
	for k, l := range plans {
		a := length.Length(0)
		if v > 0 {
			a = length.Length(length.Mod(int64(l.Start-start), int64(v)))
		}
		if k == 0 || l.Length+a < best.Length+ahead {
			best, ahead = l, a
		}
	}
	out := Layout{Length: best.Length + ahead, Start: start}
	for _, p := range best.Placements {
		p.Y += ahead
		p.Motif = motifFor(job, start, &p)
		out.Placements = append(out.Placements, p)
	}
	return out
}
