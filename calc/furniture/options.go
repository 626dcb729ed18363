package furniture

// The options that several kinds have.

func cushions(first, second Choice) Option {
	return Option{"cushion", "seat", []Choice{first, second}}
}

func loose() Choice { return Choice{"loose", "with loose cushions"} }
func fixed() Choice { return Choice{"fixed", "upholstered tight"} }

// makes are how a loose cushion is made up.
func makes() Option {
	return Option{"cushion-make", "make of the cushions", []Choice{
		{"boxed", "boxed, with borders"}, {"knife", "knife-edged, without borders"},
		{"bull-nose", "bull-nosed, round the front in one; cushions at the back boxed"},
	}}
}

func backs() Option {
	return Option{"back", "inside back", []Choice{{"plain", "plain"}, {"buttoned", "deep-buttoned in diamonds"}, {"cushions", "with loose cushions"}}}
}

func arms() Option {
	return Option{"arms", "arms", []Choice{{"scroll", "scroll arms with facings"}, {"square", "square arms with a front border"}}}
}

// aboveArms is whether the back rises above the arms.
func aboveArms() Option {
	return Option{"above", "back above the arms", []Choice{{"yes", "rises above them, covered over both its edges"}, {"no", "ends at their height"}}}
}

func facingMakes() Option {
	return Option{"facing", "facings of the arms", []Choice{{"stuffed", "stuffed"}, {"ply", "on a board"}}}
}

// cushionShapes are those of the seat cushions beside the arms.
func cushionShapes() Option {
	return Option{"cushion-shape", "shape of the seat cushions", []Choice{
		{"square", "square"}, {"t", "T: with ears in front of both arms"}, {"l", "L: with an ear in front of the left arm"},
	}}
}

func undersides() Option {
	return Option{"reversible", "undersides of loose cushions", []Choice{{"no", "plain, of the same cloth"}, {"yes", "with the motif too, so that they can be turned"}}}
}

func armPadOptions(first, second Choice) Option {
	return Option{"arm-pads", "arm pads", []Choice{first, second}}
}

func collars() Option {
	return Option{"collars", "where the back meets the arms", []Choice{{"none", "cut in to pass the arms"}, {"sewn", "collars sewn in round the arms"}}}
}

func borders() Option {
	return Option{"border", "front of the seat", []Choice{{"yes", "with a front border"}, {"none", "the seat runs down over the front in one"}}}
}

// seatBorders are those of a seat without arms.
func seatBorders() Option {
	return Option{"border", "borders of the seat", []Choice{{"yes", "at the front and the sides"}, {"none", "none: the seat runs down over its edges in one"}}}
}

func platforms() Option {
	return Option{"platform", "beneath the loose cushions", []Choice{{"lining", "a lip of the cover at the front and lining behind it"}, {"cover", "the cover throughout"}}}
}

func skirts() Option {
	return Option{"skirt", "skirt", []Choice{
		{"none", "none"}, {"plain", "straight, with an inverted pleat at each corner"}, {"box", "box pleats all round"},
		{"tailored", "straight, with a piece behind the slit at each corner"}, {"knife", "knife pleats all round"}, {"gathered", "gathered"},
	}}
}

func skirtMakes() Option {
	return Option{"skirt-make", "make of the skirt", []Choice{{"hem", "turned up in a hem"}, {"lined", "lined to the edge"}, {"self", "of the cover folded double"}}}
}

func pipings() Option {
	return Option{"piping", "piping", []Choice{{"none", "none"}, {"cushions", "on the cushions"}, {"all", "on cushions, facings and outside edges"}}}
}

func outsides() Option {
	return Option{"outside", "outside panels", []Choice{{"same", "in the same cloth"}, {"other", "in another cloth"}}}
}

func flies() Option {
	return Option{"flies", "flies", []Choice{{"yes", "hidden strips of lining where nothing shows"}, {"no", "top cover throughout"}}}
}

func settingWings() Option {
	return Option{"wings", "wings", []Choice{{"no", "none"}, {"yes", "with wings above the arms"}}}
}

// overOrBoxed is how a seat or a stool's top meets its edge.
func overOrBoxed(first, second Choice) Option {
	return Option{"border", "edge", []Choice{first, second}}
}

func boxedEdge() Choice { return Choice{"yes", "a top and borders"} }
func overEdge() Choice  { return Choice{"none", "in one piece over the edge"} }
