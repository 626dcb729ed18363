package fire

import "slices"

// directed are cases of our own, derived from the rules: for each rule what it
// says for each outcome, and one in which it does not apply.
var directed = slices.Concat(kingdomFillings(), kingdomCovers(), kingdomScope(), kingdomContract(), islands(), federal(), california(), states())

// ladder is a rule that asks for one test: nothing known, a pass, a fail, and,
// where worse is "", no fail; and the rule does not apply to elsewhere.
func ladder(rule, layer string, base Job, elsewhere change, worse, test string, composite ...string) []check {
	out := []check{
		{rule + ", derived: no report", base, rule + " " + layer + " evidence-wanted"},
		{rule + ", derived: a report that it passes", with(base, report(layer, test, composite...)), rule + " " + layer + " evidence-held"},
		{rule + ", derived: does not apply", with(base, elsewhere), rule + " " + layer + " none"},
	}
	if worse != "" {
		out = append(out, check{rule + ", derived: a report that it fails", with(base, report(layer, "-"+test, composite...)), rule + " " + layer + " " + worse})
	}
	return out
}

func kingdomFillings() []check {
	own := deal("own-use")
	crumb := gb(of("FOAM", "polyurethane-foam", "crumb"))
	hair := gb(of("FOAM", "hair", "loose"))
	bed := with(hair, item("mattress"))
	pad := with(hair, item("seat-pad"))
	out := slices.Concat(
		ladder("uk-foam-slab", "FOAM", gb(), own, "not-allowed", "uk-sch1-1"),
		ladder("uk-foam-crumb", "FOAM", crumb, own, "not-allowed", "uk-sch1-2"),
		ladder("uk-foam-latex", "FOAM", gb(of("FOAM", "latex-foam", "sheet")), own, "not-allowed", "uk-sch1-3"),
		ladder("uk-filling-loose", "FOAM", hair, own, "", "uk-sch2-1"),
		ladder("uk-filling-cushion", "FOAM", pad, own, "", "uk-sch2-1"),
		ladder("uk-filling-mattress", "FOAM", bed, own, "", "uk-sch2-1"),
	)
	for rule, c := range map[string]struct {
		job  Job
		test string
	}{"uk-filling-loose": {hair, "uk-sch2-2"}, "uk-filling-cushion": {pad, "uk-sch2-3"}, "uk-filling-mattress": {bed, "uk-sch2-4"}} {
		out = append(out,
			check{rule + ", derived: the composite passes", with(c.job, report("FOAM", c.test)), rule + " FOAM evidence-held"},
			check{rule + ", derived: singly it fails, the composite passes", with(c.job, report("FOAM", "-uk-sch2-1"), report("FOAM", c.test)), rule + " FOAM evidence-held"},
			check{rule + ", derived: singly it fails", with(c.job, report("FOAM", "-uk-sch2-1")), rule + " FOAM evidence-wanted"},
			check{rule + ", derived: the composite fails", with(c.job, report("FOAM", "-"+c.test)), rule + " FOAM evidence-wanted"},
			check{rule + ", derived: both fail", with(c.job, report("FOAM", "-uk-sch2-1"), report("FOAM", "-"+c.test)), rule + " FOAM not-allowed"},
		)
	}
	slices.SortFunc(out, byName)
	return append(out,
		check{"uk-foam-slab, derived: not combustion-modified", gb(modified("FOAM", "no")), "uk-foam-slab FOAM not-allowed"},
		check{"uk-foam-slab, derived: combustion-modified, no report", gb(modified("FOAM", "yes")), "uk-foam-slab FOAM evidence-wanted"},
		check{"uk-foam-slab, derived: a report outweighs what is said of the foam", gb(modified("FOAM", "no"), report("FOAM", "uk-sch1-1")), "uk-foam-slab FOAM evidence-held"},
		check{"uk-foam-crumb, derived: not combustion-modified", with(crumb, modified("FOAM", "no")), "uk-foam-crumb FOAM not-allowed; uk-foam-slab FOAM none"},
		check{"uk-foam-slab, derived: form not said", gb(of("FOAM", "polyurethane-foam", "")), "uk-foam-slab FOAM evidence-wanted; uk-foam-crumb FOAM evidence-wanted"},
		check{"uk-foam-slab, derived: crumb is not slab, and latex is neither", gb(of("FOAM", "latex-foam", "slab"), report("FOAM", "uk-sch1-1")), "uk-foam-slab FOAM none; uk-foam-latex FOAM evidence-wanted; uk-foam-crumb FOAM none; uk-filling-unnamed FOAM none; uk-filling-loose FOAM none"},
		check{"uk-foam-crumb, derived: slab is no crumb", gb(), "uk-foam-crumb FOAM none; uk-foam-latex FOAM none; uk-filling-loose FOAM none; uk-filling-cushion FOAM none; uk-filling-mattress FOAM none; uk-filling-unnamed FOAM none; uk-retained FOAM none; uk-customer-material FOAM none"},
		check{"uk-filling-cushion, derived: a sofa is none", hair, "uk-filling-cushion FOAM none; uk-filling-mattress FOAM none; uk-filling-unnamed FOAM none; uk-foam-slab FOAM none"},
		check{"uk-filling-loose, derived: a mattress and a seat pad have rules of their own", bed, "uk-filling-loose FOAM none"},
		check{"uk-filling-loose, derived: a seat pad", pad, "uk-filling-loose FOAM none"},
		check{"uk-filling-unnamed, derived: material not said", gb(of("FOAM", "", "")), "uk-filling-unnamed FOAM evidence-wanted"},
		check{"uk-filling-unnamed, derived: another material", gb(of("FOAM", "other", "")), "uk-filling-unnamed FOAM evidence-wanted; uk-foam-latex FOAM none; uk-filling-loose FOAM none"},
		check{"uk-filling-unnamed, derived: own use", gb(of("FOAM", "other", ""), deal("own-use")), "uk-filling-unnamed FOAM none"},
		check{"uk-filling-unnamed, derived: retained", gb(of("FOAM", "other", ""), from("FOAM", "retained")), "uk-filling-unnamed FOAM none; uk-retained FOAM exempt"},
		check{"uk-retained, derived: foam left in an owner's chair", gb(from("FOAM", "retained")), "uk-retained FOAM exempt; uk-foam-slab FOAM none; uk-retained COVER none"},
		check{"uk-retained, derived: latex left in", gb(from("FOAM", "retained"), of("FOAM", "latex-foam", "")), "uk-foam-latex FOAM none"},
		check{"uk-retained, derived: hair left in", with(hair, from("FOAM", "retained")), "uk-filling-loose FOAM none"},
		check{"uk-retained, derived: the supplier not said", gb(from("FOAM", "")), "uk-retained FOAM none; uk-foam-slab FOAM evidence-wanted"},
		check{"uk-retained, derived: the chair is for sale", gb(from("FOAM", "retained"), deal("reupholstered-for-sale")), "uk-retained FOAM none; uk-foam-slab FOAM evidence-wanted"},
		check{"uk-retained, derived: own use", gb(from("FOAM", "retained"), deal("own-use")), "uk-retained FOAM none"},
		check{"uk-retained, derived: a contract piece", gb(from("FOAM", "retained"), use("contract")), "uk-retained FOAM none"},
		check{"uk-customer-material, derived: no report", gb(from("FOAM", "customer")), "uk-customer-material FOAM evidence-wanted; uk-foam-slab FOAM none"},
		check{"uk-customer-material, derived: slab", gb(from("FOAM", "customer"), report("FOAM", "uk-sch1-1")), "uk-customer-material FOAM evidence-held"},
		check{"uk-customer-material, derived: crumb", gb(from("FOAM", "customer"), report("FOAM", "uk-sch1-2")), "uk-customer-material FOAM evidence-held"},
		check{"uk-customer-material, derived: latex", gb(from("FOAM", "customer"), report("FOAM", "uk-sch1-3")), "uk-customer-material FOAM evidence-held"},
		check{"uk-customer-material, derived: hair", gb(from("FOAM", "customer"), report("FOAM", "uk-sch2-1")), "uk-customer-material FOAM evidence-held"},
		check{"uk-customer-material, derived: interliner", gb(interliner, from("INTER", "customer"), report("INTER", "uk-sch3-0")), "uk-customer-material INTER evidence-held; uk-interliner INTER none"},
		check{"uk-customer-material, derived: for sale", gb(from("FOAM", "customer"), deal("hire")), "uk-customer-material FOAM none; uk-foam-slab FOAM evidence-wanted"},
		check{"uk-customer-material, derived: a contract piece", gb(from("FOAM", "customer"), use("contract")), "uk-customer-material FOAM none"},
	)
}

