package fault_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// A validator takes the path of what it looks at and lists all that is wrong; the
// list is an error only when there is something in it.
func ExampleList_Err() {
	check := func(width length.Length, at fault.Path) error {
		var l fault.List
		l.Between(at.Field("width"), "the width", width, 30*length.Centimetre, 5*length.Metre)
		return l.Err()
	}
	fmt.Println(check(137*length.Centimetre, fault.At("cloth")))
	fmt.Println(check(9*length.Metre, fault.At("cloths").Index(1)))
	// Output:
	// <nil>
	// #/cloths/1/width: the width is at most 5 m
}
