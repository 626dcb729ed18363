package drawing

import (
	"bytes"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// The same picture gives the same bytes, on either paper.
func TestPDFIsTheSameEveryTime(t *testing.T) {
	p := PlanPicture(wingChair())
	print := func(p *Picture, paper Paper) []byte {
		pdf, err := p.PDF(paper)
		if err != nil {
			t.Fatal(err)
		}
		return pdf
	}
	a4 := print(p, A4())
	if !bytes.HasPrefix(a4, []byte("%PDF-")) || !bytes.Equal(a4, print(PlanPicture(wingChair()), A4())) {
		t.Error("two documents of one picture")
	}
	if bytes.Equal(a4, print(p, Letter())) {
		t.Error("the papers make no difference")
	}
}

// measured reports the time of the processor besides that of the clock, which
// counts what else the machine does.
func measured(b *testing.B, work func()) {
	now := func() time.Duration {
		var u syscall.Rusage
		if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
			b.Skip(err)
		}
		return time.Duration(u.Utime.Nano() + u.Stime.Nano())
	}
	b.ReportAllocs()
	from, n := now(), 0
	for b.Loop() {
		work()
		n++
	}
	b.ReportMetric(float64((now()-from).Microseconds())/1000/float64(n), "cpu-ms/op")
}

func BenchmarkPDF(b *testing.B) {
	p := PlanPicture(wingChair())
	measured(b, func() {
		if _, err := p.PDF(A4()); err != nil {
			b.Fatal(err)
		}
	})
}

// As many pages as a workroom pins up: two plans, charts, foam, cuts and pleats.
func BenchmarkPDFOfAJob(b *testing.B) {
	all := []*Picture{
		PlanPicture(wingChair()), PlanPicture(joined()), ButtoningPicture(buttoned(b, size(56*cm, 78*cm), nil)),
		FoamPicture(bench(b, "window bench")), ReliefPicture(carverSeat()), PleatsPicture(armFront()),
	}
	pages := 0
	for _, p := range all {
		pages += len(pagesOf(p, A4()))
	}
	measured(b, func() {
		if _, err := PDF(A4(), "A job", all...); err != nil {
			b.Fatal(err)
		}
	})
	b.ReportMetric(float64(pages), "pages")
}

// thirty is a plan of thirty panels on a patterned cloth, each with its wish, its
// allowances and its motif.
func thirty() *service.YardageAnswer {
	ans := &service.YardageAnswer{Order: 9 * length.Metre, AnyStart: 9 * length.Metre}
	ans.Request.Cloth = heronAndSedge()
	l := plan.Layout{Start: 12 * cm}
	for k := range 30 {
		p := panel.Panel{ID: "P" + strconv.Itoa(k+1), Name: "panel", Count: 1, Size: size(38*cm, 70*cm), Allow: all(2 * cm), Match: wish(panel.Centred, "heron")}
		ans.Request.Panels = append(ans.Request.Panels, p)
		pl := whole(k, 1, length.Length(k%3)*45*cm, length.Length(k/3)*80*cm, p.Cut(), panel.Upright)
		pl.Motif = &plan.MotifAt{X: pl.X + 21*cm, Y: pl.Y + 37*cm}
		l.Placements = append(l.Placements, pl)
		l.Length = pl.Y + pl.Along
	}
	ans.Result.Cut = []plan.Layout{l}
	for i := range 8 {
		ans.Offcuts = append(ans.Offcuts, service.Offcut{Rect: plan.Rect{X: 42 * cm, Y: length.Length(i) * 80 * cm, Across: 3 * cm, Along: 74 * cm}})
	}
	return ans
}

func TestThirtyPanelsAreDrawn(t *testing.T) {
	svg := string(PlanPicture(thirty()).SVG())
	for k := range 30 {
		if want := "<title>P" + strconv.Itoa(k+1) + " panel:"; strings.Count(svg, want) != 1 {
			t.Errorf("%q is drawn %d times", want, strings.Count(svg, want))
		}
	}
}

func BenchmarkThirtyPanelsSVG(b *testing.B) {
	ans := thirty()
	measured(b, func() { PlanPicture(ans).SVG() })
}