func byName(a, b check) int {
	switch {
	case a.name < b.name:
		return -1
	case a.name > b.name:
		return 1
	}
	return 0
}

func kingdomCovers() []check {
	own, kept := deal("own-use"), func(id string) change { return from(id, "retained") }
	hidden := gb(role("COVER", roleHidden))
	loose := gb(role("COVER", roleLoose))
	stretch := gb(role("COVER", roleStretch))
	lined := gb(interliner)
	return slices.Concat(
		ladder("uk-cover-match", "COVER", gb(), own, "", "uk-sch5-1"),
		ladder("uk-cover-cigarette", "COVER", gb(), own, "not-allowed", "uk-sch4-1", "FOAM"),
		ladder("uk-cover-loose", "COVER", loose, own, "not-allowed", "uk-sch5-1"),
		ladder("uk-cover-stretch", "COVER", stretch, own, "not-allowed", "uk-sch5-2"),
		ladder("uk-interliner", "INTER", lined, own, "not-allowed", "uk-sch3-0"),
		[]check{
			{"uk-cover-match, derived: retained", gb(kept("COVER")), "uk-cover-match COVER none; uk-cover-cigarette COVER none"},
			{"uk-cover-match, derived: a contract piece", gb(use("contract")), "uk-cover-match COVER none; uk-cover-cigarette COVER none"},
			{"uk-cover-match, derived: no fibre statement", gb(interliner, report("INTER", "uk-sch3-0"), report("COVER", "-uk-sch5-1")), "uk-cover-match COVER evidence-wanted"},
			{"uk-cover-match, derived: coating not said", gb(overInterliner, coating("COVER", "")), "uk-cover-match COVER evidence-wanted"},
			{"uk-cover-match, derived: fails over an interliner that fails", gb(interliner, report("INTER", "-uk-sch3-0"), paperFor("COVER", "fibre-statement"), report("COVER", "-uk-sch5-1")), "uk-cover-match COVER not-allowed"},
			{"uk-cover-loose, derived: retained", with(loose, kept("COVER")), "uk-cover-loose COVER none"},
			{"uk-cover-loose, derived: contract", with(loose, use("contract")), "uk-cover-loose COVER none"},
			{"uk-cover-stretch, derived: retained", with(stretch, kept("COVER")), "uk-cover-stretch COVER none"},
			{"uk-cover-hidden, derived: nothing held", hidden, "uk-cover-hidden COVER evidence-wanted"},
			{"uk-cover-hidden, derived: both reports", with(hidden, report("COVER", "uk-sch5-3"), report("COVER", "uk-sch4-2", "FOAM")), "uk-cover-hidden COVER evidence-held"},
			{"uk-cover-hidden, derived: match only", with(hidden, report("COVER", "uk-sch5-3")), "uk-cover-hidden COVER evidence-wanted"},
			{"uk-cover-hidden, derived: cigarette only", with(hidden, report("COVER", "uk-sch4-2", "FOAM")), "uk-cover-hidden COVER evidence-wanted"},
			{"uk-cover-hidden, derived: the interliner route", with(hidden, interliner, report("INTER", "uk-sch3-0"), paperFor("COVER", "fibre-statement"), report("COVER", "uk-sch4-2", "INTER", "FOAM")), "uk-cover-hidden COVER evidence-held"},
			{"uk-cover-hidden, derived: the interliner route without the cigarette test", with(hidden, interliner, report("INTER", "uk-sch3-0"), paperFor("COVER", "fibre-statement")), "uk-cover-hidden COVER evidence-wanted"},
			{"uk-cover-hidden, derived: own use", with(hidden, own), "uk-cover-hidden COVER none"},
			{"uk-cover-hidden, derived: retained", with(hidden, kept("COVER")), "uk-cover-hidden COVER none"},
			{"uk-interliner, derived: retained", with(lined, kept("INTER")), "uk-interliner INTER none"},
			{"uk-customer-cover, derived: both reports", gb(from("COVER", "customer"), report("COVER", "uk-sch5-1"), report("COVER", "uk-sch4-1", "FOAM")), "uk-customer-cover COVER evidence-held"},
			{"uk-customer-cover, derived: match only", gb(from("COVER", "customer"), report("COVER", "uk-sch5-1")), "uk-customer-cover COVER evidence-wanted"},
			{"uk-customer-cover, derived: cigarette only", gb(from("COVER", "customer"), report("COVER", "uk-sch4-1", "FOAM")), "uk-customer-cover COVER evidence-wanted"},
			{"uk-customer-cover, derived: the interliner route", gb(overInterliner, from("COVER", "customer")), "uk-customer-cover COVER evidence-held"},
			{"uk-customer-cover, derived: the route without the cigarette test", gb(interliner, report("INTER", "uk-sch3-0"), paperFor("COVER", "fibre-statement"), from("COVER", "customer")), "uk-customer-cover COVER evidence-wanted"},
			{"uk-customer-cover, derived: the customer's cloth on a piece for hire", gb(from("COVER", "customer"), deal("hire")), "uk-customer-cover COVER none; uk-cover-match COVER evidence-wanted"},
			{"uk-customer-cover, derived: the workroom's cloth", gb(), "uk-customer-cover COVER none"},
			{"uk-customer-cover, derived: contract", gb(from("COVER", "customer"), use("contract")), "uk-customer-cover COVER none"},
			{"uk-cushion-cover, derived: a sofa", gb(), "uk-cushion-cover COVER none"},
			{"fire-risk guidance: of a mattress the filling only", gb(item("mattress"), report("COVER", "-uk-sch5-1")), "uk-cushion-cover COVER exempt; uk-cover-match COVER none; uk-cover-cigarette COVER none; uk-foam-slab FOAM evidence-wanted"},
			{"uk-cushion-cover, derived: the owner's pillow", gb(item("pillow")), "uk-cushion-cover COVER exempt"},
			{"uk-cushion-cover, derived: with the owner's own cover", gb(item("pillow"), from("COVER", "customer")), "uk-cushion-cover COVER none"},
			{"uk-cushion-cover, derived: the same for sale", gb(item("pillow"), from("COVER", "customer"), deal("new")), "uk-cushion-cover COVER exempt"},
			{"uk-cushion-cover, derived: contract", gb(item("pillow"), use("contract")), "uk-cushion-cover COVER none"},
			{"uk-lining, derived: not in the composite", gb(lay(1, "CALICO", roleLining, "woven-cloth", ""), report("COVER", "uk-sch4-1", "FOAM")), "uk-lining CALICO evidence-wanted; uk-cover-cigarette COVER evidence-wanted"},
			{"uk-lining, derived: in a scatter cushion", gb(item("scatter-cushion"), lay(1, "CALICO", roleTicking, "woven-cloth", "")), "uk-lining CALICO exempt"},
			{"uk-lining, derived: retained", gb(lay(1, "CALICO", roleLining, "woven-cloth", ""), kept("CALICO")), "uk-lining CALICO none"},
			{"uk-lining, derived: own use", gb(lay(1, "CALICO", roleLining, "woven-cloth", ""), own), "uk-lining CALICO none"},
			{"uk-trim, derived: gimp", gb(lay(0, "GIMP", roleTrim, "other", "")), "uk-trim GIMP exempt"},
			{"uk-trim, derived: own use", gb(lay(0, "GIMP", roleTrim, "other", ""), own), "uk-trim GIMP none"},
			{"uk-trim, derived: retained", gb(lay(0, "GIMP", roleTrim, "other", ""), kept("GIMP")), "uk-trim GIMP none"},
		})
}

