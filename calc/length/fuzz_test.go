package length

import (
	"errors"
	"strings"
	"testing"
)

// FuzzParse checks that Parse never panics, that what it reads prints to a text
// that reads the same, and that what it refuses it refuses in its own terms.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"137 cm", "54 in", "1.5 m", "4 1/2 in", "4½ in", "1 yd 2 ft 3 1/2 in", "1 m 20 cm 5.5 mm", `6'2 1/2"`, "6′ 2″", "6’ 2”",
		"-½ yd", "+.5 in", "4 1⁄2\u00a0in", "1,000 mm", "12", "13 stone", "1/3 in", "1e3 mm", "0x10 mm", "99999999999999999999 m",
		"-9223372036854.775808 mm", "9223372036 m 85 cm 4.775807 mm", "1/1000 m", "\xff", "12 m\xff", strings.Repeat("9", 70),
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, in string) {
		l, err := Parse(in)
		if err != nil {
			var pe *ParseError
			if l != 0 || !errors.As(err, &pe) || len(pe.Input) > 64 || !strings.HasPrefix(in, pe.Input) {
				t.Fatalf("Parse(%q) = %v, %#v", in, l, err)
			}
			reasons := 0
			for _, s := range sentinels {
				if s != ErrComma && errors.Is(err, s) {
					reasons++
				}
			}
			if reasons != 1 {
				t.Fatalf("Parse(%q): %q has %d reasons, want 1", in, err, reasons)
			}
			return
		}
		if strings.Contains(in, ",") {
			t.Fatalf("Parse(%q) = %v, want a comma refused", in, l)
		}
		if back, err := Parse(l.String()); err != nil || back != l {
			t.Fatalf("Parse(%q) = %v, but Parse(%q) = %v, %v", in, l, l.String(), back, err)
		}
		for _, sys := range []System{Metric, Imperial} {
			text := l.Text(sys, Down)
			back, err := Parse(text)
			if err == nil && back > l || err != nil && !errors.Is(err, ErrRange) {
				t.Fatalf("Parse(%q) = %v, %v, want at most %v", text, back, err, l)
			}
		}
	})
}
