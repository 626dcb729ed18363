package drawing

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
)

// fontOf is the embedded font.
func fontOf(t testing.TB, bold bool) *sfnt.Font {
	t.Helper()
	ttf := goregular.TTF
	if bold {
		ttf = gobold.TTF
	}
	f, err := sfnt.Parse(ttf)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// advance is how broad a text is in the embedded font for a size of 1, by the
// advance widths of its letters.
func advance(t testing.TB, s string, bold bool) float64 {
	t.Helper()
	f := fontOf(t, bold)
	var buf sfnt.Buffer
	sum := 0.0
	for _, r := range s {
		if r == isolate || r == endIsolate {
			continue
		}
		g, err := f.GlyphIndex(&buf, r)
		if err != nil {
			t.Fatal(err)
		}
		wide, err := f.GlyphAdvance(&buf, g, 1000*64, font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		sum += float64(wide)
	}
	return sum / 64 / 1000
}

// No letter of the font is broader than what a text is taken for.
func TestBreadthIsEnough(t *testing.T) {
	for r := rune(' '); r < 0x180; r++ {
		if unicode.IsControl(r) || r == 0xad {
			continue
		}
		if got, want := runeBreadth(r), advance(t, string(r), false); got < want-1e-3 {
			t.Errorf("%q is taken for %.3f broad and is %.3f", r, got, want)
		}
		if got, want := runeBreadth(r)*boldAddition, advance(t, string(r), true); got < want-1e-3 {
			t.Errorf("bold %q is taken for %.3f broad and is %.3f", r, got, want)
		}
	}
	if asciiBreadths['A'-' '] != 704 || len(asciiBreadths) != 95 {
		t.Errorf("an A is %d broad, of %d letters", asciiBreadths['A'-' '], len(asciiBreadths))
	}
}

// Every sign that a drawing may say is in the embedded font: what the package's
// own texts hold, currencies, fractions and the letters of Europe.
func TestFontHasEverySign(t *testing.T) {
	signs := "€£$¥×½¼¾⅛⅜⅝⅞±≤≥°²³–—•…·“”‘’äöüßÄÖÜéèêëàâçñøåæœłśżźćńčřšžőűğşıİ"
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		signs += strings.Map(func(r rune) rune {
			if r < 0x80 {
				return -1
			}
			return r
		}, string(text))
	}
	for _, bold := range []bool{false, true} {
		f := fontOf(t, bold)
		var buf sfnt.Buffer
		for _, r := range signs {
			if g, err := f.GlyphIndex(&buf, r); err != nil || g == 0 {
				t.Errorf("%q is not in the font, bold %v", r, bold)
			}
		}
	}
}

// No text of any picture reaches over its edge.
func TestTextStaysOnThePicture(t *testing.T) {
	checked := 0
	for name, p := range printable(t) {
		var look func(items []Shape, dx float64)
		look = func(items []Shape, dx float64) {
			for _, it := range items {
				switch s := it.(type) {
				case Group:
					look(s.Items, dx+s.Dx)
				case Text:
					if s.Turn != 0 {
						continue
					}
					checked++
					long := advance(t, s.S, p.Classes[s.Class].Bold) * s.Size
					left := s.At.X + dx - long*[]float64{AtStart: 0, AtMiddle: 0.5, AtEnd: 1}[s.Anchor]
					if left < 0 || left+long > p.Width {
						t.Errorf("%s: %q from %.0f to %.0f, of %.0f", name, s.S, left, left+long, p.Width)
					}
				}
			}
		}
		look(p.Items, 0)
	}
	if checked < 1000 {
		t.Errorf("only %d texts were looked at", checked)
	}
}
