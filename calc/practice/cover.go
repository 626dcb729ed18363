package practice

// Cover is how panels of a cover are cut.
const Cover Subject = "cover"

// What is added past the show line, by what happens at the edge. The close way
// pulls 50 to 75 mm and sews 10 to 15 mm. That of a workroom leaves a hand-hold
// where the cover is tacked, and lets it run out of sight where parts meet.
var (
	CoverSeam  = Cover.length("cover-seam", "at an edge that is sewn to another panel", 15*mm, 0, 50*cm, Common)
	CoverPull  = Cover.length("cover-pull", "at an edge that is pulled over the stuffing and tacked off", 6*cm, 0, 50*cm, Common).by(Workroom, 5*cm, Common+": a hand-hold of 4 to 7.5 cm past the tack line")
	CoverTuck  = Cover.length("cover-tuck", "at an edge that is tucked in between back, arms and seat without a fly", 10*cm, 0, 50*cm, Common).by(Workroom, 20*cm, Common+": 15 to 25 cm, to the rail and a hold")
	CoverUnder = Cover.length("cover-under", "at an edge that is turned under the rail", 4*cm, 0, 50*cm, Common).by(Workroom, 6*cm, Common)
	CoverJoint = Cover.length("cover-joint", "at a short tuck that is tacked off", 10*cm, 0, 50*cm, Common).by(Workroom, 125*mm, Common+": 7.5 cm out of sight and a hand-hold")
)

// A tuck with a fly, which is sewn to the cover out of sight.
var (
	FlyPast  = Cover.length("fly-past", "by which the cover passes the show line before a fly", 0, 0, 50*cm, Common).by(Workroom, 75*mm, Common+": 6 to 10 cm; 3 to 4 in are lost to view")
	FlyDepth = Cover.length("fly-depth", "of a fly between its seams", 10*cm, 0, 50*cm, Common).by(Workroom, 17*cm, Common+": cut 20 cm deep, from 15 to 25")
)

// What is tacked off flat, closed last, or let into the wood.
var (
	OutsideSide = Cover.length("outside-side", "at the sides of an outside panel, and at the foot of a wing", 15*mm, 0, 50*cm, Common).by(Workroom, 4*cm, Common)
	BackTack    = Cover.length("back-tack", "at the top of an outside panel, tacked over a strip from behind", 15*mm, 0, 50*cm, Common).by(Workroom, 25*mm, Common)
	FacingTurn  = Cover.length("facing-turn", "round a stuffed facing", 15*mm, 0, 50*cm, Common).by(Workroom, 25*mm, Common+": 2 to 4 cm")
	PlyTurn     = Cover.length("ply-facing-turn", "round a facing on a board", 15*mm, 0, 50*cm, Common).by(Workroom, 4*cm, Common+": 2 to 4 cm")
	BorderEnd   = Cover.length("border-end", "at the ends of a front border, round the post", 6*cm, 0, 50*cm, Common).by(Workroom, 5*cm, Common)
	DropInTurn  = Cover.length("drop-in-turn", "beneath a drop-in seat", 6*cm, 0, 50*cm, Common).by(Workroom, 4*cm, Common+": 2.5 to 4 cm")
	RebateTrim  = Cover.length("rebate-trim", "at a rebate, to be trimmed beneath the gimp", 25*mm, 0, 50*cm, Common)
)

// CoverShave is what a hold may give up.
var CoverShave = Cover.length("cover-shave", "that may be taken off one side of a panel to keep its motif in the middle", 0, 0, 20*cm, Common).by(Workroom, 25*mm, Common+": half of a hold")

// What an order of cloth has beside its panels.
var (
	ClothSquaring = Cover.length("cloth-squaring", "to square the cut ends of each piece of cloth", 10*cm, 0, 50*cm, Common)
	ClothFlaws    = Cover.number("cloth-flaws", "of plain cloth that is cut round flaws", "%", 3_000, 0, 50_000, Common)
)

// Parts of a cover that no measure gives.
var (
	CushionZip   = Cover.length("cushion-zip", "by which the back border of a cushion is wider for a zip", 2*cm, 0, 20*cm, Common)
	ZipStrip     = Cover.length("zip-strip", "by which both strips beside a zip together are deeper than the border", 38*mm, 0, 20*cm, "trade text on cushions: each half of the border and 1½ in")
	ZipRound     = Cover.length("zip-round", "by which the strips beside a zip are longer than the back of a cushion", 30*cm, 0, 60*cm, "trade text on cushions: 10 to 12 in")
	PlatformLip  = Cover.length("platform-lip", "of the cover on a platform, from its front back", 15*cm, 5*cm, 50*cm, Common).by(Workroom, 18*cm, Common+": 15 to 20 cm past the edge")
	CollarWidth  = Cover.length("collar-width", "width of a collar that joins the inside back to the arms", 8*cm, cm, 30*cm, Common)
	PanelJoin    = Cover.length("panel-join", "on each side of a join of two widths of a cloth", 15*mm, 0, 10*cm, Common)
	SkirtCorner  = Cover.length("skirt-corner", "half an inverted pleat at a corner of a skirt", 10*cm, 0, 50*cm, "of 32 in for four inverted pleats, as published for loose covers")
	SkirtUnder   = Cover.length("skirt-underlay", "width of the piece behind the slit at a corner of a skirt", 22*cm, 5*cm, 50*cm, "published for an inverted-pleat chair skirt")
	SkirtBox     = Cover.number("skirt-box", "a skirt in box pleats that touch, in times of its run", "times", 2_000, 1_000, 5_000, "published for loose covers")
	SkirtKnife   = Cover.number("skirt-knife", "a skirt in knife pleats, in times of its run", "times", 3_000, 1_000, 5_000, Common)
	SkirtGathers = Cover.number("skirt-gathers", "a gathered skirt, in times of its run", "times", 1_500, 1_000, 5_000, "published for loose covers")
)

// How thick the pads are that no measure gives.
var (
	SeatPad      = Cover.length("seat-pad", "thickness of the pad of a tight seat", 10*cm, cm, 50*cm, Common)
	BackPad      = Cover.length("back-pad", "thickness of the pad of an inside back", 6*cm, cm, 50*cm, Common)
	ThinPad      = Cover.length("thin-pad", "thickness of the pad of an arm or a wing", 3*cm, 5*mm, 50*cm, Common)
	DiningBack   = Cover.length("dining-back-pad", "thickness of the pad in the back of a dining chair", 3*cm, 5*mm, 50*cm, Common)
	FootstoolPad = Cover.length("footstool-pad", "thickness of the pad on a footstool", 8*cm, cm, 50*cm, Common)
	HeadboardPad = Cover.length("headboard-pad", "thickness of the pad on a headboard", 5*cm, cm, 50*cm, Common)
)
