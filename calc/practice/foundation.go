package practice

import "github.com/bridletie/bridletie/calc/length"

// Foundation is what lies under the stuffing.
const Foundation Subject = "foundation"

// Webs.
var (
	WebWidth      = Foundation.length("web-width", "width of a web", 9*in/4, 20*mm, 200*mm, text1961+": 2 1/4 in")
	WebGap        = Foundation.length("web-gap", "widest gap between webs", 9*in/4, 0, 500*mm, text1961+": a gap of one web, 2 1/4 in")
	WebInset      = Foundation.length("web-inset", "from the edge of the rail to the fold of a web", 12*mm, 0, 100*mm, Common)
	WebTurnover   = Foundation.length("web-turnover", "turned over at each end of a web", in, 0, 100*mm, johnson+": cut 1 in beyond and folded over")
	WebHandHold   = Foundation.length("web-hand-hold", "of each web, to strain it by; 0 when worked from the roll", 10*cm, 0, 500*mm, Common)
	WebRoll       = Foundation.length("web-roll", "webbing in one roll", 72*length.Yard, length.Metre, 1000*length.Metre, johnson+": a piece is 72 yd")
	ElasticStrain = Foundation.number("elastic-strain", "by how much elastic webbing is strained", "", 100, 0, 1000, Common)
	ElasticGap    = Foundation.length("elastic-gap", "widest gap between elastic webs", 50*mm, 0, 500*mm, Common)
	ElasticWidth  = Foundation.length("elastic-width", "width of an elastic web", 50*mm, 20*mm, 200*mm, Common)
	ElasticRoll   = Foundation.length("elastic-roll", "elastic webbing in one roll", 50*length.Metre, length.Metre, 1000*length.Metre, Common)
)

// Springs.
var (
	SpringWidth    = Foundation.length("spring-width", "width of the top coil", 5*in, 20*mm, 300*mm, johnson+": springs 5 in across")
	SpringEdge     = Foundation.length("spring-edge", "from the edge of the frame to the first coil", 3*in, 0, 500*mm, johnson+": 3 in")
	SpringGap      = Foundation.length("spring-gap", "gap between top coils", 2*in, 0, 500*mm, text1961+": about 2 in")
	SpringLeastGap = Foundation.length("spring-least-gap", "least gap between top coils", 12*mm, 0, 200*mm, Common)
	SpringTied     = Foundation.number("spring-tied", "height of a tied spring as a part of its own", "", 750, 300, 1000, spons+": 6 in tied down to 4 1/2 in")
	Lashing        = Foundation.number("lashing", "cord for one strand, in times of what it crosses", "times", 1667, 1000, 4000, johnson+": 1 2/3 times the frame")
	LashingWays    = Foundation.count("lashing-ways", "ways in which springs are tied: 4 or 8", "", 8, 4, 8, johnson+": 4 strands to a spring, eight ways")
	LashingBall    = Foundation.length("lashing-ball", "lashing cord in one ball", 50*length.Metre, length.Metre, 5000*length.Metre, Common)
)

// Cloths beneath the cover.
var (
	HessianTurn    = clothTurn("hessian-turn", "turned over on each side of the hessian", 25*mm)
	HessianRise    = clothTurn("hessian-rise", "added each way where hessian goes over springs", 10*cm)
	ScrimTurn      = clothTurn("scrim-turn", "turned under on each side of the scrim", 25*mm)
	ScrimHeight    = clothTurn("scrim-height", "height of the first stuffing, which the scrim goes down on each side", 75*mm)
	CalicoTurn     = clothTurn("calico-turn", "pull and tacking off on each side of the calico", 50*mm)
	CalicoHeight   = clothTurn("calico-height", "height of all stuffing, which the calico goes down on each side", 10*cm)
	BottomingTurn  = clothTurn("bottoming-turn", "turned under on each side of the bottoming cloth", 15*mm)
	HessianWidth   = clothWidth("hessian", 183*cm)
	ScrimWidth     = clothWidth("scrim", 183*cm)
	CalicoWidth    = clothWidth("calico", 152*cm)
	BottomingWidth = clothWidth("bottoming", 140*cm)
	ClothStep      = Foundation.length("cloth-step", "cloths are sold in multiples of", 10*cm, mm, 10*length.Metre, Common)
	ClothBolt      = Foundation.length("cloth-bolt", "longest length of a cloth in one piece", 50*length.Metre, length.Metre, 1000*length.Metre, Common)
	ClothSeam      = Foundation.length("seam", "on each side of a join", 15*mm, 0, 10*cm, Common)
)

