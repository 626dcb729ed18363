package foundation

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Sources, as they are cited in answers.
const (
	text1961 = "upholstery textbook, 1961"
	johnson  = "Johnson, Furniture Upholstery for Schools, 1919"
	spons    = "Spons' Mechanics' Own Book"
	land2016 = "LandScape, December 2016, a seat webbed and covered"
	common   = practice.Common
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
	in = length.Inch
)

// Book is every constant that this package goes by.
func Book() *practice.Book { return book }

var book = practice.NewBook(webSettings(), springSettings(), clothSettings(), twineSettings(), tackSettings(), stapleSettings(), gimpSettings())

func webSettings() []practice.Setting {
	return []practice.Setting{
		practice.Of("web-width", "width of a web", 9*in/4, 20*mm, 200*mm, text1961+": 2 1/4 in"),
		practice.Of("web-gap", "widest gap between webs", 9*in/4, 0, 500*mm, text1961+": a gap of one web, 2 1/4 in"),
		practice.Of("web-inset", "from the edge of the rail to the fold of a web", 12*mm, 0, 100*mm, common),
		practice.Of("web-turnover", "turned over at each end of a web", in, 0, 100*mm, johnson+": cut 1 in beyond and folded over"),
		practice.Of("web-hand-hold", "of each web, to strain it by; 0 when worked from the roll", 10*cm, 0, 500*mm, common),
		practice.Of("web-roll", "webbing in one roll", 72*length.Yard, length.Metre, 1000*length.Metre, johnson+": a piece is 72 yd"),
		practice.Factor("elastic-strain", "by how much elastic webbing is strained", "", 100, 0, 1000, common),
		practice.Of("elastic-gap", "widest gap between elastic webs", 50*mm, 0, 500*mm, common),
		practice.Of("elastic-width", "width of an elastic web", 50*mm, 20*mm, 200*mm, common),
		practice.Of("elastic-roll", "elastic webbing in one roll", 50*length.Metre, length.Metre, 1000*length.Metre, common),
	}
}

func springSettings() []practice.Setting {
	return []practice.Setting{
		practice.Of("spring-width", "width of the top coil", 5*in, 20*mm, 300*mm, johnson+": springs 5 in across"),
		practice.Of("spring-edge", "from the edge of the frame to the first coil", 3*in, 0, 500*mm, johnson+": 3 in"),
		practice.Of("spring-gap", "gap between top coils", 2*in, 0, 500*mm, text1961+": about 2 in"),
		practice.Of("spring-least-gap", "least gap between top coils", 12*mm, 0, 200*mm, common),
		practice.Factor("spring-tied", "height of a tied spring as a part of its own", "", 750, 300, 1000, spons+": 6 in tied down to 4 1/2 in"),
		practice.Factor("lashing", "cord for one strand, in times of what it crosses", "times", 1667, 1000, 4000, johnson+": 1 2/3 times the frame"),
		practice.Ones("lashing-ways", "ways in which springs are tied: 4 or 8", "", 8, 4, 8, johnson+": 4 strands to a spring, eight ways"),
		practice.Of("lashing-ball", "lashing cord in one ball", 50*length.Metre, length.Metre, 5000*length.Metre, common),
	}
}

func clothSettings() []practice.Setting {
	turn := func(name, what string, standard length.Length) practice.Setting {
		return practice.Of(name, what, standard, 0, 500*mm, common)
	}
	wide := func(name string, standard length.Length) practice.Setting {
		return practice.Of(name+"-width", "width of the "+name, standard, 50*cm, 5*length.Metre, common)
	}
	return []practice.Setting{
		turn("hessian-turn", "turned over on each side of the hessian", 25*mm),
		turn("hessian-rise", "added each way where hessian goes over springs", 10*cm),
		turn("scrim-turn", "turned under on each side of the scrim", 25*mm),
		turn("scrim-height", "height of the first stuffing, which the scrim goes down on each side", 75*mm),
		turn("calico-turn", "pull and tacking off on each side of the calico", 50*mm),
		turn("calico-height", "height of all stuffing, which the calico goes down on each side", 10*cm),
		turn("bottoming-turn", "turned under on each side of the bottoming cloth", 15*mm),
		wide("hessian", 183*cm), wide("scrim", 183*cm), wide("calico", 152*cm), wide("bottoming", 140*cm),
		practice.Of("cloth-step", "cloths are sold in multiples of", 10*cm, mm, 10*length.Metre, common),
		practice.Of("cloth-bolt", "longest length of a cloth in one piece", 50*length.Metre, length.Metre, 1000*length.Metre, common),
		practice.Of("seam", "on each side of a join", 15*mm, 0, panel.MaxJoinSeam, common),
	}
}

