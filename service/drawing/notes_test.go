package drawing

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// On paper warnings and cautions are one list, the gravest first, and none is lost;
// what is a danger is bold.
func TestNotesOnPaperGravestFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) []note.Note {
			var out []note.Note
			for _, c := range rapid.SliceOfN(rapid.SampledFrom(note.Codes()), 0, 150).Draw(t, name) {
				out = append(out, note.New(c))
			}
			return out
		}
		warnings, cautions := draw("warnings"), draw("cautions")
		all := note.Listed(slices.Concat(warnings, cautions), 1000)
		lines := noteLines(warnings, cautions, length.Metric)
		if len(lines) != len(warnings)+len(cautions) {
			t.Fatalf("%d lines of %d warnings and %d cautions", len(lines), len(warnings), len(cautions))
		}
		for i, l := range lines {
			if l.text != apart(all[i].Text(length.Metric)) || all[i].Severity == note.Danger && !l.bold || all[i].Severity > note.Order && l.bold {
				t.Fatalf("line %d is %+v, of %s", i, l, all[i].Code)
			}
		}
	})
}
