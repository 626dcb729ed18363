package drawing

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

var hostile = []string{
	`</text><script>alert(1)</script>`,
	`"><svg onload='x'>`,
	"a\x00b\x1b[31mc\u0085d\u2028e\u202ef\ufffeg",
	"]]><!-- & &amp; &#0; -->",
	"כיסא נוח",
	"كرسي بجناحين",
	"🪑 seat 👩‍🔧",
	"\xff\xfe broken",
	strings.Repeat("W", 80),
	strings.Repeat("椅", 80),
	strings.Repeat("a b ", 20),
	" ",
}

// named is the wing chair with one text everywhere.
func named(text string) *service.YardageAnswer {
	ans := wingChair()
	ans.Request.Cloth.Name = text
	for i := range ans.Request.Panels {
		ans.Request.Panels[i].Name = text
		if ans.Request.Panels[i].Match.Motif != "" {
			ans.Request.Panels[i].Match.Motif = text
		}
	}
	for i := range ans.Request.Cloth.Pattern.Motifs {
		ans.Request.Cloth.Pattern.Motifs[i].Name = text
	}
	ans.Request.Panels[0].ID = text
	ans.Request.Panels[1].Match.From = text
	ans.Warnings, ans.Cautions = say(text), say(text)
	ans.Offcuts[0].WouldMake = say(text)
	return ans
}

func TestHostileNames(t *testing.T) {
	for _, text := range hostile {
		ans := named(text)
		nodes := read(t, PlanPicture(ans).SVG())
		want := strings.ReplaceAll(clean(text), "\xff\xfe", "\ufffd\ufffd")
		found := false
		for _, n := range nodes {
			found = found || n.name == "title" && strings.Contains(n.text, strings.ToValidUTF8(want, "\ufffd"))
		}
		if !found {
			t.Errorf("%q is in no title", text)
		}
		checkPage(t, PlanText(ans))
	}
}

func FuzzName(f *testing.F) {
	for _, text := range hostile {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > 400 {
			return
		}
		ans := named(text)
		read(t, PlanPicture(ans).SVG())
		checkPage(t, PlanText(ans))
		if _, err := PlanPicture(ans).PDF(A4()); err != nil {
			t.Error(err)
		}
	})
}

// random is an answer that keeps no promise: anything may overlap, be
// negative, empty or far too large.
func random(r *rand.Rand) *service.YardageAnswer {
	odd := func() length.Length {
		switch r.IntN(12) {
		case 0:
			return 0
		case 1:
			return -length.Length(r.Int64N(int64(length.Metre)))
		case 2:
			return length.Length(r.Int64N(1e15))
		case 3:
			return []length.Length{math.MaxInt64, math.MinInt64, 1, -1}[r.IntN(4)]
		}
		return length.Length(r.Int64N(int64(2 * length.Metre)))
	}
	ans := &service.YardageAnswer{Order: odd()}
	ans.Request.Units = length.System(r.IntN(2))
	c := &ans.Request.Cloth
	*c = cloth.Cloth{Name: hostile[r.IntN(len(hostile))], Width: odd(), OneWay: r.IntN(2) == 0}
	c.Pattern = cloth.Pattern{LengthRepeat: odd(), WidthRepeat: odd(), Drop: cloth.Drop{Num: r.Int64N(3), Den: r.Int64N(13)}}
	for range r.IntN(17) {
		c.Pattern.Motifs = append(c.Pattern.Motifs, cloth.Motif{Name: hostile[r.IntN(len(hostile))], Across: odd(), Along: odd()})
	}
	for range r.IntN(12) {
		id := hostile[r.IntN(len(hostile))]
		ans.Request.Panels = append(ans.Request.Panels, panel.Panel{ID: id, Name: id, Count: r.IntN(9), Size: size(odd(), odd()),
			Allow: sides(odd(), odd(), odd(), odd()), JoinSeam: odd(), Join: panel.Join(r.IntN(4)), Pair: id,
			Match: panel.Match{How: panel.How(r.IntN(7)), From: hostile[r.IntN(4)], Edge: panel.Edge(r.IntN(5)), Offset: odd(), Tolerance: odd()}})
	}
	lay := func() plan.Layout {
		l := plan.Layout{Length: odd(), Start: odd()}
		for range r.IntN(20) {
			pl := plan.Placement{Panel: r.IntN(14) - 1, Copy: r.IntN(4), Part: r.IntN(4), Parts: r.IntN(4), From: odd(),
				X: odd(), Y: odd(), Across: odd(), Along: odd(), Turn: panel.Turn(r.IntN(4))}
			if r.IntN(2) == 0 {
				pl.Motif = &plan.MotifAt{Motif: r.IntN(19) - 1, X: odd(), Y: odd()}
			}
			l.Placements = append(l.Placements, pl)
		}
		return l
	}
	for range r.IntN(3) {
		ans.Result.Cut = append(ans.Result.Cut, lay())
	}
	ans.Result.Bound, ans.Result.Rows = odd(), odd()
	for range r.IntN(4) {
		ans.Offcuts = append(ans.Offcuts, service.Offcut{Piece: r.IntN(3), Rect: plan.Rect{X: odd(), Y: odd(), Across: odd(), Along: odd()}})
		ans.Joins = append(ans.Joins, service.Joined{Panel: r.IntN(14) - 1, Seams: []length.Length{odd()}})
	}
	if r.IntN(2) == 0 {
		ans.Pieces = &service.PiecesAnswer{Enough: service.Enough(r.IntN(3)), Short: odd(),
			Uses: []service.PieceUse{{Length: odd(), Layout: lay()}, {Length: odd(), Layout: lay(), AnyStart: true}}}
	}
	return ans
}

