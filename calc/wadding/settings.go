package wadding

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

const (
	johnson = "Johnson, Furniture Upholstery for Schools, 1919"
	trade   = "trade text on battings"
	common  = practice.Common

	mm = length.Millimetre
	in = length.Inch
)

// Book is every constant that this package goes by.
func Book() *practice.Book { return book }

var book = practice.NewBook(sheetSettings(), looseSettings(), otherSettings())

func sheetSettings() []practice.Setting {
	var out []practice.Setting
	sheet := func(m Material, width, roll length.Length, weight int64, loft length.Length, compression int64, source, loftSource string) {
		name := m.String()
		out = append(out,
			practice.Of(name+"-width", "width of a roll of "+name, width, 100*mm, 5*length.Metre, source),
			practice.Of(name+"-roll", "length of a roll of "+name, roll, 500*mm, 500*length.Metre, source),
			practice.Factor(name+"-weight", "weight of "+name, "g/m²", weight, 5_000, 5_000_000, source),
			practice.Of(name+"-loft", "thickness of one layer of "+name+" as it comes", loft, mm, 200*mm, loftSource),
			practice.Factor(name+"-compression", "part of its thickness that "+name+" loses under the cover", "", compression, 0, 900, common),
		)
	}
	sheet(Polyester, 27*in, 25*length.Yard, 376_000, 25*mm, 400, trade+": 27 in wide, 13 lb to 70 to 80 ft", common)
	sheet(Skin, 30*in, 12*length.Yard, 54_250, 6*mm, 500, johnson+": sheets of 30 × 36 in, 1 lb to the dozen", common)
	sheet(CottonFelt, 27*in, 20*length.Yard, 723_000, in, 300, trade+": 27 in wide, 1 in thick, 1 yd to the pound, rolls of 18 to 22 lb", trade+": 1 in")
	return out
}

func looseSettings() []practice.Setting {
	return []practice.Setting{
		practice.Factor("hair-density", "curled hair as it lies in the work", "kg/m³", 80_000, 5_000, 400_000, common+"; from 1 1/2 to 2 lb on a stuff-over seat"),
		practice.Factor("hair-bag", "hair in one bag", "kg", 1_000, 50, 100_000, common),
		practice.Factor("hair-compression", "part of its depth that hair loses under the cover", "", 400, 0, 900, common),
		practice.Factor("fibre-density", "fibre as it lies in the work", "kg/m³", 90_000, 5_000, 400_000, common),
		practice.Factor("fibre-bag", "fibre in one bag", "kg", 5_000, 50, 100_000, common),
		practice.Factor("fibre-compression", "part of its depth that fibre loses under the cover", "", 400, 0, 900, common),
		practice.Factor("drop-in-seat", "hair or fibre in a drop-in seat", "kg", 454, 50, 50_000, common+": 1/2 to 1 lb"),
		practice.Factor("stuff-over-seat", "hair or fibre in a stuff-over seat", "kg", 908, 50, 50_000, common+": 1 1/2 to 2 lb"),
		practice.Factor("easy-chair-seat", "hair or fibre in an easy chair", "kg", 5_444, 50, 50_000, common+": 8 to 12 lb"),
	}
}

func otherSettings() []practice.Setting {
	return []practice.Setting{
		practice.Of("overlap", "by which the two ends of a wrap lie one over the other", 0, 0, 500*mm, common),
		practice.Of("join-lap", "by which joined pieces lie one over the other", 30*mm, 0, 200*mm, common),
		practice.Of("sheet-step", "wadding is cut from the roll in multiples of", 10*mm, mm, length.Metre, common),
	}
}

// OuncesPerSquareYard is a weight of that many ounces to the square yard, in
// millionths of g/m², rounded to the nearest; ounces are given in millionths too.
// 1 oz is 28.349523125 g and 1 yd² is 0.83612736 m², so that 1 oz/yd² is
// 33.905747… g/m².
func OuncesPerSquareYard(ounces int64) int64 {
	return ratio(ounces, 28_349_523_125, 836_127_360)
}

// OuncesPerRunningYard is a weight of that many ounces to the running yard of a
// cloth of that width, in millionths of g/m²; hessian is sold by either.
func OuncesPerRunningYard(ounces int64, width length.Length) int64 {
	if width <= 0 {
		return 0
	}
	return ratio(OuncesPerSquareYard(ounces), int64(length.Yard), int64(width))
}

// ratio is v × num / den rounded to the nearest, for v, num and den not negative;
// the largest number where that is too large.
func ratio(v, num, den int64) int64 {
	n, ok := length.Scale(length.Length(max(v, 0)), num, den, length.Nearest)
	if !ok {
		return math.MaxInt64
	}
	return int64(n)
}
