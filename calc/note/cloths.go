package note

// Cutting plans, by the engine and by hand, drops, comparisons and offcuts.
const (
	HurriedSearch   Code = "search-ended-by-clock"
	SeveralLengths  Code = "several-lengths"
	SeveralBeside   Code = "several-lengths-beside-pieces"
	OverBolt        Code = "longer-than-bolt"
	NotMirrored     Code = "no-mirror-symmetry"
	BeginsElsewhere Code = "order-covers-any-start"
	ShrinksAlong    Code = "shrinkage-in-length-only"

	HandShorter Code = "hand-plan-shorter"
	HandLengths Code = "hand-plan-lengths"
	HandStart   Code = "hand-order-for-one-start"

	CannotMeet    Code = "pattern-cannot-meet"
	TurnInMore    Code = "turn-in-more"
	WidthsAlike   Code = "widths-begin-alike"
	OrderOverBolt Code = "order-longer-than-bolt"
	DropOverBolt  Code = "drop-longer-than-bolt"
	MotifNotWhole Code = "motif-not-whole"

	AtAGlance     Code = "planned-at-a-glance"
	ClothsNotUsed Code = "cloths-not-usable"
	NothingNeeds  Code = "nothing-need-match"
	PatternTakes  Code = "pattern-takes"
	CannotBeCut   Code = "cannot-be-cut"
	PlanUnsound   Code = "no-sound-plan"
	OrderTooLong  Code = "order-too-long"
	NotFinished   Code = "stopped"

	MakesPanel    Code = "makes-panel"
	MakesStraight Code = "makes-straight-piping"
	MakesBias     Code = "makes-bias-piping"
	MakesButtons  Code = "makes-button-covers"
)

// andMore ends the reason why a cloth takes what it takes.
const andMore = "{start, plural, =0 {} other {, and # more is for a bolt that begins elsewhere in the repeat}}" +
	"{loosened, plural, =0 {} one {; 1 panel cannot have its wish} other {; # panels cannot have their wish}}"

var cloths = table{
	HurriedSearch: {Remark, "the request prefers the best plan so far, and the clock ended the search",
		"the search was ended by the clock: the same request may get another plan at another time, and inputDigest does not stand for this one"},
	SeveralLengths: {Order, "the job is longer than a bolt",
		"the job takes {lengths} lengths from more than one bolt: ask for one dye lot and compare them before cutting"},
	SeveralBeside: {Order, "what is bought beside the pieces in hand is longer than a bolt",
		"what is still to buy beside the pieces takes {lengths} lengths: ask for one dye lot and compare them before cutting"},
	OverBolt: {Order, "allowances make a length longer than a bolt",
		"with its allowances a length of {order} is longer than a bolt of {bolt}: ask the supplier"},
	NotMirrored: {Wish, "mirrored twins are wished for on a pattern that has none",
		"this pattern has no mirror symmetry: pairs show the same motif at the same place instead of mirrored"},
	BeginsElsewhere: {Remark, "it is not known where in the repeat the cloth begins",
		"the plan begins at its start in the repeat; the order covers cloth that begins elsewhere. Ask again with startsAt once the cloth is there"},
	ShrinksAlong: {Order, "shrinkage is allowed for",
		"Shrinkage is allowed for in length only: wash the cloth before cutting and measure width and repeats again."},

	HandShorter: {Remark, "a right plan made by hand is shorter than the engine's",
		"the plan made by hand is shorter than the engine's by {less}: keep it; a thorough effort may find as much"},
	HandLengths: {Order, "a plan made by hand is cut from several lengths",
		"the plan is cut from {lengths} lengths: where they are not of one bolt, ask for one dye lot and compare them before cutting"},
	HandStart: {Order, "a plan made by hand is for one start in the repeat",
		"the order by hand is for cloth that begins where the plan begins; the engine's order covers cloth that begins elsewhere too"},

	CannotMeet: {Order, "drops are joined of widths that show less than a repeat",
		"a width shows less than one width repeat: the pattern cannot meet across at a seam, it is {out} out"},
	TurnInMore: {Order, "the pattern does not meet at the seam allowance",
		"at the seam allowance the pattern is {off} out across: turn in {trim} more on the right of each width{letOut, plural, =0 {} other {, or # less in all}}. The cutting here is for turning in more"},
	WidthsAlike: {Remark, "whole columns of a drop pattern lie in a width",
		"a width shows {columns} columns of the pattern, so that all widths begin alike, in spite of the drop"},
	OrderOverBolt: {Order, "drops together are longer than a bolt",
		"the order is longer than a bolt of {bolt}: ask for one dye lot, and reckon each bolt by itself"},
	DropOverBolt: {Order, "one drop is longer than a bolt",
		"a drop is longer than a bolt of {bolt}: ask the supplier"},
	MotifNotWhole: {Order, "a panel is asked about that is smaller than its motif",
		"the panel is smaller than the motif: it cannot be whole"},

	AtAGlance: {Order, "cloths are compared",
		"plans are made at a glance: ask /v1/yardage for the cloth that is chosen before ordering it"},
	ClothsNotUsed: {Order, "panels do not come off some of the cloths",
		"{count} of the cloths cannot be used for these panels"},
	NothingNeeds: {Remark, "a compared cloth is plain",
		"nothing need match" + andMore},
	PatternTakes: {Remark, "a compared cloth has a pattern",
		"the {match, select, stripe {stripe of {across}} crosswise {crosswise repeat of {along}} straight {{along} straight match} half-drop {{along} half-drop} other {{along} drop of {match}}} " +
			"{effect, select, decides {decides} more {takes {more} more than plain cloth of this width} other {costs nothing over plain cloth of this width}}" + andMore},
	CannotBeCut: {Order, "panels do not come off a compared cloth",
		"{fault}"},
	PlanUnsound: {Order, "no plan on a compared cloth stood up to its check",
		"no plan for it stood up to its check"},
	OrderTooLong: {Order, "the order of a compared cloth is beyond all lengths",
		"the order would be longer than any length"},
	NotFinished: {Remark, "a comparison was stopped",
		"stopped"},

	MakesPanel: {Remark, "an offcut holds a panel of the list once more",
		"another {panel}"},
	MakesStraight: {Remark, "an offcut gives straight strips",
		"straight piping, {strips} × {long}"},
	MakesBias: {Remark, "an offcut gives strips on the bias",
		"bias piping, {strips} × {long} or more"},
	MakesButtons: {Remark, "an offcut covers buttons",
		"covers of small buttons, {count}"},
}
