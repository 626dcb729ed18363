package practice

import "github.com/bridletie/bridletie/calc/length"

// Order is how things are sold of which no answer says it.
const Order Subject = "order"

// Multiples in which things are sold, and packs.
var (
	ClothSoldBy   = Order.length("cloth-sold-by", "a cloth of which it is not said is sold in multiples of", 10*cm, mm, 10*length.Metre, Common)
	CordSoldBy    = Order.length("cord-sold-by", "piping cord is sold in multiples of, in metric units", 50*cm, mm, 10*length.Metre, Common)
	CordByTheYard = Order.length("cord-by-the-yard", "piping cord is sold in multiples of, in imperial units", length.Yard/2, mm, 10*length.Metre, Common)
	ButtonTwine   = Order.length("button-twine-ball", "buttoning twine in one ball", 100*length.Metre, length.Metre, 5000*length.Metre, Common)
	LooseLength   = Order.length("loose-length", "what is sold loose by length comes in multiples of", 10*cm, mm, 10*length.Metre, Common)
	LooseMass     = Order.number("loose-mass", "what is sold loose by weight comes in multiples of", "kg", 10, 1, 10_000, Common)
	LooseCount    = Order.count("loose-count", "what is sold loose by number comes in multiples of", "", 1, 1, 1_000, Common)
)
