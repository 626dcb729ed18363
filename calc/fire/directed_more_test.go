package fire

import (
	"slices"

	"github.com/bridletie/bridletie/calc/length"
)

func islands() []check {
	ie := gb(place("ireland"), deal("new"))
	own, kept := deal("own-use"), func(id string) change {
		return func(j *Job) { from(id, "retained")(j); deal("reupholstered-for-owner")(j) }
	}
	route := func(j *Job) {
		for _, c := range []change{interliner, report("INTER", "is-419-3"), paperFor("COVER", "fibre-statement")} {
			c(j)
		}
	}
	fails := report("COVER", "-is-419-5")
	lined := with(ie, lay(1, "CALICO", roleLining, "woven-cloth", ""))
	ni, eu := gb(place("northern-ireland"), deal("new")), gb(place("european-union"), deal("new"))
	return slices.Concat(
		ladder("ie-cover-match", "COVER", ie, kept("COVER"), "not-allowed", "is-419-5"),
		ladder("ie-cover-cigarette", "COVER", ie, kept("COVER"), "not-allowed", "is-244-cigarette", "FOAM"),
		ladder("ie-interliner", "INTER", with(ie, interliner), kept("INTER"), "not-allowed", "is-419-3"),
		ladder("ie-filling", "FOAM", ie, kept("FOAM"), "not-allowed", "is-419-filling"),
		[]check{
			{"ie-cover-match, S.I. 336/1988 as the minister told it: 75 % over an interliner", with(ie, route, fails, fibres("COVER", Fibre{"cotton", 750_000}, Fibre{"polyester", 250_000})), "ie-cover-match COVER evidence-held"},
			{"ie-cover-match, derived: below 75 %", with(ie, route, fails, fibres("COVER", Fibre{"cotton", 749_999}, Fibre{"polyester", 250_001})), "ie-cover-match COVER not-allowed"},
			{"ie-cover-match, derived: coated", with(ie, route, fails, coating("COVER", "polyurethane")), "ie-cover-match COVER not-allowed"},
			{"ie-cover-match, derived: no fibre statement", with(ie, interliner, report("INTER", "is-419-3"), fails), "ie-cover-match COVER evidence-wanted"},
			{"ie-cover-match, derived: for its owner", with(ie, deal("reupholstered-for-owner"), report("COVER", "is-419-5")), "ie-cover-match COVER evidence-held"},
			{"ie-cover-match, derived: what was retained, for sale", with(ie, kept("COVER"), deal("second-hand-sale"), report("COVER", "is-419-5")), "ie-cover-match COVER evidence-held; ie-retained COVER none"},
			{"ie-cover-match, derived: contract", with(ie, use("contract")), "ie-cover-match COVER none; ie-contract COVER evidence-wanted; ie-contract - evidence-wanted; ie-label - none; ie-cover-cigarette COVER none; ie-filling FOAM none"},
			{"ie-cover-match, derived: a curtain", with(ie, item("curtain")), "ie-cover-match COVER none"},
			{"ie-cover-match, derived: a boat", with(ie, on("boat")), "ie-cover-match COVER none"},
			{"ie-cover-match, derived: exported", with(ie, to("california")), "ie-cover-match COVER none; ie-export COVER evidence-wanted; ie-contract COVER none; ie-out-of-trade COVER none"},
			{"ie-contract, derived: own use", with(ie, use("contract"), own), "ie-contract COVER none"},
			{"ie-export, derived: stays", ie, "ie-export COVER none; ie-out-of-trade COVER none; ie-contract COVER none; ie-retained FOAM none"},
			{"ie-cover-cigarette, derived: for its owner", with(ie, deal("reupholstered-for-owner"), report("COVER", "is-244-cigarette", "FOAM")), "ie-cover-cigarette COVER evidence-held"},
			{"ie-cover-cigarette, derived: retained, for sale", with(ie, kept("COVER"), deal("hire"), report("COVER", "is-244-cigarette", "FOAM")), "ie-cover-cigarette COVER evidence-held"},
			{"ie-interliner, derived: for its owner", with(ie, interliner, deal("reupholstered-for-owner"), report("INTER", "is-419-3")), "ie-interliner INTER evidence-held"},
			{"ie-interliner, derived: retained, for sale", with(ie, interliner, kept("INTER"), deal("hire"), report("INTER", "is-419-3")), "ie-interliner INTER evidence-held"},
			{"ie-interliner, derived: contract", with(ie, interliner, use("contract")), "ie-interliner INTER none"},
			{"ie-filling, derived: for its owner", with(ie, deal("reupholstered-for-owner"), report("FOAM", "is-419-filling")), "ie-filling FOAM evidence-held"},
			{"ie-filling, derived: retained, for sale", with(ie, kept("FOAM"), deal("hire"), report("FOAM", "is-419-filling")), "ie-filling FOAM evidence-held"},
			{"ie-lining, derived: part of the composite", with(lined, report("COVER", "is-244-cigarette", "CALICO", "FOAM")), "ie-lining CALICO evidence-held"},
			{"ie-lining, derived: left out", with(lined, report("COVER", "is-244-cigarette", "FOAM")), "ie-lining CALICO evidence-wanted"},
			{"ie-lining, derived: for its owner", with(lined, deal("reupholstered-for-owner"), report("COVER", "is-244-cigarette", "CALICO", "FOAM")), "ie-lining CALICO evidence-held"},
			{"ie-lining, derived: retained, for sale", with(lined, kept("CALICO"), deal("hire"), report("COVER", "is-244-cigarette", "CALICO", "FOAM")), "ie-lining CALICO evidence-held"},
			{"ie-lining, derived: retained", with(lined, kept("CALICO")), "ie-lining CALICO none; ie-retained CALICO evidence-wanted"},
			{"ie-lining, derived: contract", with(lined, use("contract")), "ie-lining CALICO none"},
			{"ie-retained, derived", with(ie, kept("FOAM")), "ie-retained FOAM evidence-wanted; ie-retained COVER none"},
			{"ie-label, derived: both", with(ie, yes(permanent), yes(display)), "ie-label - evidence-held"},
			{"ie-label, derived: one", with(ie, yes(permanent)), "ie-label - evidence-wanted"},
			{"ie-label, derived: the other", with(ie, yes(display)), "ie-label - evidence-wanted"},
			{"ie-label, derived: for its owner", with(ie, deal("reupholstered-for-owner")), "ie-label - none"},
			{"ie-out-of-trade, from memory", with(ie, own), "ie-out-of-trade COVER evidence-wanted; ie-cover-match COVER none"},
			{"ni-council-1950: 31 December 1949", with(ni, made("1949-12-31"), paper("dating-note")), "ni-council-1950 - exempt"},
			{"ni-council-1950: 1 January 1950", with(ni, made("1950-01-01"), paper("dating-note")), "ni-council-1950 - none"},
			{"ni-council-1950, derived: contract", with(ni, made("1908"), use("contract")), "ni-council-1950 - none"},
			{"ni-council-1950, derived: a boat", with(ni, made("1908"), on("boat")), "ni-council-1950 - none"},
			{"ni-council-1950, derived: own use", with(ni, made("1908"), own), "ni-council-1950 - none"},
			{"ni-council-1950, derived: exported", with(ni, made("1908"), to("california")), "ni-council-1950 - none; ni-product-file - none"},
			{"ni-product-file: held", with(ni, paper("product-file")), "ni-product-file - evidence-held"},
			{"ni-product-file: 13 December 2024", with(ni, asOf("2024-12-13")), "ni-product-file - evidence-wanted"},
			{"ni-product-file: 12 December 2024", with(ni, asOf("2024-12-12")), "ni-product-file - none"},
			{"ni-product-file, derived: for its owner", with(ni, deal("reupholstered-for-owner")), "ni-product-file - none"},
			{"eu-national, derived: every layer", eu, "eu-national-cover COVER evidence-wanted; eu-national-other FOAM evidence-wanted; eu-product-file - evidence-wanted"},
			{"eu-national, derived: the transaction makes no difference but in Britain there is none", gb(), "eu-national-cover COVER none; eu-national-other FOAM none"},
			{"eu-product-file: held", with(eu, paper("product-file")), "eu-product-file - evidence-held"},
			{"eu-product-file: 12 December 2024", with(eu, asOf("2024-12-12")), "eu-product-file - none"},
			{"eu-product-file, derived: for its owner", with(eu, deal("reupholstered-for-owner")), "eu-product-file - none"},
			{"canada", gb(place("canada")), "canada-textiles COVER evidence-wanted; anz-composites COVER none"},
			{"australia", gb(place("australia"), report("COVER", "as-nzs-3744", "FOAM")), "anz-composites COVER evidence-wanted; canada-textiles COVER none"},
			{"new-zealand", gb(place("new-zealand")), "anz-composites FOAM evidence-wanted"},
		})
}

