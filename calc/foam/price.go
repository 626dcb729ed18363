package foam

import (
	"fmt"
	"strconv"
	"strings"
)

// Amount is money in ten-thousandths of the currency's unit: exact, and sums are.
type Amount int64

// perUnit is how many make one.
const perUnit = 10_000

// MaxAmount is the highest price of a sheet.
const MaxAmount = 100_000 * Amount(perUnit)

// ParseAmount reads a decimal of at most 6 digits and 4 decimals, such as "48.50".
func ParseAmount(s string) (Amount, bool) {
	whole, part, point := strings.Cut(s, ".")
	if whole == "" || len(whole) > 6 || point && (part == "" || len(part) > 4) || strings.Trim(whole+part, "0123456789") != "" {
		return 0, false
	}
	n, err := strconv.ParseInt(whole+(part + "0000")[:4], 10, 64)
	return Amount(n), err == nil
}

// Text is the amount in decimals: two, or more where it needs them.
func (a Amount) Text() string {
	s := fmt.Sprintf("%d.%04d", a/perUnit, a%perUnit)
	for range 2 {
		s = strings.TrimSuffix(s, "0")
	}
	return s
}
