package note

// Foam, wadding and what lies beneath the stuffing.
const (
	FoamOff         Code = "foam-thickness-off"
	FoamTooThin     Code = "foam-too-thin"
	FoamTooSoft     Code = "foam-too-soft"
	FoamTooHard     Code = "foam-too-hard"
	FoamTooDense    Code = "foam-density-unusual"
	FoamWithoutKerf Code = "foam-without-kerf"
	MeasureFoam     Code = "measure-foam-sheets"

	WaddingJoined Code = "wadding-joined"
	WeighRoll     Code = "weigh-and-measure-roll"

	WebsOverlap    Code = "webs-overlap"
	WebsEven       Code = "webs-not-under-springs"
	SpringsNotMade Code = "springs-not-made"
	SpringsOver    Code = "springs-overlap"
	WebsFew        Code = "webs-fewer-than-springs"
	FrameSound     Code = "frame-sound"
)

// The items that a note on foam is about: the first few, and how many more.
const foamItems = "{items}{more, plural, =0 {} other { and # more}}: "

var fillings = table{
	FoamOff: {Order, "sheets do not add up to the thickness that is wanted",
		foamItems + "the stock makes {thickness}, {off} {way, select, thicker {thicker} other {thinner}} than wanted"},
	FoamTooThin: {Wish, "a cushion is thin for its place",
		foamItems + "the foam is too thin for its place: a seat is {seat} or more, a back or scatter cushion {back}, a pad {pad}, an arm {arm} ({source})"},
	FoamTooSoft: {Wish, "a foam is soft for a seat",
		foamItems + "the foam is too soft for its place: {hardness} N at {at} %, where a seat has {least} to {most} N at 25 % ({source})"},
	FoamTooHard: {Wish, "a foam is hard for a back",
		foamItems + "the foam is too hard for its place: {hardness} N at {at} %, where a back has {most} N or less ({source})"},
	FoamTooDense: {Wish, "a foam is denser or lighter than is usual",
		foamItems + "the foam is too {than, select, dense {dense} other {light}} for its place: {among, select, seat {a seat} other {polyurethane foam}} has {least} to {most} kg/m³ ({source})"},
	FoamWithoutKerf: {Order, "pieces lie too close for a saw, and no kerf is given",
		"No kerf is given: on {sheets, plural, one {# sheet} other {# sheets}} the pieces lie too close for a saw, which takes {saw} or so ({source}); give the kerf, or cut with a knife."},
	MeasureFoam: {Order, "foam is cut",
		"Measure the sheets before the first cut: foam is sold with a tolerance on its size, its thickness and its hardness."},

	WaddingJoined: {Remark, "a sheet of wadding is joined of widths",
		"{count, plural, one {1 piece of {material} is} other {# pieces of {material} are}} joined: tear the edges thin and keep the joins off corners and fronts"},
	WeighRoll: {Order, "wadding is bought",
		"Weigh and measure the roll or the bag that comes: wadding and loose fillings vary, and every figure here is a setting that may be given."},

	WebsOverlap: {Order, "webs do not have room on the back rail",
		"{frame}: on the back rail its {webs} webs would overlap; bring the outer ones to the side rails, or take fewer"},
	WebsEven: {Wish, "springs do not stand in columns",
		"{frame}: its springs do not stand in columns, so that the webs are laid evenly"},
	SpringsNotMade: {Order, "the rail wants springs that are not made",
		"{frame}: springs of {height} by the height of the rail are not made; they come from {least} to {most} in high"},
	SpringsOver: {Order, "springs do not have room",
		"{frame}: the springs stand into one another or over the edge: take fewer or narrower ones"},
	WebsFew: {Order, "rows of springs have no web",
		"{frame}: there are fewer webs across than rows of springs; every spring stands on a crossing of webs"},
	FrameSound: {Order, "a frame is webbed",
		"Measure the frame again and see that its joints are sound before it is webbed: strained webs pull a weak frame apart."},
}
