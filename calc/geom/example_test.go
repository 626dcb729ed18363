package geom_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/geom"
	"github.com/bridletie/bridletie/calc/length"
)

// A tape over a seat 50 cm wide that stands 4 cm higher in its middle.
func ExampleParabola() {
	fmt.Println(geom.Parabola(50*length.Centimetre, 4*length.Centimetre))
	// Output: 508.407 mm
}

// The cloth that turns a quarter round an edge of 6 cm.
func ExampleCircleArc() {
	fmt.Println(geom.CircleArc(6*length.Centimetre, 90).Text(length.Metric, length.Up))
	// Output: 9.5 cm
}

func ExampleMeet() {
	at := func(across, along length.Length) geom.Point {
		return geom.Point{Across: across * length.Centimetre, Along: along * length.Centimetre}
	}
	fmt.Println(geom.Meet(at(0, 0), at(10, 10), at(0, 10), at(10, 0)))
	fmt.Println(geom.Meet(at(0, 0), at(10, 10), at(5, 5), at(9, 0)))
	fmt.Println(geom.Meet(at(0, 0), at(10, 10), at(6, 5), at(9, 0)))
	// Output:
	// true
	// true
	// false
}
