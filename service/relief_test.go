package service_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/pleat"
	"github.com/bridletie/bridletie/calc/relief"
	"github.com/bridletie/bridletie/service"
)

func reliefOn(top length.Length, os ...relief.Obstacle) *service.ReliefAnswer {
	return service.Relief(service.ReliefRequest{Job: relief.Job{
		Size: panel.Size{Across: 50 * cm, Along: 46 * cm}, Allow: panel.Sides{Top: top, Bottom: 7 * cm, Left: 7 * cm, Right: 7 * cm},
		Most: 8 * cloth.Percent, Obstacles: os}})
}

func reliefWarned(list []note.Note, parts ...string) bool {
	return slices.ContainsFunc(note.Texts(list, length.Metric), func(s string) bool {
		for _, p := range parts {
			if !strings.Contains(s, p) {
				return false
			}
		}
		return true
	})
}

// What cannot be done is said with the way out that there is.
func TestReliefWarnings(t *testing.T) {
	for _, tc := range []struct {
		name  string
		top   length.Length
		o     relief.Obstacle
		whole bool
		parts []string
	}{
		{"no room", 5 * length.Millimetre, relief.Obstacle{ID: "A", At: 25 * cm, Width: 5 * cm}, false, []string{"A: no cut", "An allowance of", "would do"}},
		{"too wide a range", 7 * cm, relief.Obstacle{ID: "B", At: 3 * cm, Width: 8 * length.Millimetre, Deep: 3 * cm}, false, []string{"B: no cut", "no allowance helps", "% or less"}},
		{"too thin", 7 * cm, relief.Obstacle{ID: "C", At: 3 * cm, Width: 8 * length.Millimetre, Deep: 3 * cm, Covered: cm}, false, []string{"C: no cut", "too thin"}},
		{"a tongue that is short", 2 * cm, relief.Obstacle{ID: "D", At: 25 * cm, Width: 5 * cm, Deep: 3 * cm, Stuffing: 10 * cm}, true, []string{"D: the tongue is", "short", "an allowance of"}},
		{"a flap that is narrow", 7 * cm, relief.Obstacle{ID: "E", At: 25 * cm, Width: 10 * length.Millimetre, Deep: 3 * cm}, true, []string{"E: the left flap is", "sew a strip"}},
	} {
		a := reliefOn(tc.top, tc.o)
		if a.Whole() != tc.whole || !reliefWarned(a.Warnings, tc.parts...) {
			t.Errorf("%s: whole %v, warnings %q", tc.name, a.Whole(), a.Warnings)
		}
	}
	post := relief.Obstacle{ID: "F", At: 25 * cm, Width: 6 * cm, Deep: 4 * cm, Stuffing: 3 * cm}
	if a := reliefOn(9*cm, post); !a.Whole() || len(a.Warnings) > 0 || len(a.Cautions) == 0 {
		t.Errorf("warnings %q", a.Warnings)
	}
	twin := post
	twin.ID = "G"
	if a := reliefOn(9*cm, post, twin); !reliefWarned(a.Warnings, "F and G cross") {
		t.Errorf("warnings %q", a.Warnings)
	}
}

func TestPleatsWarnings(t *testing.T) {
	plan := func(cloth, finished length.Length, style pleat.Style, count int) *service.PleatsAnswer {
		return service.Pleats(service.PleatsRequest{Job: pleat.Job{
			From: pleat.From{How: pleat.Lengths, Cloth: cloth, Finished: finished, TurnOver: 5 * cm}, Style: style, Count: count}})
	}
	for _, tc := range []struct {
		name string
		a    *service.PleatsAnswer
		part string
	}{
		{"over one another", plan(60*cm, 10*cm, pleat.Fan, 4), "lie over one another"},
		{"shallow", plan(51*cm, 50*cm, pleat.Fan, 4), "less than 3 mm"},
		{"faces that overlap", plan(60*cm, 10*cm, pleat.Box, 4), "overlap"},
		{"wide snips", plan(40*cm, 50*cm, pleat.AnyStyle, 4), "more snips"},
	} {
		if !reliefWarned(tc.a.Warnings, tc.part) {
			t.Errorf("%s: warnings %q", tc.name, tc.a.Warnings)
		}
	}
	if a := plan(80*cm, 60*cm, pleat.Fan, 8); len(a.Warnings) > 0 || len(a.Notes) == 0 || len(a.Cautions) == 0 || a.Kind() != "pleats" {
		t.Errorf("warnings %q", a.Warnings)
	}
	if a := plan(60*cm, 60*cm, pleat.AnyStyle, 0); a.Kind() != "none" {
		t.Errorf("kind %q", a.Kind())
	}
	// the remainder that is said is the one that was spread
	a := plan(707*length.Millimetre, 60*cm, pleat.Fan, 6)
	if !strings.Contains(a.Remainder, "5 mm is left over") || a.Result.Absorbed() != 107*length.Millimetre {
		t.Errorf("%q, %v", a.Remainder, a.Result.Absorbed())
	}
}

func BenchmarkRelief(b *testing.B) {
	for b.Loop() {
		reliefOn(7*cm, relief.Obstacle{ID: "A", At: 25 * cm, Width: 5 * cm, Deep: 3 * cm}, relief.Obstacle{ID: "B", Corner: relief.TopLeft, Width: 5 * cm, Deep: 3 * cm},
			relief.Obstacle{ID: "C", Edge: relief.LeftEdge, Round: true, At: 25 * cm, Width: 8 * cm, Deep: 6 * cm}, relief.Obstacle{ID: "D", What: relief.Leg, Corner: relief.BottomLeft, Width: 5 * cm, Deep: 3 * cm})
	}
}
