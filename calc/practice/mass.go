package practice

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
)

// Masses in milligrams; the ounce is rounded down, so that ounces are rounded up.
const (
	gram  = 1_000
	kilo  = 1_000_000
	ounce = 28_349
)

// MassText is a mass in milligrams for people, rounded up once: to the gram below
// a kilogram and to ten grams above ("250 g", "1.24 kg"), or to the ounce ("2 lb 3
// oz").
func MassText(mg int64, sys length.System) string {
	mg = max(mg, 0)
	if sys == length.Imperial {
		oz := (mg + ounce - 1) / ounce
		switch {
		case oz < 16:
			return strconv.FormatInt(oz, 10) + " oz"
		case oz%16 == 0:
			return strconv.FormatInt(oz/16, 10) + " lb"
		}
		return strconv.FormatInt(oz/16, 10) + " lb " + strconv.FormatInt(oz%16, 10) + " oz"
	}
	if g := (mg + gram - 1) / gram; g < 1000 {
		return strconv.FormatInt(g, 10) + " g"
	}
	hundredths := (mg + kilo/100 - 1) / (kilo / 100)
	return Decimal(hundredths*One/100) + " kg"
}
