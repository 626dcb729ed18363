package note

// Deep buttoning.
const (
	DiamondsWide    Code = "diamonds-wider-than-tall"
	WellsDeep       Code = "wells-deeper-than-diamond"
	ButtonsAtEdge   Code = "buttons-near-the-edge"
	ShiftMayBetter  Code = "better-shift-may-exist"
	ShiftUneven     Code = "no-shift-mirrors"
	SidesDisagree   Code = "left-and-right-disagree"
	WidthUnmatched  Code = "width-cannot-match"
	ClothTooThick   Code = "cloth-thick-for-button"
	MotifNoRoom     Code = "motif-no-room-for-circle"
	CirclesOverlap  Code = "circles-overlap"
	CircleTooWide   Code = "circle-wider-than-cloth"
	OffcutsUnknown  Code = "offcuts-left-out"
	MeasureOneWell  Code = "measure-a-trial-well"
	MarkTheTop      Code = "mark-the-top"
	ButtonedCutSize Code = "buttoned-panel-cut"
)

var buttons = table{
	DiamondsWide: {Remark, "diamonds are wider than tall",
		"the diamonds are wider than they are tall; taller than wide is usual"},
	WellsDeep: {Order, "wells are deeper than a diamond is across",
		"the wells are deeper than a diamond is across, {across}: try it on a scrap over the same stuffing first"},
	ButtonsAtEdge: {Remark, "buttons stand near an edge",
		"some buttons stand nearer to the edge than {least}, which a printed rule asks for: see that the stuffing there can take a well"},
	ShiftMayBetter: {Remark, "the search for a shift ended at its budget",
		"the search ended at its budget: a better shift may exist"},
	ShiftUneven: {Wish, "no shift is the same on both sides",
		"with these motifs no shift makes left and right agree; the shift is the best of all"},
	SidesDisagree: {Wish, "motifs do not lie as a mirror image",
		"left and right do not agree: the mirror image of a motif is {off} off"},
	WidthUnmatched: {Order, "a width of a made-up panel would run over a selvedge",
		"the pattern cannot be matched in width {width} as the cloth lies: it would run over a selvedge"},
	ClothTooThick: {Order, "the cloth is thick for the size of button",
		"this cloth is thick for buttons of that size: the circle would fill the shell. Take a larger button or a thinner cloth"},
	MotifNoRoom: {Order, "no circle about the motif lies on the cloth",
		"the motif has no room for a circle between the selvedges, or does not repeat along: the buttons cannot carry it"},
	CirclesOverlap: {Wish, "circles about neighbouring motifs overlap",
		"circles about neighbouring motifs overlap: only every so many motifs are used"},
	CircleTooWide: {Order, "the circle of a button is wider than the cloth",
		"the circle of a button is wider than the cloth"},
	OffcutsUnknown: {Remark, "buttons carry a motif and offcuts are given",
		"the offcuts were left out: where the motif lies on them is not known"},
	MeasureOneWell: {Order, "a panel is buttoned",
		"Measure the panel over its stuffing and the depth of one trial well before the cloth is cut: the arc is a model, and cloth and stuffing give."},
	MarkTheTop: {Order, "a panel is buttoned in cloth that has a top",
		"The cloth has a top: mark the top on its wrong side before the grid."},
	ButtonedCutSize: {Order, "a panel of a job is buttoned",
		"{panel} is cut {across} across and {along} along, as its chart and the plan have it, and not as on the cutting list: the wells take the rest"},
}
