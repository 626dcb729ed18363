package note

// Piping. A cut is a word: across, along, bias, or bias-at with its angle.
const (
	PipingNoStrip    Code = "piping-no-strip"
	PipingOtherCut   Code = "piping-other-cut"
	PipingOtherAngle Code = "piping-other-angle"
	PipingMissing    Code = "piping-runs-missing"
	PipingStrays     Code = "piping-joins-stray"
	PipingCurves     Code = "piping-curves-too-tight"

	PipingNoWay       Code = "piping-no-way"
	PipingNarrow      Code = "piping-strip-narrow"
	PipingUnkept      Code = "piping-wishes-not-kept"
	PipingOffcuts     Code = "piping-offcuts-short"
	PipingLeans       Code = "piping-leans-both-ways"
	PipingOverBolt    Code = "piping-longer-than-bolt"
	PipingCurveTight  Code = "piping-curve-tight"
	PipingCurveOnBias Code = "piping-curve-wants-bias"

	PipingTrial   Code = "piping-trial"
	PipingSnip    Code = "piping-snip-corners"
	PipingStretch Code = "piping-bias-stretches"
	PipingMeasure Code = "piping-measure-seams"
)

// The two cuts of a way that is not cut as asked for.
const (
	cutMade  = "{cut, select, across {straight across} along {straight along the selvedge} bias {on the bias} other {on the bias at {angle} degrees}}"
	cutAsked = "{wished, select, across {straight across} along {straight along the selvedge} bias {on the bias} other {on the bias at {wishedAngle} degrees}}"
)

var pipes = table{
	PipingNoStrip: {Order, "a way gives no strip",
		"no strip of this width and of use can be cut in this way"},
	PipingOtherCut: {Wish, "a way is cut in another direction",
		"it is cut " + cutMade + ", and " + cutAsked + " is asked for"},
	PipingOtherAngle: {Wish, "a way is cut at another angle",
		"it is cut at {angle} degrees, and {wishedAngle} are asked for"},
	PipingMissing: {Order, "a way does not cover all runs",
		"not covered: {runs, plural, one {1 run} other {# runs}}"},
	PipingStrays: {Wish, "a way does not choose its joins",
		"its joins fall where they fall: in {runs, plural, one {1 run} other {# runs}} they may be too many, or where no join may be"},
	PipingCurves: {Order, "a way does not go round all curves",
		"too tight a curve for this cut: {runs, plural, one {1 run} other {# runs}}"},

	PipingNoWay: {Order, "no way is possible",
		"no way is possible: the cloth and the offcuts are too small for a strip of {width}"},
	PipingNarrow: {Order, "the strip that was given is too narrow",
		"a strip of {width} is narrower than cord, cloth and seams need, {exact}"},
	PipingUnkept: {Order, "the way that is shown keeps not all wishes",
		"the way shown does not keep all wishes: {why}"},
	PipingOffcuts: {Order, "the offcuts do not cover all runs",
		"the offcuts alone leave {short} uncovered"},
	PipingLeans: {Wish, "strips of a cloth with a way up lean to both sides",
		"the cloth has a way up and the strips lean to both sides: where they meet a nap or a stripe shows it. Ask again with sameWay"},
	PipingOverBolt: {Order, "cloth for piping is longer than a bolt",
		"the cloth to buy is longer than a bolt of {bolt}: ask the supplier"},
	PipingCurveTight: {Wish, "a curve is tighter than the strips take",
		"{run, plural, =0 {{name}} other {run #}}: a curve of {radius} is tighter than {cut, select, bias {strips at this angle} other {straight strips}} take without puckering, {least}. Take thinner cord, or try it on a remnant"},
	PipingCurveOnBias: {Wish, "a curve is piped with straight strips",
		"{run, plural, =0 {{name}} other {run #}}: a curve wants strips on the bias (common practice)"},

	PipingTrial: {Order, "piping is cut",
		"Cover a hand's length of the cord with a remnant and sew it in before cutting all: the width that this cloth wants round this cord is felt, not worked out."},
	PipingSnip: {Remark, "a run has corners",
		"Snip the seam allowance of the piping at each corner, up to the stitching and not through it."},
	PipingStretch: {Order, "piping is cut on the bias",
		"Strips on the bias stretch while they are sewn: do not pull them, and cut each run a little long before it is closed."},
	PipingMeasure: {Order, "piping is cut",
		"Measure every seam again on the stuffed piece before cutting."},
}
