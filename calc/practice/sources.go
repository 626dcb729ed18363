package practice

// Sources, as they are cited in answers.
const (
	text1961 = "upholstery textbook, 1961"
	johnson  = "Johnson, Furniture Upholstery for Schools, 1919"
	spons    = "Spons' Mechanics' Own Book"
	land2016 = "LandScape, December 2016, a seat webbed and covered"
	battings = "trade text on battings"
)
