package note

// Estimates: what the figures leave out, and what was taken where nothing was said.
const (
	NoQuotation        Code = "estimate-no-quotation"
	NoPlanFound        Code = "estimate-no-plan"
	WithoutLining      Code = "estimate-without-lining"
	WithoutSecondCloth Code = "estimate-without-second-cloth"
	WithoutPiping      Code = "estimate-without-piping"
	WithoutButtons     Code = "estimate-without-buttons"
	WithoutFillings    Code = "estimate-without-fillings"
	ClothUnpriced      Code = "estimate-cloth-unpriced"
	WorkUnpriced       Code = "estimate-work-unpriced"
	WithoutTax         Code = "estimate-without-tax"
	UsualMeasures      Code = "estimate-measures-usual"
	UsualCloth         Code = "estimate-cloth-usual"
	PresetHours        Code = "estimate-preset-hours"

	NarrowMeasure  Code = "narrow-by-measure"
	NarrowByChoice Code = "narrow-by-cloth"
)

var estimates = table{
	NoQuotation: {Order, "an estimate is given",
		"this is an estimate and no quotation: the piece must be measured and the cloth chosen"},
	NoPlanFound: {Order, "an estimate has no plan",
		"no plan was found for this piece on such cloth"},
	WithoutLining: {Order, "the piece takes lining",
		"lining, for what is not seen, is not in the cloth or the price"},
	WithoutSecondCloth: {Order, "the outside panels are of a second cloth",
		"the second cloth, for the outside panels, is not in the cloth or the price"},
	WithoutPiping: {Order, "the piece is piped",
		"piping, with its cloth and its cord, is not in the cloth or the price"},
	WithoutButtons: {Order, "the piece is deep-buttoned",
		"buttons, and the cloth that their wells take beyond the flat panel, are not in the cloth or the price"},
	WithoutFillings: {Order, "the piece takes fillings or a webbed frame",
		"fillings, webbing, springs and sundries are not in the price"},
	ClothUnpriced: {Order, "nothing is known of what the cloth costs",
		"what the cloth costs is not in the figures: no price for it was given"},
	WorkUnpriced: {Order, "nothing is known of what the work costs",
		"what the work costs is not in the figures: no rate for an hour was given"},
	WithoutTax: {Order, "an estimate has a price, and nothing is known of tax",
		"tax is not in the price: no rate of tax was given"},
	UsualMeasures: {Order, "measures of the piece are left out",
		"measures that were not taken are as usual for the size, and may be {percent} % out: {measures}"},
	UsualCloth: {Order, "no cloth is chosen",
		"no cloth is chosen: one {width} wide {pattern, select, plain {without a pattern} other {with the usual repeat of {pattern} patterns}} is taken"},
	PresetHours: {Remark, "an estimate is given",
		"hours are those of an example (common practice, no source): every shop has its own"},

	NarrowMeasure: {Remark, "a measure would narrow an estimate",
		"{measure}"},
	NarrowByChoice: {Remark, "a choice of cloth would narrow an estimate",
		"the cloth, once it is chosen"},
}
