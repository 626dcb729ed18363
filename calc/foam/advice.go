package foam

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

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

// Thin is the least thickness at a place.
func Thin(p Place) practice.LengthKey {
	switch p {
	case Seat:
		return practice.FoamThinSeat
	case Back, Scatter:
		return practice.FoamThinBack
	case Pad:
		return practice.FoamThinPad
	}
	return practice.FoamThinArm
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
func Concerns(p Place, thickness length.Length, core Foam, shop practice.Set) []Concern {
	var out []Concern
	seat := p == Seat || p == Pad
	if thickness < shop.Length(Thin(p)) {
		out = append(out, TooThin)
	}
	if seat && core.Hardness > 0 && core.Hardness < shop.Count(practice.FoamSoftSeat) {
		out = append(out, TooSoft)
	}
	if p == Back && core.At == 25 && core.Hardness > shop.Count(practice.FoamHardestBack) {
		out = append(out, TooHard)
	}
	switch {
	case core.Density > shop.Density(practice.FoamDensest), seat && core.Density > shop.Density(practice.FoamDenseSeat):
		out = append(out, TooDense)
	case core.Density < shop.Density(practice.FoamLightest), seat && core.Density < shop.Density(practice.FoamLightSeat):
		out = append(out, TooLight)
	}
	return out
}
