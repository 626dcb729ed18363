package foam

import "github.com/bridletie/bridletie/calc/length"

// Advice is what a published guide or common practice says of a place.
type Advice struct {
	Class  string // of BS 3379
	Text   string
	Source string
}

const bs3379 = "BS 3379:2005, classes of use as FIRA lists them; EN ISO 5999:2013, Annex A, has the same"

// Advise is the class of foam for a place and a use. X is for heavy contract
// seats, V for contract and public seats, S for seats at home and for contract
// backs and arms, A for backs and arms at home, L for scatter cushions and padding.
func Advise(p Place, u Use) Advice {
	seat := p == Seat || p == Pad
	switch {
	case p == Scatter:
		return Advice{"L", "class L: scatter cushions and padding", bs3379}
	case seat && u == HeavyContract:
		return Advice{"X", "class X: seats in heavy contract use", bs3379}
	case seat && u == Contract:
		return Advice{"V", "class V: contract and public seats", bs3379}
	case seat:
		return Advice{"S", "class S: seats at home", bs3379}
	case u != Domestic:
		return Advice{"S", "class S: backs and arms in contract use", bs3379}
	}
	return Advice{"A", "class A: backs and arms at home", bs3379}
}

// The limits beyond which a foam is warned of. Figures in pounds are of common
// practice without a source: a seat 1.8 to 3.2 lb/ft³ and 30 to 40 lb, a back at
// most 20 lb, both at 25 %. 100 kg/m³ and 15 kg/m³ are the range of polyurethane
// foam (Standards New Zealand, Touchstone, May 2009). Thicknesses: common practice,
// no source.
const (
	lightSeat    = 28_800  // g/m³, 1.8 lb/ft³
	denseSeat    = 51_300  // 3.2 lb/ft³
	lightestFoam = 15_000  // of any
	densestFoam  = 100_000 // of any
	softSeat     = 133     // N, 30 lbf
	hardBack     = 89      // N, 20 lbf
)

func thin(p Place) length.Length {
	switch p {
	case Seat:
		return 75 * length.Millimetre
	case Back, Scatter:
		return 50 * length.Millimetre
	case Pad:
		return 25 * length.Millimetre
	}
	return 10 * length.Millimetre
}

// Concern is why a foam may not suit.
type Concern string

// The concerns.
const (
	TooThin  Concern = "too thin"
	TooSoft  Concern = "too soft"
	TooHard  Concern = "too hard"
	TooDense Concern = "too dense"
	TooLight Concern = "too light"
)

// Concerns are what to warn of, of the core and of the whole thickness. Hardness
// at 40 % is not made into one at 25 %: it is only known to be the greater, so that
// a seat too soft at 40 % is too soft at 25 %, while a back that is hard at 40 % may
// not be at 25 %.
func Concerns(p Place, thickness length.Length, core Foam) []Concern {
	var out []Concern
	seat := p == Seat || p == Pad
	if thickness < thin(p) {
		out = append(out, TooThin)
	}
	if seat && core.Hardness > 0 && core.Hardness < softSeat {
		out = append(out, TooSoft)
	}
	if p == Back && core.At == 25 && core.Hardness > hardBack {
		out = append(out, TooHard)
	}
	switch {
	case core.Density > densestFoam, seat && core.Density > denseSeat:
		out = append(out, TooDense)
	case core.Density < lightestFoam, seat && core.Density < lightSeat:
		out = append(out, TooLight)
	}
	return out
}
