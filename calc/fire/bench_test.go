package fire

import "testing"

func BenchmarkCheck(b *testing.B) {
	s := rules(b)
	for name, j := range map[string]Job{
		"held": gb(overInterliner, report("FOAM", "uk-sch1-1")),
		"mend": ca(interliner, lay(2, "WAD", roleWadding, "polyester-fibre", "sheet"), deal("reupholstered-for-owner"), yes(added)),
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

func BenchmarkLoad(b *testing.B) {
	for b.Loop() {
		if _, err := Load(); err != nil {
			b.Fatal(err)
		}
	}
}
