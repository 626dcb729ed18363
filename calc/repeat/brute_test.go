package repeat_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

// same reports whether the pattern is the same at two places of the roll, by
// looking for the columns and rows that lead from one to the other. It shares no
// arithmetic with the package.
func same(p cloth.Pattern, ax, bx length.Length, ay, by *big.Rat) bool {
	dy := new(big.Rat).Sub(by, ay)
	v := new(big.Rat).SetInt64(int64(p.LengthRepeat))
	columns := int64(0)
	if p.WidthRepeat > 0 {
		if (bx-ax)%p.WidthRepeat != 0 {
			return false
		}
		columns = int64((bx - ax) / p.WidthRepeat)
	}
	if p.LengthRepeat == 0 {
		return true
	}
	if p.Drop.Den > 0 && p.WidthRepeat > 0 {
		dy.Sub(dy, new(big.Rat).Mul(v, big.NewRat(columns*p.Drop.Num, p.Drop.Den)))
	}
	return dy.Quo(dy, v).IsInt()
}

// width is one to place by brute force.
type width struct {
	drop, copied, k int
	long            length.Length
}

// leastByTrial places the widths in every order, each at the first place, tried
// unit by unit, at which its pattern meets that of the widths that are placed
// already: at the seam of its own drop, or alike with the first widths.
func leastByTrial(c cloth.Cloth, drops []repeat.Drop, s repeat.Seam, unit length.Length) length.Length {
	var all []width
	for n, d := range drops {
		for i := range d.Count {
			for k := range d.Widths {
				all = append(all, width{n, i, k, d.Length})
			}
		}
	}
	best := length.Length(-1)
	var try func(placed map[int]length.Length, end length.Length)
	try = func(placed map[int]length.Length, end length.Length) {
		if best >= 0 && end >= best {
			return
		}
		if len(placed) == len(all) {
			best = end
			return
		}
		for i, w := range all {
			if _, done := placed[i]; done {
				continue
			}
			for y := end; ; y += unit {
				if meets(c, s, all, placed, w, y) {
					placed[i] = y
					try(placed, y+w.long)
					delete(placed, i)
					break
				}
			}
		}
	}
	try(map[int]length.Length{}, 0)
	return best
}

// meets compares a width with every one that is placed: the width k shows at the
// sewing line what its neighbour shows there, so that between widths k and j lie
// k - j steps. All drops begin alike.
func meets(c cloth.Cloth, s repeat.Seam, all []width, placed map[int]length.Length, w width, y length.Length) bool {
	for j, yj := range placed {
		step := s.Shows * length.Length(w.k-all[j].k)
		// The place (Left, y) of w is the place (Left + step, yj) of all[j], off its
		// edge, of the same pattern.
		if !same(c.Pattern, s.Left, s.Left+step, new(big.Rat).SetInt64(int64(y)), new(big.Rat).SetInt64(int64(yj))) {
			return false
		}
	}
	return true
}

func TestLayIsLeast(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	for n := range 400 {
		den := []int64{1, 2, 3, 4, 6}[r.IntN(5)]
		d := cloth.Drop{Num: r.Int64N(den), Den: den}
		unit := length.Centimetre
		v := length.Length(12*(1+r.Int64N(3))) * unit
		h := length.Length(10+r.Int64N(40)) * unit
		c := cloth.Cloth{Width: length.Length(60+r.Int64N(80)) * unit, Pattern: cloth.Pattern{LengthRepeat: v, WidthRepeat: h, Drop: d}}
		s := repeat.SeamOf(c, length.Length(r.Int64N(5))*unit)
		if !s.CanMeet {
			continue
		}
		var drops []repeat.Drop
		for left := 2 + r.IntN(4); left > 0; {
			widths := 1 + r.IntN(left)
			drops = append(drops, repeat.Drop{Length: length.Length(1+r.Int64N(100)) * unit, Count: 1, Widths: widths})
			left -= widths
		}
		got := repeat.Lay(c, drops, s)
		if want := leastByTrial(c, drops, s, unit); got.Length != want {
			t.Errorf("case %d: %+v %+v: %v, by trial %v", n, c, drops, got.Length, want)
		}
		if got.AnyStart != got.Length {
			t.Errorf("case %d: any start %v, though nothing is placed", n, got.AnyStart)
		}
		soundLayout(t, c, drops, s, got)
	}
}

// soundLayout holds a layout against the lattice: every width once, none over
// another, and the pattern meets at every seam.
func soundLayout(t interface{ Errorf(string, ...any) }, c cloth.Cloth, drops []repeat.Drop, s repeat.Seam, l repeat.Layout) {
	seen := map[string]repeat.Cut{}
	end := length.Length(0)
	for _, cut := range l.Cuts {
		if v := c.Pattern.LengthRepeat; (cut.From+l.Start-cut.Start)%v != 0 {
			t.Errorf("%+v begins elsewhere in the repeat than at %v on cloth from %v", cut, cut.From, l.Start)
		}
		if p := drops[cut.Drop].Place; p != nil && cut.Width == 1 {
			if along := c.Pattern.Principal()[p.Motif].Along; (cut.Start+p.FromTop-along)%c.Pattern.LengthRepeat != 0 {
				t.Errorf("the motif of %+v is not at %v", cut, p.FromTop)
			}
		}
		if cut.From < end {
			t.Errorf("%+v begins before %v", cut, end)
		}
		end = cut.From + drops[cut.Drop].Length
		seen[fmt.Sprint(cut.Drop, cut.Copy, cut.Width)] = cut
	}
	if end != l.Length {
		t.Errorf("ends at %v, not at %v", end, l.Length)
	}
	for n, d := range drops {
		for i := range d.Count {
			for k := range d.Widths {
				cut, ok := seen[fmt.Sprint(n, i+1, k+1)]
				if !ok {
					t.Errorf("width %d of copy %d of drop %d is missing", k+1, i+1, n)
					return
				}
				if k == 0 {
					continue
				}
				left := seen[fmt.Sprint(n, i+1, k)]
				if !same(c.Pattern, s.Right, s.Left, new(big.Rat).SetInt64(int64(left.From)), new(big.Rat).SetInt64(int64(cut.From))) {
					t.Errorf("the pattern does not meet between widths %d and %d: %+v %+v", k, k+1, left, cut)
				}
			}
		}
	}
}

