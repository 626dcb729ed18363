package practice

import "github.com/bridletie/bridletie/calc/length"

// Estimate is from what to what an estimate goes.
const Estimate Subject = "estimate"

// How far what is not known may be out, in percent of the likely figure.
var (
	EstimateMeasure  = percent("estimate-measure", "how far a measure that was not taken may be out, either way", 7, 0, 50)
	EstimateHoursOff = percent("estimate-hours-off", "by how much less the work may take", 15, 0, 90)
	EstimateHoursOn  = percent("estimate-hours-on", "by how much more the work may take", 25, 0, 200)
	EstimateSmall    = percent("estimate-small", "measures of a small piece, of the usual ones", 88, 50, 100)
	EstimateLarge    = percent("estimate-large", "measures of a large piece, of the usual ones", 115, 100, 200)
)

// EstimateStep is how fine a measure that was not taken is.
var EstimateStep = Estimate.length("estimate-step", "measures that were not taken are whole multiples of", 5*mm, mm, 5*cm, Common)

func percent(name, what string, standard, least, most int64) CountKey {
	return Estimate.count(name, what, "%", standard, least, most, Common)
}

// Repeat is the settings of a pattern that stands for its class.
type Repeat struct {
	Along, Across LengthKey
	Drop          CountKey // 1 for a straight match, 2 for a half-drop
}

// The smaller, the usual and the larger repeat of each class.
var (
	SmallRepeats = [3]Repeat{
		repeat("small-pattern-low", 8*cm, 7*cm, 1), repeat("small-pattern-likely", 12*cm, 14*cm, 1), repeat("small-pattern-high", 18*cm, 14*cm, 2),
	}
	MediumRepeats = [3]Repeat{
		repeat("medium-pattern-low", 24*cm, 23*cm, 1), repeat("medium-pattern-likely", 32*cm, 34*cm, 1), repeat("medium-pattern-high", 45*cm, 45*cm, 2),
	}
	LargeRepeats = [3]Repeat{
		repeat("large-pattern-low", 46*cm, 34*cm, 1), repeat("large-pattern-likely", 64*cm, 68*cm, 2), repeat("large-pattern-high", 76*cm, 68*cm, 2),
	}
)

func repeat(name string, along, across length.Length, drop int64) Repeat {
	return Repeat{
		Along:  Estimate.length(name+"-along", "length repeat that an estimate reckons with", along, cm, 2*length.Metre, Common),
		Across: Estimate.length(name+"-across", "width repeat that an estimate reckons with", across, cm, 2*length.Metre, Common),
		Drop:   Estimate.count(name+"-drop", "by which part of the repeat the next column is lower, 1 for none", "", drop, 1, 12, Common),
	}
}
