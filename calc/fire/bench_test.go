package fire

import "testing"

func BenchmarkCheck(b *testing.B) {
	s := rules(b)
	for name, j := range map[string]Job{
		"held": gb(overInterliner, report("FOAM", "uk-sch1-1")),
		"mend": ca(interliner, lay(2, "WAD", roleWadding, "polyester-fibre", "sheet"), deal("reupholstered-for-owner"), yes(added)),
		"most": most(),
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := s.Check(j); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// most is as much as a request may hold.
func most() Job {
	j := ca(deal("reupholstered-for-owner"), yes(added), alone("COVER"))
	for i := range 15 {
		id := string(rune('A' + i))
		lay(1, id, vocabulary["role"][i%11], "polyurethane-foam", "slab")(&j)
		for range 3 {
			report(id, "-tb117-2013-3")(&j)
		}
	}
	return j
}

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