func clothTurn(name, what string, standard length.Length) LengthKey {
	return Foundation.length(name, what, standard, 0, 500*mm, Common)
}

func clothWidth(name string, standard length.Length) LengthKey {
	return Foundation.length(name+"-width", "width of the "+name, standard, 50*cm, 5*length.Metre, Common)
}

// Twine and stuffing.
var (
	SpringTwine     = Foundation.length("spring-twine", "twine for sewing one spring to the webs or to the hessian", 35*cm, 0, 2*length.Metre, Common)
	BridleGap       = Foundation.length("bridle-gap", "between rows of bridle ties", 125*mm, 20*mm, 500*mm, Common)
	Bridle          = Foundation.number("bridle", "twine for bridle ties, in times of the rows", "times", 1750, 1000, 5000, Common)
	TieGap          = Foundation.length("tie-gap", "between stuffing ties along a row", 10*cm, 20*mm, 500*mm, Common)
	SeatFirstDepth  = Foundation.length("seat-first-depth", "depth of the first stuffing of a seat", 50*mm, 0, 300*mm, Common)
	SeatSecondDepth = Foundation.length("seat-second-depth", "depth of the second stuffing of a seat", 25*mm, 0, 300*mm, Common)
	BackFirstDepth  = Foundation.length("back-first-depth", "depth of the first stuffing of a back", 40*mm, 0, 300*mm, Common)
	BackSecondDepth = Foundation.length("back-second-depth", "depth of the second stuffing of a back", 20*mm, 0, 300*mm, Common)
	ArmFirstDepth   = Foundation.length("arm-first-depth", "depth of the first stuffing of an arm or a wing", 25*mm, 0, 300*mm, Common)
	ArmSecondDepth  = Foundation.length("arm-second-depth", "depth of the second stuffing of an arm or a wing", 12*mm, 0, 300*mm, Common)
	StuffingDensity = Foundation.number("stuffing-density", "hair or fibre as it lies in the work", "kg/m³", 80_000, 5_000, 400_000, Common+"; from 1 1/2 to 2 lb on a stuff-over seat")
	StuffingBag     = Foundation.number("stuffing-bag", "hair or fibre in one bag", "kg", 1_000, 50, 100_000, Common)
	EdgeRowsSeat    = Foundation.count("edge-rows-seat", "rows of stitches round a seat", "rows", 3, 0, MaxEdgeRows, Common)
	EdgeRowsBack    = Foundation.count("edge-rows-back", "rows of stitches round a back", "rows", 2, 0, MaxEdgeRows, Common)
	EdgeRowsArm     = Foundation.count("edge-rows-arm", "rows of stitches round an arm", "rows", 1, 0, MaxEdgeRows, Common)
	EdgeTwine       = Foundation.number("edge", "twine for one row of stitches, in times of the edge", "times", 3_000, 1_000, 10_000, Common)
	TwineBall       = Foundation.length("twine-ball", "twine in one ball", 100*length.Metre, length.Metre, 5000*length.Metre, Common)
)

// MaxEdgeRows is how many rows of stitches an edge has at most.
const MaxEdgeRows = 8

