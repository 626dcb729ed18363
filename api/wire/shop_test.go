package wire

import (
	"reflect"
	"testing"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service/job"
)

// What a job leaves out is as the workroom has it.
func TestJobsGoByTheShop(t *testing.T) {
	const mm = length.Millimetre
	read := func(given ...practice.Given) any {
		tr := jobReader{translator: translator{shop: practice.Defaults().With(given...)}}
		chart := tr.chart(nil, fault.Path{})
		var req job.Request
		tr.jobPiping(nil, &req)
		panel := tr.panel(&gen.Panel{}, fault.Path{})
		return []any{chart.Grid, chart.Panel, chart.Depth, chart.Buttons, req.Piping.Cord, panel.JoinSeam}
	}
	usual := read()
	for _, g := range []practice.Given{
		practice.UsualDiamondWidth.Give(120 * mm), practice.UsualDiamondHeight.Give(170 * mm), practice.UsualButtonEdge.Give(90 * mm),
		practice.UsualWells.Give(35 * mm), practice.UsualButton.Give(30), practice.UsualCord.Give(5 * mm),
		practice.PanelJoin.Give(20 * mm),
	} {
		if reflect.DeepEqual(read(g), usual) {
			t.Errorf("%s changes nothing", g.Name)
		}
	}
}
