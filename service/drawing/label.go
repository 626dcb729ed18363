package drawing

// level is one way of naming a panel: its paragraphs, and the sizes between
// which they may be set. The first line is the most important.
type level struct {
	paras       []string
	most, least float64 // on the usual width
}

// label is a block of lines that fits in a box.
type label struct {
	lines   []string
	strong  int // so many lines are bold
	size    float64
	upright bool // the lines run up the cloth
	in      box
}

// leading is the distance between base lines for a size of 1.
const leading = 1.18

// attempts are the ways to set a block, the best first: by steps from the most
// to the least size, and along the cloth's width unless that makes it tiny.
var attempts = []struct {
	step    int
	upright bool
}{
	{0, false}, {1, false}, {2, false}, {3, false},
	{0, true}, {1, true}, {2, true}, {3, true},
	{4, false}, {4, true},
}

const lastStep = 4

// fit is the first level, and of that the largest size, that fits in one of
// the boxes. The boxes are tried in their order, and all but the first two only
// at the smaller sizes.
func (s *sheet) fit(levels []level, boxes []box) (label, bool) {
	for _, lv := range levels {
		for _, n := range attempts {
			size := (lv.most - (lv.most-lv.least)*float64(n.step)/lastStep) * s.k
			try := boxes
			if n.step <= lastStep/2 {
				try = boxes[:min(len(boxes), 2)]
			}
			for _, b := range try {
				if lb, ok := block(lv.paras, b, size, n.upright); ok {
					return lb, true
				}
			}
		}
	}
	return label{}, false
}

// block sets paragraphs in a box at a size.
func block(paras []string, b box, size float64, upright bool) (label, bool) {
	w, h := b.w, b.h
	if upright {
		w, h = h, w
		if w <= h {
			return label{}, false
		}
	}
	room := w / (size * boldAddition)
	if float64(len(paras))*size*leading > h || room < 1 {
		return label{}, false
	}
	lb := label{size: size, upright: upright, in: b}
	for i, p := range paras {
		if breaksWord(p, room) {
			return label{}, false
		}
		lb.lines = append(lb.lines, wrap(p, room)...)
		if i == 0 {
			lb.strong = len(lb.lines)
		}
	}
	return lb, float64(len(lb.lines))*size*leading <= h
}

// breaksWord reports whether a word of the text is wider than the room. Names
// of panels are not broken inside a word; a smaller size is tried instead.
func breaksWord(s string, room float64) bool {
	sum := 0.0
	for _, r := range s {
		if r == ' ' {
			sum = 0
			continue
		}
		if sum += runeBreadth(r); sum > room {
			return true
		}
	}
	return false
}

// labelShapes are the lines about the middle of their box.
func (s *sheet) labelShapes(lb label) []Shape {
	out := make([]Shape, 0, len(lb.lines))
	step := lb.size * leading
	from := -step*float64(len(lb.lines)-1)/2 + lb.size*0.36
	for i, line := range lb.lines {
		d := from + float64(i)*step
		t := Text{At: Pt{lb.in.x + lb.in.w/2, lb.in.y + lb.in.h/2 + d}, S: line, Size: lb.size, Anchor: AtMiddle, Class: tLabel}
		if lb.upright {
			t.At = Pt{lb.in.x + lb.in.w/2 + d, lb.in.y + lb.in.h/2}
			t.Turn = -90
		}
		if i < lb.strong {
			t.Class = tLabelBold
		}
		out = append(out, t)
	}
	return out
}

// number sets a text as large as a box allows, however small that is.
func (s *sheet) number(text string, b box) label {
	size := min(26*s.k, max(b.w, 0)/(boldAddition*max(breadth(text), 0.1)), max(b.h, 0)/leading)
	return label{lines: []string{text}, strong: 1, size: size, in: b}
}

// around are the parts of a box that are free of a circle, or the box itself
// when the circle lies outside.
func around(b box, c Pt, r float64) []box {
	if c.X+r < b.x || c.X-r > b.x+b.w || c.Y+r < b.y || c.Y-r > b.y+b.h {
		return []box{b}
	}
	above := box{b.x, b.y, b.w, c.Y - r - b.y}
	below := box{b.x, c.Y + r, b.w, b.y + b.h - c.Y - r}
	left := box{b.x, b.y, c.X - r - b.x, b.h}
	right := box{c.X + r, b.y, b.x + b.w - c.X - r, b.h}
	boxes := []box{above, below, left, right}
	if below.h > above.h {
		boxes[0], boxes[1] = below, above
	}
	if right.w > left.w {
		boxes[2], boxes[3] = right, left
	}
	return boxes
}
