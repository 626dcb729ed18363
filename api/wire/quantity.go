package wire

import (
	"math"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"github.com/bridletie/bridletie/api/formats"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/money"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

func lengthFrom(s string) length.Length {
	l, err := length.Parse(s)
	if err != nil {
		return 0
	}
	return l
}

// millionths is a number that the contract keeps to six decimals and far from
// the ends of the range.
func millionths(f float64) int64 { return int64(math.Round(f * practice.One)) }

// quantityIn is a length for people and for programs.
func quantityIn(units length.System, l length.Length, r length.Rounding) gen.Quantity {
	return gen.Quantity{Mm: l.MM(), Text: l.Text(units, r)}
}

// massIn is a mass in milligrams for people and for programs.
func massIn(units length.System, mg int64) gen.BenchMass {
	return gen.BenchMass{Grams: float64(mg) / 1000, Text: practice.MassText(mg, units)}
}

// fromMM is a coordinate, which the contract keeps far from the ends of the
// range.
func fromMM(mm float64) length.Length {
	l, err := length.FromMM(mm)
	if err != nil {
		return 0
	}
	return l
}

func maybeMM(mm *float64) *length.Length {
	if mm == nil {
		return nil
	}
	l := fromMM(*mm)
	return &l
}

func (w answerWriter) some(l length.Length, r length.Rounding) *gen.Quantity {
	q := w.quantity(l, r)
	return &q
}

// text is a length on the wire, "" for none.
func text(l length.Length) string {
	if l == 0 {
		return ""
	}
	return l.String()
}

// decimalFrom is a decimal number; one that the contract refuses counts as 0.
func decimalFrom(s string) decimal.Decimal {
	d, _ := money.ParseAmount(s)
	return d
}

// percentFrom is a percentage; one that the contract refuses counts as 0.
func percentFrom(s string) decimal.Decimal {
	share, _ := formats.Share(s)
	return decimal.New(int64(share), -4)
}

// kilogramsFrom is a mass in milligrams; one that the contract refuses counts as
// 0.
func kilogramsFrom(s string) int64 {
	whole, part, point := strings.Cut(s, ".")
	if !formats.Digits(whole) || len(whole) > 4 || point && (!formats.Digits(part) || len(part) > 6) {
		return 0
	}
	mg, _ := strconv.ParseInt(whole+(part + "000000")[:6], 10, 64)
	return mg
}

// answerWriter puts an answer into the wire form, with its texts in the units
// that were asked for.
type answerWriter struct {
	ans   *service.YardageAnswer
	units length.System
}

// quantity is a length for people and for programs.
func (w answerWriter) quantity(l length.Length, r length.Rounding) gen.Quantity {
	return gen.Quantity{Mm: l.MM(), Text: l.Text(w.units, r)}
}

func wholeMM(l length.Length) int {
	return int(l.Round(length.Millimetre, length.Nearest) / length.Millimetre)
}

// toMillionth leaves out what two machines might see differently.
func toMillionth(x float64) float64 {
	x = math.Round(x*1e6) / 1e6
	if x == 0 {
		return 0 // and not -0
	}
	return x
}
