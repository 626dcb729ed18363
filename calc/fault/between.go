package fault

import "github.com/bridletie/bridletie/calc/length"

// Between records a fault when v lies outside the closed range from least to
// most. What names the quantity in the sentence, such as "the width".
func (l *List) Between(at Path, what string, v, least, most length.Length) {
	lo, hi := words(least), words(most)
	try := "from " + lo + " to " + hi
	switch {
	case v < least:
		l.Add(at, TooSmall, v.String(), what+" is at least "+lo, try)
	case v > most:
		l.Add(at, TooLarge, v.String(), what+" is at most "+hi, try)
	}
}

// words prints a limit: exactly, and in metres or centimetres where that can be.
func words(v length.Length) string {
	if v < length.Centimetre && v > -length.Centimetre || v%length.Millimetre != 0 {
		return v.String()
	}
	return v.Text(length.Metric, length.Nearest)
}
