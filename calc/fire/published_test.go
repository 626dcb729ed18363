package fire

import (
	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/length"
)

const mm = length.Millimetre

// natural is cotton over an interliner with its report, and the fibre statement.
func overInterliner(j *Job) {
	for _, c := range []change{interliner, report("INTER", "uk-sch3-0"), paperFor("COVER", "fibre-statement"), report("COVER", "uk-sch4-1", "INTER", "FOAM")} {
		c(j)
	}
}

var outOfThree = func(char length.Length, minutes int) []Specimen {
	return []Specimen{{20 * mm, 20, false}, {char, minutes, false}, {20 * mm, 20, false}}
}

// published are the check cases that the sources give, each with its citation. A
// line says what a rule says of a layer ("-" for the piece, none where it does
// not apply), or, after "overall", what the whole says.
var published = []check{
	{"SI 1988/1324 reg 8, Sch 3, Sch 4 Pt I; SATRA, Interliners and hidden fabrics: cotton over a Schedule 3 interliner", gb(overInterliner, report("FOAM", "uk-sch1-1")),
		"uk-cover-match COVER evidence-held; uk-cover-cigarette COVER evidence-held; uk-interliner INTER evidence-held; uk-foam-slab FOAM evidence-held; overall evidence-held"},
	{"SI 1988/1324 Sch 1 Pt I; SATRA: there are no exceptions for the filling", gb(overInterliner),
		"uk-cover-match COVER evidence-held; uk-foam-slab FOAM evidence-wanted; overall evidence-wanted"},
	{"the same, with a foam that is known to fail", gb(overInterliner, report("FOAM", "-uk-sch1-1")),
		"uk-foam-slab FOAM not-allowed; overall not-allowed"},
	{"SI 1988/1324 reg 8, Sch 3: new cotton, not match tested, no interliner", gb(report("COVER", "uk-sch4-1", "FOAM"), report("FOAM", "uk-sch1-1")),
		"uk-cover-match COVER evidence-wanted; uk-cover-cigarette COVER evidence-held; uk-foam-slab FOAM evidence-held"},
	{"the same, and it is known to fail the match test", gb(report("COVER", "uk-sch4-1", "FOAM"), report("COVER", "-uk-sch5-1")),
		"uk-cover-match COVER not-allowed"},
	{"Dáil, 20 September 1995; reg 8: coated with polyurethane, fails the match test", gb(overInterliner, coating("COVER", "polyurethane"), report("COVER", "-uk-sch5-1")),
		"uk-cover-match COVER not-allowed"},
	{"Dáil, 20 September 1995; reg 8: coated with polyurethane, no match report", gb(overInterliner, coating("COVER", "polyurethane")),
		"uk-cover-match COVER evidence-wanted"},
	{"Sch 5 Pt I: leather with its reports needs no interliner", gb(of("COVER", "leather", ""), fibres("COVER"), report("COVER", "uk-sch5-1"), report("COVER", "uk-sch4-1", "FOAM"), report("FOAM", "uk-sch1-1")),
		"uk-cover-match COVER evidence-held; uk-cover-cigarette COVER evidence-held; overall evidence-held"},
	{"reg 8: 74.9 % by weight, fails the match test, over an interliner", gb(overInterliner, fibres("COVER", Fibre{"cotton", 749_000}, Fibre{"polyester", 251_000}), report("COVER", "-uk-sch5-1")),
		"uk-cover-match COVER not-allowed"},
	{"reg 8: 75 % by weight, fails the match test, over an interliner", gb(overInterliner, fibres("COVER", Fibre{"cotton", 500_000}, Fibre{"flax", 250_000}, Fibre{"polyester", 250_000}), report("COVER", "-uk-sch5-1")),
		"uk-cover-match COVER evidence-held"},
	{"reg 8: a millionth below 75 %", gb(overInterliner, fibres("COVER", Fibre{"cotton", 749_999}, Fibre{"polyester", 250_001}), report("COVER", "-uk-sch5-1")),
		"uk-cover-match COVER not-allowed"},
	{"reg 8: 74 % of the named fibres, and hemp, which is not named", gb(overInterliner, fibres("COVER", Fibre{"cotton", 740_000}, Fibre{"hemp", 260_000}), report("COVER", "-uk-sch5-1")),
		"uk-cover-match COVER evidence-wanted"},
	{"Sch 2; trade-body guide: scatter cushion with a fibre filling", gb(item("scatter-cushion"), deal("new"), of("FOAM", "polyester-fibre", "loose"), report("FOAM", "uk-sch2-3"), yes(permanent)),
		"uk-cushion-cover COVER exempt; uk-filling-cushion FOAM evidence-held; uk-cover-match COVER none; uk-cover-cigarette COVER none; uk-label-permanent - evidence-held; overall evidence-held"},
	{"SATRA, Furniture throws; Sch 5 Pt I: a throw sold for a sofa, no report", gb(item("cover-alone"), deal("new"), role("COVER", roleLoose), alone("COVER")),
		"uk-cover-loose COVER evidence-wanted; uk-label-display - none"},
	{"reg 4(a); Cheshire East, Wirral: a chair of 1908 with its dating note", gb(made("1908"), paper("dating-note")),
		"uk-made-before-1950 COVER exempt; uk-made-before-1950 FOAM exempt; uk-cover-match COVER none; uk-foam-slab FOAM none; overall exempt"},
	{"reg 4(a): made on 31 December 1949", gb(made("1949-12-31"), paper("dating-note")), "uk-made-before-1950 COVER exempt; uk-cover-match COVER none; uk-foam-slab FOAM none; overall exempt"},
	{"reg 4(a): made on 1 January 1950", gb(made("1950-01-01"), paper("dating-note")), "uk-made-before-1950 COVER none; uk-cover-match COVER evidence-wanted; uk-foam-slab FOAM evidence-wanted"},
	{"reg 4(a): made in 1949 or 1950, which is not told apart", gb(func(j *Job) { j.Made = calendar.Span{First: day("1949-06-01"), Last: day("1950-06-01")} }, paper("dating-note")), "uk-made-before-1950 COVER none; overall evidence-wanted"},
	{"reg 4(a): said to be old, and nothing shows it", gb(made("1908")), "uk-made-before-1950 COVER none; uk-cover-match COVER evidence-wanted; uk-foam-slab FOAM evidence-wanted"},
	{"Fermanagh and Omagh District Council: the chair of 1908 in Northern Ireland", gb(place("northern-ireland"), made("1908"), paper("dating-note")),
		"uk-made-before-1950 COVER exempt; ni-council-1950 - exempt; overall exempt"},
	{"Fermanagh and Omagh: the same without a dating note", gb(place("northern-ireland"), made("1908")), "ni-council-1950 - none; uk-cover-match COVER evidence-wanted"},
	{"Wirral: a sofa for export, to the United States", gb(to("united-states"), deal("new")),
		"uk-export COVER exempt; uk-export - exempt; uk-cover-match COVER none; us-cover COVER evidence-wanted; us-filling FOAM evidence-wanted"},
	{"trade-body guide as repeated: foam of the workroom, cover of the customer, 1975", gb(made("1975"), from("COVER", "customer"), report("FOAM", "uk-sch1-1")),
		"uk-customer-cover COVER evidence-wanted; uk-cover-match COVER none; uk-foam-slab FOAM evidence-held"},
	{"Sch 4 Pt I, Sch 5 Pt I: only a crib 5 report for a home", gb(report("COVER", "bs-5852-5", "FOAM")), "uk-cover-match COVER evidence-wanted; uk-cover-cigarette COVER evidence-wanted"},
	{"a test house: EN 1021-1 and -2 do not answer the domestic tests", gb(report("COVER", "en-1021-1", "FOAM"), report("COVER", "en-1021-2", "FOAM")), "uk-cover-match COVER evidence-wanted"},
	{"BS 7176: medium hazard with all reports of the composite", gb(use("contract"), hazard("medium"), paper("client-specification"), report("COVER", "en-1021-1", "FOAM"), report("COVER", "en-1021-2", "FOAM"), report("COVER", "bs-5852-5", "FOAM"), report("FOAM", "uk-sch1-1")),
		"uk-contract-medium COVER evidence-held; uk-contract-foam FOAM evidence-held; uk-contract-law - evidence-held; overall evidence-held"},
	{"BS 7176: medium hazard without crib 5", gb(use("contract"), hazard("medium"), paper("client-specification"), report("COVER", "en-1021-1", "FOAM"), report("COVER", "en-1021-2", "FOAM")),
		"uk-contract-medium COVER evidence-wanted"},
	{"BS 7176:2007: a predictive test of the cloth alone", gb(use("contract"), hazard("low"), report("COVER", "en-1021-1"), report("COVER", "en-1021-2")), "uk-contract-low COVER evidence-wanted"},
	{"SI 2025/531: new sofa on 30 October 2025 without a display label", gb(deal("new"), asOf("2025-10-30"), no(display), yes(permanent)), "uk-label-display - none; uk-label-permanent - evidence-held"},
	{"SI 2025/531: the same on 29 October 2025", gb(deal("new"), asOf("2025-10-29"), no(display), yes(permanent)), "uk-label-display - not-allowed; uk-label-permanent - evidence-held"},
	{"reg 11: new sofa without a permanent label", gb(deal("new"), no(permanent)), "uk-label-permanent - not-allowed"},
	{"SI 2025/531 reg 3: child's mattress of 169.9 by 74.9 cm on 30 October 2025", gb(item("child-mattress"), deal("new"), asOf("2025-10-30"), size(1699*mm, 749*mm)), "uk-young-child COVER exempt; uk-foam-slab FOAM none"},
	{"SI 2025/531 reg 3: the same on 29 October 2025", gb(item("child-mattress"), deal("new"), asOf("2025-10-29"), size(1699*mm, 749*mm)), "uk-young-child COVER none; uk-foam-slab FOAM evidence-wanted; uk-cover-match COVER none"},
	{"SI 2025/531 reg 3: 170 cm long", gb(item("child-mattress"), deal("new"), size(1700*mm, 749*mm)), "uk-young-child COVER none; uk-foam-slab FOAM evidence-wanted; uk-cover-match COVER none"},
	{"SI 2025/531 reg 3: 75 cm wide", gb(item("child-mattress"), deal("new"), size(1699*mm, 750*mm)), "uk-young-child COVER none; uk-foam-slab FOAM evidence-wanted; uk-cover-match COVER none"},
	{"SI 2025/531 reg 3: a nanometre below both", gb(item("child-mattress"), deal("new"), size(1700*mm-1, 750*mm-1)), "uk-young-child COVER exempt"},
	{"trade article, April 2022; S.I. 316/1995: only United Kingdom reports for Ireland", gb(place("ireland"), deal("new"), report("COVER", "uk-sch5-1"), report("COVER", "uk-sch4-1", "FOAM")),
		"ie-cover-match COVER evidence-wanted; ie-cover-cigarette COVER evidence-wanted"},
	{"industry note of 2014: calico in the composite beneath a cover that passes", gb(lay(1, "CALICO", roleLining, "woven-cloth", ""), report("COVER", "uk-sch5-1"), report("COVER", "uk-sch4-1", "CALICO", "FOAM")), "uk-lining CALICO evidence-held; uk-cover-match COVER evidence-held"},
	{"Sch 3: the same calico named as the barrier, without a report", gb(lay(1, "CALICO", roleInterliner, "woven-cloth", "")), "uk-interliner CALICO evidence-wanted; uk-cover-match COVER evidence-wanted"},
	{"European furniture industry alliance: a sofa for a home in Germany with EN 1021-1", gb(place("european-union"), deal("new"), report("COVER", "en-1021-1", "FOAM")), "eu-national-cover COVER evidence-wanted"},

	{"CPSC answers; 16 CFR 1640.2: dining chair, same owner, linen, no reports", us(deal("reupholstered-for-owner"), asOf("2024-05-01")), "us-same-owner COVER exempt; us-same-owner FOAM exempt; overall exempt"},
	{"CPSC answers; 16 CFR 1640.5: the same chair sold", us(asOf("2024-05-01")), "us-cover COVER evidence-wanted; us-same-owner COVER none"},
	{"86 FR 18440: for sale on 24 June 2021", us(asOf("2021-06-24")), "us-before-2021 COVER exempt; us-cover COVER none; us-label - none"},
	{"86 FR 18440: for sale on 25 June 2021", us(asOf("2021-06-25")), "us-before-2021 COVER none; us-cover COVER evidence-wanted; us-label - none"},
	{"86 FR 18440: for sale on 24 June 2022", us(asOf("2022-06-24")), "us-label - none"},
	{"86 FR 18440: for sale on 25 June 2022", us(asOf("2022-06-25")), "us-label - evidence-wanted"},
	{"TB 117-2013 s.1: char of 45 mm, out at 40 min", us(specimens("COVER", outOfThree(45*mm, 40)...)), "us-cover COVER evidence-held"},
	{"TB 117-2013 s.1: char of 46 mm, no barrier", us(specimens("COVER", outOfThree(46*mm, 40)...)), "us-cover COVER not-allowed"},
	{"TB 117-2013 s.1: out at 45 min", us(specimens("COVER", outOfThree(40*mm, 45)...)), "us-cover COVER evidence-held"},
	{"TB 117-2013 s.1; Home Furnishings Association: smouldering at 46 min, over a barrier", us(interliner, report("INTER", "tb117-2013-2"), specimens("COVER", outOfThree(40*mm, 46)...)), "us-cover COVER evidence-held; us-barrier INTER evidence-held"},
	{"TB 117-2013 s.1: one of three flames", us(specimens("COVER", Specimen{10 * mm, 5, true}, Specimen{10 * mm, 5, false}, Specimen{10 * mm, 5, false})), "us-cover COVER not-allowed"},
	{"TB 117-2013 s.1: two specimens", us(specimens("COVER", outOfThree(40*mm, 40)[:2]...)), "us-cover COVER evidence-wanted"},
	{"Home Furnishings Association: a cover that fails over batting without a report", us(lay(1, "BATT", roleWadding, "polyester-fibre", "sheet"), report("COVER", "-tb117-2013-1")), "us-cover COVER evidence-wanted; us-filling BATT evidence-wanted"},
	{"BPC 19101(b): owner's repair of 1 March 2021, new foam with 1,500 ppm", ca(deal("reupholstered-for-owner"), asOf("2021-03-01"), retardant("FOAM", "yes", "halogenated", 1500)), "ca-flame-retardant FOAM not-allowed"},
	{"BPC 19101(b): 1,001 ppm", ca(deal("reupholstered-for-owner"), retardant("FOAM", "yes", "halogenated", 1001)), "ca-flame-retardant FOAM not-allowed"},
	{"BPC 19101(b): 1,000 ppm with the supplier's statement", ca(deal("reupholstered-for-owner"), retardant("FOAM", "yes", "halogenated", 1000), paperFor("FOAM", "flame-retardant-statement")), "ca-flame-retardant FOAM evidence-held"},
	{"BPC 19101(b): the same foam retained", ca(deal("reupholstered-for-owner"), from("FOAM", "retained"), retardant("FOAM", "yes", "halogenated", 1500)), "ca-flame-retardant FOAM exempt"},
	{"BPC 19101: work on 31 December 2019", ca(deal("reupholstered-for-owner"), asOf("2019-12-31"), retardant("FOAM", "yes", "halogenated", 1500)), "ca-flame-retardant FOAM exempt"},
	{"BPC 19101: work on 1 January 2020", ca(deal("reupholstered-for-owner"), asOf("2020-01-01"), retardant("FOAM", "yes", "halogenated", 1500)), "ca-flame-retardant FOAM not-allowed"},
	{"BPC 19161(c): owner's chair, filling added, no report", ca(deal("reupholstered-for-owner"), yes(added)), "us-same-owner FOAM exempt; ca-filling FOAM evidence-wanted; ca-recover-only FOAM none; overall evidence-wanted"},
	{"BPC 19161(c): owner's chair, no filling added", ca(deal("reupholstered-for-owner"), no(added)), "ca-recover-only COVER exempt; ca-cover COVER none"},
	{"BPC 19101(c)(5): modacrylic without antimony trioxide", ca(interliner, of("INTER", "modacrylic-cloth", ""), retardant("INTER", "no", "none", 0)), "ca-flame-retardant INTER exempt"},
	{"BPC 19101(c)(5): modacrylic with 20,000 ppm of antimony trioxide", ca(interliner, of("INTER", "modacrylic-cloth", ""), retardant("INTER", "yes", "antimony-trioxide", 20000)), "ca-flame-retardant INTER evidence-wanted"},
	{"16 CFR 1640.3(e): outdoor furniture", us(item("outdoor-only")), "us-excluded COVER exempt; us-cover COVER none"},
	{"16 CFR 1640.3(e): exercise furniture", us(item("exercise-only")), "us-excluded COVER exempt; overall exempt"},
	{"16 CFR 1640.3(e): mattress", us(item("mattress")), "us-excluded COVER exempt"},
	{"RISE: feathers tested in ticking A and built in ticking B", us(of("FOAM", "feather-down", "loose"), lay(1, "TICK-B", roleTicking, "woven-cloth", ""), report("FOAM", "tb117-2013-3", "TICK-A")), "us-filling FOAM evidence-wanted"},
	{"RISE: feathers tested in the ticking that is used", us(of("FOAM", "feather-down", "loose"), lay(1, "TICK-B", roleTicking, "woven-cloth", ""), report("FOAM", "tb117-2013-3", "TICK-B")), "us-filling FOAM evidence-held"},
	{"2010 FTP Code: a ship's seat with TB 117-2013 reports", us(on("ship"), report("COVER", "tb117-2013-1"), report("FOAM", "tb117-2013-3")), "platform-ship COVER other-regime; us-cover COVER none; overall other-regime"},
	{"FMVSS 302: a car seat", us(on("road-vehicle"), report("COVER", "tb117-2013-1")), "platform-road-vehicle COVER other-regime; overall other-regime"},
	{"14 CFR 25.853: an aircraft seat", gb(on("aircraft")), "platform-aircraft COVER other-regime; platform-aircraft - other-regime; overall other-regime"},
	{"Boat Safety Scheme: a boat's berth", gb(on("boat")), "platform-boat FOAM other-regime; overall other-regime"},
	{"UFAC method 1: a class II cover straight on foam", us(report("COVER", "-ufac-1")), "us-cover COVER evidence-wanted"},
}