// Tacks.
var (
	WebTacksStart    = Foundation.count("web-tacks-start", "tacks on the folded start of a web", "tacks", 5, 1, 20, text1961+": 5")
	WebTacksFinish   = Foundation.count("web-tacks-finish", "tacks at the finish of a web", "tacks", 6, 1, 20, text1961+": 4 and 2 on the fold")
	WebTack          = tackSize("web", "for webs", 16*mm, land2016+": 16 mm improved; "+spons+": 5/8 in")
	LashingTacks     = Foundation.count("lashing-tacks", "tacks at each end of a strand", "tacks", 2, 1, 10, Common)
	LashingTack      = tackSize("lashing", "for lashing cord", 16*mm, Common)
	HessianSpacing   = tackSpacing("hessian", "in folded hessian", in, aboutAnInch)
	HessianTack      = tackSize("hessian", "for hessian", 13*mm, land2016+": 13 mm fine")
	ScrimSpacing     = tackSpacing("scrim", "in scrim", in, aboutAnInch)
	ScrimTack        = tackSize("scrim", "for scrim", 13*mm, spons+": 1/2 in")
	CalicoSpacing    = tackSpacing("calico", "in calico", in, aboutAnInch)
	CalicoTack       = tackSize("calico", "for calico", 10*mm, Common)
	CoverSpacing     = tackSpacing("cover", "in the top cover", in, aboutAnInch)
	CoverTack        = tackSize("cover", "for the top cover", 10*mm, text1961+": 3/8 in for all but webbing")
	BottomingSpacing = tackSpacing("bottoming", "in the bottoming cloth", 50*mm, land2016+": a lining at 50 mm")
	BottomingTack    = tackSize("bottoming", "for the bottoming cloth", 13*mm, land2016+": 13 mm for the bottom")
	TemporarySpacing = tackSpacing("temporary", "that hold a cloth for the time being", 75*mm, Common)
	TackSpare        = Foundation.number("tack-spare", "tacks spoilt and lost", "", 100, 0, 1000, Common)
	TackBox          = Foundation.count("tack-box", "tacks in one box", "tacks", 1000, 10, 100_000, Common)
)

const aboutAnInch = "about 1 in in general, Johnson 1919 and the University of New Hampshire"

func tackSpacing(name, what string, standard length.Length, source string) LengthKey {
	return Foundation.length(name+"-spacing", "between tacks "+what, standard, 5*mm, 500*mm, source)
}

func tackSize(name, what string, standard length.Length, source string) LengthKey {
	return Foundation.length(name+"-tack", "length of tacks "+what, standard, 3*mm, 50*mm, source)
}

// Staples.
var (
	StapleSpacing = Foundation.length("staple-spacing", "between staples in a cloth", 12*mm, 2*mm, 500*mm, Common)
	StapleLeg     = Foundation.length("staple-leg", "leg of the staples in cloth", 10*mm, 3*mm, 40*mm, Common)
	WebStapleLeg  = Foundation.length("web-staple-leg", "leg of the staples in webs", 14*mm, 3*mm, 40*mm, Common)
	WebStaples    = Foundation.count("web-staples", "staples at each end of a web", "staples", 7, 1, 40, Common)
	StapleBox     = Foundation.count("staple-box", "staples in one box", "staples", 5000, 10, 1_000_000, Common)
)

// Gimp.
var (
	GimpPinSpacing = Foundation.length("gimp-pin-spacing", "between gimp pins", 2*in, 5*mm, 500*mm, johnson+" and the University of New Hampshire: 2 in")
	GimpPinBox     = Foundation.count("gimp-pin-box", "gimp pins in one box", "pins", 500, 10, 100_000, Common)
	GimpCorner     = Foundation.length("gimp-corner", "gimp taken up by one mitred corner", 25*mm, 0, 200*mm, Common)
	GimpEnds       = Foundation.length("gimp-ends", "gimp for the two ends of a run", 50*mm, 0, 500*mm, Common)
	GimpStep       = Foundation.length("gimp-step", "gimp is sold in multiples of", 50*cm, mm, 100*length.Metre, Common)
)
