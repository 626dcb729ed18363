package length_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"github.com/bridletie/bridletie/calc/length"
)

func ExampleParse() {
	for _, s := range []string{"137 cm", "4½ in", "6' 2\"", "1 yd 2 ft 3 1/2 in"} {
		l, err := length.Parse(s)
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(l)
	}
	// Output:
	// 1370 mm
	// 114.3 mm
	// 1879.6 mm
	// 1612.9 mm
}

func ExampleParse_refused() {
	for _, s := range []string{"62", "62 stone", "1,5 m", "1/3 in"} {
		_, err := length.Parse(s)
		fmt.Println(err, errors.Is(err, length.ErrNoUnit))
	}
	// Output:
	// length: "62": no unit, say mm, cm, m, in, ft or yd true
	// length: "62 stone": "stone": unknown unit, use mm, cm, m, in, ft or yd false
	// length: "1,5 m": not a length: a comma is ambiguous, use a point for decimals and nothing between thousands false
	// length: "1/3 in": not a whole number of nanometres false
}

func ExampleLength_Text() {
	l := 6423700 * length.Micrometre
	fmt.Println(l.Text(length.Metric, length.Nearest))
	fmt.Println(l.Text(length.Imperial, length.Down))
	fmt.Println(l.Text(length.Imperial, length.Up))
	// Output:
	// 6.424 m
	// 7 yd 7/8 in
	// 7 yd 15/16 in
}

func ExampleLength_MarshalText() {
	size := struct {
		Across length.Length `json:"across"`
	}{62 * length.Centimetre}
	text, err := json.Marshal(size)
	fmt.Println(string(text), err)
	// Output: {"across":"620 mm"} <nil>
}

func ExampleRoundUpTo() {
	needed := 6424 * length.Millimetre
	order, ok := length.RoundUpTo(needed, length.Metre/10) // sold by the tenth of a metre
	fmt.Println(order.Text(length.Metric, length.Up), ok)
	// Output: 6.5 m true
}

func ExampleMulInt() {
	four, ok := length.MulInt(9*length.Inch/2, 4)
	fmt.Println(four.Text(length.Imperial, length.Nearest), ok)
	// Output: 1 ft 6 in true
}

func ExampleFromMM() {
	l, err := length.FromMM(25.4)
	fmt.Println(l == length.Inch, err)
	// Output: true <nil>
}

func ExampleLength_Round() {
	l := 62374 * length.Micrometre
	fmt.Println(l.Round(length.Millimetre, length.Nearest), l.Round(length.Millimetre, length.Up), l.Round(length.Centimetre, length.Down))
	// Output: 62 mm 63 mm 60 mm
}

func ExampleRoundMM() {
	diagonal := math.Sqrt(300*300 + 400*400)
	fmt.Println(length.RoundMM(diagonal, length.Micrometre, length.Up))
	// Output: 500 mm
}
