package furniture

import "github.com/bridletie/bridletie/calc/length"

const cm = length.Centimetre

// tape is a measure in whole centimetres: what is usual, and from what to what
// it is believed.
func tape(id, name, how string, from, to Line, typical, least, most int) Measure {
	return Measure{ID: id, Name: name, How: how, From: from, To: to, Typical: length.Length(typical) * cm, Least: length.Length(least) * cm, Most: length.Length(most) * cm}
}

// The measures that several kinds want. The figures are usual, least and most,
// in centimetres.

func seatWidth(typical, least, most int) Measure {
	return tape("seat-width", "seat width", "Across the seat at its widest, from arm to arm; where there are no arms, from edge to edge.", Crease, Crease, typical, least, most)
}

// openSeatWidth is that of a seat without arms.
func openSeatWidth(typical, least, most int) Measure {
	m := seatWidth(typical, least, most)
	m.From, m.To = ShowLine, ShowLine
	m.How = "Across the seat at its widest, from edge to edge."
	return m
}

func seatDepth(typical, least, most int) Measure {
	return tape("seat-depth", "seat depth", "Down the middle of the seat, from the foot of the back to the front edge, over the stuffing.", Crease, ShowLine, typical, least, most)
}

// padDepth is the depth of a seat that has no back beside it.
func padDepth(typical, least, most int) Measure {
	return tape("seat-depth", "seat depth", "Down the middle of the seat, from the back edge to the front edge, over the stuffing.", ShowLine, ShowLine, typical, least, most)
}

func seatRise(typical, least int) Measure {
	return tape("seat-rise", "seat rise", "From the top edge of the seat down its front to the underside of the rail.", ShowLine, ShowLine, typical, least, 45)
}

func seatEdge() Measure {
	return tape("seat-edge", "seat edge", "Under a loose cushion: from the top of the front edge down to the seam of the front border.", ShowLine, SeamLine, 5, 1, 20)
}

func backWidth(typical, least, most int) Measure {
	return tape("back-width", "back width", "Across the inside back at its widest, from arm to arm or wing to wing.", Crease, Crease, typical, least, most)
}

// openBackWidth is that of a back with nothing beside it.
func openBackWidth(typical, least, most int) Measure {
	m := backWidth(typical, least, most)
	m.From, m.To = ShowLine, ShowLine
	m.How = "Across the inside back at its widest, from edge to edge."
	return m
}

func topWidth(typical, least, most int) Measure {
	return tape("top-width", "top width", "With a back that rises above the arms only: across the inside back above them, from edge to edge.", ShowLine, ShowLine, typical, least, most)
}

func backHeight(typical, least, most int) Measure {
	return tape("back-height", "back height", "Up the middle of the inside back, from the seat over the stuffing to the top edge; with a loose cushion, from the platform beneath it.", Crease, ShowLine, typical, least, most)
}

func backEdge(typical int) Measure {
	return tape("back-edge", "back edge", "Round the edge of the back, from where the inside back is last seen to where the cover is tacked behind it.", ShowLine, TackLine, typical, 1, 25)
}

func outsideWidth(typical, least, most int) Measure {
	return tape("outside-width", "outside width", "Across the outside back at its widest.", ShowLine, ShowLine, typical, least, most)
}

func outsideHeight(typical, least, most int) Measure {
	return tape("outside-height", "outside height", "Down the outside back, from the top edge to the underside of the rail.", ShowLine, ShowLine, typical, least, most)
}

func armLength(typical, least, most int) Measure {
	return tape("arm-length", "arm length", "Along the top of an arm, from the inside back to its front.", Crease, ShowLine, typical, least, most)
}

func armEdge(typical int) Measure {
	return tape("arm-edge", "arm front edge", "Round the front edge of the inside arm to where its cover is tacked beneath the facing.", ShowLine, TackLine, typical, 1, 15)
}

