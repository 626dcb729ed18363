package note

// Cutting lists, relief cuts, and fullness that is laid away.
const (
	MeasuresAssumed Code = "measures-assumed"
	ButtonedLarger  Code = "buttoned-panel-larger"
	WishesLoosened  Code = "wishes-loosened"
	MeasureStuffed  Code = "measure-over-stuffing"
	UsualAllowances Code = "usual-allowances"
	PanelDerived    Code = "panel-derived"
	PanelAsGiven    Code = "panel-as-given"
	WishesConflict  Code = "wishes-conflict"
	NoPlaceForMotif Code = "no-place-for-motif"
	TwinsParted     Code = "twins-parted"
	PanelWidth      Code = "panel-width"

	ReliefMeasure  Code = "relief-measure-again"
	ReliefTry      Code = "relief-try-on-calico"
	ReliefAllow    Code = "relief-wants-allowance"
	ReliefPull     Code = "relief-wants-less-pull"
	ReliefThin     Code = "relief-too-thin"
	ReliefShort    Code = "relief-flap-short"
	ReliefMargin   Code = "relief-margin-small"
	ReliefCrossing Code = "relief-cuts-cross"

	PleatsNothing    Code = "pleats-nothing-to-do"
	PleatsSnip       Code = "pleats-snip"
	PleatsDart       Code = "pleats-dart"
	PleatsBox        Code = "pleats-box"
	PleatsInverted   Code = "pleats-inverted"
	PleatsPairs      Code = "pleats-pairs"
	PleatsFold       Code = "pleats-fold"
	PleatsMiddle     Code = "pleats-middle-one"
	PleatsFromCentre Code = "pleats-from-the-centre"
	PleatsClosed     Code = "pleats-closed-edge"
	PleatsSharp      Code = "pleats-sharp-corner"
	PleatsWide       Code = "pleats-snips-wide"
	PleatsTooDeep    Code = "pleats-too-deep"
	PleatsTapeDeep   Code = "pleats-too-deep-by-tape"
	PleatsFaces      Code = "pleats-faces-overlap"
	PleatsFolds      Code = "pleats-folds-overlap"
	PleatsShallow    Code = "pleats-shallow"
	PleatsPin        Code = "pleats-pin-first"
	PleatsCut        Code = "pleats-cut-half"
)

// nearestPlace ends the reason why a wish is loosened that is moved.
const nearestPlace = "{off, plural, =0 {} other {; the nearest place for it is # off}}"

