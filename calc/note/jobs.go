package note

// Job sheets: what is about how the parts hang together.
const (
	PartUnanswered Code = "part-not-worked-out"
	LiningTaken    Code = "lining-taken-as-plain"
	FoamTaken      Code = "usual-foam-taken"
	FoamGlued      Code = "foam-glued-of-parts"
	FoamPart       Code = "foam-part"
	Unstuffed      Code = "stuffing-not-ordered"
	WebbedInParts  Code = "webbed-in-sections"
	PipingNewCloth Code = "piping-from-new-cloth"
	PipingNoPlan   Code = "piping-without-plan"
	JobOrders      Code = "job-orders"
	PipingInOrder  Code = "piping-cloth-in-job-order"
	OrderMadeUpOf  Code = "order-made-up-of"
	NothingCut     Code = "nothing-is-cut"
	WaitsForCloth  Code = "waits-for-cloth"
	WaitsForGlue   Code = "waits-for-glue"
)

// What an order of cloth is made up of. A length of 0 is left out.
const (
	ofPanels = "{how, select, none {} all-in-hand {nothing for the panels, which the pieces in hand hold} in-hand {{panels} for the panels besides the pieces in hand} start-known {{panels} for the panels, begun where the cloth begins} " +
		"any-start {{panels} for the panels, {start} of it so that the cloth may begin anywhere in the repeat} other {{panels} for the panels}}"
	ofPiping = "{piping, plural, =0 {} other {{how, select, none {} other {, }}# for piping that the offcuts do not hold}}"
	ofCovers = "{covers, plural, =0 {} other {{how, select, none {{piping, plural, =0 {} other {, }}} other {, }}{covers} for covers of buttons}}"
	asSold   = "{flaws, select, yes {; flaws allowed for} other {}}{shrinkage, select, yes {; shrinkage allowed for} other {}}" +
		"{step, plural, =0 {} other {; sold by #}}{least, plural, =0 {} other {, at least #}}"
)

var jobs = table{
	PartUnanswered: {Order, "a part of a job has faults",
		"this part could not be worked out: {fault}"},
	LiningTaken: {Order, "a lining is wanted and none is named",
		"no lining is named: it is taken as plain, {width} wide"},
	FoamTaken: {Order, "foam is wanted and none is on sale",
		"nothing is said of the foam on sale: usual foams are taken, cut to the thickness that is wanted (common practice, no source)"},
	FoamGlued: {Order, "foam is longer than a sheet",
		"{item} is longer than a sheet: it is cut in {parts} parts and glued"},
	FoamPart: {Remark, "foam is longer than a sheet",
		"{item}, a {parts, plural, =2 {half} =3 {third} =4 {quarter} =5 {fifth} =6 {sixth} =7 {seventh} =8 {eighth} =9 {ninth} other {tenth}} of it"},
	Unstuffed: {Order, "fixed pads lie on no frame",
		"nothing is ordered to stuff these beneath the wadding, since no foundation is reckoned for them ({piece}): {pads}"},
	WebbedInParts: {Remark, "a frame is longer than can be webbed in one",
		"{frame} is longer than {most}: it is webbed in {sections} sections"},
	PipingNewCloth: {Order, "pieces of the cloth are in hand",
		"with pieces in hand the offcuts are not known before they are laid out: the piping is cut from new cloth"},
	PipingNoPlan: {Order, "the cloth of a piping has no plan",
		"its cloth has no plan, so that the piping is cut from new cloth"},
	JobOrders: {Order, "a job orders more of a cloth than its plan",
		"The job orders {order} of this cloth: {why}."},
	PipingInOrder: {Order, "piping is cut from cloth that the job orders",
		"These strips are cut from the length that the job orders for the panels; do not buy cloth for them as well."},
	OrderMadeUpOf: {Remark, "a job orders cloth",
		ofPanels + ofPiping + ofCovers + asSold},
	NothingCut: {Remark, "nothing is cut from a cloth of a job",
		"nothing is cut from it"},
	WaitsForCloth: {Remark, "work waits for the cloth",
		"the cloth is ordered on day 1 and takes {days, plural, one {1 working day} other {# working days}}"},
	WaitsForGlue: {Remark, "work waits for glue",
		"the glue in the frame sets for {days, plural, one {1 working day} other {# working days}}"},
}
