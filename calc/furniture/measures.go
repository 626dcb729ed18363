package furniture

import "github.com/bridletie/bridletie/calc/length"

const cm = length.Centimetre

// tape is a measure in whole centimetres: what is usual, and from what to what
// it is believed.
func tape(id, name, how string, typical, least, most int) Measure {
	return Measure{id, name, how, length.Length(typical) * cm, length.Length(least) * cm, length.Length(most) * cm}
}

// The measures that several kinds want. The figures are usual, least and most,
// in centimetres.

func seatWidth(typical, least, most int) Measure {
	return tape("seat-width", "seat width", "Across the seat at its widest, from arm to arm; where there are no arms, from edge to edge.", typical, least, most)
}

func seatDepth(typical, least, most int) Measure {
	return tape("seat-depth", "seat depth", "Down the middle of the seat, from the foot of the back to the front edge, over the stuffing.", typical, least, most)
}

func seatRise(typical, least int) Measure {
	return tape("seat-rise", "seat rise", "From the top edge of the seat down its front to the underside of the rail.", typical, least, 45)
}

func backWidth(typical, least, most int) Measure {
	return tape("back-width", "back width", "Across the inside back at its widest, from arm to arm or wing to wing; where there are none, from edge to edge.", typical, least, most)
}

func backHeight(typical, least, most int) Measure {
	return tape("back-height", "back height", "Up the middle of the inside back, from the seat over the stuffing to the top edge; with a loose cushion, from the platform beneath it.", typical, least, most)
}

func outsideWidth(typical, least, most int) Measure {
	return tape("outside-width", "outside width", "Across the outside back at its widest.", typical, least, most)
}

func outsideHeight(typical, least, most int) Measure {
	return tape("outside-height", "outside height", "Down the outside back, from the top edge to the underside of the rail.", typical, least, most)
}

func armLength(typical, least, most int) Measure {
	return tape("arm-length", "arm length", "Along the top of an arm, from the inside back to its front.", typical, least, most)
}

func armRise(typical, least, most int) Measure {
	return tape("arm-rise", "arm rise", "From the seat, or the platform beneath a loose cushion, up the inside of an arm and over the top to where the outside arm begins; with square arms, to the seam of the arm top.", typical, least, most)
}

func outsideArm(typical, least, most int) Measure {
	return tape("outside-arm", "outside arm height", "From where the outside arm begins down to the underside of the rail.", typical, least, most)
}

func armThickness(typical, least, most int) Measure {
	return tape("arm-thickness", "arm thickness", "Across the front of an arm at its widest.", typical, least, most)
}

func cushion(typical, least, most int) Measure {
	return tape("cushion-thickness", "cushion thickness", "The height of a cushion's border, from seam to seam.", typical, least, most)
}

func padThickness(typical, least, most int) Measure {
	return tape("pad-thickness", "pad thickness", "From the top of the pad down its edge to the wood.", typical, least, most)
}

func skirtHeight() Measure {
	return tape("skirt-height", "skirt height", "With a skirt only: from the rail to a finger above the floor.", 16, 5, 40)
}

func wingWidth(how string, typical, least, most int) Measure {
	return tape("wing-width", "wing width", how, typical, least, most)
}

func wingHeight(how string, typical int) Measure {
	return tape("wing-height", "wing height", how+"rom the top of the arm up the wing to its highest point.", typical, 20, 90)
}
