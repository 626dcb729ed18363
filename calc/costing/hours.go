package costing

import (
	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/calc/practice"
)

// Work is how much there is of what hours are reckoned by.
type Work struct {
	Pieces   int
	Sound    int // of these, pieces without a frame that is rebuilt: none is repaired
	Panels   int // all covers, all copies
	Cushions int
	Frames   int
	Buttons  int
	Piping   decimal.Decimal // metres
}

// Operation is a part of the work and the hours that it takes: so many for a
// piece, and so many more for each panel, cushion, frame and button and each
// metre of piping.
type Operation struct {
	Name                                                          string
	PerPiece, PerPanel, PerCushion, PerFrame, PerButton, PerMetre decimal.Decimal
	Fixed                                                         decimal.Decimal  // for the whole job, whatever the work
	Rate                                                          *decimal.Decimal // for an hour; nil: that of the job
}

// Preset is a named set of hours.
type Preset struct {
	Name       string
	About      string
	Operations []Operation
}

// Presets are the examples that come with the service, with the hours of a shop
// where it has its own.
func Presets(shop practice.Set) []Preset {
	return []Preset{
		{"re-cover", "An example: old cover off, new cover on, the stuffing topped up. Replace it with your own hours.", operations(practice.Recover, shop)},
		{"rebuild", "An example: down to the frame and up again, with webbing, springs and new stuffing. Replace it with your own hours.", operations(practice.Rebuild, shop)},
		{"new-work", "An example: a new frame upholstered for the first time. Replace it with your own hours.", operations(practice.NewWork, shop)},
	}
}

func operations(rows []practice.Operation, shop practice.Set) []Operation {
	h := func(k practice.NumberKey) decimal.Decimal {
		if k.Setting == nil {
			return decimal.Decimal{}
		}
		return decimal.New(shop.Number(k), -6)
	}
	out := make([]Operation, len(rows))
	for i, o := range rows {
		out[i] = Operation{
			Name: o.Name, PerPiece: h(o.Piece), PerPanel: h(o.Panel), PerCushion: h(o.Cushion), PerFrame: h(o.Frame),
			PerButton: h(o.Button), PerMetre: h(o.Metre),
		}
	}
	return out
}

// FindPreset is the preset with that name.
func FindPreset(name string, shop practice.Set) (Preset, bool) {
	for _, p := range Presets(shop) {
		if p.Name == name {
			return p, true
		}
	}
	return Preset{}, false
}

// hours are those of one operation, to the hundredth.
func (o Operation) hours(w Work) decimal.Decimal {
	if o.Name == FrameRepair {
		w.Pieces = max(w.Pieces-w.Sound, 0)
	}
	times := func(n int, d decimal.Decimal) decimal.Decimal { return d.Mul(decimal.NewFromInt(int64(n))) }
	return o.Fixed.Add(times(w.Pieces, o.PerPiece)).Add(times(w.Panels, o.PerPanel)).Add(times(w.Cushions, o.PerCushion)).
		Add(times(w.Frames, o.PerFrame)).Add(times(w.Buttons, o.PerButton)).Add(w.Piping.Mul(o.PerMetre)).Round(2)
}
