package practice

import "github.com/bridletie/bridletie/calc/length"

// Usual is what is taken for a piece of which nothing is said.
const Usual Subject = "usual"

// Buttoning and piping.
var (
	UsualDiamondWidth  = Usual.length("usual-diamond-width", "width of a diamond", 11*cm, 2*cm, 40*cm, Common)
	UsualDiamondHeight = Usual.length("usual-diamond-height", "height of a diamond", 16*cm, 2*cm, 60*cm, Common)
	UsualButtonEdge    = Usual.length("usual-button-edge", "margin between the outermost buttons and the edge", 8*cm, 0, 50*cm, Common)
	UsualWells         = Usual.length("usual-wells", "depth of the wells of buttons", 30*mm, 0, 30*cm, Common)
	UsualButton        = Usual.count("usual-button", "size of a button", "lines", 28, 12, 100, Common)
	UsualCord          = Usual.length("usual-cord", "diameter of piping cord", 4*mm, mm, 60*mm, Common)
)

// Cloths and foam.
var (
	UsualCloth        = Usual.length("usual-cloth", "width of a cloth that is not chosen", 137*cm, cm, 10*length.Metre, Common+": 54 in, traded as 137 cm")
	UsualLining       = Usual.length("usual-lining", "width of a lining that is not chosen", 140*cm, 50*cm, 5*length.Metre, Common)
	UsualSeatDensity  = Usual.number("usual-seat-density", "density of the foam of seats", "kg/m³", 35_000, 10_000, 200_000, Common)
	UsualSeatHardness = Usual.count("usual-seat-hardness", "hardness of the foam of seats at 25 %", "N", 160, 10, 1_000, Common)
	UsualBackDensity  = Usual.number("usual-back-density", "density of the foam of backs and arms", "kg/m³", 26_000, 10_000, 200_000, Common)
	UsualBackHardness = Usual.count("usual-back-hardness", "hardness of the foam of backs and arms at 25 %", "N", 80, 10, 1_000, Common)
	UsualFoamAcross   = Usual.length("usual-foam-across", "width of a sheet of foam", 120*cm, 30*cm, 4*length.Metre, Common)
	UsualFoamAlong    = Usual.length("usual-foam-along", "length of a sheet of foam", 2*length.Metre, 30*cm, 4*length.Metre, Common)
	UsualFoamStep     = Usual.length("usual-foam-step", "foam is cut to order in multiples of", 5*mm, mm, 10*cm, Common)
)