// lcm goes into parts of all drops, so that starts are whole nanometres.
const lcm = 27720 * length.Nanometre

func cloths() *rapid.Generator[cloth.Cloth] {
	return rapid.Custom(func(t *rapid.T) cloth.Cloth {
		den := rapid.Int64Range(1, cloth.MaxDropDen).Draw(t, "den")
		return cloth.Cloth{
			Width: length.Length(rapid.Int64Range(200, 2000).Draw(t, "width")) * length.Millimetre,
			Pattern: cloth.Pattern{
				LengthRepeat: length.Length(rapid.Int64Range(1, 900).Draw(t, "v")) * 20 * lcm,
				WidthRepeat:  length.Length(rapid.Int64Range(5, 200).Draw(t, "h")) * length.Millimetre,
				Drop:         cloth.Drop{Num: rapid.Int64Range(0, den-1).Draw(t, "num"), Den: den},
			},
		}
	})
}

func dropsOf(t *rapid.T) []repeat.Drop {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) repeat.Drop {
		d := repeat.Drop{
			Length: length.Length(rapid.Int64Range(1, 4000).Draw(t, "length")) * length.Millimetre,
			Count:  rapid.IntRange(1, 4).Draw(t, "count"), Widths: rapid.IntRange(1, 5).Draw(t, "widths"),
		}
		if rapid.Bool().Draw(t, "placed") {
			d.Place = &repeat.Place{FromTop: length.Length(rapid.Int64Range(0, 500).Draw(t, "top")) * length.Millimetre}
		}
		return d
	}), 1, 4).Draw(t, "drops")
}

// Every layout meets at its seams; it is no shorter than the drops, no longer than
// whole repeats with one more for each change of start; any start costs at most a
// repeat; a known start lies between.
func TestLayProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, drops := cloths().Draw(t, "cloth"), dropsOf(t)
		s := repeat.SeamOf(c, 0)
		v := c.Pattern.LengthRepeat
		l := repeat.Lay(c, drops, s)
		soundLayout(t, c, drops, s, l)
		if l.Length < l.Plain || l.Length > l.Plain+length.Length(len(l.Cuts))*v {
			t.Errorf("%v for %v", l.Length, l.Plain)
		}
		if l.AnyStart < l.Length || l.AnyStart > l.Length+v {
			t.Errorf("any start %v, best %v", l.AnyStart, l.Length)
		}
		c.StartsAt = new(length.Length(rapid.Int64Range(0, int64(v)-1).Draw(t, "start")))
		known := repeat.Lay(c, drops, s)
		if known.Length < l.Length || known.Length > l.AnyStart {
			t.Errorf("from a known start %v, best %v, any %v", known.Length, l.Length, l.AnyStart)
		}
		soundLayout(t, c, drops, s, known)
		// The worst start lies just past one at which some width begins.
		if worst := length.Length(0); l.Placed {
			for _, cut := range l.Cuts {
				c.StartsAt = new((cut.Start + 1) % v)
				worst = max(worst, repeat.Lay(c, drops, s).Length)
			}
			if worst != l.AnyStart-1 {
				t.Errorf("any start %v, from the worst %v", l.AnyStart, worst)
			}
		}
		// Cut one below another, and the second moved down the roll by what it is out:
		// then it meets.
		for _, d := range drops {
			off := repeat.KindOf(c, d, s).Off
			at := new(big.Rat).SetInt64(int64(d.Length + off))
			if 2*off > v || 2*off <= -v || !same(c.Pattern, s.Right, s.Left, new(big.Rat), at) {
				t.Errorf("unmatched %v is not out by %v", d, off)
			}
		}
		if least := l.Length - l.Plain; len(drops) == 1 && drops[0].Count == 1 {
			k := repeat.KindOf(c, drops[0], s)
			if least > min(k.InTurn, k.Grouped) {
				t.Errorf("waste %v; in turn %v, grouped %v", least, k.InTurn, k.Grouped)
			}
		}
	})
}

// One more drop, or a longer one, never takes less cloth.
func TestMoreTakesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, drops := cloths().Draw(t, "cloth"), dropsOf(t)
		s := repeat.SeamOf(c, 0)
		before := repeat.Lay(c, drops, s).Length
		more := slices.Clone(drops)
		more[0].Count++
		if after := repeat.Lay(c, more, s).Length; after < before {
			t.Errorf("%v with one more, %v before", after, before)
		}
		longer := slices.Clone(drops)
		longer[0].Length += length.Millimetre
		if after := repeat.Lay(c, longer, s).Length; after < before {
			t.Errorf("%v when longer, %v before", after, before)
		}
	})
}
