package job_test

import (
	"context"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service/job"
)

// Whatever a panel is called, what is wrong with cutting it stands at the panel
// and names it: also where its id happens to be in the sentence anyway.
func TestFaultsOfAPlanNameThePanel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		id := rapid.SampledFrom([]string{"1", "a", "mm", "the", "cloth", "SEAT", "panel"}).Draw(t, "id")
		tooWide := rapid.Bool().Draw(t, "too wide")
		place := fault.At("pieces").Index(0).Field("written").Index(0).Field("panels").Index(0)
		on := cloth.Cloth{Width: 137 * cm}
		q := panel.Panel{ID: id, Count: 1, Size: panel.Size{Across: 150 * cm, Along: 60 * cm}}
		want := "#/pieces/0/written/0/panels/0/size/across " + id + ": "
		if !tooWide { // and the motif cannot be in its middle
			q.Size.Across, q.Match = 130*cm, panel.Match{How: panel.Centred}
			on.Pattern = cloth.Pattern{WidthRepeat: 137 * cm, Motifs: []cloth.Motif{{Name: "heron", Across: 10 * cm}}}
			want = "#/pieces/0/written/0/panels/0/match no motif that " + id + " may carry"
		}
		req := job.Request{
			Effort: plan.Quick,
			Cloths: []job.Cloth{{ID: "TOP", Cloth: on}},
			Pieces: []job.Piece{{
				ID: "CHAIR", Covers: [3][]panel.Panel{{q}}, HandAt: map[string]fault.Path{id: place}, Build: job.Keep,
				Cloths: job.Covers{Top: -1, Outside: -1, Lining: -1, Piping: -1},
			}},
		}
		ans, err := job.Run(context.Background(), nil, req, 1)
		if err != nil {
			t.Fatal(err)
		}
		got := ans.Plans[0].Plan.Fault.Faults()
		if len(got) != 1 || !strings.HasPrefix(got[0].Pointer()+" "+got[0].Detail, want) {
			t.Errorf("%+v, want %s", got, want)
		}
	})
}
