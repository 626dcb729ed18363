package fire

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

// The limits that a cover specimen of the smoulder test must keep: out within
// 45 minutes, a vertical char of at most 45 mm, no open flame, and three
// specimens (TB 117-2013, section 1).
const (
	mostChar     = 45 * length.Millimetre
	mostMinutes  = 45
	minSpecimens = 3
	smoulderTest = "tb117-2013-1"
)

// outcome is what a report shows of its specimens: pass, fail, or "" when it
// says nothing.
func (p *Paper) outcome() string {
	if p.Test != smoulderTest || len(p.Specimens) == 0 {
		return p.Result
	}
	for _, s := range p.Specimens {
		if s.Char > mostChar || s.Minutes > mostMinutes || s.Flamed {
			return "fail"
		}
	}
	if len(p.Specimens) < minSpecimens {
		if p.Result == "fail" {
			return "fail"
		}
		return ""
	}
	if p.Result == "" {
		return "pass"
	}
	return p.Result
}

// oldAfter is how many years a report is taken without a word about its age.
// Common practice, no source: no rule that was read sets a limit.
const oldAfter = 5

// result is what the papers say of a layer and a test: yes for a pass, no for a
// fail, which outweighs any pass.
func (s *seen) result(at int, t *Test) Truth {
	got := Unknown
	for i := range s.job.Papers {
		p := &s.job.Papers[i]
		if p.Kind != "report" || p.Test != t.ID || p.Layer != s.job.Layers[at].ID {
			continue
		}
		switch {
		case p.outcome() == "fail" && s.sameSpecimen(at, t, p):
			return No
		case s.faultOf(at, t, p) == "":
			got = Yes
		}
	}
	return got
}

// sameSpecimen reports whether a report may be of this layer as it lies here.
// One that does not say what was tested with it may.
func (s *seen) sameSpecimen(at int, t *Test, p *Paper) bool {
	return t.Composite == "" || len(p.Composite) == 0 || s.compositeFault(at, t, p) == ""
}

// The ways in which a paper does not count, or is to be looked at again.
const (
	NoticeWrongTest    = "wrong-test"
	NoticeNoTest       = "treatment-is-no-test"
	NoticeFails        = "fails"
	NoticeNoResult     = "no-result"
	NoticeNoDate       = "no-date"
	NoticeNoReference  = "no-reference"
	NoticeLater        = "later-than-supply"
	NoticeOld          = "old"
	NoticeNotSoaked    = "not-soaked"
	NoticeMissingLayer = "missing-in-composite"
	NoticeOtherLayer   = "other-composite"
	NoticeFewSpecimens = "too-few-specimens"
)

// faultOf is why a report that does not fail does not count; "" when it does.
func (s *seen) faultOf(at int, t *Test, p *Paper) string {
	l := &s.job.Layers[at]
	switch {
	case p.outcome() == "" && len(p.Specimens) > 0:
		return NoticeFewSpecimens
	case p.outcome() != "pass":
		return NoticeNoResult
	case p.Date == 0:
		return NoticeNoDate
	case p.Date > s.job.AsOf:
		return NoticeLater
	case p.Reference == "":
		return NoticeNoReference
	case t.Soak && l.Treated != "no" && p.Soaked != "yes":
		return NoticeNotSoaked
	}
	return s.compositeFault(at, t, p)
}

// compositeFault compares what was tested together with what lies there. More
// of the stack than is needed may have been in the specimen, and nothing else.
func (s *seen) compositeFault(at int, t *Test, p *Paper) string {
	if t.Composite == "" {
		return ""
	}
	need, fills := s.compositeOf(at, t)
	for _, i := range need {
		if !slices.Contains(p.Composite, s.job.Layers[i].ID) {
			return NoticeMissingLayer
		}
	}
	for _, id := range p.Composite {
		if !slices.ContainsFunc(s.job.Layers, func(l Layer) bool { return l.ID == id }) {
			return NoticeOtherLayer
		}
	}
	if !fills && t.Composite != "container" {
		return NoticeMissingLayer // over nothing: the filling is not told
	}
	return ""
}

