package furniture

import "github.com/bridletie/bridletie/calc/practice"

// chesterfields have a back and arms of one height that roll over outwards, all of
// them buttoned.
func chesterfields() []Kind {
	return []Kind{
		{
			ID: "chesterfield-chair", class: armchairs, Name: "chesterfield chair", About: "An easy chair whose back and arms are of one height and roll over, deep-buttoned.",
			Measures: rolledOver(54, 40, 90), Options: chesterfieldOptions(), build: func(w *work) { chesterfield(w, 1) },
		},
		{
			ID: "chesterfield-settee", class: sofas, Name: "chesterfield settee", About: "A settee whose back and arms are of one height and roll over, deep-buttoned.",
			Measures: rolledOver(150, 90, 260),
			Options: append(chesterfieldOptions(), Option{"seats", "seat cushions", []Choice{
				{"two", "two"}, {"three", "three"}, {"bench", "one across the whole seat"},
			}}),
			build: func(w *work) {
				n := 2
				switch {
				case w.is("seats", "three"):
					n = 3
				case w.is("seats", "bench"):
					n = 1
				}
				chesterfield(w, n)
			},
		},
	}
}

// rolledOver are the measures of a chesterfield of that usual seat width.
func rolledOver(width, least, most int) []Measure {
	return append([]Measure{
		seatWidth(width, least, most), seatDepth(60, 40, 90), seatRise(22, 6), seatEdge(), cushion(12, 4, 30),
		backWidth(width, least, most),
		tape("back-height", "back height", "From the seat, or the platform beneath a loose cushion, up the middle of the inside back and over the scroll to where its cover is tacked below the roll.", Crease, TackLine, 80, 40, 130),
		tape("arm-rise", "arm rise", "From the seat, or the platform beneath a loose cushion, up the inside of an arm and over the scroll to where its cover is tacked below the roll.", Crease, TackLine, 78, 40, 130),
		armLength(62, 30, 110), armEdge(4),
		tape("scroll-joint", "scroll joint", "At an inside corner: from above the crease, where the scroll begins, out to where the scrolls of back and arm meet.", ShowLine, ShowLine, 12, 3, 40),
		tape("arm-thickness", "arm thickness", "Across the front of an arm at its scroll, where it is widest.", ShowLine, ShowLine, 20, 6, 40),
		facingHeight(58, 20, 100),
		tape("outside-arm", "outside arm height", "From below the roll of an arm down to the underside of the rail.", ShowLine, ShowLine, 44, 15, 90),
		tape("outside-depth", "outside arm length", "Along the outside arm, from its front to the edge of the outside back.", ShowLine, ShowLine, 80, 40, 120),
		outsideWidth(width+30, least, most+90),
		tape("outside-height", "outside height", "From below the roll of the back down to the underside of the rail.", ShowLine, ShowLine, 46, 20, 100),
		skirtHeight(),
	}, apart(width, 60)...)
}

func chesterfieldOptions() []Option {
	return []Option{
		{"back", "back and arms", []Choice{{"buttoned", "deep-buttoned in diamonds"}, {"plain", "plain"}}},
		cushions(loose(), fixed()), makes(), undersides(), facingMakes(), borders(), platforms(), skirts(), skirtMakes(), pipings(), outsides(), flies(),
	}
}

// chesterfield cuts the inside back over both scrolls, where it meets the arms'
// covers, and every inside cover from the seat over the roll to the tack line below
// it. The outsides begin there.
func chesterfield(w *work, n int) {
	across, rise := w.take("back-width"), w.take("back-height")
	scroll := w.take("scroll-joint")
	side := w.tucked("BS", "inside back, sides", shorter(w.take("arm-rise"), rise), 2)
	ib := w.shows(w.cut("IB", "inside back", across.plus(scroll.twice()), rise, edges{w.pull(), w.tucked("B", "inside back", across, 1), side, side}))
	w.buttoned(ib)
	w.frame("BACK", across, rise, BackPlace)
	w.pad("BP", "back pad", across, rise, w.set.Length(practice.BackPad), BackPlace)
	w.outsideBack(leg{across: w.take("outside-width")})
	w.seat(ib, n, theArms)
	left, right := w.armsFrom(w.take("arm-length").plus(scroll), w.take("arm-rise"))
	w.buttoned(left)
	w.buttoned(right)
	w.skirt()
}
