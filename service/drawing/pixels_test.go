package drawing

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
)

// A place of a page is another when the nine pixels about it are together by so
// much darker or lighter, in the middle; a page is another when so many of a
// thousand places are. That leaves some room for how a rasteriser smooths an edge.
const (
	pixelStep  = 16
	pixelShare = 2.0
)

// rasterised is a page of a picture as grey pixels.
func rasterised(t *testing.T, p *Picture, page int) *image.Gray {
	t.Helper()
	to := filepath.Join(t.TempDir(), "page")
	n := fmt.Sprint(page)
	tool(t, "pdftoppm", "-r", "60", "-gray", "-png", "-singlefile", "-f", n, "-l", n, printedOf(t, p), to)
	return grey(t, to+".png")
}

func grey(t *testing.T, file string) *image.Gray {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	g := image.NewGray(img.Bounds())
	for y := g.Rect.Min.Y; y < g.Rect.Max.Y; y++ {
		for x := g.Rect.Min.X; x < g.Rect.Max.X; x++ {
			g.Set(x, y, color.GrayModel.Convert(img.At(x, y)))
		}
	}
	return g
}

// differing is how many of a thousand places are others; all, when the pages are
// not of one size.
func differing(a, b *image.Gray) float64 {
	if a.Rect != b.Rect {
		return 1000
	}
	n := 0
	for y := a.Rect.Min.Y + 1; y < a.Rect.Max.Y-1; y++ {
		for x := a.Rect.Min.X + 1; x < a.Rect.Max.X-1; x++ {
			if d := nine(a, x, y) - nine(b, x, y); d > 9*pixelStep || d < -9*pixelStep {
				n++
			}
		}
	}
	return 1000 * float64(n) / float64(len(a.Pix))
}

// nine is the sum of the pixels about a place.
func nine(g *image.Gray, x, y int) (sum int) {
	for v := y - 1; v <= y+1; v++ {
		i := g.PixOffset(x-1, v)
		sum += int(g.Pix[i]) + int(g.Pix[i+1]) + int(g.Pix[i+2])
	}
	return sum
}

// goldenPages are the pages that are kept as pixels.
func goldenPages(t *testing.T) map[string]struct {
	p    *Picture
	page int
} {
	k, _ := furniture.Find("wing-chair")
	return map[string]struct {
		p    *Picture
		page int
	}{
		"plan-key":  {PlanPicture(wingChair()), 1},
		"plan":      {PlanPicture(wingChair()), 2},
		"buttoning": {ButtoningPicture(buttoned(t, size(56*cm, 78*cm), nil)), 1},
		"foam":      {FoamPicture(bench(t, "window bench")), 1},
		"guide":     {MeasuringPicture(k, length.Metric), 1},
	}
}

// The pages look as they did when they were looked at last.
func TestGoldenPages(t *testing.T) {
	for name, one := range goldenPages(t) {
		got := rasterised(t, one.p, one.page)
		file := filepath.Join("testdata", "pages", name+".png")
		if *update {
			f, err := os.Create(file)
			if err != nil {
				t.Fatal(err)
			}
			if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(f, got); err != nil {
				t.Fatal(err)
			}
			if err := f.Close(); err != nil {
				t.Fatal(err)
			}
		}
		if share := differing(got, grey(t, file)); share > pixelShare {
			t.Errorf("%s: %.1f of a thousand pixels are others; look at it, then use -update", name, share)
		}
	}
}

// The comparison bites: a page that is moved by three pixels, one panel that is,
// a hatching that is missing and a single name that is are each seen.
func TestPixelsBite(t *testing.T) {
	p := PlanPicture(wingChair())
	right := rasterised(t, p, 2)
	if blank := ink(right); blank < 20 {
		t.Fatalf("only %.1f of a thousand pixels are dark", blank)
	}
	moved := image.NewGray(right.Rect)
	for y := range right.Rect.Dy() {
		for x := range right.Rect.Dx() {
			moved.SetGray(x, y, right.GrayAt(max(x-3, 0), y))
		}
	}
	if share := differing(right, moved); share <= 5*pixelShare {
		t.Errorf("moved by three pixels: only %.1f of a thousand are others", share)
	}
	for name, one := range map[string]struct {
		page  int
		spoil func(strip *Group)
	}{
		"a panel moved by 10 cm": {2, func(g *Group) {
			for i, it := range g.Items {
				if panel, ok := it.(Group); ok && strings.HasPrefix(panel.Title, "IB ") {
					panel.Dx += 100
					g.Items[i] = panel
				}
			}
		}},
		"no hatching": {4, func(g *Group) {
			for i, it := range g.Items {
				if h, ok := it.(Hatch); ok {
					h.Gap = 1e6
					g.Items[i] = h
				}
			}
		}},
		"no name": {2, func(g *Group) {
			for i, it := range g.Items {
				if panel, ok := it.(Group); ok && strings.HasPrefix(panel.Title, "IB ") {
					panel.Items = slices.DeleteFunc(panel.Items, func(s Shape) bool { _, ok := s.(Text); return ok })
					g.Items[i] = panel
				}
			}
		}},
	} {
		right, bad := rasterised(t, p, one.page), PlanPicture(wingChair())
		for i, it := range bad.Items {
			if g, ok := it.(Group); ok && len(g.Items) > 10 {
				one.spoil(&g)
				bad.Items[i] = g
			}
		}
		if share := differing(right, rasterised(t, bad, one.page)); share <= 1.5*pixelShare {
			t.Errorf("%s: only %.1f of a thousand places are others", name, share)
		}
	}
}

// ink is how many of a thousand pixels are dark.
func ink(g *image.Gray) float64 {
	n := 0
	for _, p := range g.Pix {
		if p < 128 {
			n++
		}
	}
	return 1000 * float64(n) / float64(len(g.Pix))
}