// compositeOf are the places in the stack of the other layers that the specimen
// of a test on a layer must hold, and whether there is a filling among them or
// the layer itself fills. Trimmings are taken off before a test.
func (s *seen) compositeOf(at int, t *Test) (need []int, fills bool) {
	layers := s.job.Layers
	fills = layers[at].fills()
	switch t.Composite {
	case "beneath": // down to the first filling that is more than wadding
		for i := at + 1; i < len(layers); i++ {
			l := &layers[i]
			if l.Role == roleTrim || outer(l.Role) {
				continue
			}
			need = append(need, i)
			fills = fills || l.fills()
			if l.fills() && l.Role != roleWadding {
				break
			}
		}
	case "fillings":
		for i := range layers {
			if layers[i].fills() && i != at {
				need = append(need, i)
			}
		}
	case "container": // what holds a loose filling together
		need = containerOf(layers, at)
	case "stack":
		for i := range layers {
			if layers[i].Role != roleTrim && i != at {
				need = append(need, i)
				fills = fills || layers[i].fills()
			}
		}
	}
	return need, fills
}

// containerOf is the place of the ticking that holds a loose filling.
func containerOf(layers []Layer, at int) []int {
	for i := at - 1; i >= 0 && layers[at].Form == "loose"; i-- {
		if layers[i].Role == roleTicking {
			return []int{i}
		}
	}
	return nil
}

// outer reports whether a layer covers, so that it is not what lies beneath
// another cover's test.
func outer(role string) bool {
	return role == roleCover || role == roleHidden || role == roleLoose || role == roleStretch
}

// barrier is whether a barrier that passes lies between a cover and the
// filling beneath it, or between a filling and the cover above it.
func (s *seen) barrier(at int, a *atom) Truth {
	from, to := at+1, at
	if a.op == opBarrierBeneath {
		for to = from; to < len(s.job.Layers) && !s.stops(to, a.words); to++ {
			continue
		}
	} else {
		for from = at; from > 0 && !outer(s.job.Layers[from-1].Role); from-- {
			continue
		}
		if from == 0 {
			return No // nothing covers it
		}
	}
	got := No
	for i := from; i < to; i++ {
		if slices.Contains(a.words, s.job.Layers[i].Role) {
			got = got.or(s.result(i, a.test))
		}
	}
	return got
}

// stops reports whether the layer is the filling that a barrier must lie above.
func (s *seen) stops(at int, roles []string) bool {
	l := &s.job.Layers[at]
	return l.fills() && !slices.Contains(roles, l.Role)
}

// within is whether the layer was part of a composite that passed, tested on
// the cover above it.
func (s *seen) within(at int, t *Test) Truth {
	got := Unknown
	for i := at; i >= 0; i-- {
		if i == at || !outer(s.job.Layers[i].Role) {
			continue
		}
		for k := range s.job.Papers {
			p := &s.job.Papers[k]
			if p.Kind == "report" && p.Test == t.ID && p.Layer == s.job.Layers[i].ID &&
				slices.Contains(p.Composite, s.job.Layers[at].ID) {
				switch s.result(i, t) {
				case Yes:
					got = Yes
				case No:
					return No
				}
			}
		}
	}
	return got
}

// holds is whether a paper of that kind is held, for the layer or, where the
// question is about the piece, for the piece. One that is not mentioned may
// still be there.
func (s *seen) holds(kind string) Truth {
	for i := range s.job.Papers {
		p := &s.job.Papers[i]
		about := p.Layer == "" || s.layer != nil && p.Layer == s.layer.ID
		if p.Kind == kind && about && p.Result != "fail" && p.Date != 0 && p.Date <= s.job.AsOf {
			return Yes
		}
	}
	return Unknown
}
