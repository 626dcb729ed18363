package fault_test

import (
	"errors"
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
	// #/cloths/1/width: the width is at most 5 m (from 30 cm to 5 m)
}

// A validator collects all faults; the list is an error when there are any.
func ExampleList() {
	var l fault.List
	at := fault.At("panels").Index(2)
	l.Between(at.Field("size").Field("across"), "a finished size", 0, length.Millimetre, 100*length.Metre)
	l.Add(at.Field("match").Field("from"), fault.UnknownPanel, "IB", "no panel of the list has this id", "the id of a panel in the list")
	err := fmt.Errorf("the settee: %w", l.Err())

	var faults fault.List
	if errors.As(err, &faults) {
		for _, f := range faults.Faults() {
			fmt.Println(f.Pointer(), f.Code, f.Detail)
		}
	}
	// Output:
	// #/panels/2/size/across too-small a finished size is at least 1 mm
	// #/panels/2/match/from unknown-panel no panel of the list has this id
}
