package buying_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/costing"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service/buying"
)

// Two chairs in one cloth are bought together, and rounded once.
func ExampleOrderList() {
	sold := cloth.Sold{Step: 50 * length.Centimetre}
	chair := func(name string) buying.Part {
		return buying.Part{Name: name, Cloths: []buying.Cloth{{For: "top cover", Answer: planned("Trellis", sold, 120*length.Centimetre)}}}
	}
	prices := []buying.Price{{Article: "cloth", Amount: gbpOf("32.00"), Per: buying.PerMetre}}
	list, err := buying.OrderList(buying.Request{Currency: currencyOf("GBP"), Parts: []buying.Part{chair("carver"), chair("second carver")}, Prices: prices})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, l := range list {
		fmt.Println(l.BoughtText(length.Metric), l.Name, l.Measure.Text(l.Need, length.Metric))
	}
	cost := buying.CostOf(list, prices, costing.Work{}, buying.Terms{Currency: currencyOf("GBP")})
	fmt.Println(cost.Money(cost.Quote.Total).Text(), cost.Complete)
	// Output:
	// 2.5 m Trellis, 137 cm wide 2.4 m
	// 80.00 true
}

// A day has seven hours unless something else is said; the cloth takes a week.
func ExamplePlanDays() {
	days := buying.PlanDays(hoursOf("strip", "3", "covering", "9"), buying.DayTerms{Start: 2026_12_07})
	for _, d := range days.Days {
		for _, s := range d.Work {
			fmt.Println(d.Number, d.Date, s.Operation, s.Hours)
		}
	}
	// Output:
	// 1 2026-12-07 strip 3
	// 6 2026-12-14 covering 7
	// 7 2026-12-15 covering 2
}
