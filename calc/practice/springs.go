package practice

import "github.com/bridletie/bridletie/calc/length"

// Springs is which spring to take. These are advice, and no request gives them.
const Springs Subject = "springs"

// Spring is the settings of a spring.
type Spring struct {
	Height LengthKey
	Gauge  NumberKey // of the Standard Wire Gauge
}

// The springs by what they are for, and the rule that goes by the rail.
var (
	BackSpring      = spring("back-spring", "in a back", 6, 12_000, text1961+": 6 in × 12 in an easy chair's back")
	DivanSpring     = spring("divan-spring", "in a divan", 7, 12_000, "trade text on divans: 6 to 7 in × 12")
	EasyChairSpring = spring("easy-chair-spring", "in the seat of an easy chair", 10, 8_000, text1961+": nine of 10 in × 8 in an easy chair's seat")
	SmallSpring     = spring("small-spring", "in the seat of a small chair", 6, 10_500, spons+": five of 6 in in a small chair; Furniture for the Craftsman: 10½ gauge")

	SpringByRail  = Springs.number("spring-by-rail", "height of a seat spring, in times of the rail", "times", 2_000, 1_000, 4_000, johnson+": twice the rail")
	SpringLowest  = Springs.length("spring-lowest", "the lowest spring that is made", 3*in, in, 6*in, text1961+": 3 to 14 in")
	SpringHighest = Springs.length("spring-highest", "the highest spring that is made", 14*in, 7*in, 20*in, text1961+": 3 to 14 in")
)

func spring(name, what string, inches, gauge int64, source string) Spring {
	return Spring{
		Height: Springs.length(name+"-height", "height of a spring "+what, length.Length(inches)*in, 3*in, 14*in, source),
		Gauge:  Springs.number(name+"-gauge", "gauge of a spring "+what, "", gauge, 7_000, 15_000, source),
	}
}
