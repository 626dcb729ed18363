package sheet

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/length"
)

const mm = length.Millimetre

func ExampleNest() {
	pieces := make([]Piece, 7)
	for i := range pieces {
		pieces[i] = Piece{600 * mm, 600 * mm}
	}
	r, err := Nest(pieces, []Kind{{Across: 1200 * mm, Along: 2000 * mm, Cost: 1}}, 0, 100_000, nil)
	fmt.Println(len(r.Sheets), r.Bound, r.Proven, err)
	// Output: 2 2 true <nil>
}

// Hand-worked cases, with the kerf between pieces and not at the edges.
func TestNestTable(t *testing.T) {
	for _, tc := range []struct {
		name          string
		n             int
		piece         Piece
		kind          Kind
		kerf          length.Length
		sheets, bound int
	}{
		{"two fill the sheet", 2, Piece{100 * mm, 50 * mm}, Kind{100 * mm, 100 * mm, 0, 1}, 0, 1, 1},
		{"a kerf too many", 2, Piece{100 * mm, 50 * mm}, Kind{100 * mm, 100 * mm, 0, 1}, mm, 2, 2},
		{"with room for the kerf", 2, Piece{100 * mm, 50 * mm}, Kind{100 * mm, 101 * mm, 0, 1}, mm, 1, 1},
		{"trim", 1, Piece{90 * mm, 90 * mm}, Kind{100 * mm, 100 * mm, 5 * mm, 1}, mm, 1, 1},
		{"more than half both ways", 5, Piece{51 * mm, 51 * mm}, Kind{100 * mm, 100 * mm, 0, 1}, 0, 5, 5},
		{"pinwheel of four about a hole", 4, Piece{60 * mm, 40 * mm}, Kind{100 * mm, 100 * mm, 0, 1}, 0, 1, 1},
		{"only turned", 1, Piece{200 * mm, 100 * mm}, Kind{100 * mm, 200 * mm, 0, 1}, 0, 1, 1},
	} {
		t.Run(tc.name, func(t *testing.T) {
			pieces := make([]Piece, tc.n)
			for i := range pieces {
				pieces[i] = tc.piece
			}
			r, err := Nest(pieces, []Kind{tc.kind}, tc.kerf, 100_000, nil)
			if err != nil || len(r.Sheets) != tc.sheets || r.Bound != tc.bound {
				t.Errorf("%d sheets, bound %d, %v; want %d, %d", len(r.Sheets), r.Bound, err, tc.sheets, tc.bound)
			}
			if flaws := Check(pieces, []Kind{tc.kind}, tc.kerf, r.Sheets); flaws != nil {
				t.Error(flaws)
			}
		})
	}
}

func TestTooLarge(t *testing.T) {
	if _, err := Nest([]Piece{{101 * mm, 10 * mm}}, []Kind{{100 * mm, 100 * mm, 0, 1}}, 0, 1000, nil); !errors.Is(err, ErrTooLarge) {
		t.Errorf("%v", err)
	}
}

// The check sees each flaw.
func TestCheckNamesFlaws(t *testing.T) {
	pieces, kinds := []Piece{{40 * mm, 30 * mm}, {40 * mm, 30 * mm}}, []Kind{{100 * mm, 100 * mm, 2 * mm, 1}}
	good := []Placed{{0, 2 * mm, 2 * mm, 40 * mm, 30 * mm, false}, {1, 45 * mm, 2 * mm, 40 * mm, 30 * mm, false}}
	if flaws := Check(pieces, kinds, 3*mm, []Sheet{{0, good}}); flaws != nil {
		t.Fatal(flaws)
	}
	for name, spoil := range map[string]func([]Placed) []Placed{
		"missing":  func(p []Placed) []Placed { return p[:1] },
		"twice":    func(p []Placed) []Placed { p[1].Piece = 0; return p },
		"trim":     func(p []Placed) []Placed { p[0].X = mm; return p },
		"off":      func(p []Placed) []Placed { p[1].X = 59 * mm; return p },
		"kerf":     func(p []Placed) []Placed { p[1].X = 44 * mm; return p },
		"size":     func(p []Placed) []Placed { p[0].Across--; return p },
		"turned":   func(p []Placed) []Placed { p[0].Turned = true; return p },
		"no piece": func(p []Placed) []Placed { p[0].Piece = 2; return p },
	} {
		if Check(pieces, kinds, 3*mm, []Sheet{{0, spoil(append([]Placed(nil), good...))}}) == nil {
			t.Errorf("%s is not seen", name)
		}
	}
	if Check(pieces, kinds, 3*mm, []Sheet{{1, good}}) == nil {
		t.Error("an unknown kind is not seen")
	}
}

// fewest is the least number of sheets, by trying every nesting on a grid of
// whole units: pieces in turn, each at every free place of every sheet.
func fewest(pieces []Piece, w, h int) int {
	for n := 1; ; n++ {
		grid := make([][]bool, n)
		for i := range grid {
			grid[i] = make([]bool, w*h)
		}
		if tryAll(pieces, grid, w, h) {
			return n
		}
	}
}

func tryAll(left []Piece, grid [][]bool, w, h int) bool {
	if len(left) == 0 {
		return true
	}
	for _, g := range grid {
		for _, way := range [][2]int{{int(left[0].Across), int(left[0].Along)}, {int(left[0].Along), int(left[0].Across)}} {
			for y := 0; y+way[1] <= h; y++ {
				for x := 0; x+way[0] <= w; x++ {
					if !mark(g, w, x, y, way, true) {
						continue
					}
					if tryAll(left[1:], grid, w, h) {
						return true
					}
					mark(g, w, x, y, way, false)
				}
			}
		}
	}
	return false
}

