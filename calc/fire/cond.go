package fire

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/length"
)

// clause is met when all its groups are.
type clause []group

// group is a condition: met when one of its atoms is.
type group struct {
	text  string // as it is written in the rules
	atoms []atom
}

// op is what an atom asks.
type op uint8

const (
	opIs op = iota
	opBefore
	opFrom
	opAtLeast
	opAbove
	opAtMost
	opBelow
	opTestPasses
	opTestFails
	opBarrierBeneath
	opBarrierAbove
	opWithin
	opPaper
	opScope
)

// sure is what an atom makes of what is unknown.
type sure uint8

const (
	asItIs sure = iota
	shown       // what is unknown is not met: for an exemption that must be shown
	unless      // not met only by what is shown: for a duty that an exemption takes away
)

// atom is one question about the job or a layer.
type atom struct {
	negate bool
	sure   sure
	op     op
	fact   *fact
	words  []string // opIs; of opPaper the kind; of opBarrier the roles of a barrier
	limit  int64
	test   *Test
	scope  clause
}

// parser reads the conditions of one file. A condition is written
//
//	[not] FACT is WORD,WORD
//	[not] FACT before|from DAY
//	[not] FACT at-least|above|at-most|below NUMBER, SHARE% or LENGTH
//	[not] test ID passes|fails
//	[not] barrier ID beneath|above ROLE,ROLE
//	[not] within ID
//	[not] paper KIND
//	[not] scope NAME
//
// and several with | between them are met when one of them is. For not there may
// stand shown, for what does not count while it is unknown, or unless, for its
// opposite.
type parser struct {
	set    *Set
	scopes map[string]clause
}

func (p *parser) clause(lines []string) (clause, error) {
	out := make(clause, 0, len(lines))
	for _, line := range lines {
		g := group{text: line}
		for part := range strings.SplitSeq(line, " | ") {
			a, err := p.atom(strings.Fields(part))
			if err != nil {
				return nil, fmt.Errorf("%q: %w", line, err)
			}
			g.atoms = append(g.atoms, a)
		}
		out = append(out, g)
	}
	return out, nil
}

func (p *parser) atom(words []string) (a atom, err error) {
	if len(words) > 0 {
		switch words[0] {
		case "not":
			a.negate, words = true, words[1:]
		case "shown":
			a.sure, words = shown, words[1:]
		case "unless":
			a.sure, words = unless, words[1:]
		}
	}
	if len(words) < 2 {
		return a, fmt.Errorf("too short")
	}
	switch words[0] {
	case "test", "barrier", "within":
		return p.testAtom(a, words)
	case "paper":
		a.op, a.words = opPaper, words[1:]
		if len(words) != 2 || !slices.Contains(vocabulary["paper"], words[1]) {
			return a, fmt.Errorf("no such paper")
		}
		return a, nil
	case "scope":
		scope, ok := p.scopes[words[1]]
		if len(words) != 2 || !ok {
			return a, fmt.Errorf("no such scope before this line")
		}
		a.op, a.scope = opScope, scope
		return a, nil
	}
	return p.factAtom(a, words)
}

func (p *parser) testAtom(a atom, words []string) (atom, error) {
	if a.test = p.set.tests[words[1]]; a.test == nil {
		return a, fmt.Errorf("no such test")
	}
	rest := words[2:]
	switch {
	case words[0] == "within" && len(rest) == 0:
		a.op = opWithin
	case words[0] == "test" && len(rest) == 1 && rest[0] == "passes":
		a.op = opTestPasses
	case words[0] == "test" && len(rest) == 1 && rest[0] == "fails":
		a.op = opTestFails
	case words[0] == "barrier" && len(rest) == 2 && (rest[0] == "beneath" || rest[0] == "above"):
		a.op, a.words = opBarrierBeneath, strings.Split(rest[1], ",")
		if rest[0] == "above" {
			a.op = opBarrierAbove
		}
		for _, role := range a.words {
			if !slices.Contains(vocabulary["role"], role) {
				return a, fmt.Errorf("no such role")
			}
		}
	default:
		return a, fmt.Errorf("not a question about a test")
	}
	return a, nil
}

// comparisons are the words for what is asked of a day or a number.
var comparisons = map[string]op{
	"before": opBefore, "from": opFrom, "at-least": opAtLeast, "above": opAbove, "at-most": opAtMost, "below": opBelow,
}

func (p *parser) factAtom(a atom, words []string) (atom, error) {
	a.fact = facts[words[0]]
	if a.fact == nil || len(words) < 3 {
		return a, fmt.Errorf("no such fact")
	}
	value := strings.Join(words[2:], " ")
	if words[1] == "is" {
		a.op, a.words = opIs, strings.Split(value, ",")
		for _, w := range a.words {
			if a.fact.kind != factWord || !slices.Contains(vocabulary[a.fact.words], w) {
				return a, fmt.Errorf("%q is no word for it", w)
			}
		}
		return a, nil
	}
	var ok bool
	if a.op, ok = comparisons[words[1]]; !ok {
		return a, fmt.Errorf("nothing is asked")
	}
	isDay := a.op == opBefore || a.op == opFrom
	if isDay != (a.fact.kind == factDay) || a.fact.kind == factWord {
		return a, fmt.Errorf("this cannot be asked of it")
	}
	a.limit, ok = limitOf(a.fact.kind, value)
	if !ok {
		return a, fmt.Errorf("%q is no limit for it", value)
	}
	return a, nil
}

// limitOf reads what a fact is compared with.
func limitOf(k factKind, s string) (int64, bool) {
	switch k {
	case factDay:
		d, ok := calendar.Parse(s)
		return int64(d), ok
	case factShare:
		number, ok := strings.CutSuffix(s, "%")
		n, err := strconv.ParseInt(number, 10, 64)
		return n * Whole / 100, ok && err == nil && n >= 0 && n <= 100
	case factLength:
		l, err := length.Parse(s)
		return int64(l), err == nil
	case factCount:
		n, err := strconv.ParseInt(s, 10, 64)
		return n, err == nil
	}
	return 0, false
}