func TestAnyAnswerIsDrawn(t *testing.T) {
	for seed := range uint64(400) {
		ans := random(rand.New(rand.NewPCG(seed, 7)))
		svg := PlanPicture(ans).SVG()
		read(t, svg)
		if len(svg) > 1_000_000 {
			t.Errorf("seed %d: %d bytes", seed, len(svg))
		}
		page := PlanText(ans)
		checkPage(t, page)
		if len(page) > 200_000 {
			t.Errorf("seed %d: a page of %d bytes", seed, len(page))
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

// largest is as large as a request may be.
func largest() *service.YardageAnswer {
	ans := &service.YardageAnswer{}
	ans.Request.Cloth = heronAndSedge()
	ans.Request.Cloth.Pattern.LengthRepeat, ans.Request.Cloth.Pattern.WidthRepeat = 4*cm, 4*cm
	var l plan.Layout
	for k := range 500 {
		id := "P" + strings.Repeat("x", 31)
		p := panel.Panel{ID: id, Name: strings.Repeat("name ", 16), Count: 12, Size: size(30*cm, 20*cm), Allow: all(cm), Match: wish(panel.Centred, "heron")}
		if k > 0 {
			p.Match = below(id)
		}
		ans.Request.Panels = append(ans.Request.Panels, p)
		for n := range 12 {
			pl := whole(k, n+1, length.Length(n%4)*34*cm, length.Length(k*3+n/4)*22*cm, p.Cut(), panel.Upright)
			pl.Motif = &plan.MotifAt{X: pl.X + 16*cm, Y: pl.Y + 11*cm}
			l.Placements = append(l.Placements, pl)
			l.Length = pl.Y + pl.Along
		}
	}
	for range 200 {
		ans.Offcuts = append(ans.Offcuts, service.Offcut{Rect: plan.Rect{Across: 10 * cm, Along: 200 * length.Metre}, WouldMake: ans.Warnings})
	}
	ans.Result.Cut = []plan.Layout{l}
	return ans
}

// The contract promises at most 16,000,000 characters.
func TestLargestIsBounded(t *testing.T) {
	ans := largest()
	svg := PlanPicture(ans).SVG()
	read(t, svg)
	if len(svg) > 14_000_000 {
		t.Errorf("%d bytes", len(svg))
	}
	if page := PlanText(ans); len(page) > 4_000_000 {
		t.Errorf("a page of %d bytes", len(page))
	}
}

func BenchmarkPlanSVG(b *testing.B) {
	ans := wingChair()
	b.ReportAllocs()
	for b.Loop() {
		PlanPicture(ans).SVG()
	}
}

func BenchmarkPlanSVGLargest(b *testing.B) {
	ans := largest()
	b.ReportAllocs()
	for b.Loop() {
		PlanPicture(ans).SVG()
	}
}

func BenchmarkPlanText(b *testing.B) {
	ans := wingChair()
	b.ReportAllocs()
	for b.Loop() {
		PlanText(ans)
	}
}
