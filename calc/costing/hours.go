package costing

import "github.com/shopspring/decimal"

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

// Presets are the examples that come with the service. They are invented (common
// practice, no source): every shop has hours of its own.
func Presets() []Preset {
	h := func(hundredths int64) decimal.Decimal { return decimal.New(hundredths, -2) }
	return []Preset{
		{
			Name: "re-cover", About: "An example: old cover off, new cover on, the stuffing topped up. Replace it with your own hours.",
			Operations: []Operation{
				{Name: Strip, PerPiece: h(25), PerPanel: h(8)},
				{Name: Stuffing, PerFrame: h(40)},
				{Name: Cutting, PerPiece: h(30), PerPanel: h(7)},
				{Name: Machining, PerCushion: h(60), PerPanel: h(4), PerMetre: h(8)},
				{Name: Covering, PerPanel: h(30)},
				{Name: Buttoning, PerButton: h(9)},
				{Name: Trimming, PerPiece: h(25), PerPanel: h(3)},
				{Name: Collection, PerPiece: h(50)},
			},
		},
		{
			Name: "rebuild", About: "An example: down to the frame and up again, with webbing, springs and new stuffing. Replace it with your own hours.",
			Operations: []Operation{
				{Name: Strip, PerPiece: h(50), PerPanel: h(12)},
				{Name: FrameRepair, PerPiece: h(75)},
				{Name: Foundation, PerFrame: h(220)},
				{Name: Stuffing, PerFrame: h(260)},
				{Name: Cutting, PerPiece: h(30), PerPanel: h(7)},
				{Name: Machining, PerCushion: h(60), PerPanel: h(4), PerMetre: h(8)},
				{Name: Covering, PerPanel: h(35)},
				{Name: Buttoning, PerButton: h(9)},
				{Name: Trimming, PerPiece: h(25), PerPanel: h(3)},
				{Name: Collection, PerPiece: h(50)},
			},
		},
		{
			Name: "new-work", About: "An example: a new frame upholstered for the first time. Replace it with your own hours.",
			Operations: []Operation{
				{Name: Foundation, PerFrame: h(200)},
				{Name: Stuffing, PerFrame: h(240)},
				{Name: Cutting, PerPiece: h(30), PerPanel: h(7)},
				{Name: Machining, PerCushion: h(60), PerPanel: h(4), PerMetre: h(8)},
				{Name: Covering, PerPanel: h(32)},
				{Name: Buttoning, PerButton: h(9)},
				{Name: Trimming, PerPiece: h(25), PerPanel: h(3)},
				{Name: Collection, PerPiece: h(50)},
			},
		},
	}
}

// FindPreset is the preset with that name.
func FindPreset(name string) (Preset, bool) {
	for _, p := range Presets() {
		if p.Name == name {
			return p, true
		}
	}
	return Preset{}, false
}

// Hours are the operations that the work takes, at a rate for an hour, without
// those that take no time.
func (p Preset) Hours(w Work, rate decimal.Decimal, tax string) []Labour {
	return Timetable{Preset: p.Name}.Labour(w, rate, tax)
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
