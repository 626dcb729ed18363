package plan_test

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/verify"
)

// instance is a published strip-packing problem, a unit being a centimetre.
type instance struct {
	name    string
	job     plan.Job
	height  int64 // best known
	optimal bool
}

// instances reads a folder of the open instances in testdata/bench, whose README
// names their sources and licences.
func instances(tb testing.TB, set string) []instance {
	tb.Helper()
	files, _ := filepath.Glob(filepath.Join("..", "..", "testdata", "bench", set, "*.txt"))
	if len(files) == 0 {
		tb.Fatalf("testdata/bench/%s holds no instance", set)
	}
	sort.Strings(files)
	var out []instance
	for _, f := range files {
		out = append(out, readInstance(tb, f))
	}
	return out
}

func readInstance(tb testing.TB, path string) instance {
	tb.Helper()
	f, err := os.Open(path)
	if err != nil {
		tb.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	in := instance{name: filepath.Base(path)}
	lines := bufio.NewScanner(f)
	for n := 0; lines.Scan(); n++ {
		var w, h, flag int64
		if n == 0 {
			if _, err := fmt.Sscan(lines.Text(), &w, &h, &flag); err != nil {
				tb.Fatalf("%s: %v", path, err)
			}
			in.job.Cloth.Width = length.Length(w) * length.Centimetre
			in.height, in.optimal = h, flag == 1
			continue
		}
		if _, err := fmt.Sscan(lines.Text(), &w, &h); err != nil {
			continue // a blank line at the end
		}
		in.job.Panels = append(in.job.Panels, panel.Panel{ID: fmt.Sprint(n), Count: 1,
			Size: panel.Size{Across: length.Length(w) * length.Centimetre, Along: length.Length(h) * length.Centimetre}})
	}
	return in
}

// gapOf is how far a plan lies above the best known height, in percent.
func gapOf(in instance, r plan.Result) float64 {
	best := length.Length(in.height) * length.Centimetre
	return 100 * float64(r.Needed()-best) / float64(best)
}

// TestHopperTurton solves the 21 zero-waste instances of E. Hopper and
// B. C. H. Turton, European Journal of Operational Research 128 (2001) 34-57,
// as plain cloth and free panels. Their optimum is known by construction.
func TestHopperTurton(t *testing.T) {
	sum := 0.0
	all := instances(t, "C")
	for _, in := range all {
		r := solve(t, in.job, plan.Normal, nil)
		for _, f := range verify.Check(in.job, r.Cut...) {
			t.Errorf("%s: %s", in.name, f)
		}
		gap := gapOf(in, r)
		if gap < 0 || float64(r.Bound) > float64(in.height)*float64(length.Centimetre) {
			t.Errorf("%s: plan %v or bound %v beats the optimum of %d", in.name, r.Needed(), r.Bound, in.height)
		}
		t.Logf("%-10s %3d panels  optimum %3d  plan %v  gap %.2f %%", in.name, len(in.job.Panels), in.height, r.Needed(), gap)
		sum += gap
	}
	mean := sum / float64(len(all))
	t.Logf("mean gap %.2f %% over %d instances", mean, len(all))
	if len(all) != 21 || mean > 0.85 { // 0.77 is reached; a tenth is left for honest changes of the search
		t.Errorf("mean gap %.2f %% over %d instances, want at most 0.85 %% over 21", mean, len(all))
	}
}
