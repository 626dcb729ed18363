package repeat_test

import (
	"fmt"

	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/repeat"
)

// Two widths of a half-drop joined: the second begins half a repeat away.
func ExampleLay() {
	c := cloth.Cloth{Width: 137 * length.Centimetre, Pattern: cloth.Pattern{
		LengthRepeat: 64 * length.Centimetre, WidthRepeat: 137 * length.Centimetre, Drop: cloth.Half(),
	}}
	seam := repeat.SeamOf(c, 0)
	l := repeat.Lay(c, []repeat.Drop{{Length: 250 * length.Centimetre, Count: 2, Widths: 2}}, seam)
	for _, cut := range l.Cuts {
		fmt.Println(cut.From, "copy", cut.Copy, "width", cut.Width)
	}
	fmt.Println(l.Length, "for", l.Plain)
	// Output:
	// 0 mm copy 1 width 1
	// 2560 mm copy 2 width 1
	// 5440 mm copy 1 width 2
	// 8000 mm copy 2 width 2
	// 10500 mm for 10000 mm
}

func ExampleSeamOf() {
	c := cloth.Cloth{Width: 140 * length.Centimetre, Pattern: cloth.Pattern{WidthRepeat: 28 * length.Centimetre}}
	s := repeat.SeamOf(c, 15*length.Millimetre)
	fmt.Println("out by", s.Off, "turn in", s.Trim, "or less by", s.LetOut)
	// Output: out by -30 mm turn in 250 mm or less by 30 mm
}
