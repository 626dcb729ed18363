package drawing

import (
	"regexp"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/service"
)

// fired is the answer to a job under the rules that are held.
func fired(t testing.TB, name string, names []string, job fire.Job) *service.FireAnswer {
	t.Helper()
	set, err := fire.Load()
	if err != nil {
		t.Fatal(err)
	}
	ans, err := service.FireCheck(set, service.FireRequest{Name: name, Names: names, Job: job})
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

// banquette is a café's in California that a workroom repairs: its cover fails,
// and a new foam holds too much of a chemical.
func banquette(t testing.TB) *service.FireAnswer {
	return fired(t, "Café banquette, harbour wall", []string{"Quayside stripe", "", "new seat foam", "foam left in the back", ""}, fire.Job{
		AsOf: 2026_11_25, Place: "california", Use: "contract", Platform: "building", Item: "seating", Occupancy: "restaurant",
		Transaction: "reupholstered-for-owner", FillingAdded: "yes", LooseCushions: "no",
		Layers: []fire.Layer{
			{ID: "COVER", Role: "cover", Material: "woven-cloth", Supplier: "customer", FlameRetardant: "no"},
			{ID: "WAD", Role: "wadding", Material: "polyester-fibre", Form: "sheet", Supplier: "workroom"},
			{ID: "NEW", Role: "filling", Material: "polyurethane-foam", Form: "slab", Supplier: "workroom", FlameRetardant: "yes", FlameRetardantKind: "organophosphorus", FlameRetardantPPM: new(int64(1500))},
			{ID: "OLD", Role: "filling", Material: "polyurethane-foam", Form: "slab", Supplier: "retained"},
			{ID: "GIMP", Role: "trim", Supplier: "workroom"},
		},
		Papers: []fire.Paper{
			{Kind: "report", Layer: "COVER", Test: "tb117-2013-1", Result: "fail", Date: 2026_02_11, Reference: "S-31"},
			{Kind: "flame-retardant-statement", Layer: "COVER", Date: 2026_02_11, Reference: "mill letter"},
			{Kind: "report", Layer: "NEW", Test: "tb117-2013-3", Result: "pass", Date: 2026_04_01, Reference: "N-7"},
		},
	})
}

// berth is a boat's, which another regime governs.
func berth(t testing.TB) *service.FireAnswer {
	return fired(t, "", nil, fire.Job{
		AsOf: 2026_11_25, Place: "great-britain", Use: "home", Platform: "boat", Item: "seating", Transaction: "reupholstered-for-owner",
		Layers: []fire.Layer{{ID: "COVER", Role: "cover"}, {ID: "FOAM", Role: "filling"}},
	})
}

func TestFireGolden(t *testing.T) {
	golden(t, "fire-banquette.svg", FirePicture(banquette(t)).SVG())
	golden(t, "fire-banquette.txt", []byte(FireText(banquette(t))))
	golden(t, "fire-berth.svg", FirePicture(berth(t)).SVG())
}

// The page says the verdict first, then every layer with every rule, what would
// mend it, the papers to keep, and what it is not.
func TestFireText(t *testing.T) {
	for _, ans := range []*service.FireAnswer{banquette(t), berth(t)} {
		page := FireText(ans)
		checkPage(t, page)
		if first, _, _ := strings.Cut(page, "\n"); first != strings.ToUpper(verdictText(ans.Report.Verdict)) {
			t.Errorf("the first line is %q", first)
		}
		flat := strings.Join(strings.Fields(page), " ")
		for i, l := range ans.Report.Layers {
			for _, r := range l.Rulings {
				if !strings.Contains(flat, "rule "+r.Rule.ID) {
					t.Errorf("the page lacks the rule %s", r.Rule.ID)
				}
			}
			if !strings.Contains(page, "LAYER "+ans.Report.Job.Layers[i].ID+": "+strings.ToUpper(verdictText(l.Verdict))) {
				t.Errorf("the page lacks the layer %d", i)
			}
		}
		for _, want := range []string{"no legal advice", "accredited laboratory", "LOOK OUT", ans.Report.Set.AsAt.String()} {
			if !strings.Contains(flat, want) {
				t.Errorf("the page lacks %q", want)
			}
		}
	}
}

// The sheet is a plain drawing in which every verdict stands in words, and the
// hatching is another for each that does not let the layer be used.
func TestFireSheet(t *testing.T) {
	for _, ans := range []*service.FireAnswer{banquette(t), berth(t)} {
		nodes := read(t, FirePicture(ans).SVG())
		for i, l := range ans.Report.Layers {
			want, found := ans.Report.Job.Layers[i].ID+": "+verdictText(l.Verdict), false
			for _, n := range nodes {
				found = found || n.name == "text" && n.text == want
			}
			if !found {
				t.Errorf("the sheet lacks %q", want)
			}
		}
	}
	seen := map[[2]float64]bool{}
	for v := fire.Exempt; v <= fire.NotAllowed; v++ {
		gap, class := verdictHatch(v)
		if (gap > 0) == v.Lets() {
			t.Errorf("%s is hatched: %v", v, gap > 0)
		}
		if key := [2]float64{gap, float64(class)}; gap > 0 && seen[key] {
			t.Errorf("%s is hatched as another", v)
		} else {
			seen[key] = true
		}
		if verdictText(v) == "" || overallText(v) == "" {
			t.Errorf("%s has no words", v)
		}
	}
}

// No text on the sheet runs over what it stands in.
func TestFireSheetFits(t *testing.T) {
	long := strings.Repeat("W", 80)
	for _, text := range append([]string{long, strings.Repeat("brocatelle ", 7)}, hostile...) {
		ans := banquette(t)
		ans.Request.Name = text
		for i := range ans.Request.Names {
			ans.Request.Names[i] = text
		}
		pic := FirePicture(ans)
		for _, it := range pic.Items {
			if s, ok := it.(Text); ok {
				wide := breadth(s.S) * s.Size
				if pic.Classes[s.Class].Bold {
					wide *= boldAddition
				}
				if s.At.X+wide > pic.Width-marginPage/2 || s.At.Y > pic.Height {
					t.Errorf("%q runs over the sheet", s.S)
				}
			}
		}
		read(t, pic.SVG())
		checkPage(t, FireText(ans))
	}
}

func TestFireWordsPromiseNothing(t *testing.T) {
	bad := regexp.MustCompile(`(?i)\b(certified|safe|compliant)\b`)
	for _, ans := range []*service.FireAnswer{banquette(t), berth(t)} {
		if w := bad.FindString(FireText(ans) + string(FirePicture(ans).SVG())); w != "" {
			t.Errorf("says %q", w)
		}
	}
}