// smoulder are the cases of the four sections, under the federal rules and
// under those of California.
func smoulder(pre string, base Job) []check {
	elsewhere := on("boat")
	barrier := func(id string) change { return report(id, "tb117-2013-2") }
	lined := with(base, interliner)
	deck := with(base, role("FOAM", roleDecking))
	loosely, tight := with(deck, yes(loosely)), with(deck, no(loosely))
	out := slices.Concat(
		ladder(pre+"-cover", "COVER", base, elsewhere, "not-allowed", "tb117-2013-1"),
		ladder(pre+"-filling", "FOAM", base, elsewhere, "not-allowed", "tb117-2013-3"),
		ladder(pre+"-barrier", "INTER", lined, elsewhere, "evidence-wanted", "tb117-2013-2"),
		ladder(pre+"-decking", "FOAM", loosely, elsewhere, "not-allowed", "tb117-2013-4"),
		ladder(pre+"-deck-as-filling", "FOAM", tight, elsewhere, "not-allowed", "tb117-2013-3"),
	)
	for _, c := range []struct {
		name, want string
		job        Job
	}{
		{"a cover not tested, over a barrier", "-cover COVER evidence-held", with(lined, barrier("INTER"))},
		{"a cover that fails, over a barrier that fails", "-cover COVER not-allowed", with(lined, report("INTER", "-tb117-2013-2"), report("COVER", "-tb117-2013-1"))},
		{"a cover that fails, the barrier has no report", "-cover COVER evidence-wanted", with(lined, report("COVER", "-tb117-2013-1"))},
		{"a cover that fails, the barrier lies beneath the foam", "-cover COVER not-allowed", with(base, lay(2, "INTER", roleInterliner, "woven-cloth", ""), barrier("INTER"), report("COVER", "-tb117-2013-1"))},
		{"a filling that fails, under a barrier", "-filling FOAM evidence-held", with(lined, barrier("INTER"), report("FOAM", "-tb117-2013-3"))},
		{"a filling not tested, under a barrier", "-filling FOAM evidence-wanted", with(lined, barrier("INTER"))},
		{"a filling that fails, the barrier has no report", "-filling FOAM evidence-wanted", with(lined, report("FOAM", "-tb117-2013-3"))},
		{"a filling that fails, under a barrier that fails", "-filling FOAM not-allowed", with(lined, report("INTER", "-tb117-2013-2"), report("FOAM", "-tb117-2013-3"))},
		{"a barrier that is only padding", "-barrier INTER evidence-held", with(lined, report("INTER", "-tb117-2013-2"), report("INTER", "tb117-2013-3"))},
		{"a barrier that fails both", "-barrier INTER not-allowed", with(lined, report("INTER", "-tb117-2013-2"), report("INTER", "-tb117-2013-3"))},
		{"padding without a report as a barrier", "-barrier INTER evidence-wanted", with(lined, report("INTER", "tb117-2013-3"))},
		{"a barrier that fails as padding", "-barrier INTER evidence-wanted", with(lined, report("INTER", "-tb117-2013-3"))},
		{"a deck, cushions not said", "-decking FOAM evidence-wanted", deck},
		{"a deck with loose cushions is no filling", "-deck-as-filling FOAM none", loosely},
		{"a deck without them is filling", "-decking FOAM none", tight},
		{"a deck under a barrier", "-deck-as-filling FOAM evidence-held", with(tight, interliner, barrier("INTER"), report("FOAM", "-tb117-2013-3"))},
		{"a deck under a barrier, not tested", "-deck-as-filling FOAM evidence-wanted", with(tight, interliner, barrier("INTER"))},
		{"a deck under a barrier without a report", "-deck-as-filling FOAM evidence-wanted", with(tight, interliner, report("FOAM", "-tb117-2013-3"))},
		{"gimp", "-unnamed GIMP exempt", with(base, lay(0, "GIMP", roleTrim, "other", ""))},
		{"calico", "-unnamed CALICO evidence-wanted", with(base, lay(1, "CALICO", roleLining, "woven-cloth", ""))},
		{"gimp in a boat", "-unnamed GIMP none", with(base, lay(0, "GIMP", roleTrim, "other", ""), elsewhere)},
	} {
		out = append(out, check{pre + ", derived: " + c.name, c.job, pre + c.want})
	}
	return out
}

