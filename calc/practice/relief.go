package practice

// Relief is cuts at posts, rails and legs.
const Relief Subject = "relief"

// What is kept beside a cut, and when there is one.
var (
	ReliefMargin      = Relief.length("relief-margin", "kept between the end of a cut and what must stay covered", 12*mm, mm, 20*cm, Common)
	ReliefMarginLoose = Relief.length("relief-margin-loose", "kept besides on a loose weave", 5*mm, 0, 10*cm, Common)
	ReliefMarginFrom  = Relief.length("relief-margin-from", "height of the stuffing from which more is kept", 50*mm, 0, 50*cm, Common)
	ReliefMarginShare = Relief.number("relief-margin-share", "what is kept of the height above that, as a part of it", "", 100, 0, 1_000, Common)
	ReliefMarginMost  = Relief.length("relief-margin-most", "the most that is kept for the stuffing", 13*mm, 0, 20*cm, Common)
	ReliefTurn        = Relief.length("relief-turn", "the narrowest flap beside an obstacle that can be turned under", 6*mm, 0, 10*cm, Common)
	ReliefArm         = Relief.length("relief-arm", "the shortest arm of a forked cut", 4*mm, mm, 5*cm, Common)
	ReliefCut         = Relief.length("relief-cut", "the shortest cut and snip", mm, mm/10, 5*cm, Common)
	ReliefStray       = Relief.length("relief-stray", "by which the folds of a fan may stray from the round", 2*mm, mm/10, 2*cm, Common)
	ReliefPatch       = Relief.length("relief-patch", "margin below which the place is patched before it is cut", 6*mm, 0, 10*cm, Common)
)
