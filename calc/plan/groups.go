package plan

import "github.com/bridletie/bridletie/calc/panel"

// tie is one panel copy in a group, and how its pattern follows from that of
// the group's first panel: its visual centre lies at
// (sx*phase.x + dx, sy*phase.y + dy) modulo the grid, in cloth axes.
type tie struct {
	panel, copy int
	sx, sy      int64
	dx, dy      int64
}

// link is a relation between two panel copies.
type link struct {
	to     int   // node
	dx, dy int64 // from here to there, in cloth axes
	mirror bool  // the twin, mirrored about a motif
	about  int   // that motif
}

// tieCopies finds the connected sets of panel copies, each in breadth-first
// order from its lowest panel, with their ties when laid with the given turn.
// The sets and their order are the same for every turn.
func (b *builder) tieCopies(turn panel.Turn) [][]tie {
	first := make([]int, len(b.job.Panels)+1)
	for k, p := range b.job.Panels {
		first[k+1] = first[k] + max(p.Count, 1)
	}
	nodes := make([]tie, first[len(b.job.Panels)])
	for k, p := range b.job.Panels {
		for c := range max(p.Count, 1) {
			nodes[first[k]+c] = tie{panel: k, copy: c + 1}
		}
	}
	links := b.links(first, len(nodes), turn)
	var out [][]tie
	seen := make([]bool, len(nodes))
	for n := range nodes {
		if !seen[n] {
			out = append(out, b.walk(n, nodes, links, seen, turn))
		}
	}
	return out
}

// walk collects the set of a node and checks that every link agrees.
func (b *builder) walk(root int, nodes []tie, links [][]link, seen []bool, turn panel.Turn) []tie {
	nodes[root].sx, nodes[root].sy = 1, 1
	seen[root] = true
	order := []int{root}
	for k := 0; k < len(order); k++ {
		from := nodes[order[k]]
		for _, l := range links[order[k]] {
			t := nodes[l.to]
			t.sx, t.sy, t.dx, t.dy = from.sx, from.sy, from.dx+l.dx, from.dy+l.dy
			if l.mirror {
				t = b.mirrored(t, l.about, turn)
			}
			if !seen[l.to] {
				seen[l.to] = true
				nodes[l.to] = t
				order = append(order, l.to)
			} else if !b.agrees(nodes[l.to], t) {
				b.faults = append(b.faults, buildFault{t.panel, conflicts})
			}
		}
	}
	out := make([]tie, len(order))
	for k, n := range order {
		out[k] = nodes[n]
	}
	return out
}

// agrees reports whether two derivations of one node are the same phase.
func (b *builder) agrees(s, t tie) bool {
	return b.job.Cloth.Pattern.IsPlain() ||
		s.sx == t.sx && s.sy == t.sy && b.m.grid.congruent(s.dx-t.dx, s.dy-t.dy)
}

// mirrored is a tie mirrored about a motif, left to right as the panel is worn:
// across the cloth, or along it when the panel lies across the roll.
func (b *builder) mirrored(t tie, about int, turn panel.Turn) tie {
	m := b.job.Cloth.Pattern.Principal()[about]
	if turn == panel.Quarter {
		t.sy, t.dy = -t.sy, 2*b.units(m.Along)-t.dy
	} else {
		t.sx, t.dx = -t.sx, 2*b.units(m.Across)-t.dx
	}
	return t
}

// links lists the relations of every node, both ways.
func (b *builder) links(first []int, n int, turn panel.Turn) [][]link {
	out := make([][]link, n)
	index := make(map[string]int, len(b.job.Panels))
	for k, p := range b.job.Panels {
		index[p.ID] = k
	}
	for k, p := range b.job.Panels {
		if from, ok := index[p.Match.From]; ok && p.Match.How == panel.RunsOn {
			dx, dy := b.runsOnVector(from, k)
			dx, dy = laid(turn, dx, dy)
			for c := range max(p.Count, 1) {
				a, z := first[from]+c, first[k]+c
				out[a] = append(out[a], link{to: z, dx: dx, dy: dy})
				out[z] = append(out[z], link{to: a, dx: -dx, dy: -dy})
			}
		}
		twin, ok := index[p.Pair]
		if p.Pair == "" || !ok || twin != k && b.job.Panels[twin].Pair == p.ID && twin < k {
			continue // no pair, or one that the other panel has named already
		}
		mirror, about := b.mirrorOf(p, turn)
		for c := range max(p.Count, 1) {
			a, z := first[k]+c, first[twin]+c
			if twin == k {
				if c%2 == 1 {
					continue
				}
				z = a + 1
			}
			out[a] = append(out[a], link{to: z, mirror: mirror, about: about})
			out[z] = append(out[z], link{to: a, mirror: mirror, about: about})
		}
	}
	return out
}

// mirrorOf says whether the twin of p is mirrored, and about which motif. On a
// pattern without mirror symmetry the same motif at the same place serves.
func (b *builder) mirrorOf(p panel.Panel, turn panel.Turn) (bool, int) {
	repeat := b.m.grid.H
	if turn == panel.Quarter {
		repeat = b.m.grid.V
	}
	if p.PairAs != panel.Mirrored || repeat == 0 || !b.m.grid.mirrors() {
		return false, 0
	}
	about, _ := b.job.Cloth.Pattern.Find(p.Match.Motif)
	return true, about
}

// runsOnVector is the way from the visual centre of one panel to that of the
// panel that runs on from it, in panel axes.
func (b *builder) runsOnVector(from, to int) (dx, dy int64) {
	p, c := b.job.Panels[from], b.job.Panels[to]
	offset := b.units(c.Match.Offset)
	across := b.halfUnits(p.Size.Across) + b.halfUnits(c.Size.Across)
	along := b.halfUnits(p.Size.Along) + b.halfUnits(c.Size.Along)
	switch c.Match.Edge {
	case panel.TopEdge:
		return offset, -along
	case panel.LeftEdge:
		return -across, offset
	case panel.RightEdge:
		return across, offset
	default:
		return offset, along
	}
}

// laid turns a vector in panel axes into cloth axes.
func laid(turn panel.Turn, dx, dy int64) (int64, int64) {
	switch turn {
	case panel.Half:
		return -dx, -dy
	case panel.Quarter:
		return -dy, dx
	default:
		return dx, dy
	}
}
