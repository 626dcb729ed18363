package practice

import "github.com/bridletie/bridletie/calc/length"

// Pleat is the fullness of an edge.
const Pleat Subject = "pleat"

// How fullness is laid away.
var (
	PleatDepth    = Pleat.length("pleat-depth", "the deepest fold", 20*mm, mm, length.Metre, Common)
	PleatShallow  = Pleat.length("pleat-shallow", "depth of fold below which the fullness may be eased in", 3*mm, 0, 10*cm, Common)
	PleatStep     = Pleat.length("pleat-step", "shares are whole multiples of, in metric units", mm, mm/10, 10*mm, Common)
	PleatStepInch = Pleat.length("pleat-step-inch", "shares are whole multiples of, in imperial units", in/16, mm/10, 10*mm, Common)
	SnipMargin    = Pleat.length("snip-margin", "kept between the end of a snip and the edge line", 12*mm, mm, 20*cm, Common)
	SnipOpening   = Pleat.length("snip-opening", "the widest opening of one snip", 10*mm, mm, 10*cm, Common)
)
