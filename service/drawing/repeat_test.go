package drawing

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
	"github.com/bridletie/bridletie/service"
)

// curtains are a pair in a half-drop, each joined of two widths, and a pelmet.
func curtains(t testing.TB, change func(*service.RepeatRequest)) *service.RepeatAnswer {
	t.Helper()
	req := service.RepeatRequest{
		Cloth: cloth.Cloth{Name: "Heron and sedge", Width: 137 * cm, OneWay: true, Pattern: cloth.Pattern{
			LengthRepeat: 64 * cm, WidthRepeat: 137 * cm, Drop: cloth.Half(),
			Motifs: []cloth.Motif{{Name: "heron", Across: 34 * cm}, {Name: "sedge", Across: 102 * cm, Along: 32 * cm}},
		}},
		Sold: cloth.Sold{Step: 10 * cm},
		Drops: []service.RepeatDrop{
			{Name: "reading-room curtains", Length: 150 * cm, Count: 2, Widths: 2, Place: &service.RepeatPlace{Motif: "heron", FromTop: 40 * cm}},
			{Name: "pelmet", Length: 40 * cm, Count: 1, Widths: 1},
		},
		Centre: &service.RepeatCentre{Finished: 200 * cm},
		Panel:  &service.RepeatPanel{Finished: repeat.Extent{Across: 62 * cm, Along: 78 * cm}, Size: repeat.Extent{Across: 30 * cm, Along: 40 * cm}},
	}
	change(&req)
	ans, err := service.Repeat(req)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func TestRepeatGolden(t *testing.T) {
	ans := curtains(t, func(*service.RepeatRequest) {})
	golden(t, "repeat.svg", RepeatPicture(ans).SVG())
	golden(t, "repeat.txt", []byte(RepeatText(ans)))
	ans = curtains(t, func(r *service.RepeatRequest) {
		r.Units, r.Cloth.Pattern.WidthRepeat, r.Seam = length.Imperial, 50*cm, 2*cm
		r.Drops[0].Widths, r.Cloth.Pattern.Drop = 3, cloth.Drop{Num: 1, Den: 3}
	})
	golden(t, "repeat-third.svg", RepeatPicture(ans).SVG())
	golden(t, "repeat-third.txt", []byte(RepeatText(ans)))
}

// Every answer is drawn and written, whatever it is called.
func TestAnyRepeatIsDrawn(t *testing.T) {
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 12))
		ans := curtains(t, func(q *service.RepeatRequest) {
			q.Cloth.Name, q.Drops[0].Name = hostile[r.IntN(len(hostile))], hostile[r.IntN(len(hostile))]
			q.Cloth.Width = length.Length(1 + r.Int64N(int64(10*length.Metre)))
			q.Cloth.Pattern.WidthRepeat = length.Length(1+r.Int64N(1000)) * length.Millimetre
			q.Cloth.Pattern.LengthRepeat = length.Length(1+r.Int64N(1000)) * length.Millimetre
			q.Drops[0].Length = length.Length(1 + r.Int64N(int64(20*length.Metre)))
			q.Drops[0].Widths = 1 + r.IntN(30)
			switch r.IntN(4) {
			case 0:
				q.Cloth.Pattern, q.Centre, q.Panel, q.Drops[0].Place = cloth.Pattern{}, nil, nil, nil
			case 1:
				q.Cloth.Pattern.WidthRepeat, q.Cloth.Pattern.Drop, q.Centre = 0, cloth.Drop{}, nil
			}
		})
		svg := RepeatPicture(ans).SVG()
		read(t, svg)
		checkPage(t, RepeatText(ans))
		if len(svg) > 2_000_000 {
			t.Errorf("%d bytes", len(svg))
		}
		if t.Failed() {
			t.Fatalf("seed %d", seed)
		}
	}
}

func TestRepeatTextSays(t *testing.T) {
	text := strings.Join(strings.Fields(RepeatText(curtains(t, func(*service.RepeatRequest) {}))), " ")
	for _, want := range []string{"Order ", "The pattern meets across.", "begins 32 cm earlier", "half a repeat in each width: ", "not matched at all: 6.4 m", "each seam would be"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in %s", want, text)
		}
	}
}
