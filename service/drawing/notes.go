package drawing

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// noteLine is a note as it stands on paper. What is a danger is bold, and what is
// to be done about this very answer.
type noteLine struct {
	text string
	bold bool
	from []string
}

// noteLines are warnings and cautions as they stand on paper: in one list, in the
// order of note.Listed, so that what is grave is read first.
func noteLines(warnings, cautions []note.Note, sys length.System) []noteLine {
	all := slices.Concat(warnings, cautions)
	var out []noteLine
	for _, n := range note.Listed(all, len(all)) {
		bold := n.Severity == note.Danger || n.Severity == note.Order && slices.ContainsFunc(warnings, n.Same)
		out = append(out, noteLine{apart(n.Text(sys)), bold, n.From})
	}
	return out
}

// checks lists what to look out for and to check.
func (s *paper) checks(warnings, cautions []note.Note) {
	s.notes("Check before you cut", warnings, cautions)
}

// notes lists notes below a heading.
func (s *paper) notes(heading string, warnings, cautions []note.Note) {
	lines := noteLines(warnings, cautions, s.sys)
	if len(lines) > 0 {
		s.heading(heading)
	}
	for _, l := range lines {
		class := tPlain
		if l.bold {
			class = tBold
		}
		s.body(class, "• "+l.text)
	}
}

// notes lists notes on a page of text.
func (p *page) notes(warnings, cautions []note.Note) {
	if len(warnings)+len(cautions) > 0 {
		p.section("LOOK OUT")
	}
	p.noteLines(warnings, cautions)
}

// noteLines are notes without a heading, with the parts of a job that say so.
func (p *page) noteLines(warnings, cautions []note.Note) {
	for _, l := range noteLines(warnings, cautions, p.sys) {
		text := l.text
		if l.from != nil {
			text += " [" + jobFrom(l.from) + "]"
		}
		p.para("  - ", text)
	}
}
