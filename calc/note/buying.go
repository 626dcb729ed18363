package note

// Prices and costs.
const (
	PartFaulted   Code = "part-faulted"
	PartNoStrips  Code = "part-without-strips"
	NoPrice       Code = "price-not-given"
	OtherCurrency Code = "price-in-other-currency"
	PackMeasure   Code = "price-pack-measure"
	LeastMeasure  Code = "price-least-measure"
	PackUnknown   Code = "price-pack-unknown"
	PriceMeasure  Code = "price-measure"
	PackTooShort  Code = "price-pack-too-short"

	CostWithoutParts Code = "cost-without-parts"
	CostUnpriced     Code = "cost-articles-unpriced"
	CostUnused       Code = "cost-prices-unused"
	CostNoLabour     Code = "cost-work-unpriced"
	CostPreset       Code = "cost-hours-of-example"
	CostLate         Code = "cost-price-expires"
)

// measures are that of a price and that by which its article is bought.
const measures = "{given, select, number {number} length {length} other {weight}}, and it is bought by {bought, select, number {number} length {length} other {weight}}"

var buying = table{
	PartFaulted: {Order, "a part of a job has faults, so that nothing is ordered for it",
		"could not be worked out: {fault}"},
	PartNoStrips: {Order, "no way to cut the piping of a job is possible",
		"no strips can be cut for it"},
	NoPrice: {Order, "an article has no price",
		"no price was given"},
	OtherCurrency: {Order, "an article has a price in another currency",
		"its price is in {currency}"},
	PackMeasure: {Order, "a pack is given in another measure",
		"its price is for a pack of " + measures},
	LeastMeasure: {Order, "a least quantity is given in another measure",
		"its least quantity is given in " + measures},
	PackUnknown: {Order, "a price is for a pack of unknown size",
		"its price is for a pack, and it is not said how much is in one"},
	PriceMeasure: {Order, "a price is by another measure",
		"its price is by " + measures},
	PackTooShort: {Order, "a pack does not hold a length that is cut in one piece",
		"a pack is shorter than a length that is cut in one piece"},

	CostWithoutParts: {Order, "parts of a job could not be worked out",
		"not all could be worked out, and the sums are without it: {parts}{more, plural, =0 {} other { and # more}}"},
	CostUnpriced: {Order, "articles have no price",
		"{count, plural, one {1 article has} other {# articles have}} no price: the sums are without them"},
	CostUnused: {Order, "prices are of nothing on the order list",
		"{count, plural, one {1 price is} other {# prices are}} of nothing on the order list: see that the articles are spelt as the list has them{parts, plural, =0 {} other {, or that they are of what could not be worked out}}"},
	CostNoLabour: {Order, "the work has no price",
		"the work has no price: the sums are without it"},
	CostPreset: {Remark, "hours begin from an example",
		"hours begin from the example {preset} (common practice, no source); every shop has its own"},
	CostLate: {Order, "the job is delivered after its price has expired",
		"the price holds until {until}, and the work is to be delivered on {supply}: ask again before then"},
}
