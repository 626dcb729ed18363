package practice

import "github.com/bridletie/bridletie/calc/length"

// Piping is covered cord and its strips.
const Piping Subject = "piping"

// The strip and its joins.
var (
	PipingCloth    = Piping.length("piping-cloth", "thickness of the cloth round the cord", mm, 0, 10*mm, Common)
	PipingSeam     = Piping.length("piping-seam", "allowance on each side of the strip", 12*mm, mm, 10*cm, Common)
	PipingStep     = Piping.length("piping-step", "strips are cut wide by multiples of, in metric units", 5*mm, mm/10, 10*cm, Common)
	PipingStepInch = Piping.length("piping-step-inch", "strips are cut wide by multiples of, in imperial units", in/4, mm/10, 10*cm, Common)
	PipingLeast    = Piping.length("piping-least", "the shortest piece that is worth joining", 30*cm, cm, 5*length.Metre, Common)
	PipingJoin     = Piping.length("piping-join", "allowance on each side of a join of bias strips", 6*mm, 0, 5*cm, Common)
	PipingOverlap  = Piping.length("piping-overlap", "of a closed run where it closes", 40*mm, 0, 50*cm, Common)
	PipingEnds     = Piping.length("piping-ends", "beyond each end of an open run", 25*mm, 0, 50*cm, Common)
	PipingCorner   = Piping.length("piping-corner", "kept free of joins on each side of a corner", 50*mm, 0, 50*cm, Common)
)

// How far cloth gives.
var (
	PipingGiveStraight = Piping.number("piping-give-straight", "how far cloth gives along a straight strip", "", 30, 1, 500, Common+": 3 %")
	PipingGiveBias     = Piping.number("piping-give-bias", "how far cloth gives on the true bias", "", 150, 1, 500, Common+": 15 %")
)
