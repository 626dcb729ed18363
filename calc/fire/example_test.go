package fire_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/calendar"
	"github.com/bridletie/bridletie/calc/fire"
)

// A scatter cushion that is made for sale in Great Britain: only its filling is
// asked for.
func Example() {
	rules, err := fire.Load()
	if err != nil {
		panic(err)
	}
	asOf, _ := calendar.Parse("2026-11-25")
	report, err := rules.Check(fire.Job{
		AsOf: asOf, Place: "great-britain", Use: "home", Platform: "building", Item: "scatter-cushion",
		Transaction: "new", PermanentLabel: "yes",
		Layers: []fire.Layer{
			{ID: "COVER", Role: "cover", Supplier: "workroom"},
			{ID: "FIBRE", Role: "filling", Material: "polyester-fibre", Supplier: "workroom"},
		},
		Papers: []fire.Paper{{Kind: "report", Layer: "FIBRE", Test: "uk-sch2-1", Result: "pass", Date: asOf, Reference: "F-3"}},
	})
	if err != nil {
		panic(err)
	}
	fmt.Println(report.Verdict)
	for i, l := range report.Layers {
		fmt.Println(report.Job.Layers[i].ID, l.Verdict, l.Rulings[0].Rule.ID)
	}
	// Output:
	// evidence-held
	// COVER exempt uk-cushion-cover
	// FIBRE evidence-held uk-filling-cushion
}