func kingdomScope() []check {
	return []check{
		{"uk-out-of-trade, derived", gb(deal("own-use")), "uk-out-of-trade COVER evidence-wanted; overall evidence-wanted"},
		{"uk-out-of-trade, derived: for its owner", gb(), "uk-out-of-trade COVER none; uk-export COVER none; uk-bedding COVER none; uk-outdoor COVER none; uk-other-baby-article COVER none; uk-young-child COVER none"},
		{"the transaction not said", gb(deal("")), "uk-out-of-trade COVER none; uk-cover-match COVER evidence-wanted; uk-retained COVER none"},
		{"uk-bedding, derived: a curtain", gb(item("curtain")), "uk-bedding COVER exempt; uk-cover-match COVER none"},
		{"uk-bedding, derived: own use", gb(item("curtain"), deal("own-use")), "uk-bedding COVER none"},
		{"the item not said: no exemption is taken for shown", gb(item(""), report("COVER", "uk-sch5-1")), "uk-bedding COVER none; uk-outdoor COVER none; uk-young-child COVER none; uk-other-baby-article COVER evidence-wanted; uk-cushion-cover COVER none; uk-cover-match COVER evidence-held"},
		{"uk-outdoor, derived", gb(item("outdoor-only")), "uk-outdoor COVER exempt; uk-cover-match COVER none"},
		{"uk-outdoor, derived: contract", gb(item("outdoor-only"), use("contract")), "uk-outdoor COVER none"},
		{"uk-other-baby-article, derived", gb(item("other-baby-article")), "uk-other-baby-article COVER evidence-wanted"},
		{"uk-other-baby-article, derived: contract", gb(item("other-baby-article"), use("contract")), "uk-other-baby-article COVER none"},
		{"uk-other-baby-article, derived: an old one", gb(item("other-baby-article"), made("1930"), paper("dating-note")), "uk-other-baby-article COVER none; uk-made-before-1950 COVER exempt"},
		{"uk-young-child, derived: a listed article", gb(item("baby-article")), "uk-young-child COVER exempt; uk-cover-match COVER none"},
		{"uk-young-child, derived: a mattress without its size", gb(item("child-mattress")), "uk-young-child COVER none; uk-foam-slab FOAM evidence-wanted"},
		{"uk-young-child, derived: an old cot", gb(item("baby-article"), made("1930"), paper("dating-note")), "uk-young-child COVER none"},
		{"uk-young-child, derived: contract", gb(item("baby-article"), use("contract")), "uk-young-child COVER none"},
		{"a caravan is a dwelling", gb(on("caravan"), report("COVER", "uk-sch5-1")), "uk-cover-match COVER evidence-held"},
		{"a home that is let", gb(use("let-home"), deal("hire"), report("COVER", "uk-sch5-1"), made("1996")), "uk-cover-match COVER evidence-held; uk-label-resale - evidence-wanted"},
		{"the use not said", gb(use(""), report("COVER", "uk-sch5-1")), "uk-cover-match COVER evidence-wanted; uk-contract-law - evidence-wanted"},
		{"the platform not said", gb(on(""), report("COVER", "uk-sch5-1")), "uk-cover-match COVER evidence-wanted; platform-boat COVER evidence-wanted; platform-ship COVER evidence-wanted; platform-aircraft COVER evidence-wanted; platform-road-vehicle COVER evidence-wanted; platform-trailer COVER evidence-wanted"},
		{"in a building no other regime governs", gb(), "platform-boat COVER none; platform-ship COVER none; platform-aircraft COVER none; platform-road-vehicle COVER none; platform-trailer COVER none"},
		{"platform-trailer, derived", gb(on("trailer")), "platform-trailer COVER other-regime; uk-cover-match COVER none"},
		{"uk-made-before-1950, derived: contract", gb(made("1908"), use("contract")), "uk-made-before-1950 COVER none"},
		{"uk-label-permanent, derived: not said", gb(deal("new")), "uk-label-permanent - evidence-wanted; uk-label-resale - none"},
		{"uk-label-permanent, derived: for its owner", gb(), "uk-label-permanent - none; uk-label-resale - none; uk-label-display - none; uk-export - none"},
		{"uk-label-permanent, derived: a mattress", gb(deal("new"), item("mattress")), "uk-label-permanent - none"},
		{"uk-label-permanent, derived: contract", gb(deal("new"), use("contract")), "uk-label-permanent - none"},
		{"uk-label-resale, derived: there", gb(deal("second-hand-sale"), yes(permanent)), "uk-label-resale - evidence-held"},
		{"uk-label-resale, derived: not there", gb(deal("second-hand-sale"), no(permanent)), "uk-label-resale - evidence-wanted"},
		{"uk-label-resale, derived: a mattress", gb(deal("second-hand-sale"), item("mattress")), "uk-label-resale - none"},
		{"uk-label-resale, derived: contract", gb(deal("second-hand-sale"), use("contract")), "uk-label-resale - none"},
		{"uk-label-display, derived: there, in 2020", gb(deal("new"), asOf("2020-05-05"), yes(display)), "uk-label-display - evidence-held"},
		{"uk-label-display, derived: not said, in 2020", gb(deal("new"), asOf("2020-05-05")), "uk-label-display - evidence-wanted"},
		{"uk-label-display, derived: for its owner, in 2020", gb(asOf("2020-05-05")), "uk-label-display - none"},
		{"uk-label-display, derived: contract, in 2020", gb(deal("new"), asOf("2020-05-05"), use("contract")), "uk-label-display - none"},
		{"uk-label-display, derived: a throw, in 2020", gb(deal("new"), asOf("2020-05-05"), item("cover-alone")), "uk-label-display - none"},
	}
}