func twineSettings() []practice.Setting {
	return []practice.Setting{
		practice.Of("spring-twine", "twine for sewing one spring to the webs or to the hessian", 35*cm, 0, 2*length.Metre, common),
		practice.Of("bridle-gap", "between rows of bridle ties", 125*mm, 20*mm, 500*mm, common),
		practice.Factor("bridle", "twine for bridle ties, in times of the rows", "times", 1750, 1000, 5000, common),
		practice.Of("tie-gap", "between stuffing ties along a row", 10*cm, 20*mm, 500*mm, common),
		practice.Of("seat-first-depth", "depth of the first stuffing of a seat", 50*mm, 0, 300*mm, common),
		practice.Of("seat-second-depth", "depth of the second stuffing of a seat", 25*mm, 0, 300*mm, common),
		practice.Of("back-first-depth", "depth of the first stuffing of a back", 40*mm, 0, 300*mm, common),
		practice.Of("back-second-depth", "depth of the second stuffing of a back", 20*mm, 0, 300*mm, common),
		practice.Of("arm-first-depth", "depth of the first stuffing of an arm or a wing", 25*mm, 0, 300*mm, common),
		practice.Of("arm-second-depth", "depth of the second stuffing of an arm or a wing", 12*mm, 0, 300*mm, common),
		practice.Factor("stuffing-density", "hair or fibre as it lies in the work", "kg/m³", 80_000, 5_000, 400_000, common+"; from 1 1/2 to 2 lb on a stuff-over seat"),
		practice.Factor("stuffing-bag", "hair or fibre in one bag", "kg", 1_000, 50, 100_000, common),
		practice.Ones("edge-rows-seat", "rows of stitches round a seat", "rows", 3, 0, MaxEdge, common),
		practice.Ones("edge-rows-back", "rows of stitches round a back", "rows", 2, 0, MaxEdge, common),
		practice.Ones("edge-rows-arm", "rows of stitches round an arm", "rows", 1, 0, MaxEdge, common),
		practice.Factor("edge", "twine for one row of stitches, in times of the edge", "times", 3_000, 1_000, 10_000, common),
		practice.Of("twine-ball", "twine in one ball", 100*length.Metre, length.Metre, 5000*length.Metre, common),
	}
}

func tackSettings() []practice.Setting {
	space := func(name, what string, standard length.Length, source string) practice.Setting {
		return practice.Of(name+"-spacing", "between tacks "+what, standard, 5*mm, 500*mm, source)
	}
	size := func(name, what string, standard length.Length, source string) practice.Setting {
		return practice.Of(name+"-tack", "length of tacks "+what, standard, 3*mm, 50*mm, source)
	}
	return []practice.Setting{
		practice.Ones("web-tacks-start", "tacks on the folded start of a web", "tacks", 5, 1, 20, text1961+": 5"),
		practice.Ones("web-tacks-finish", "tacks at the finish of a web", "tacks", 6, 1, 20, text1961+": 4 and 2 on the fold"),
		size("web", "for webs", 16*mm, land2016+": 16 mm improved; "+spons+": 5/8 in"),
		practice.Ones("lashing-tacks", "tacks at each end of a strand", "tacks", 2, 1, 10, common),
		size("lashing", "for lashing cord", 16*mm, common),
		space("hessian", "in folded hessian", in, "about 1 in in general, Johnson 1919 and the University of New Hampshire"),
		size("hessian", "for hessian", 13*mm, land2016+": 13 mm fine"),
		space("scrim", "in scrim", in, "about 1 in in general, Johnson 1919 and the University of New Hampshire"),
		size("scrim", "for scrim", 13*mm, spons+": 1/2 in"),
		space("calico", "in calico", in, "about 1 in in general, Johnson 1919 and the University of New Hampshire"),
		size("calico", "for calico", 10*mm, common),
		space("cover", "in the top cover", in, "about 1 in in general, Johnson 1919 and the University of New Hampshire"),
		size("cover", "for the top cover", 10*mm, text1961+": 3/8 in for all but webbing"),
		space("bottoming", "in the bottoming cloth", 50*mm, land2016+": a lining at 50 mm"),
		size("bottoming", "for the bottoming cloth", 13*mm, land2016+": 13 mm for the bottom"),
		space("temporary", "that hold a cloth for the time being", 75*mm, common),
		practice.Factor("tack-spare", "tacks spoilt and lost", "", 100, 0, 1000, common),
		practice.Ones("tack-box", "tacks in one box", "tacks", 1000, 10, 100_000, common),
	}
}

func stapleSettings() []practice.Setting {
	return []practice.Setting{
		practice.Of("staple-spacing", "between staples in a cloth", 12*mm, 2*mm, 500*mm, common),
		practice.Of("staple-leg", "leg of the staples in cloth", 10*mm, 3*mm, 40*mm, common),
		practice.Of("web-staple-leg", "leg of the staples in webs", 14*mm, 3*mm, 40*mm, common),
		practice.Ones("web-staples", "staples at each end of a web", "staples", 7, 1, 40, common),
		practice.Ones("staple-box", "staples in one box", "staples", 5000, 10, 1_000_000, common),
	}
}

func gimpSettings() []practice.Setting {
	return []practice.Setting{
		practice.Of("gimp-pin-spacing", "between gimp pins", 2*in, 5*mm, 500*mm, johnson+" and the University of New Hampshire: 2 in"),
		practice.Ones("gimp-pin-box", "gimp pins in one box", "pins", 500, 10, 100_000, common),
		practice.Of("gimp-corner", "gimp taken up by one mitred corner", 25*mm, 0, 200*mm, common),
		practice.Of("gimp-ends", "gimp for the two ends of a run", 50*mm, 0, 500*mm, common),
		practice.Of("gimp-step", "gimp is sold in multiples of", 50*cm, mm, 100*length.Metre, common),
	}
}
