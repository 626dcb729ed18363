package practice

// Cover is how panels of a cover are cut.
const Cover Subject = "cover"

// What is added to the finished size, by what happens at the edge. Pulls of 50 to
// 75 mm and seams of 10 to 15 mm are usual.
var (
	CoverSeam  = Cover.length("cover-seam", "at an edge that is sewn to another panel", 15*mm, 0, 50*cm, Common)
	CoverPull  = Cover.length("cover-pull", "at an edge that is pulled over the stuffing and tacked off", 6*cm, 0, 50*cm, Common)
	CoverTuck  = Cover.length("cover-tuck", "at an edge that is tucked in between back, arms and seat", 10*cm, 0, 50*cm, Common)
	CoverUnder = Cover.length("cover-under", "at an edge that is turned under the rail", 4*cm, 0, 50*cm, Common)
)

// Parts of a cover that no measure gives.
var (
	CushionZip   = Cover.length("cushion-zip", "by which the back border of a cushion is wider for a zip", 2*cm, 0, 20*cm, Common)
	PlatformLip  = Cover.length("platform-lip", "of the cover on a platform, from its front back", 15*cm, 5*cm, 50*cm, Common)
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
