// Package layout is what a plan says: the job, and where each panel lies on
// each length of cloth. It holds data and no method of finding or checking a
// plan, so that the engine (calc/plan) and the verifier (calc/verify) share
// these words and nothing else.
package layout

import (
	"github.com/bridletie/bridletie/calc/cloth"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
)

// Slack is allowed on every comparison of pattern phase, on top of the
// tolerance wished: a place on the lattice of a drop of a third, or half of an
// odd size, is no whole nanometre, and a layout holds it rounded to one.
const Slack = 2 * length.Nanometre

// Job is what is to be cut: the panels of one cutting list from one cloth.
type Job struct {
	Cloth  cloth.Cloth
	Panels []panel.Panel
	Bolt   length.Length // longest length in one piece; 0 means no limit
	Salt   int64         // stirred into the seed of the search: another plan may be found; 0 as a rule
}

// Placement is where one panel, or one part of a joined panel, lies on the
// cloth. X and Y are of the corner nearest the origin, Across and Along the
// extents as laid.
type Placement struct {
	Panel  int           // index in Job.Panels
	Copy   int           // from 1
	Part   int           // from 1; 1 for a whole panel
	Parts  int           // 1 for a whole panel
	From   length.Length // across, where in the cut panel this part begins; 0 for a whole panel
	X, Y   length.Length
	Across length.Length
	Along  length.Length
	Turn   panel.Turn
	Motif  *MotifAt // the motif that keeps the wish; nil when nothing is wished
}

// MotifAt is a motif's centre on the cloth.
type MotifAt struct {
	Motif int // index in Pattern.Principal
	X, Y  length.Length
}

// Layout is one length of cloth and what is cut from it. Start is where in the
// length repeat it begins: the pattern's rows lie at y = Along + j*V - Start.
type Layout struct {
	Length     length.Length
	Start      length.Length
	Placements []Placement
}
