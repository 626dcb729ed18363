package length

// system is a family of units that may stand together in one compound length.
type system uint8

const (
	metric system = iota
	imperial
)

// unit is a unit of the notation: its size, and the family it belongs to.
type unit struct {
	size   Length
	family system
}

// maxUnitWord is the length in bytes of the longest unit word, "centimetres".
const maxUnitWord = 11

// unitOfWord returns the unit a word names, whatever the case of its letters.
// Only ASCII letters fold: a long s or a Kelvin sign is no letter of a unit.
func unitOfWord(word string) (unit, bool) {
	if len(word) > maxUnitWord {
		return unit{}, false
	}
	var buf [maxUnitWord]byte
	low := buf[:copy(buf[:], word)]
	for i, c := range low {
		if 'A' <= c && c <= 'Z' {
			low[i] = c + 'a' - 'A'
		}
	}
	switch string(low) {
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters":
		return unit{Millimetre, metric}, true
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters":
		return unit{Centimetre, metric}, true
	case "m", "metre", "metres", "meter", "meters":
		return unit{Metre, metric}, true
	case "in", "inch", "inches":
		return unit{Inch, imperial}, true
	case "ft", "foot", "feet":
		return unit{Foot, imperial}, true
	case "yd", "yard", "yards":
		return unit{Yard, imperial}, true
	}
	return unit{}, false
}

// unitOfPrime returns the unit a single or double prime stands for: the ASCII
// quotes, the true primes, and the closing quotes that word processors put in
// their place.
func unitOfPrime(r rune) (unit, bool) {
	switch r {
	case '\'', '′', '’':
		return unit{Foot, imperial}, true
	case '"', '″', '”':
		return unit{Inch, imperial}, true
	}
	return unit{}, false
}

// vulgar returns the parts of a fraction that Unicode has as one character;
// ok is false for any other rune.
func vulgar(r rune) (num, den uint64, ok bool) {
	switch r {
	case '½':
		return 1, 2, true
	case '⅓':
		return 1, 3, true
	case '⅔':
		return 2, 3, true
	case '¼':
		return 1, 4, true
	case '¾':
		return 3, 4, true
	case '⅕':
		return 1, 5, true
	case '⅖':
		return 2, 5, true
	case '⅗':
		return 3, 5, true
	case '⅘':
		return 4, 5, true
	case '⅙':
		return 1, 6, true
	case '⅚':
		return 5, 6, true
	case '⅛':
		return 1, 8, true
	case '⅜':
		return 3, 8, true
	case '⅝':
		return 5, 8, true
	case '⅞':
		return 7, 8, true
	}
	return 0, 0, false
}
