package drawing

import (
	"regexp"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

func listOf(p furniture.Piece, change func(*service.CuttingListRequest)) *service.CuttingListAnswer {
	req := service.CuttingListRequest{Piece: p, Cloth: &cloth.Cloth{Name: "Heron and sedge", Width: 137 * cm, OneWay: true, Pattern: cloth.Pattern{
		LengthRepeat: 64 * cm, WidthRepeat: 685 * length.Millimetre, Drop: cloth.Half(), Motifs: []cloth.Motif{{Name: "heron", Across: 342 * length.Millimetre}},
	}}}
	if change != nil {
		change(&req)
	}
	return service.CuttingList(req)
}

// The sheet of every kind, with every choice of style, names every panel with its
// cut size, in black and white, and can be printed.
func TestCuttingListSheet(t *testing.T) {
	colour := regexp.MustCompile(`#[0-9a-f]{3,6}`)
	for _, k := range furniture.Kinds() {
		pieces := []furniture.Piece{{Kind: k.ID, Count: 2, Motif: "heron"}}
		for _, o := range k.Options {
			last := o.Choices[len(o.Choices)-1].ID
			pieces = append(pieces, furniture.Piece{Kind: k.ID, Count: 1, Units: length.Imperial, Options: map[string]string{o.ID: last}})
		}
		for n, p := range pieces {
			ans := listOf(p, nil)
			svg := string(CuttingListPicture(ans).SVG())
			texts := make(map[string]bool)
			for _, node := range read(t, []byte(svg)) {
				texts[node.text] = true
			}
			for _, panels := range ans.Covers {
				for _, q := range panels {
					if want := "cut " + bound(cutText(q.Cut(), p.Units)); !strings.Contains(svg, want) {
						t.Errorf("%s: %s is not on the sheet with %q", k.ID, q.ID, want)
					}
					if !texts[repeated(q.ID, q.Name, q.Count)] {
						t.Errorf("%s: %s has no title", k.ID, q.ID)
					}
				}
			}
			for _, c := range colour.FindAllString(svg, -1) {
				if c != "#000" && c != "#fff" && c != "#000000" && c != "#ffffff" {
					t.Errorf("%s: colour %s", k.ID, c)
				}
			}
			if n > 0 {
				continue
			}
			if _, err := CuttingListPicture(ans).PDF(A4()); err != nil {
				t.Errorf("%s: %v", k.ID, err)
			}
			checkPage(t, CuttingListText(ans))
		}
	}
}

// Panels that a caller gives, as small, large and oddly named as he may.
func TestCuttingListSheetOfGivenPanels(t *testing.T) {
	for _, text := range hostile {
		ans := listOf(furniture.Piece{Kind: "carver", Count: 1}, func(r *service.CuttingListRequest) {
			r.Cloth.Name = text
			r.Replace = []panel.Panel{
				{ID: "SMALL", Name: text, Count: 1, Size: size(panel.MinSize, panel.MinSize), Match: panel.Match{How: panel.Centred, Motif: text}},
				{ID: "LONG", Name: text, Count: 99, Size: size(panel.MaxSize, panel.MaxSize), Allow: panel.Sides{Top: panel.MaxAllow}, Join: panel.JoinHalves},
				{ID: "THIN", Name: text, Count: 1, Size: size(panel.MaxSize, panel.MinSize), Turn: panel.Quarter, Match: panel.Match{How: panel.RunsOn, From: "LONG", Edge: panel.RightEdge}},
			}
		})
		read(t, CuttingListPicture(ans).SVG())
		checkPage(t, CuttingListText(ans))
		if _, err := CuttingListPicture(ans).PDF(A4()); err != nil {
			t.Error(err)
		}
	}
}
