package wadding

import (
	"math"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

const mm = length.Millimetre

// Book is the settings that a job may give.
func Book() *practice.Book { return book }

var book = practice.BookOf(practice.Wadding)

// Practice is what the job goes by: its own settings before those of the
// workroom.
func (job Job) Practice() practice.Set { return job.Shop.With(job.Given...) }

// sheet is the settings of a sheet.
func (m Material) sheet() practice.Sheet {
	return [...]practice.Sheet{Polyester: practice.Polyester, Skin: practice.Skin, CottonFelt: practice.CottonFelt}[m]
}

// loose is the settings of a loose filling.
func (m Material) loose() practice.Loose {
	return [...]practice.Loose{Hair: practice.Hair, Fibre: practice.Fibre}[m]
}

// seat is how much a seat takes.
func (p Place) seat() practice.NumberKey {
	return [...]practice.NumberKey{StuffOver: practice.StuffOverSeat, DropIn: practice.DropInSeat, EasyChair: practice.EasyChairSeat}[p]
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
