package practice

// Offcuts is what is left over of a cloth.
const Offcuts Subject = "offcuts"

// What an offcut is good for. The shortest strip is that of piping.
var (
	OffcutLeast = Offcuts.length("offcut-least", "shorter side below which an offcut takes the cover of no button", 50*mm, cm, 50*cm, Common)
	OffcutStrip = Offcuts.length("offcut-strip", "width of a strip of piping for cord of 4 to 6 mm", 45*mm, cm, 20*cm, Common)
)
