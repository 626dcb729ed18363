package drawing

import (
	"bytes"
	"syscall"
	"testing"
	"time"
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