var cutting = table{
	MeasuresAssumed: {Order, "measures of a piece are left out",
		"{count, plural, one {1 measure was not given and is taken as typical: measure it before ordering} other {# measures were not given and are taken as typical: measure them before ordering}}"},
	ButtonedLarger: {Order, "a panel of the list is buttoned in diamonds",
		"{panel} is deep-buttoned: its cloth must be larger than the panel here, for the wells between the buttons"},
	WishesLoosened: {Wish, "no place on the cloth can keep some wishes",
		"{count, plural, one {1 wish about the pattern cannot be kept on this cloth and was loosened} other {# wishes about the pattern cannot be kept on this cloth and were loosened}}"},
	MeasureStuffed: {Order, "a cutting list is made",
		"Measure over the stuffing and at the widest places, and once more before the first cut."},
	UsualAllowances: {Remark, "a cutting list is made",
		"Allowances are the workroom's usual ones; a loose weave or a deep seat may want more."},
	PanelDerived: {Remark, "a cut size follows from measures",
		"across {across} = {acrossFrom}; along {along} = {alongFrom}"},
	PanelAsGiven: {Remark, "a panel is the caller's own",
		"as given"},
	WishesConflict: {Wish, "tied wishes contradict each other",
		"the wishes of the panels tied to {panel} by runs-on or pair contradict each other" + nearestPlace},
	NoPlaceForMotif: {Wish, "a motif that is wished for never has room",
		"no motif that {panel} may carry stands far enough from both selvedges for a panel cut {across} wide" + nearestPlace},
	TwinsParted: {Wish, "twins find no two places alike",
		"no two places on the cloth let {panel} and its twin show what the pair is to show" + nearestPlace},
	PanelWidth: {Remark, "a panel is made up of several widths",
		"{panel}, width {number} of {of}"},

	ReliefMeasure: {Order, "relief cuts are made",
		"Measure over the stuffing as it will be when covered, and once more before the first cut: a cut cannot be taken back."},
	ReliefTry: {Order, "relief cuts are made",
		"Try the cuts on the undercover or on a piece of calico first; there a poor cut is hidden."},
	ReliefAllow: {Order, "the cloth ends before there is room for a cut",
		"{obstacle}: no cut can keep the show side whole: the cloth ends before there is room for one. An allowance of {allowance} at this edge would do"},
	ReliefPull: {Order, "the range of the pull is too wide for a cut",
		"{obstacle}: no cut can keep the show side whole over this range of pull; no allowance helps. Pull the cloth first and cut it under tension, so that the most is {most} or less"},
	ReliefThin: {Order, "an obstacle is too thin for any cut",
		"{obstacle}: no cut can keep the show side whole: it is too thin for what must stay covered on both sides of it; no allowance helps"},
	ReliefShort: {Order, "a flap does not reach",
		"{obstacle}: the {flap} is {short} short of the {needed} it needs; {allowance, plural, =0 {sew a strip to it before the cut} other {an allowance of # at this edge would do, or sew a strip to it before the cut}}"},
	ReliefMargin: {Order, "little is kept beside the end of a cut",
		"{obstacle}: at the wrong pull only {margin} is kept beside the end of the cut: stiffen the place behind with a patch before cutting"},
	ReliefCrossing: {Order, "two cuts of a panel cross",
		"the cuts for {first} and {second} cross: make one of them and look again before the other"},

	PleatsNothing: {Remark, "there is no fullness",
		"Cloth and edge are of one length: nothing is folded or cut."},
	PleatsSnip: {Remark, "an edge is snipped",
		"Mark the centre line and the snips; snip square to the edge, the middle first, and stop short of the edge line."},
	PleatsDart: {Remark, "fullness is sewn in darts",
		"Sew each dart from its two marks at the edge of the cloth to nothing at the edge line."},
	PleatsBox: {Remark, "fullness is laid in box pleats",
		"Fold outwards on both sides of each face, so that the folds lie towards each other at the back."},
	PleatsInverted: {Remark, "fullness is laid in inverted pleats",
		"Bring the outer marks of each together on its middle mark."},
	PleatsPairs: {Remark, "fullness is laid in pairs",
		"Bring the outer mark of each over to its inner mark, so that the folds point to the centre line, where the middle two meet."},
	PleatsFold: {Remark, "fullness is laid in pleats that point one way",
		"Bring one mark of each over to the other, so that the folds point as the arrows show."},
	PleatsMiddle: {Remark, "such a pleat lies on the centre line",
		"The one on the centre line is laid as a box pleat, so that both sides match."},
	PleatsFromCentre: {Remark, "there is fullness",
		"Find the centre line first and fix it, then work to both sides by turns."},
	PleatsClosed: {Remark, "the edge comes back to itself",
		"The edge comes back to itself: the centre line is at the back of the seat, where the marks begin and end half a spacing from each other."},
	PleatsSharp: {Remark, "the corner is sharp",
		"At a sharp corner the cloth is taken to be trimmed round to the turn-over; a square corner of cloth has more to lose at its tip, which lies inside the fold."},
	PleatsWide: {Wish, "snips open far",
		"each snip opens by {opens}: more snips would open less and show less"},
	PleatsTooDeep: {Order, "folds are deeper than they may be",
		"the folds are {deep} deep, deeper than the {limit} that they may be: {why, select, buttons {one runs from each button, and takes in what lies between two of them} most {an edge has at most {count}} other {{count} would lie less deep}}"},
	PleatsTapeDeep: {Order, "folds are deeper than they may be when they are marked off a tape",
		"marked off a tape in whole steps of {step} a fold is {read} deep, deeper than the {limit} that it may be: mark it by the millimetres of the answer"},
	PleatsFaces: {Order, "box pleats are wider than their spacing",
		"the faces of the pleats are {face} wide and only {spacing} apart: they overlap"},
	PleatsFolds: {Order, "folds are deeper than their spacing",
		"the folds are {deep} deep and only {spacing} apart, so that they lie over one another: spread them further or make them more and shallower"},
	PleatsShallow: {Remark, "folds are very shallow",
		"the folds are less than {shallow} deep: so little may be eased in without a fold, by pull or by steam where the cloth bears it"},
	PleatsPin: {Order, "fullness is laid away",
		"Pin and look at it from where it will be seen before anything is sewn, tacked or cut."},
	PleatsCut: {Order, "fullness is snipped or sewn in darts",
		"A cut cannot be taken back: snip half of the depth, lay it over the edge, and cut on."},
}
