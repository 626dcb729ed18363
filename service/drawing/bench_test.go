package drawing

import (
	"context"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/foundation"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/calc/wadding"
	"github.com/bridletie/bridletie/service"
)

// framed answers frames; those that are refused fail the test.
func framed(t testing.TB, req service.FoundationRequest) *service.FoundationAnswer {
	t.Helper()
	if l := service.Faults(service.PrepareFoundation(req)); l.Len() > 0 {
		t.Fatalf("faults: %+v", l.Faults())
	}
	ans, err := service.Foundation(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

func wrapped(t testing.TB, req service.WaddingRequest) *service.WaddingAnswer {
	t.Helper()
	if l := service.Faults(service.PrepareWadding(req)); l.Len() > 0 {
		t.Fatalf("faults: %+v", l.Faults())
	}
	ans, err := service.Wadding(context.Background(), req)
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

// everyFrame has each shape, build of springs and kind of show wood.
func everyFrame(name string) service.FoundationRequest {
	return service.FoundationRequest{Job: foundation.Job{Frames: []foundation.Frame{
		{ID: "SEAT", Name: name, Count: 1, Shape: foundation.Trapezoid, Front: 64 * cm, Back: 56 * cm, Depth: 62 * cm, EdgeRows: -1, ShowWood: true},
		{ID: "IB", Name: name, Part: foundation.Back, Count: 1, Front: 56 * cm, Depth: 76 * cm, EdgeRows: -1, UnderSprings: true},
		{ID: "STOOL", Name: name, Place: foundation.DropIn, Count: 3, Shape: foundation.Circle, Front: 38 * cm, EdgeRows: 0},
		{ID: "DINING", Name: name, Place: foundation.SmallChair, Count: 2, Shape: foundation.DShape, Front: 46 * cm, Depth: 44 * cm, Springs: []int{2, 1, 2}, EdgeRows: -1},
	}}}
}

func everyItem(name string) service.WaddingRequest {
	return service.WaddingRequest{Job: wadding.Job{Items: []wadding.Item{
		{ID: "CUSHION", Name: name, Count: 2, Layers: 1, Width: 90 * cm, Depth: 64 * cm, Thickness: 12 * cm, Ends: true},
		{ID: "IB", Name: name, Kind: wadding.Back, Count: 1, Layers: 1, Width: 56 * cm, Depth: 76 * cm, Thickness: 8 * cm, Material: wadding.Skin},
		{ID: "DOME", Name: name, Kind: wadding.Dome, Count: 1, Layers: 2, Width: 48 * cm, Depth: 45 * cm, Rise: 4 * cm, Material: wadding.CottonFelt},
		{ID: "SEATS", Name: name, Kind: wadding.Seats, Count: 6, Layers: 1, Material: wadding.Hair},
	}}}
}

func TestBenchGolden(t *testing.T) {
	ans := framed(t, everyFrame("frame"))
	golden(t, "foundation.svg", FoundationPicture(ans).SVG())
	golden(t, "foundation.txt", []byte(FoundationText(ans)))
	modern := everyFrame("frame")
	modern.Build, modern.Fixing, modern.Units = foundation.Modern, foundation.Staples, length.Imperial
	modern.Frames[1].UnderSprings, modern.Frames[3].Springs = false, nil
	golden(t, "foundation-modern.txt", []byte(FoundationText(framed(t, modern))))
	rolls := wrapped(t, everyItem("item"))
	golden(t, "wadding.svg", WaddingPicture(rolls).SVG())
	golden(t, "wadding.txt", []byte(WaddingText(rolls)))
}

// Whatever the names hold, the drawings are plain drawings and the pages fit.
func TestBenchHostileNames(t *testing.T) {
	for _, name := range hostile {
		ans, rolls := framed(t, everyFrame(name)), wrapped(t, everyItem(name))
		read(t, FoundationPicture(ans).SVG())
		read(t, WaddingPicture(rolls).SVG())
		checkPage(t, FoundationText(ans))
		checkPage(t, WaddingText(rolls))
	}
}

// Every web, every spring and every frame is drawn, and the webs change sides.
func TestFramesAreDrawnWhole(t *testing.T) {
	ans := framed(t, everyFrame("frame"))
	s := &frameSheet{benchPaper(length.Metric, usualWidth), ans}
	for k := range ans.Work.Built {
		f, b := &ans.Request.Frames[k], &ans.Work.Built[k]
		var webs, coils, patches int
		for _, shape := range s.frame(f, b, s.left()) {
			switch one := shape.(type) {
			case Path:
				switch one.Class {
				case cAcross, cAlong:
					webs++
				case cAcrossFill:
					patches += len(one.Lines)
				}
			case Circle:
				if one.Class == cCoil {
					coils++
				}
			}
		}
		if webs != len(b.Webbing.Webs) || coils != len(b.Grid.Centres) {
			t.Errorf("%s: %d webs of %d and %d springs of %d", f.ID, webs, len(b.Webbing.Webs), coils, len(b.Grid.Centres))
		}
		over := 0
		for _, w := range b.Webbing.Webs {
			if w.Way == foundation.Across {
				over += len(b.Webbing.PassesOver(w))
			}
		}
		if f.Shape == foundation.Rectangle && patches != over || patches == 0 || patches > over {
			t.Errorf("%s: %d crossings over, want %d", f.ID, patches, over)
		}
	}
}

// What is not to be bought is not spoken of.
func TestFoundationSaysNothingOfNothing(t *testing.T) {
	req := everyFrame("frame")
	req.Build = foundation.Modern
	req.Frames = req.Frames[2:3]
	page := FoundationText(framed(t, req))
	for _, word := range []string{"Springs", "Twine", "Stuffing", "Gimp", "Scrim"} {
		if strings.Contains(page, word) {
			t.Errorf("%q in\n%s", word, page)
		}
	}
}

// The largest drawing stays within what the contract says of it.
func TestLargestBenchIsBounded(t *testing.T) {
	req := service.FoundationRequest{}
	for i := range 40 {
		req.Frames = append(req.Frames, foundation.Frame{
			ID: strings.Repeat("W", 30) + string(rune('A'+i%26)) + string(rune('A'+i/26)), Name: strings.Repeat("椅", 80), Count: 5,
			Front: 400 * cm, Depth: 400 * cm, EdgeRows: -1, ShowWood: true,
		})
	}
	if n := len(FoundationPicture(framed(t, req)).SVG()); n > 16_000_000 {
		t.Errorf("%d bytes", n)
	}
	var items service.WaddingRequest
	for i := range 100 {
		items.Items = append(items.Items, wadding.Item{ID: string(rune('A'+i%26)) + string(rune('A'+i/26)), Name: strings.Repeat("椅", 80), Count: 5, Layers: 1, Width: 60 * cm, Depth: 30 * cm, Thickness: 10 * cm})
	}
	items.Given = []practice.Given{{Name: "polyester-roll", Value: int64(100 * cm)}}
	if n := len(WaddingPicture(wrapped(t, items)).SVG()); n > 16_000_000 {
		t.Errorf("%d bytes", n)
	}
}

func BenchmarkFoundationSVG(b *testing.B) {
	ans := framed(b, everyFrame("frame"))
	for b.Loop() {
		FoundationPicture(ans).SVG()
	}
}