func kingdomContract() []check {
	cat := func(h string, more ...change) Job {
		return gb(append([]change{use("contract"), hazard(h)}, more...)...)
	}
	r1, r2 := report("COVER", "en-1021-1", "FOAM"), report("COVER", "en-1021-2", "FOAM")
	f1, f2 := report("COVER", "-en-1021-1", "FOAM"), report("COVER", "-en-1021-2", "FOAM")
	r5, f5 := report("COVER", "bs-5852-5", "FOAM"), report("COVER", "-bs-5852-5", "FOAM")
	r7, f7 := report("COVER", "bs-5852-7", "FOAM"), report("COVER", "-bs-5852-7", "FOAM")
	hair, latex, crumb := of("FOAM", "hair", "loose"), of("FOAM", "latex-foam", "slab"), of("FOAM", "polyurethane-foam", "crumb")
	calico := lay(1, "CALICO", roleLining, "woven-cloth", "")
	return []check{
		{"uk-contract-law, derived: no category", gb(use("contract"), paper("client-specification")), "uk-contract-law - evidence-wanted"},
		{"uk-contract-law, derived: not in writing", cat("low"), "uk-contract-law - evidence-wanted"},
		{"uk-contract-law, derived: a home", gb(hazard("low")), "uk-contract-law - none; uk-contract-low COVER none; uk-contract-foam FOAM none"},
		{"uk-contract-law, derived: own use", cat("low", deal("own-use")), "uk-contract-law - none"},
		{"uk-contract-law, derived: a ship", cat("low", on("ship")), "uk-contract-law - none"},
		{"uk-contract-law, derived: for export", cat("low", to("ireland")), "uk-contract-law - none"},
		{"uk-contract-low, derived: both reports", cat("low", r1, r2), "uk-contract-low COVER evidence-held; uk-contract-medium COVER none; uk-contract-high COVER none; uk-contract-very-high COVER none"},
		{"uk-contract-low, derived: one report", cat("low", r1), "uk-contract-low COVER evidence-wanted"},
		{"uk-contract-low, derived: the other", cat("low", r2), "uk-contract-low COVER evidence-wanted"},
		{"uk-contract-low, derived: by the domestic tests", cat("low", report("COVER", "uk-sch5-1"), report("COVER", "uk-sch4-1", "FOAM")), "uk-contract-low COVER evidence-held"},
		{"uk-contract-low, derived: by one domestic test", cat("low", report("COVER", "uk-sch5-1")), "uk-contract-low COVER evidence-wanted"},
		{"uk-contract-low, derived: by the other", cat("low", report("COVER", "uk-sch4-1", "FOAM")), "uk-contract-low COVER evidence-wanted"},
		{"uk-contract-low, derived: fails the cigarette", cat("low", f1), "uk-contract-low COVER evidence-wanted"},
		{"uk-contract-low, derived: fails the cigarette, and the domestic test", cat("low", f1, report("COVER", "-uk-sch5-1")), "uk-contract-low COVER not-allowed"},
		{"uk-contract-low, derived: fails the flame, and the domestic test", cat("low", f2, report("COVER", "-uk-sch4-1", "FOAM")), "uk-contract-low COVER not-allowed"},
		{"uk-contract-medium, derived: no crib 5", cat("medium", r1, r2), "uk-contract-medium COVER evidence-wanted; uk-contract-low COVER none"},
		{"uk-contract-medium, derived: no flame", cat("medium", r1, r5), "uk-contract-medium COVER evidence-wanted"},
		{"uk-contract-medium, derived: no cigarette", cat("medium", r2, r5), "uk-contract-medium COVER evidence-wanted"},
		{"uk-contract-medium, derived: fails crib 5", cat("medium", r1, r2, f5), "uk-contract-medium COVER not-allowed"},
		{"uk-contract-medium, derived: fails the flame", cat("medium", f2), "uk-contract-medium COVER not-allowed"},
		{"uk-contract-medium, derived: fails the cigarette", cat("medium", f1), "uk-contract-medium COVER not-allowed"},
		{"uk-contract-high, from memory: all reports", cat("high", r1, r2, r7), "uk-contract-high COVER evidence-held"},
		{"uk-contract-high, from memory: no crib 7", cat("high", r1, r2), "uk-contract-high COVER evidence-wanted"},
		{"uk-contract-high, from memory: no flame", cat("high", r1, r7), "uk-contract-high COVER evidence-wanted"},
		{"uk-contract-high, from memory: no cigarette", cat("high", r2, r7), "uk-contract-high COVER evidence-wanted"},
		{"uk-contract-high, from memory: fails crib 7, which forbids nothing", cat("high", f7), "uk-contract-high COVER evidence-wanted"},
		{"uk-contract-very-high, from memory", cat("very-high"), "uk-contract-very-high COVER evidence-wanted"},
		{"uk-contract-foam, derived: no report", cat("low"), "uk-contract-foam FOAM evidence-wanted; uk-contract-filling FOAM none"},
		{"uk-contract-foam, derived: fails", cat("low", report("FOAM", "-uk-sch1-1")), "uk-contract-foam FOAM not-allowed"},
		{"uk-contract-foam, derived: crumb", cat("low", crumb, report("FOAM", "uk-sch1-2")), "uk-contract-foam FOAM evidence-held"},
		{"uk-contract-foam, derived: crumb with the report of slab", cat("low", crumb, report("FOAM", "uk-sch1-1")), "uk-contract-foam FOAM evidence-wanted"},
		{"uk-contract-foam, derived: slab with the report of crumb", cat("low", report("FOAM", "uk-sch1-2")), "uk-contract-foam FOAM evidence-wanted"},
		{"uk-contract-foam, derived: crumb fails", cat("low", crumb, report("FOAM", "-uk-sch1-2")), "uk-contract-foam FOAM not-allowed"},
		{"uk-contract-foam, derived: latex", cat("low", latex, report("FOAM", "uk-sch1-3")), "uk-contract-foam FOAM evidence-held"},
		{"uk-contract-foam, derived: latex with the report of slab", cat("low", latex, report("FOAM", "uk-sch1-1")), "uk-contract-foam FOAM evidence-wanted"},
		{"uk-contract-foam, derived: latex crumb with the report of crumb", cat("low", of("FOAM", "latex-foam", "crumb"), report("FOAM", "uk-sch1-2")), "uk-contract-foam FOAM evidence-wanted"},
		{"uk-contract-foam, derived: slab with the report of latex", cat("low", report("FOAM", "uk-sch1-3")), "uk-contract-foam FOAM evidence-wanted"},
		{"uk-contract-foam, derived: latex fails", cat("low", latex, report("FOAM", "-uk-sch1-3")), "uk-contract-foam FOAM not-allowed"},
		{"uk-contract-filling, derived: no report", cat("low", hair), "uk-contract-filling FOAM evidence-wanted; uk-contract-foam FOAM none"},
		{"uk-contract-filling, derived: singly", cat("low", hair, report("FOAM", "uk-sch2-1")), "uk-contract-filling FOAM evidence-held"},
		{"uk-contract-filling, derived: in a composite", cat("low", hair, report("FOAM", "uk-sch2-2")), "uk-contract-filling FOAM evidence-held"},
		{"uk-contract-filling, derived: a home", gb(hair), "uk-contract-filling FOAM none"},
		{"uk-contract-within, derived: part of it", cat("low", calico, report("COVER", "en-1021-1", "CALICO", "FOAM")), "uk-contract-within CALICO evidence-held"},
		{"uk-contract-within, derived: left out", cat("low", calico, r1), "uk-contract-within CALICO evidence-wanted; uk-contract-low COVER evidence-wanted"},
		{"uk-contract-within, derived: a home", gb(calico), "uk-contract-within CALICO none"},
	}
}
