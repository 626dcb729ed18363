package practice

import "github.com/bridletie/bridletie/calc/length"

// Foam is cushions and pads of foam.
const Foam Subject = "foam"

// How foam is cut. The over-cut is on the whole width, half of it on each side.
var (
	FoamOverTight = Foam.length("foam-over-tight", "by how much the foam of a seat or of a tight cushion is larger than its cover", 12*mm, 0, 10*cm, Common)
	FoamOverSoft  = Foam.length("foam-over-soft", "by how much the foam of a back or of a scatter cushion is larger than its cover", 25*mm, 0, 10*cm, Common+"; an inch over in all ways: half an inch of seam all round, to which the foam is cut")
	FoamKerf      = Foam.length("foam-kerf", "lost between two pieces; 0 for a knife", 0, 0, 20*mm, Common)
	FoamSaw       = Foam.length("foam-saw", "what a saw takes between two pieces, of which is warned where no kerf is given", 3*mm, 0, 20*mm, Common)
	FoamLayers    = Foam.count("foam-layers", "of how many layers a core or a top is glued up at most", "", 6, 1, 12, Common)
	FoamThinLayer = Foam.length("foam-thin-layer", "least thickness of a layer that is glued to others; every joint is stiff", 10*mm, 3*mm, 10*cm, Common)
	FoamOffcut    = Foam.length("foam-offcut", "the least side of an offcut that is listed", 50*mm, cm, length.Metre, Common)
)

// When a foam is warned of.
var (
	FoamThinSeat    = Foam.length("foam-thin-seat", "thickness from which a seat is no pad", 75*mm, 0, 30*cm, Common)
	FoamThinBack    = Foam.length("foam-thin-back", "least thickness of a back or a scatter cushion", 50*mm, 0, 30*cm, Common)
	FoamThinPad     = Foam.length("foam-thin-pad", "least thickness of a pad", 25*mm, 0, 30*cm, Common)
	FoamThinArm     = Foam.length("foam-thin-arm", "least thickness on an arm", 10*mm, 0, 30*cm, Common)
	FoamLightSeat   = density("foam-light-seat", "least density of a seat", 28_800, Common+": 1.8 to 3.2 lb/ft³")
	FoamDenseSeat   = density("foam-dense-seat", "greatest density of a seat", 51_300, Common+": 1.8 to 3.2 lb/ft³")
	FoamLightest    = density("foam-lightest", "least density of polyurethane foam", 15_000, touchstone)
	FoamDensest     = density("foam-densest", "greatest density of polyurethane foam", 100_000, touchstone)
	FoamSoftSeat    = Foam.count("foam-soft-seat", "least hardness of a seat at 25 %", "N", 133, 0, 1_000, Common+": 30 to 40 lb")
	FoamHardSeat    = Foam.count("foam-hard-seat", "greatest usual hardness of a seat at 25 %", "N", 178, 0, 1_000, Common+": 30 to 40 lb")
	FoamHardestBack = Foam.count("foam-hard-back", "greatest hardness of a back at 25 %", "N", 89, 0, 1_000, Common+": 20 lb")
)

const touchstone = "Standards New Zealand, Touchstone, May 2009"

func density(name, what string, standard int64, source string) NumberKey {
	return Foam.number(name, what, "kg/m³", standard, 1_000, 500_000, source)
}

// Density is a density in grams a cubic metre.
func (s Set) Density(k NumberKey) int64 { return s.Number(k) / (One / 1000) }
