package cloth

import (
	"errors"

	"github.com/bridletie/bridletie/calc/length"
)

// Share is a percentage, counted exactly in millionths: 2 % is 20,000.
type Share int64

// Percent is one hundredth.
const Percent Share = 10_000

// MaxShare bounds flaw and shrinkage allowances: 50 %.
const MaxShare = 50 * Percent

// Sold says how a cloth is sold and what must be allowed for.
type Sold struct {
	Step      length.Length // sold in multiples of this; 0 means any length
	Minimum   length.Length // least length sold; 0 means none
	Bolt      length.Length // longest length in one piece; 0 means no limit
	Flaw      Share         // extra for flaws: a share added to the need
	Shrinkage Share         // share lost in length when washed before cutting
}

// ErrTooLong says that an order would not fit a Length.
var ErrTooLong = errors.New("cloth: order too long")

// Order is what to buy so that need can be cut: need grown by flaws
// (need * (1 + Flaw)), then for shrinkage (divided by 1 - Shrinkage), then
// rounded up to the step and to the minimum. Rounding is upward at every step;
// a need of 0 orders nothing.
func (s Sold) Order(need length.Length) (length.Length, error) {
	if need <= 0 {
		return 0, nil
	}
	const whole = int64(1_000_000)
	grown, ok := length.Scale(need, whole+int64(s.Flaw), whole, length.Up)
	if !ok {
		return 0, ErrTooLong
	}
	grown, ok = length.Scale(grown, whole, whole-int64(s.Shrinkage), length.Up)
	if !ok {
		return 0, ErrTooLong
	}
	order := max(grown, s.Minimum)
	if s.Step > 0 {
		if order, ok = length.RoundUpTo(order, s.Step); !ok {
			return 0, ErrTooLong
		}
	}
	return order, nil
}