func federal() []check {
	return append(smoulder("us", us()),
		check{"us-before-2021, derived: a boat", us(on("boat"), asOf("2020-01-01")), "us-before-2021 COVER none"},
		check{"us-same-owner, derived: own use", us(deal("own-use")), "us-same-owner COVER exempt; us-cover COVER none"},
		check{"us-same-owner, derived: a boat", us(deal("own-use"), on("boat")), "us-same-owner COVER none"},
		check{"us-same-owner, derived: not said", us(deal("")), "us-same-owner COVER none; us-cover COVER evidence-wanted"},
		check{"us-excluded, derived: a chair", us(), "us-excluded COVER none; us-not-seating COVER none; us-other-article COVER none; us-export COVER none; us-occupancy - none"},
		check{"us-excluded, derived: the item not said", us(item("")), "us-excluded COVER none; us-not-seating COVER none; us-other-article COVER evidence-wanted; us-cover COVER evidence-wanted"},
		check{"us-not-seating, derived: a headboard", us(item("headboard")), "us-not-seating COVER exempt; us-cover COVER none"},
		check{"us-other-article, derived: a seat pad", us(item("seat-pad")), "us-other-article COVER evidence-wanted"},
		check{"us-label, derived: fixed", us(yes(federalLabel)), "us-label - evidence-held"},
		check{"us-label, derived: not fixed", us(no(federalLabel)), "us-label - evidence-wanted"},
		check{"us-label, derived: same owner", us(deal("reupholstered-for-owner")), "us-label - none"},
		check{"us-occupancy, derived: a hospital", us(in("hospital"), use("")), "us-occupancy - evidence-wanted"},
		check{"us-occupancy, derived: an office under contract", us(in("office"), use("contract")), "us-occupancy - evidence-wanted"},
		check{"us-occupancy, derived: a hospital, use not said, and no other", us(in("office"), use("")), "us-occupancy - evidence-wanted"},
		check{"us-occupancy, derived: a flat", us(in("dwelling"), use("let-home")), "us-occupancy - none"},
		check{"us-occupancy, derived: a dormitory that is let", us(in("dormitory"), use("let-home")), "us-occupancy - evidence-wanted"},
		check{"us-export, from memory", us(to("ireland")), "us-export COVER evidence-wanted"},
	)
}

