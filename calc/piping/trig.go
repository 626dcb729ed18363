package piping

import "github.com/bridletie/bridletie/calc/length"

// The angles between a bias strip and the selvedge, in degrees.
const (
	LeastAngle = 15
	TrueBias   = 45
	MostAngle  = 75
)

// sines are those of LeastAngle to MostAngle degrees, to the last bit of a
// float64. A table gives the same figures on every machine.
var sines = [MostAngle - LeastAngle + 1]float64{
	0.2588190451025207623, 0.2756373558169991856, 0.2923717047227367281, 0.3090169943749474241, 0.3255681544571566687,
	0.342020143325668733, 0.3583679495453002735, 0.3746065934159120354, 0.3907311284892737551, 0.4067366430758002078,
	0.4226182617406994362, 0.4383711467890774175, 0.4539904997395467916, 0.469471562785890776, 0.4848096202463370291,
	0.5, 0.5150380749100542101, 0.529919264233204954, 0.5446390350150270822, 0.5591929034707468302,
	0.5735764363510460961, 0.5877852522924731292, 0.6018150231520482799, 0.6156614753256582797, 0.6293203910498374527,
	0.6427876096865393263, 0.6560590289905072848, 0.6691306063588582138, 0.6819983600624985004, 0.6946583704589972867,
	0.7071067811865475244, 0.7193398003386511394, 0.7313537016191704833, 0.743144825477394235, 0.7547095802227719979,
	0.7660444431189780352, 0.77714596145697088, 0.7880107536067219567, 0.7986355100472928463, 0.8090169943749474241,
	0.8191520442889917897, 0.829037572555041692, 0.8386705679454240296, 0.8480480961564259704, 0.8571673007021122875,
	0.8660254037844386468, 0.8746197071393958003, 0.882947592858926942, 0.8910065241883678624, 0.8987940462991669928,
	0.9063077870366499632, 0.9135454576426008955, 0.9205048534524403274, 0.9271838545667874008, 0.933580426497201749,
	0.9396926207859083841, 0.9455185755993168103, 0.9510565162951535721, 0.9563047559630354813, 0.9612616959383188619,
	0.9659258262890682867,
}

// sinCos are the sine and cosine of whole degrees from LeastAngle to MostAngle;
// what lies outside is taken as the nearer end.
func sinCos(degrees int) (sin, cos float64) {
	d := min(max(degrees, LeastAngle), MostAngle)
	return sines[d-LeastAngle], sines[90-d-LeastAngle]
}

// slack, in nanometres, is more than what a float64 loses in these sums and less
// than a micrometre: a length that comes out whole but for it stays whole.
const slack = 0.01

// rounded is a length in nanometres as a multiple of a step.
func rounded(nm float64, step length.Length, r length.Rounding) length.Length {
	return length.RoundMM(nm/float64(length.Millimetre), step, r)
}

// down is a length in nanometres, rounded down to the micrometre.
func down(nm float64) length.Length { return rounded(nm, length.Micrometre, length.Down) }

// up is a length in nanometres, rounded up to the micrometre.
func up(nm float64) length.Length { return rounded(nm, length.Micrometre, length.Up) }

// scaled is a length times a factor, in nanometres.
func scaled(l length.Length, by float64) float64 { return float64(float64(l) * by) }
