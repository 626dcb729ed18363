package drawing

import (
	"strings"

	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/service"
)

// The classes of a fire sheet.
const (
	fLayer Class = tSeam + 1 + iota
	fWanted
	fForbidden
	fOther
)

// fireStyles are the plan's, with another hatching for each verdict: wide for
// what wants evidence, narrow for what is not allowed, dashed for what another
// regime governs, and none for what lets the layer be used.
func fireStyles(k float64) []Style {
	ink, quiet := RGB(0x1b2430), RGB(0x6b6557)
	return append(planStyles(k),
		Style{Stroke: ink, Width: 4.5 * k},
		Style{Stroke: quiet, Width: 2.6 * k},
		Style{Stroke: ink, Width: 6 * k},
		Style{Stroke: quiet, Width: 2.6 * k, Dash: []float64{14 * k, 10 * k}},
	)
}

// verdictText is a verdict in words, for people.
func verdictText(v fire.Verdict) string {
	switch v {
	case fire.Exempt:
		return "Exempt"
	case fire.EvidenceHeld:
		return "Evidence held"
	case fire.EvidenceWanted:
		return "Evidence wanted"
	case fire.OtherRegime:
		return "Another regime governs"
	}
	return "Not allowed"
}

// overallText is the whole's verdict in a sentence.
func overallText(v fire.Verdict) string {
	switch v {
	case fire.Exempt:
		return "Every rule that applies exempts it."
	case fire.EvidenceHeld:
		return "The papers said to be held answer every rule that applies."
	case fire.EvidenceWanted:
		return "Something is not known or not shown: do not supply it yet."
	case fire.OtherRegime:
		return "Rules that are not checked here govern it."
	}
	return "As it stands it may not be supplied."
}

// FireTitle names a check in a line.
func FireTitle(ans *service.FireAnswer) string {
	if name := clean(ans.Request.Name); name != "" {
		return "Fire check: " + apart(name)
	}
	return "Fire check"
}

// fireOf says where and when the question is asked, and of what rules.
func fireOf(ans *service.FireAnswer) string {
	r := ans.Report
	text := "Supplied in " + placeName(r.Job.Place)
	if r.Job.Destination != "" {
		text += ", sent to " + placeName(r.Job.Destination)
	}
	return text + ", on " + r.Job.AsOf.String() + ". Rule set " + r.Set.Version + ", sources looked at " + r.Set.AsAt.String() + "."
}

// placeName is a place as it is written in a sentence.
func placeName(id string) string {
	if id == "united-states" {
		return "the United States"
	}
	words := strings.Split(id, "-")
	for i, w := range words {
		words[i] = strings.ToUpper(w[:1]) + w[1:]
	}
	return strings.Join(words, " ")
}

// layerText names a layer: its id, its own name and what it is.
func layerText(ans *service.FireAnswer, i int) (id, what string) {
	l := &ans.Report.Job.Layers[i]
	parts := make([]string, 0, 3)
	if i < len(ans.Request.Names) && ans.Request.Names[i] != "" {
		parts = append(parts, apart(ans.Request.Names[i]))
	}
	parts = append(parts, words(l.Role))
	if l.Material != "" {
		parts = append(parts, words(l.Material))
	}
	return clean(l.ID), strings.Join(parts, ", ")
}

func words(id string) string { return strings.ReplaceAll(id, "-", " ") }

// rulingText is what one rule says, with its citation and how it was verified.
func rulingText(r fire.Ruling) string {
	text := verdictText(r.Verdict) + ". " + r.Say + " [" + r.Rule.Instrument + "; rule " + r.Rule.ID
	if r.Rule.Verified != fire.Read {
		text += ", " + words(r.Rule.Verified)
	}
	return text + "]"
}

// changeText is a change that was tried, with what it would do.
func changeText(c fire.Change) string {
	ids := make([]string, 0, len(c.Mends))
	for _, m := range c.Mends {
		if len(ids) == 0 || ids[len(ids)-1] != m.Rule {
			ids = append(ids, m.Rule)
		}
	}
	text := clean(c.What)
	text = strings.ToUpper(text[:1]) + text[1:] + ": mends " + strings.Join(ids, ", ")
	if c.Verdict.Lets() {
		return text + "; the whole is then answered."
	}
	return text + "."
}

// noticeText is what is to be said about a paper.
func noticeText(ans *service.FireAnswer, n fire.Notice) string {
	p := &ans.Report.Job.Papers[n.Paper]
	name := words(p.Kind)
	if p.Test != "" {
		if t, ok := ans.Report.Set.Test(p.Test); ok {
			name += " (" + t.Title + ")"
		}
	}
	if p.Layer != "" {
		name += " for " + clean(p.Layer)
	}
	return strings.ToUpper(name[:1]) + name[1:] + ": " + clean(n.Detail)
}

// keepText is a paper to keep and for how long.
func keepText(k service.FireKeep) string {
	return strings.ToUpper(k.Paper[:1]) + k.Paper[1:] + ": keep " + k.Keep.Keep + "."
}

// FireText is a fire check as a page of plain text, in at most 78 columns.
func FireText(ans *service.FireAnswer) string {
	r, p := ans.Report, &page{}
	p.line(strings.ToUpper(verdictText(r.Verdict)))
	p.para("", overallText(r.Verdict))
	p.line("")
	p.para("", FireTitle(ans))
	p.para("", fireOf(ans))
	if len(r.Piece) > 0 {
		p.section("THE PIECE")
		for _, one := range r.Piece {
			p.para("  - ", rulingText(one))
		}
	}
	for i, l := range r.Layers {
		id, what := layerText(ans, i)
		p.section("LAYER " + id + ": " + strings.ToUpper(verdictText(l.Verdict)))
		p.para("", what)
		for _, one := range l.Rulings {
			p.para("  - ", rulingText(one))
		}
	}
	var changes, notices, keep []string
	for _, c := range r.Changes {
		changes = append(changes, changeText(c))
	}
	for _, n := range r.Notices {
		notices = append(notices, noticeText(ans, n))
	}
	for _, k := range ans.Papers {
		keep = append(keep, keepText(k))
	}
	p.list("WHAT WOULD MEND IT, EACH BY ITSELF", changes)
	p.list("ABOUT THE PAPERS", notices)
	p.list("PAPERS TO KEEP", keep)
	p.notes(ans.Warnings, ans.Cautions)
	p.line("")
	p.para("", service.FireNotAdvice)
	return p.b.String()
}