func armRise(typical, least, most int) Measure {
	return tape("arm-rise", "arm rise", "From the seat, or the platform beneath a loose cushion, up the inside of an arm and over the top to where the outside arm begins; with square arms, to the seam of the arm top.", Crease, TackLine, typical, least, most)
}

func outsideArm(typical, least, most int) Measure {
	return tape("outside-arm", "outside arm height", "From where the outside arm begins down to the underside of the rail.", ShowLine, ShowLine, typical, least, most)
}

func armThickness(typical, least, most int) Measure {
	return tape("arm-thickness", "arm thickness", "Across the front of an arm at its widest.", ShowLine, ShowLine, typical, least, most)
}

func facingHeight(typical, least, most int) Measure {
	return tape("facing-height", "arm front height", "Down the front of an arm, from its top to the underside of the rail.", ShowLine, ShowLine, typical, least, most)
}

func cushion(typical, least, most int) Measure {
	return tape("cushion-thickness", "cushion thickness", "The height of a cushion's border, from seam to seam.", SeamLine, SeamLine, typical, least, most)
}

// apart are measures of what is mostly as broad or as deep as the seat, and is
// measured apart where it is not.
func apart(width, depth int) []Measure {
	list := []Measure{
		tape("cushion-width", "cushion width", "Where it is not an equal part of the seat's: across one seat cushion, without ears.", SeamLine, SeamLine, width, 25, 300),
		tape("cushion-depth", "cushion depth", "Where it is not the seat's: down the middle of a seat cushion, from its back to its front.", SeamLine, SeamLine, depth, 25, 120),
		tape("border-width", "border width", "Where it is not the seat's: along the front border, from end to end.", ShowLine, ShowLine, width, 25, 400),
	}
	for i := range list {
		list[i].Apart = true
	}
	return list
}

// outsideWing are those of a wing from outside, where it is larger.
func outsideWing(only string, width, height int) []Measure {
	return []Measure{
		tape("outer-wing-width", "outer wing width", only+"t the widest place of the outside wing, from its front to the edge of the outside back.", ShowLine, ShowLine, width, 8, 60),
		tape("outer-wing-height", "outer wing height", only+"t the tallest place of the outside wing, from its top down to the outside arm.", ShowLine, ShowLine, height, 15, 100),
	}
}

// ears are those of a cushion that runs in front of the arms.
func ears() []Measure {
	return []Measure{
		tape("ear-width", "ear width", "With a T or an L cushion only: from the side of the arm outwards to the end of the ear.", SeamLine, SeamLine, 10, 3, 30),
		tape("ear-depth", "ear depth", "With a T or an L cushion only: from the front of the cushion back to the arm.", SeamLine, SeamLine, 12, 3, 40),
	}
}

func padThickness(typical, least, most int) Measure {
	return tape("pad-thickness", "pad thickness", "From the top of the pad down its edge to the wood.", ShowLine, TackLine, typical, least, most)
}

func skirtHeight() Measure {
	return tape("skirt-height", "skirt height", "With a skirt only: from the rail to a finger above the floor.", SeamLine, ShowLine, 16, 5, 40)
}

func wingWidth(how string, typical, least, most int) Measure {
	return tape("wing-width", "wing width", how, Crease, ShowLine, typical, least, most)
}

func wingHeight(how string, typical int) Measure {
	return tape("wing-height", "wing height", how+"rom the top of the arm up the wing to its highest point.", Crease, ShowLine, typical, 20, 90)
}

func wingRoll(how string, typical int) Measure {
	return tape("wing-roll", "wing roll", how+"rom the front edge of the wing round the roll to where its cover is tacked outside.", ShowLine, TackLine, typical, 1, 15)
}

func sideLength(typical, least, most int) Measure {
	return tape("outside-depth", "side length", "Along the side of the seat, from the front edge to the outside back.", ShowLine, ShowLine, typical, least, most)
}
