package plan

import (
	"cmp"
	"slices"
)

// restrict returns the strip with only the live options; false when an item is left
// without a place.
func (r *relaxed) restrict(live []bool) (*relaxed, bool) {
	out := *r
	out.kinds = slices.Clone(r.kinds)
	for k := range out.kinds {
		all := out.kinds[k].opts
		var opts []option
		for j := range all {
			if live[all[j].id] {
				opts = append(opts, all[j])
			}
		}
		if len(opts) == 0 {
			return nil, false
		}
		out.kinds[k].opts = opts
	}
	return &out, true
}

// split divides a part into two that together contain all its plans: by the start, by the
// choice of a group, or by the options of an item. It returns nil when nothing is left to
// split.
func (s *scales) split(p *part) []part {
	starts := p.upTo - p.after
	if starts > max(s.finest, s.root.V/4) {
		return p.byStart()
	}
	if halves := s.byOptions(p); halves != nil {
		return halves
	}
	if starts > s.finest {
		return p.byStart()
	}
	return nil
}

func (p *part) byStart() []part {
	mid := p.after + (p.upTo-p.after)/2
	return []part{{p.after, mid, p.live}, {mid, p.upTo, p.live}}
}

// open is a decision that a part leaves open: the options of an item without copies, or
// the choices of a group.
type open struct {
	group, kind int
	area        float64
}

// byOptions splits the open decision with the greatest area.
func (s *scales) byOptions(p *part) []part {
	var best open
	groups := make([]open, 0, 4)
	for k := range s.root.kinds {
		kd := &s.root.kinds[k]
		count := 0
		var area float64
		for j := range kd.opts {
			o := &kd.opts[j]
			if !p.live[o.id] {
				continue
			}
			area = float64(o.w) * float64(s.root.nodes[o.node].h)
			count++
		}
		if count < 2 || kd.count > 1 {
			continue
		}
		at := open{kd.group, k, area}
		if kd.group >= 0 {
			i := slices.IndexFunc(groups, func(g open) bool { return g.group == kd.group })
			if i < 0 {
				i, groups = len(groups), append(groups, open{kd.group, k, 0})
			}
			groups[i].area += area
			at = groups[i]
		}
		if at.area > best.area {
			best = at
		}
	}
	if best.area == 0 {
		return nil
	}
	if best.group >= 0 {
		if halves := s.byChoice(p, best.group, best.kind); halves != nil {
			return halves
		}
	}
	return s.byOption(p, best.kind)
}

// byOption splits the live options of a kind, by place.
func (s *scales) byOption(p *part, k int) []part {
	var ids []int
	opts := s.root.kinds[k].opts
	for j := range opts {
		if p.live[opts[j].id] {
			ids = append(ids, j)
		}
	}
	slices.SortStableFunc(ids, func(a, b int) int {
		return cmp.Compare(opts[a].lo+opts[a].hi+opts[a].w, opts[b].lo+opts[b].hi+opts[b].w)
	})
	low, high := *p, *p
	low.live, high.live = slices.Clone(p.live), slices.Clone(p.live)
	for i, j := range ids {
		if i < len(ids)/2 {
			high.live[opts[j].id] = false
		} else {
			low.live[opts[j].id] = false
		}
	}
	return []part{low, high}
}

// byChoice splits the live choices of a group, in order; nil when there is only one.
func (s *scales) byChoice(p *part, group, k int) []part {
	var choices []int32
	for _, o := range s.root.kinds[k].opts {
		if p.live[o.id] {
			choices = append(choices, o.choice)
		}
	}
	slices.Sort(choices)
	choices = slices.Compact(choices)
	if len(choices) < 2 {
		return nil
	}
	middle := choices[len(choices)/2]
	low, high := *p, *p
	low.live, high.live = slices.Clone(p.live), slices.Clone(p.live)
	for k := range s.root.kinds {
		if s.root.kinds[k].group != group {
			continue
		}
		for _, o := range s.root.kinds[k].opts {
			if o.choice < middle {
				high.live[o.id] = false
			} else {
				low.live[o.id] = false
			}
		}
	}
	return []part{low, high}
}
