package panel

import (
	"fmt"
	"strconv"

	"github.com/bridletie/bridletie/calc/fault"
)

// ListFaults are what is wrong with a cutting list: each panel by itself, and
// the panels with one another. at is where the list stands.
func ListFaults(list []Panel, at fault.Path) fault.List {
	var l fault.List
	byID := make(map[string]int, len(list))
	copies := 0
	for i, p := range list {
		here := at.Index(i)
		l.Append(p.Faults(here))
		copies += min(max(p.Count, 0), 1<<20) // so that the sum stays in range
		if _, seen := byID[p.ID]; seen {
			l.Add(here.Field("id"), fault.Duplicate, p.ID, "another panel has this id", "an id of its own")
			continue
		}
		byID[p.ID] = i
	}
	if copies > MaxCopies {
		overMost(&l, at, "copies in all", copies, MaxCopies)
	}
	links := links{list: list, byID: byID}
	links.runsOnFaults(&l, at)
	links.loopFaults(&l, at)
	links.pairFaults(&l, at)
	return l
}

// overMost records that a list comes to more of something than one plan takes.
func overMost(l *fault.List, at fault.Path, what string, n, most int) {
	l.Add(at, fault.TooMany, strconv.Itoa(n), fmt.Sprintf("the list has %d %s; one plan takes at most %d", n, what, most),
		fmt.Sprintf("at most %d: ask for %d plans or more, each of a part of the list", most, (n+most-1)/most))
}

// links are the references between the panels of a list.
type links struct {
	list []Panel
	byID map[string]int
}

// from is the index of the panel that list[i] runs on from.
func (k links) from(i int) (int, bool) {
	m := k.list[i].Match
	if m.How != RunsOn || m.From == "" {
		return 0, false
	}
	j, ok := k.byID[m.From]
	return j, ok
}

// runsOnFaults wants every runs-on to name a panel of the list with the same
// count.
func (k links) runsOnFaults(l *fault.List, at fault.Path) {
	for i, p := range k.list {
		if p.Match.How != RunsOn || p.Match.From == "" {
			continue
		}
		here := at.Index(i).Field("match").Field("from")
		j, ok := k.byID[p.Match.From]
		switch {
		case !ok:
			k.unknown(l, here, p.Match.From)
		case k.list[j].Count != p.Count:
			k.countDiffers(l, here, i, j)
		}
	}
}

func (k links) unknown(l *fault.List, at fault.Path, id string) {
	l.Add(at, fault.UnknownPanel, id, "no panel of the list has this id", "the id of a panel in the list")
}

func (k links) countDiffers(l *fault.List, at fault.Path, i, j int) {
	l.Add(at, fault.CountDiffers, k.list[j].ID,
		fmt.Sprintf("the panel is cut %d times and the one it refers to %d times", k.list[i].Count, k.list[j].Count),
		"the same count for both")
}

// loopFaults reports each ring of runs-on links once, at its first panel.
func (k links) loopFaults(l *fault.List, at fault.Path) {
	const (
		fresh = iota
		onPath
		done
	)
	state := make([]int, len(k.list))
	for i := range k.list {
		var path []int
		j, ok := i, true
		for ok && state[j] == fresh {
			state[j] = onPath
			path = append(path, j)
			j, ok = k.from(j)
		}
		if ok && state[j] == onPath {
			first := j
			for n := len(path) - 1; path[n] != j; n-- {
				first = min(first, path[n])
			}
			l.Add(at.Index(first).Field("match").Field("from"), fault.Loop, k.list[first].Match.From,
				"the panels run on from one another in a ring", "let one panel of the ring have a wish of its own, or free")
		}
		for _, n := range path {
			state[n] = done
		}
	}
}

// pairFaults wants every pair to be two panels, or the copies of one, and each
// panel in one pair at most.
func (k links) pairFaults(l *fault.List, at fault.Path) {
	twin := make([]int, len(k.list)) // index + 1 of the twin that was named first
	for i, p := range k.list {
		if p.Pair == "" {
			continue
		}
		here := at.Index(i).Field("pair")
		j, ok := k.byID[p.Pair]
		switch {
		case !ok:
			k.unknown(l, here, p.Pair)
			continue
		case i == j && p.Count%2 != 0:
			l.Add(here, fault.CountDiffers, p.Pair, fmt.Sprintf("%d copies do not make pairs", p.Count), "an even count")
		case k.list[j].Count != p.Count:
			k.countDiffers(l, here, i, j)
		}
		if k.linked(i, j) {
			l.Add(here, fault.NotAllowed, p.Pair, "one panel of the pair runs on from the other",
				"leave out pair, or the runs-on between the two")
		}
		if twin[i] != 0 && twin[i] != j+1 || twin[j] != 0 && twin[j] != i+1 {
			l.Add(here, fault.NotAllowed, p.Pair, "a panel has one twin, and one of these has another already",
				"name each panel in one pair only")
			continue
		}
		if i != j && twin[i] == j+1 && k.list[j].PairAs != p.PairAs {
			l.Add(at.Index(i).Field("pairAs"), fault.NotAllowed, "", "the two panels of the pair ask for unlike twins",
				"the same pairAs on both")
		}
		twin[i], twin[j] = j+1, i+1
	}
}

// linked reports whether one of two panels runs on from the other.
func (k links) linked(i, j int) bool {
	a, ok := k.from(i)
	if ok && a == j && i != j {
		return true
	}
	b, ok := k.from(j)
	return ok && b == i && i != j
}
