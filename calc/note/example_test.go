package note_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
)

func Example() {
	n := note.New(note.OverBolt, note.Length("order", 630*length.Centimetre, length.Up), note.Length("bolt", 610*length.Centimetre, length.Down))
	fmt.Println(n.Code, n.Severity)
	fmt.Println(n.Text(length.Metric))
	fmt.Println(n.Text(length.Imperial))
	// Output:
	// longer-than-bolt order
	// with its allowances a length of 6.3 m is longer than a bolt of 6.1 m: ask the supplier
	// with its allowances a length of 6 yd 2 ft 8 1/16 in is longer than a bolt of 6 yd 2 ft 1/8 in: ask the supplier
}
