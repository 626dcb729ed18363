package wire

import (
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

// wireNotes are notes as the contract has them; the list is never null.
func wireNotes(units length.System, list []note.Note) []gen.Note {
	out := make([]gen.Note, len(list))
	for i, n := range list {
		out[i] = wireNote(units, n)
	}
	return out
}

func wireNote(units length.System, n note.Note) gen.Note {
	g := gen.Note{
		Code: string(n.Code), Severity: gen.NoteSeverity(n.Severity.String()), Text: n.Text(units),
		Params: make(map[string]gen.NoteParam, len(n.Params)),
	}
	for _, p := range n.Params {
		g.Params[p.Name] = wireParam(units, p.Value)
	}
	if len(n.From) > 0 {
		g.From = &n.From
	}
	return g
}

// wireParam is a value as the contract has it; a reason within a note is its text.
func wireParam(units length.System, v note.Value) any {
	switch v := v.(type) {
	case note.Words:
		return append([]string{}, v...)
	case note.Number:
		return int64(v)
	case note.Fraction:
		return float64(v) / 1_000_000
	case note.Figure:
		return gen.Quantity{Mm: length.Length(v).MM(), Text: v.Text(units)}
	case note.Share:
		return float64(v) / 10_000
	case note.Size:
		return quantityIn(units, v.Length, v.Round)
	}
	return v.Text(units)
}
