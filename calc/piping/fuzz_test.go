package piping_test

import (
	"testing"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/piping"
)

// Whatever the figures, every way is answered and its plan passes the check.
func FuzzSolve(f *testing.F) {
	f.Add(uint8(0), uint8(45), uint16(40), uint16(200), uint16(1370), uint16(263), uint16(1480), uint32(2320), uint32(1000), uint8(9), uint16(410), true)
	f.Add(uint8(1), uint8(15), uint16(5), uint16(10), uint16(10), uint16(1), uint16(1), uint32(10), uint32(10), uint8(0), uint16(0), false)
	f.Add(uint8(2), uint8(75), uint16(500), uint16(5000), uint16(10000), uint16(60000), uint16(60000), uint32(100000), uint32(99999), uint8(100), uint16(9), true)
	f.Fuzz(func(t *testing.T, cut, angle uint8, width, least, cloth, across, along uint16, one, two uint32, joins uint8, place uint16, closed bool) {
		j := piping.Job{
			Shape: piping.Shape{Cut: piping.Cut(cut % 3), Angle: 15 + int(angle)%61,
				Width: length.Length(max(width%501, 5)) * mm, Least: length.Length(max(least%5001, 10)) * mm},
			JoinSeam: 6 * mm, Overlap: 40 * mm, Ends: 25 * mm, Margin: 50 * mm, OneLean: closed,
			Cloth: length.Length(max(cloth%10001, 10)) * mm,
			Rects: []piping.Rect{{Across: length.Length(max(across, 1)) * mm, Along: length.Length(max(along, 1)) * mm}},
		}
		if j.MostIn(j.Rects[0]) > piping.MaxStrips {
			t.Skip("past the limits")
		}
		for _, long := range []uint32{one, two} {
			r := piping.Run{Length: length.Length(max(long%1_000_001, 10)) * mm, Closed: closed, MaxJoins: int(joins % 101)}
			r.Corners = []length.Length{min(length.Length(place)*mm, r.Length)}
			if len(piping.KeepClear(r, j.Margin)) == 0 {
				t.Skip("no place for its closing")
			}
			j.Runs = append(j.Runs, r)
		}
		for _, p := range piping.Solve(j) {
			for _, flaw := range piping.Check(j, p) {
				t.Errorf("way %d: %s", p.Way, flaw)
			}
		}
	})
}
