package piping_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
	"github.com/bridletie/bridletie/calc/practice"
)

// Strips for a 4 mm cord out of an offcut of 26 by 48 cm.
func ExampleInRect() {
	usual := practice.Defaults()
	exact := piping.StripWidth(4*length.Millimetre, usual.Length(practice.PipingCloth), usual.Length(practice.PipingSeam), false)
	width := piping.PracticalWidth(exact, usual.Length(practice.PipingStep))
	shape := piping.Shape{Cut: piping.Bias, Angle: piping.TrueBias, Width: width, Least: 25 * length.Centimetre}
	strips := piping.InRect(piping.Rect{Across: 26 * length.Centimetre, Along: 48 * length.Centimetre}, shape, piping.ToRight)
	fmt.Println(exact, width, len(strips))
	for _, s := range strips {
		fmt.Println(s.Long)
	}
	// Output:
	// 39.707964 mm 40 mm 6
	// 287.695 mm
	// 367.695 mm
	// 367.695 mm
	// 367.695 mm
	// 358.822 mm
	// 278.822 mm
}

// A cushion's seam that may be joined once, but not on its front.
func ExampleSolve() {
	usual := practice.Defaults()
	job := piping.Job{
		Shape:    piping.Shape{Cut: piping.Bias, Angle: piping.TrueBias, Width: 40 * length.Millimetre, Least: 30 * length.Centimetre},
		JoinSeam: usual.Length(practice.PipingJoin), Overlap: usual.Length(practice.PipingOverlap), Margin: usual.Length(practice.PipingCorner),
		Cloth: 137 * length.Centimetre,
		Runs: []piping.Run{{Length: 2320 * length.Millimetre, Closed: true, MaxJoins: 1,
			NoJoin: []piping.Span{{From: 0, To: 56 * length.Centimetre}}}},
	}
	for _, p := range piping.Solve(job) {
		fmt.Println(p.Cloth, p.Keeps(), len(p.Strips), p.Runs[0].Joins, len(piping.Check(job, p)))
	}
	// Output:
	// 1483.138 mm true 2 [1888.9865 mm] 0
	// 855 mm true 2 [1160.6665 mm] 0
	// 125.138 mm false 1 [] 0
	// 80 mm true 2 [1330 mm] 0
	// 1201 mm true 2 [1161 mm] 0
}
