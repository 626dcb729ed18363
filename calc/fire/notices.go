package fire

import "slices"

// Notice is what is to be said about a paper.
type Notice struct {
	Paper  int // its place among the papers
	Kind   string
	Detail string
}

// notices looks at each paper: whether it counts for anything that the rules
// ask, and if not, why.
func (s *Set) notices(job *Job, rulings []Ruling) []Notice {
	var out []Notice
	for i := range job.Papers {
		p := &job.Papers[i]
		at := slices.IndexFunc(job.Layers, func(l Layer) bool { return l.ID == p.Layer })
		switch {
		case p.Kind == "treatment-record":
			out = append(out, Notice{i, NoticeNoTest, "A record that a material was treated is no report of a test."})
		case p.Kind != "report":
			if p.Date == 0 {
				out = append(out, Notice{i, NoticeNoDate, "The paper has no date, so that it is not counted as held."})
			} else if p.Date > job.AsOf {
				out = append(out, Notice{i, NoticeLater, "The paper is of a later day than the supply."})
			}
		case at >= 0:
			out = append(out, s.reportNotices(job, rulings, i, at)...)
		}
	}
	return out
}

func (s *Set) reportNotices(job *Job, rulings []Ruling, i, at int) []Notice {
	p := &job.Papers[i]
	var out []Notice
	if !asked(rulings, at, p.Test) {
		return append(out, Notice{i, NoticeWrongTest, "No rule that applies to " + p.Layer + " asks for this test, and it does not stand for another."})
	}
	t := s.tests[p.Test]
	if t == nil {
		return out
	}
	if p.outcome() == "fail" {
		return append(out, Notice{i, NoticeFails, "The report says, or its specimens show, that the material fails."})
	}
	in := &seen{job: job, layer: &job.Layers[at], at: at}
	if kind := in.faultOf(at, t, p); kind != "" {
		return append(out, Notice{i, kind, noticeText[kind]})
	}
	if p.Date < job.AsOf.YearsBefore(oldAfter) {
		out = append(out, Notice{i, NoticeOld, noticeText[NoticeOld]})
	}
	return out
}

// asked reports whether a rule that applies to the layer, or to another whose
// barrier or composite it is, asks for a test.
func asked(rulings []Ruling, at int, test string) bool {
	for i := range rulings {
		r := &rulings[i]
		if slices.ContainsFunc(r.Rule.asks(), func(t *Test) bool { return t.ID == test }) && r.Layer == at {
			return true
		}
	}
	return false
}

var noticeText = map[string]string{
	NoticeFewSpecimens: "Fewer than three specimens are given, so that the report does not show a pass.",
	NoticeNoResult:     "The report does not say that the material passes.",
	NoticeNoDate:       "The report has no date, so that it does not count.",
	NoticeNoReference:  "The report has no reference, so that it cannot be traced and does not count.",
	NoticeLater:        "The report is of a later day than the supply.",
	NoticeOld:          "The report is more than five years old: ask whether the material is still made in the same way (common practice, no source).",
	NoticeNotSoaked:    "The material may be treated, and the report does not say that it was tested after the water soak.",
	NoticeMissingLayer: "The composite that was tested lacks a layer that lies here, or does not name its filling.",
	NoticeOtherLayer:   "The composite that was tested held a layer that does not lie here.",
}
