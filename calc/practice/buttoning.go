package practice

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
