package service_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/verify"
	"github.com/bridletie/bridletie/service"
)

// bytesOf hands out bytes, and zeros when there are no more.
type bytesOf []byte

func (b *bytesOf) next() int {
	if len(*b) == 0 {
		return 0
	}
	n := int((*b)[0])
	*b = (*b)[1:]
	return n
}

// of is a place from 0 to most, both included.
func (b *bytesOf) of(most int64) int64 {
	n := int64(b.next())<<8 | int64(b.next())
	return n * most / 0xffff
}

// pieceFrom reads a piece within the measures and options of its kind.
func pieceFrom(b *bytesOf) furniture.Piece {
	kinds := furniture.Kinds()
	k := kinds[b.next()%len(kinds)]
	p := furniture.Piece{Kind: k.ID, Count: 1 + b.next()%furniture.MaxCount, Measures: map[string]length.Length{}, Options: map[string]string{}}
	for _, m := range k.Measures {
		if b.next()%8 != 0 { // or else typical
			p.Measures[m.ID] = m.Least + length.Length(b.of(int64((m.Most-m.Least)/(length.Millimetre/2))))*(length.Millimetre/2)
		}
	}
	for _, o := range k.Options {
		p.Options[o.ID] = o.Choices[b.next()%len(o.Choices)].ID
	}
	if b.next()%4 == 0 {
		for _, a := range []*length.Length{&p.Allow.Seam, &p.Allow.Pull, &p.Allow.Tuck, &p.Allow.Under} {
			*a = length.Length(b.of(practice.CoverSeam.Most/int64(length.Millimetre))) * length.Millimetre
		}
	}
	if b.next()%2 == 0 {
		p.Motif = "heron"
	}
	return p
}

// mostPlanned is how many panels are planned at once, and mostPolls how often the
// search asks whether to go on: more would try the search, which other tests do,
// and not the lists.
const (
	mostPlanned = 100
	mostPolls   = 25
)

// provePiece makes the list of a piece on a cloth, and plans every cover.
func provePiece(t *testing.T, p furniture.Piece, c cloth.Cloth) {
	if l := p.Faults(fault.Path{}); l.Len() > 0 {
		t.Fatalf("the piece has faults: %+v", l.Faults())
	}
	outside := cloths()[(len(p.Measures)+p.Count)%len(cloths())]
	req := service.CuttingListRequest{Piece: p, Cloth: &c, Outside: &outside}
	if l := service.Faults(service.PrepareCuttingList(req)); l.Len() > 0 {
		for _, f := range l.Faults() {
			if f.Code != fault.TooMany || f.Pointer() != "#/count" {
				t.Fatalf("%+v", f)
			}
		}
		return
	}
	ans := service.CuttingList(req)
	for cover, panels := range ans.Covers {
		from := c
		switch furniture.Cover(cover) {
		case furniture.Outside:
			from = outside
		case furniture.Lining:
			from = cloth.Cloth{Width: 120 * cm}
		}
		n := 0
		for _, q := range panels {
			n += q.Count
		}
		if n == 0 || n > mostPlanned {
			continue
		}
		ask := service.YardageRequest{Cloth: from, Panels: panels, Effort: plan.Quick}
		if l := service.YardageFaults(ask); l.Len() > 0 {
			t.Fatalf("cover %d: %+v", cover, l.Faults())
		}
		job, polls := plan.Job{Cloth: from, Panels: panels}, 0
		got, err := plan.Solve(job, plan.Quick, func() bool { polls++; return polls > mostPolls })
		if err != nil {
			t.Fatalf("cover %d: %v", cover, err)
		}
		for _, f := range verify.Check(job, got.Cut...) {
			t.Errorf("cover %d: %s", cover, f)
		}
	}
}

// FuzzCuttingList: whatever a piece measures and however it is made, its cutting
// list is without faults and the plan of it passes its check, on every cloth.
func FuzzCuttingList(f *testing.F) {
	for k := range furniture.Kinds() {
		f.Add([]byte{byte(k), byte(k)})
		seed := []byte{byte(k), byte(3 * k), 0}
		for i := range 70 {
			seed = append(seed, byte(37*k+91*i+i*i))
		}
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		b := bytesOf(data)
		at := b.next()
		all := cloths()
		p := pieceFrom(&b)
		provePiece(t, p, all[at%len(all)])
	})
}