// mark sets or clears a rectangle; it sets nothing where something is set.
func mark(g []bool, w, x, y int, way [2]int, to bool) bool {
	for pass := range 2 {
		for j := y; j < y+way[1]; j++ {
			for i := x; i < x+way[0]; i++ {
				if pass == 0 && to && g[j*w+i] {
					return false
				}
				if pass == 1 {
					g[j*w+i] = to
				}
			}
		}
	}
	return true
}

// On tiny jobs the bound is never above the fewest sheets that a search of all
// nestings finds, and the nesting never below them.
func TestBoundsAgainstAllNestings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.IntRange(3, 5).Draw(t, "w"), rapid.IntRange(3, 5).Draw(t, "h")
		pieces := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Piece {
			m := min(w, h)
			return Piece{length.Length(rapid.IntRange(1, m).Draw(t, "a")), length.Length(rapid.IntRange(1, m).Draw(t, "b"))}
		}), 1, 4).Draw(t, "pieces")
		kinds := []Kind{{Across: length.Length(w), Along: length.Length(h), Cost: 7}}
		want := fewest(pieces, w, h)
		r, err := Nest(pieces, kinds, 0, 20_000, nil)
		if err != nil || r.Bound > want || len(r.Sheets) < want || r.Proven && len(r.Sheets) != want {
			t.Fatalf("%v on %d×%d: bound %d, fewest %d, used %d, proven %v, %v", pieces, w, h, r.Bound, want, len(r.Sheets), r.Proven, err)
		}
	})
}

func drawJob(t *rapid.T) ([]Piece, []Kind, length.Length) {
	size := rapid.Int64Range(1, 800)
	pieces := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Piece {
		return Piece{length.Length(size.Draw(t, "a")) * mm, length.Length(size.Draw(t, "b")) * mm}
	}), 0, 25).Draw(t, "pieces")
	if rapid.Bool().Draw(t, "alike") { // some of each, or all of one size
		sizes := pieces[:min(len(pieces), rapid.IntRange(1, 5).Draw(t, "sizes"))]
		pieces = nil
		for _, p := range sizes {
			pieces = append(pieces, slices.Repeat([]Piece{p, {p.Along, p.Across}}, rapid.IntRange(1, 8).Draw(t, "times"))...)
		}
	}
	kinds := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Kind {
		return Kind{length.Length(rapid.Int64Range(830, 1500).Draw(t, "w")) * mm, length.Length(rapid.Int64Range(830, 2000).Draw(t, "h")) * mm,
			length.Length(rapid.Int64Range(0, 15).Draw(t, "trim")) * mm, rapid.Int64Range(1, 9000).Draw(t, "cost")}
	}), 1, 3).Draw(t, "kinds")
	return pieces, kinds, length.Length(rapid.Int64Range(0, 6).Draw(t, "kerf")) * mm
}

// Every nesting passes the check, keeps its bounds, is the same again, and
// another kind of sheet never makes it dearer.
func TestNestHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pieces, kinds, kerf := drawJob(t)
		r, err := Nest(pieces, kinds, kerf, 5000, nil)
		if err != nil {
			t.Fatal(err)
		}
		if flaws := Check(pieces, kinds, kerf, r.Sheets); flaws != nil {
			t.Fatal(flaws)
		}
		if r.Cost < r.CostBound || len(r.Sheets) < r.Bound || r.Proven != (r.Cost == r.CostBound) {
			t.Fatalf("%+v", r)
		}
		if again, _ := Nest(pieces, kinds, kerf, 5000, nil); fmt.Sprint(again) != fmt.Sprint(r) {
			t.Fatal("not the same again")
		}
		fewer, err := Nest(pieces, kinds[:len(kinds)-1], kerf, 5000, nil)
		if err == nil && len(kinds) > 1 && fewer.Cost < r.Cost {
			t.Fatalf("%d with a kind more, %d without", r.Cost, fewer.Cost)
		}
		for _, s := range r.Sheets {
			list := append([]Placed(nil), s.Pieces...)
			all := append([]Piece(nil), pieces...)
			for _, o := range Offcuts(s, kinds[s.Kind], kerf, 20*mm) {
				list = append(list, Placed{len(all), o.X, o.Y, o.Across, o.Along, false})
				all = append(all, Piece{o.Across, o.Along})
			}
			for _, flaw := range Check(all, kinds, kerf, []Sheet{{s.Kind, list}}) {
				var n, times int
				if k, _ := fmt.Sscanf(flaw, "piece %d is there %d times", &n, &times); k != 2 || times != 0 {
					t.Fatal("offcuts: ", flaw)
				}
			}
		}
	})
}

// A halted search still answers with a whole nesting.
func TestHalt(t *testing.T) {
	pieces := make([]Piece, 40)
	for i := range pieces {
		pieces[i] = Piece{length.Length(200+17*i) * mm, length.Length(900-11*i) * mm}
	}
	kinds := []Kind{{1200 * mm, 2000 * mm, 0, 1}}
	r, err := Nest(pieces, kinds, 3*mm, 1<<40, func() bool { return true })
	if err != nil || Check(pieces, kinds, 3*mm, r.Sheets) != nil {
		t.Errorf("%v", err)
	}
}

func BenchmarkNest500(b *testing.B) {
	pieces := make([]Piece, 1000)
	for i := range pieces {
		pieces[i] = Piece{length.Length(400+i*37%300) * mm, length.Length(450+i*53%250) * mm}
	}
	for b.Loop() {
		if _, err := Nest(pieces, []Kind{{1200 * mm, 2000 * mm, 0, 1}}, 3*mm, 1_000_000, nil); err != nil {
			b.Fatal(err)
		}
	}
}