func federalLabel(j *Job) *Answer { return &j.FederalLabel }

func california() []check {
	owner := deal("reupholstered-for-owner")
	statement := paperFor("FOAM", "flame-retardant-statement")
	thin := func(depth int64) Job {
		return ca(yes(smooth), no(meets), in("dwelling"), at("FOAM", func(l *Layer) { l.Thickness = 12700*mm/1000 + length.Length(depth) }))
	}
	fr := func(kind string, ppm int64, more ...change) Job {
		return ca(append([]change{retardant("FOAM", "yes", kind, ppm)}, more...)...)
	}
	return append(smoulder("ca", ca()),
		check{"4 CCR 1374.2(b): half an inch, smooth, no seat meeting a back", thin(0), "ca-exempt-article COVER exempt; ca-cover COVER none; us-cover COVER evidence-wanted"},
		check{"4 CCR 1374.2(b): a nanometre more", thin(1), "ca-exempt-article COVER none; ca-cover COVER evidence-wanted"},
		check{"4 CCR 1374.2(b): a nanometre less", thin(-1), "ca-exempt-article COVER exempt"},
		check{"4 CCR 1374.2(b): a seat meets a back", with(thin(0), yes(meets)), "ca-exempt-article COVER none"},
		check{"4 CCR 1374.2(b): not smooth", with(thin(0), no(smooth)), "ca-exempt-article COVER none"},
		check{"4 CCR 1374.2(b): the depth not said", ca(yes(smooth), no(meets)), "ca-exempt-article COVER none; ca-cover COVER evidence-wanted"},
		check{"4 CCR 1374.2: not in facilities for care", with(thin(0), in("hospital")), "ca-exempt-article COVER none; ca-cover COVER evidence-wanted"},
		check{"4 CCR 1374.2: an office is none", with(thin(0), in("office")), "ca-exempt-article COVER exempt"},
		check{"4 CCR 1374.2(a): an outdoor cushion", ca(item("outdoor-only"), in("dwelling")), "ca-exempt-article COVER exempt; ca-cover COVER none"},
		check{"4 CCR 1374.2(c): a highchair", ca(item("baby-article"), in("dwelling")), "ca-exempt-article COVER exempt"},
		check{"4 CCR 1374.2(d): prescribed, with the copy", ca(yes(ordered), in("dwelling"), paper("prescription")), "ca-exempt-article COVER exempt; ca-cover COVER none"},
		check{"4 CCR 1374.2(d): prescribed, no copy", ca(yes(ordered), in("dwelling")), "ca-exempt-article COVER none; ca-cover COVER evidence-wanted"},
		check{"4 CCR 1374.2(d): prescribed, in a boat", ca(yes(ordered), in("dwelling"), paper("prescription"), on("boat")), "ca-exempt-article COVER none"},
		check{"ca-recover-only, derived: filling not said", ca(owner), "ca-recover-only COVER none; ca-cover COVER evidence-wanted"},
		check{"ca-recover-only, derived: for sale", ca(no(added)), "ca-recover-only COVER none; ca-cover COVER evidence-wanted"},
		check{"ca-recover-only, derived: a boat", ca(owner, no(added), on("boat")), "ca-recover-only COVER none"},
		check{"BPC 19161(c), owner, filling added, with its report", ca(owner, yes(added), report("FOAM", "tb117-2013-3"), report("COVER", "tb117-2013-1")), "ca-filling FOAM evidence-held; ca-cover COVER evidence-held"},
		check{"BPC 19161(c), own use with filling added", ca(deal("own-use"), yes(added)), "ca-filling FOAM none; ca-licence - none"},
		check{"TB 117-2013 in California on 31 December 2014", ca(asOf("2014-12-31")), "ca-cover COVER none"},
		check{"TB 117-2013 in California on 1 January 2015", ca(asOf("2015-01-01")), "ca-cover COVER evidence-wanted"},
		check{"ca-flame-retardant, derived: none added, with the statement", ca(retardant("FOAM", "no", "", 0), statement), "ca-flame-retardant FOAM evidence-held"},
		check{"ca-flame-retardant, derived: none added, no statement", ca(retardant("FOAM", "no", "", 0)), "ca-flame-retardant FOAM evidence-wanted"},
		check{"ca-flame-retardant, derived: not said", ca(statement), "ca-flame-retardant FOAM evidence-wanted"},
		check{"ca-flame-retardant, derived: organophosphorus", fr("organophosphorus", 1001), "ca-flame-retardant FOAM not-allowed"},
		check{"ca-flame-retardant, derived: within the limit, no statement", fr("halogenated", 999), "ca-flame-retardant FOAM evidence-wanted"},
		check{"ca-flame-retardant, derived: another chemical, above", fr("other", 1001, statement), "ca-flame-retardant FOAM evidence-wanted"},
		check{"ca-flame-retardant, derived: sold second-hand", fr("halogenated", 5000, deal("second-hand-sale")), "ca-flame-retardant FOAM exempt"},
		check{"ca-flame-retardant, derived: retained, on sale", fr("halogenated", 5000, from("FOAM", "retained")), "ca-flame-retardant FOAM not-allowed"},
		check{"ca-flame-retardant, derived: modacrylic with a listed chemical", fr("halogenated", 5000, of("FOAM", "modacrylic-cloth", "")), "ca-flame-retardant FOAM not-allowed"},
		check{"ca-flame-retardant, derived: kind none, another cloth", ca(retardant("FOAM", "no", "none", 0)), "ca-flame-retardant FOAM evidence-wanted"},
		check{"ca-flame-retardant, derived: a boat", fr("halogenated", 5000, on("boat")), "ca-flame-retardant FOAM none"},
		check{"ca-flame-retardant, derived: own use", fr("halogenated", 5000, deal("own-use")), "ca-flame-retardant FOAM none"},
		check{"ca-flame-retardant, derived: outdoors", fr("halogenated", 5000, item("outdoor-only")), "ca-flame-retardant FOAM none"},
		check{"ca-chemical-label, derived: fixed", ca(yes(chemical)), "ca-chemical-label - evidence-held"},
		check{"ca-chemical-label, derived: not fixed", ca(no(chemical)), "ca-chemical-label - evidence-wanted"},
		check{"ca-chemical-label, derived: recovered only", ca(owner, no(added)), "ca-chemical-label - none"},
		check{"ca-licence, derived: held", ca(paper("licence")), "ca-licence - evidence-held"},
		check{"ca-licence, derived: not held", ca(), "ca-licence - evidence-wanted; ca-work-order - none"},
		check{"ca-licence, derived: a boat", ca(on("boat")), "ca-licence - none"},
		check{"BPC 19163: work order held", ca(owner, paper("work-order")), "ca-work-order - evidence-held"},
		check{"BPC 19163: none", ca(owner), "ca-work-order - evidence-wanted"},
		check{"BPC 19163: a boat", ca(owner, on("boat")), "ca-work-order - none"},
	)
}

