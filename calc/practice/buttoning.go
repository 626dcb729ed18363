package practice

import "github.com/bridletie/bridletie/calc/length"

// Buttoning is deep buttoning in diamonds.
const Buttoning Subject = "buttoning"

// The usual diamond. Printed diamonds are 8 to 13 cm wide and 13 to 18 cm high.
var (
	DiamondWidest = Buttoning.length("diamond-widest", "width of a diamond where there is room for it", 11*cm, 3*cm, 40*cm, Common)
	DiamondLeast  = Buttoning.length("diamond-least", "width that a diamond on a small panel keeps", 3*cm, 2*cm, 20*cm, Common)
	DiamondStep   = Buttoning.length("diamond-step", "diamonds are wide by multiples of", 5*mm, mm, 5*cm, Common)
	DiamondsFit   = Buttoning.count("diamonds-fit", "diamonds that fit on a panel either way", "diamonds", 3, 1, 20, Common)
	DiamondHeight = Buttoning.number("diamond-height", "height of a diamond, in times of its width", "times", 1_500, 500, 4_000, Common+"; printed diamonds are 3 × 5, 4 × 6 and 5 × 7 in")
)

// The work and the cloth.
var (
	ButtoningAmount = Buttoning.length("buttoning-amount", "what the rule of thumb adds to each diamond", 3*in/2, 0, 30*cm, "Stephenson, Cutting and Draping, 1905: 1½ in for spaces of 3 in")
	ButtoningGroove = Buttoning.number("buttoning-groove", "how deep a pleat lies midway between two buttons, as a part of the wells' depth", "", 500, 0, 1_000, "a model, no source")
	ButtoningEdge   = Buttoning.length("buttoning-edge", "least that a button stands from the edge without a warning", 3*in, 0, 30*cm, "a printed rule: 3 in")
	ButtoningSkew   = Buttoning.length("buttoning-skew", "by how much left and right may differ without a warning", mm, 0, 10*cm, Common)
	MotifShare      = Buttoning.number("motif-share", "extent of a motif of no known size, as a part of the repeat", "", 250, 10, 1_000, Common)
)

// Buttons and their twine.
var (
	ButtonCloth   = Buttoning.length("button-cloth", "thickness of the cloth that covers a button", mm/2, 0, 10*mm, Common)
	ButtonDisc    = Buttoning.number("button-disc", "circle for a button, in times of its mould", "times", 2_000, 1_500, 3_000, "printed advice: twice to two and a half times the mould")
	ButtonTurn    = Buttoning.number("button-turn", "what the cloth's thickness adds to the circle, in times of it", "times", 4_000, 0, 20_000, "it bends twice on its way round the rim on either side")
	ButtonFull    = Buttoning.number("button-full", "largest circle that a shell takes, in times of the mould", "times", 2_500, 1_500, 5_000, "printed advice: twice to two and a half times the mould")
	ButtonStep    = Buttoning.length("button-step", "circles are cut to multiples of", mm, mm/10, 10*mm, Common)
	ButtonThrough = Buttoning.length("button-through", "what the twine of a button passes behind its well", 50*mm, 0, length.Metre, Common)
	ButtonTie     = Buttoning.length("button-tie", "twine to tie one button with", 40*cm, 0, 2*length.Metre, Common)
)
