package practice

// Guard is when a cutting list is too short to be believed.
const Guard Subject = "guard"

// The least cloth of a piece, laid in rows by hand, in times of the surface of the
// box round it. The bands are of makers' own consumptions of some thirty pieces;
// these are orders, of which a tenth is taken off for what is needed.
var (
	GuardArmchair = Guard.number("guard-armchair", "least cloth of an armchair with a loose cushion, in times of the box round it", "times", 1_500, 0, 5_000, Common+"; makers' sheets give 1.7 to 2.4")
	GuardSofa     = Guard.number("guard-sofa", "least cloth of a settee with loose seat and back cushions, in times of the box round it", "times", 1_600, 0, 5_000, Common+"; makers' sheets give 1.8 to 2.3")
	GuardTight    = Guard.number("guard-tight", "least cloth of other pieces with arms, in times of the box round them", "times", 900, 0, 5_000, "makers' sheets: 1.0 to 1.4 as ordered")
	GuardArmless  = Guard.number("guard-armless", "least cloth of a chair without arms, in times of the box round it", "times", 900, 0, 5_000, "makers' sheets: 1.0 to 1.3 as ordered")
	GuardLegs     = Guard.length("guard-legs", "from the floor to the rail, where nothing measures it", 15*cm, 0, 60*cm, Common)
)
