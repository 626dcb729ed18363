package glance_test

import (
	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

const cm = length.Centimetre

// drawnPiece is a piece of any kind within its measures and options.
func drawnPiece(t *rapid.T) furniture.Piece {
	k := rapid.SampledFrom(furniture.Kinds()).Draw(t, "kind")
	p := furniture.Piece{Kind: k.ID, Count: rapid.IntRange(1, 2).Draw(t, "count"), Measures: map[string]length.Length{}, Options: map[string]string{}}
	for _, m := range k.Measures {
		p.Measures[m.ID] = m.Least + length.Length(rapid.Int64Range(0, int64((m.Most-m.Least)/length.Millimetre)).Draw(t, m.ID))*length.Millimetre
	}
	for _, o := range k.Options {
		p.Options[o.ID] = rapid.SampledFrom(o.Choices).Draw(t, o.ID).ID
	}
	return p
}
