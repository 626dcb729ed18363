package fault_test

import (
	"errors"
	"fmt"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
)

// A validator collects all faults; the list is an error when there are any.
func ExampleList() {
	var l fault.List
	at := fault.Path("").Field("panels").Index(2)
	l.Between(at.Field("size").Field("across"), "a finished size", 0, length.Millimetre, 100*length.Metre)
	l.Add(at.Field("match").Field("from"), fault.UnknownPanel, "IB", "no panel of the list has this id", "the id of a panel in the list")
	err := fmt.Errorf("the settee: %w", l.Err())

	var faults fault.List
	if errors.As(err, &faults) {
		for _, f := range faults.Faults() {
			fmt.Println(f.Pointer, f.Code, f.Detail)
		}
	}
	// Output:
	// #/panels/2/size/across too-small a finished size is at least 1 mm
	// #/panels/2/match/from unknown-panel no panel of the list has this id
}
