package buttoning

import "github.com/bridletie/bridletie/calc/length"

// centred is a modulo b, from -b/2 to less than b/2.
func centred(a, b length.Length) length.Length {
	a = length.Mod(a, b)
	if a >= b-b/2 {
		a -= b
	}
	return a
}
