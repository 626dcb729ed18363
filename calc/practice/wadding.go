package practice

import "github.com/bridletie/bridletie/calc/length"

// Wadding is what wraps and fills.
const Wadding Subject = "wadding"

// Sheet is the settings of a wadding that comes off a roll.
type Sheet struct {
	Width, Roll LengthKey
	Weight      NumberKey
	Loft        LengthKey
	Compression NumberKey
}

// The sheets.
var (
	Polyester  = sheet("polyester", 27*in, 25*length.Yard, 376_000, 25*mm, 400, battings+": 27 in wide, 13 lb to 70 to 80 ft", Common)
	Skin       = sheet("skin", 30*in, 12*length.Yard, 54_250, 6*mm, 500, johnson+": sheets of 30 × 36 in, 1 lb to the dozen", Common)
	CottonFelt = sheet("cotton-felt", 27*in, 20*length.Yard, 723_000, in, 300, battings+": 27 in wide, 1 in thick, 1 yd to the pound, rolls of 18 to 22 lb", battings+": 1 in")
)

func sheet(name string, width, roll length.Length, weight int64, loft length.Length, compression int64, source, loftSource string) Sheet {
	return Sheet{
		Width:       Wadding.length(name+"-width", "width of a roll of "+name, width, 100*mm, 5*length.Metre, source),
		Roll:        Wadding.length(name+"-roll", "length of a roll of "+name, roll, 500*mm, 500*length.Metre, source),
		Weight:      Wadding.number(name+"-weight", "weight of "+name, "g/m²", weight, 5_000, 5_000_000, source),
		Loft:        Wadding.length(name+"-loft", "thickness of one layer of "+name+" as it comes", loft, mm, 200*mm, loftSource),
		Compression: Wadding.number(name+"-compression", "part of its thickness that "+name+" loses under the cover", "", compression, 0, 900, Common),
	}
}

// Loose is the settings of a filling that is weighed.
type Loose struct{ Density, Bag, Compression NumberKey }

// The loose fillings.
var (
	Hair  = loose("hair", "curled hair", 1_000, Common+"; from 1 1/2 to 2 lb on a stuff-over seat", 80_000)
	Fibre = loose("fibre", "fibre", 5_000, Common, 90_000)
)

func loose(name, what string, bag int64, source string, density int64) Loose {
	return Loose{
		Density:     Wadding.number(name+"-density", what+" as it lies in the work", "kg/m³", density, 5_000, 400_000, source),
		Bag:         Wadding.number(name+"-bag", name+" in one bag", "kg", bag, 50, 100_000, Common),
		Compression: Wadding.number(name+"-compression", "part of its depth that "+name+" loses under the cover", "", 400, 0, 900, Common),
	}
}

// Hair or fibre by the seat.
var (
	DropInSeat    = Wadding.number("drop-in-seat", "hair or fibre in a drop-in seat", "kg", 454, 50, 50_000, Common+": 1/2 to 1 lb")
	StuffOverSeat = Wadding.number("stuff-over-seat", "hair or fibre in a stuff-over seat", "kg", 908, 50, 50_000, Common+": 1 1/2 to 2 lb")
	EasyChairSeat = Wadding.number("easy-chair-seat", "hair or fibre in an easy chair", "kg", 5_444, 50, 50_000, Common+": 8 to 12 lb")
)

// How sheets are laid and cut.
var (
	WaddingOverlap = Wadding.length("overlap", "by which the two ends of a wrap lie one over the other", 0, 0, 500*mm, Common)
	WaddingLap     = Wadding.length("join-lap", "by which joined pieces lie one over the other", 30*mm, 0, 200*mm, Common)
	WaddingStep    = Wadding.length("sheet-step", "wadding is cut from the roll in multiples of", 10*mm, mm, length.Metre, Common)
)
