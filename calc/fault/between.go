package fault

import "github.com/bridletie/bridletie/calc/length"

// Between records a fault when v lies outside the closed range from least to
// most. What names the quantity in the sentence, such as "the width".
func (l *List) Between(at Path, what string, v, least, most length.Length) {
	if v >= least && v <= most {
		return
	}
	code, says, bound := TooSmall, " is at least ", least
	if v >= least {
		code, says, bound = TooLarge, " is at most ", most
	}
	l.Add(at, code, v.String(), what+says+words(bound), "from "+words(least)+" to "+words(most))
}

// words prints a limit: exactly, and in metres or centimetres where that can be.
func words(v length.Length) string {
	if v < length.Centimetre && v > -length.Centimetre || v%length.Millimetre != 0 {
		return v.String()
	}
	return v.Text(length.Metric, length.Nearest)
}
