package service_test

import (
	"strconv"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// BenchmarkNoFaults is what it costs to see that a request is sound, field by
// field.
func BenchmarkNoFaults(b *testing.B) {
	list := service.YardageRequest{Cloth: cloth.Cloth{Width: 140 * cm}}
	for i := range 30 {
		list.Panels = append(list.Panels, panel.Panel{ID: "P" + strconv.Itoa(i), Count: 2, Size: panel.Size{Across: 60 * cm, Along: 50 * cm}})
	}
	for name, faults := range map[string]func() fault.List{
		"yardage of 30 panels": func() fault.List { return service.YardageFieldFaults(list) },
		"buttoning":            func() fault.List { return service.ButtoningFieldFaults(chairBack()) },
		"piping":               func() fault.List { return service.PipingFieldFaults(pipingRequest()) },
		"foundation":           func() fault.List { return service.FoundationFieldFaults(wingChairFrames()) },
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if l := faults(); l.Len() > 0 {
					b.Fatal(l.Faults())
				}
			}
		})
	}
}
