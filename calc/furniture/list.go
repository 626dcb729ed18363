package furniture

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/note"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/practice"
)

// Cover is the cloth that a panel is cut from.
type Cover int

// The covers; the zero value is Top.
const (
	Top     Cover = iota // the cloth that shows
	Outside              // another cloth for the outside panels
	Lining               // flies, platforms and backs that nobody sees
)

// Panel is a panel of the cutting list, and how it came about.
type Panel struct {
	panel.Panel
	Cover  Cover
	Hidden bool      // of lining: covers a part that is not seen, rather than eking out or lining a panel
	How    note.Note // "across 76 cm = back width 56 cm + 2 × tuck-in 10 cm; along ...", in the units of the piece, in which it adds up

	across span // what its cut extent across is made up of; of a panel that was derived
}

// Run is a run of piping.
type Run struct {
	Name    string
	Length  length.Length // of one run
	Closed  bool
	Corners int
	Count   int
}

// Buttons is a panel that is buttoned in diamonds.
type Buttons struct {
	Panel   string // its id
	Size    panel.Size
	Diamond panel.Size // between buttons, as a beginning: the workroom has its own
}

// Place is what a filling is for.
type Place int

// The places.
const (
	SeatPlace Place = iota
	BackPlace
	ArmPlace
)

// Filling is a cushion or a pad, or so many alike.
type Filling struct {
	ID, Name  string
	Count     int
	Size      panel.Size // finished, across and along
	Thickness length.Length
	Place     Place
	Loose     bool // a cushion by itself, not fixed to the frame
	Round     bool // a circle of the breadth of Size
	Ears      Ears
	Ear       panel.Size // how broad and how deep an ear is
	Corner    panel.Size // what is cut off each corner at the back
}

// Ears is on which sides a cushion runs in front of the arms. Its Size is that of
// the rectangle round it.
type Ears int

// The ears.
const (
	NoEars Ears = iota
	BothEars
	LeftEar
	RightEar
)

// Frame is a frame to be webbed and covered.
type Frame struct {
	ID    string
	Count int
	Size  panel.Size // across and along, between the outer edges of the rails
	Place Place
	Round bool
}

// List is all that a piece, or so many alike, comes down to.
type List struct {
	Panels   []Panel
	Runs     []Run
	Buttons  []Buttons
	Fillings []Filling
	Frames   []Frame
	Assumed  []Measure // those that the list went by, were not given and are taken as typical
}

// Of are the panels of one cover. What ties a panel to one that is not among them
// is dropped: one that runs on from it is free, and a twin stands alone.
func (l List) Of(cover Cover) []panel.Panel {
	have := make(map[string]bool, len(l.Panels))
	for _, p := range l.Panels {
		have[p.ID] = p.Cover == cover
	}
	var of []panel.Panel
	for _, p := range l.Panels {
		if p.Cover != cover {
			continue
		}
		q := p.Panel
		if q.Match.How == panel.RunsOn && !have[q.Match.From] {
			q.Match = panel.Match{}
		}
		if !have[q.Pair] {
			q.Pair = ""
		}
		of = append(of, q)
	}
	return of
}

// Shave takes a part of the allowance off one side of a panel, and says so where it
// says how the panel came about. It takes whole steps of the units in which that is
// printed, so that it still adds up: it returns by how much, 0 where the side has
// nothing to give. A seam always stays.
func (p *Panel) Shave(right bool, by length.Length, set practice.Set, sys length.System) length.Length {
	side, at := &p.Allow.Left, "left"
	if right {
		side, at = &p.Allow.Right, "right"
	}
	step := textStep(sys)
	by = min(by.Round(step, length.Up), set.Length(practice.CoverShave), *side-set.Length(practice.CoverSeam)).Round(step, length.Down)
	if by <= 0 || p.across.terms == nil {
		return 0
	}
	*side -= by
	p.across = p.across.plus(span{-by, []term{{-1, "shaved for the motif", by, " (" + at + ")"}}})
	p.How = p.How.With(note.Length("across", p.across.l, length.Up)).With(note.Name("acrossFrom", p.across.sum(sys)))
	return by
}

// CutFrom are the panels of one cover, with their wishes put as a cloth can keep
// them. What shows nothing may lie upside down where the cloth has no top.
func (l List) CutFrom(cover Cover, c cloth.Cloth) []panel.Panel {
	cut := l.Of(cover)
	for i := range cut {
		q := &cut[i]
		if q.Match = q.Match.On(c.Pattern); !q.Match.Fixes() {
			q.Pair = ""
		}
		if q.Match.How == panel.Free && !c.OneWay {
			q.Turn = panel.Half
		}
	}
	return cut
}