func states() []check {
	var out []check
	for _, s := range []struct {
		rule, place, kind string
		limit             int64 // the least that is too much; 0: never forbidden
		used              bool
	}{
		{"me-flame-retardant", "maine", "other", 1001, true},
		{"nh-flame-retardant", "new-hampshire", "organonitrogen", 1001, true},
		{"ma-flame-retardant", "massachusetts", "antimony-trioxide", 1001, true},
		{"ri-flame-retardant", "rhode-island", "halogenated", 1000, true},
		{"wa-flame-retardant", "washington", "halogenated", 1001, false},
		{"nv-flame-retardant", "nevada", "halogenated", 0, true},
		{"ny-flame-retardant", "new-york", "halogenated", 0, false},
	} {
		base := us(place(s.place), deal("new"))
		add := func(name, want string, more ...change) {
			out = append(out, check{s.rule + ", derived: " + name, with(base, more...), s.rule + " FOAM " + want})
		}
		add("nothing said", "evidence-wanted")
		add("none added, with the statement", "evidence-held", retardant("FOAM", "no", "", 0), paperFor("FOAM", "flame-retardant-statement"))
		add("none added, no statement", "evidence-wanted", retardant("FOAM", "no", "", 0))
		add("a statement that says nothing", "evidence-wanted", paperFor("FOAM", "flame-retardant-statement"))
		if s.limit > 0 {
			add("too much", "not-allowed", retardant("FOAM", "yes", s.kind, s.limit))
			add("one less", "evidence-wanted", retardant("FOAM", "yes", s.kind, s.limit-1))
			add("one more", "not-allowed", retardant("FOAM", "yes", s.kind, s.limit+1))
			add("another kind", "evidence-wanted", retardant("FOAM", "yes", "none", 5000))
			add("repair for the owner", "evidence-wanted", retardant("FOAM", "yes", s.kind, 5000), deal("reupholstered-for-owner"))
			add("figure without whether it is added", "evidence-wanted", func(j *Job) {
				retardant("FOAM", "yes", s.kind, 5000)(j)
				at("FOAM", func(l *Layer) { l.FlameRetardant = "" })(j)
			})
		} else {
			add("much", "evidence-wanted", retardant("FOAM", "yes", s.kind, 5000))
		}
		if s.used {
			add("sold second-hand", "exempt", deal("second-hand-sale"))
		}
		add("own use", "none", deal("own-use"))
		add("a curtain", "none", item("curtain"))
		add("leaves the State", "none", to("ireland"))
	}
	return append(out,
		check{"us-state-export, from memory", us(place("maine"), to("ireland")), "us-state-export COVER evidence-wanted"},
		check{"us-state-export: stays", us(place("maine")), "us-state-export COVER none"})
}
