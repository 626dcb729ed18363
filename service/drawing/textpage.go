package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// planPage is the page of a cutting plan while it is written.
type planPage struct {
	page
	ans *service.YardageAnswer
}

// PlanText is an answer's cutting plan as a page of plain text, in at most 78
// columns: what to buy first, then the plan and what to check.
func PlanText(ans *service.YardageAnswer) string {
	p := &planPage{page{sys: ans.Request.Units}, ans}
	p.line(PlanTitle(ans))
	p.para("", clothText(ans.Request.Cloth, p.sys))
	p.line("")
	p.facts((&sheet{paper: paper{sys: p.sys}, ans: ans}).planFacts())
	p.line("")
	p.para("", proofText(ans.Result, p.sys))
	p.para("", handText(ans.Result, p.sys))
	if len(ans.Result.Cut) == 1 && ans.Request.Cloth.Pattern.LengthRepeat > 0 {
		p.para("", beginText(ans.Request.Cloth, ans.Result.Cut[0], p.sys))
	}
	if ans.Result.Railroaded {
		p.para("", "The panels lie across the roll.")
	}
	for i, l := range ans.Result.Cut {
		p.layout(i, l)
	}
	p.joins()
	p.offcuts()
	p.pieces()
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// layout writes the sketch of one length and its panels in the order in which
// they are met from the start.
func (p *planPage) layout(i int, l plan.Layout) {
	title := "THE PLAN"
	if n := len(p.ans.Result.Cut); n > 1 {
		title = "LENGTH " + strconv.Itoa(i+1) + " OF " + strconv.Itoa(n) + ": " + near(l.Length, p.sys)
		if i < len(p.ans.Lengths) {
			title += ", to buy " + near(p.ans.Lengths[i].Order, p.sys)
		}
	}
	p.section(title)
	if len(p.ans.Result.Cut) > 1 {
		p.para("", beginText(p.ans.Request.Cloth, l, p.sys))
	}
	var left []plan.Rect
	for _, o := range p.ans.Offcuts {
		if o.Piece == i {
			left = append(left, o.Rect)
		}
	}
	for _, s := range sketch(p.ans, l, left) {
		p.line(s)
	}
	p.placements(l)
}

// placements is the table of what is cut, by the distance from the start.
func (p *planPage) placements(l plan.Layout) {
	if len(l.Placements) == 0 {
		return
	}
	rows := [][]string{{"start", "left", "cut size", "lies", "panel"}}
	for _, pl := range inOrder(l.Placements) {
		across, along := cutSize(pl)
		rows = append(rows, []string{tape(pl.Y, p.sys), tape(pl.X, p.sys),
			tape(across, p.sys) + " × " + tape(along, p.sys), turnText(pl.Turn), p.tell(pl)})
	}
	p.line("")
	p.para("", "Panels in cutting order, from the start and from the left selvedge, in "+tapeName(p.sys)+":")
	p.table(2, rows)
}

// tell names a placement and its motif.
func (p *planPage) tell(pl plan.Placement) string {
	text := placedName(p.ans.Request.Panels, pl)
	if part := partText(pl); part != "" {
		text += ", " + part
	}
	if q, ok := panelOf(p.ans.Request.Panels, pl); ok && q.Match.How == panel.RunsOn {
		text += "; runs on from " + clean(q.Match.From)
	}
	if pl.Motif != nil {
		text += "; " + motifName(p.ans.Request.Cloth.Pattern, pl.Motif.Motif) + " at " + tape(pl.Motif.Y, p.sys) + ", " + tape(pl.Motif.X, p.sys)
	}
	return text
}

func (p *planPage) joins() {
	if len(p.ans.Joins) == 0 {
		return
	}
	p.section("JOINS")
	for _, j := range p.ans.Joins {
		p.para("  ", joinText(p.ans, j))
	}
}

func (p *planPage) offcuts() {
	if len(p.ans.Offcuts) == 0 {
		return
	}
	p.section("OFFCUTS")
	for i, o := range p.ans.Offcuts {
		head := padLeft(strconv.Itoa(i+1), 3) + "  "
		text := sizeText(o.Rect.Across, o.Rect.Along, p.sys) + ", " + placeText(p.ans, o.Piece, o.Rect)
		if made := madeText(o.WouldMake, p.sys); made != "" {
			text += "; would make " + made
		}
		p.para(head, text)
	}
}

func (p *planPage) pieces() {
	if p.ans.Pieces == nil {
		return
	}
	p.section("WITH THE PIECES IN HAND")
	p.para("", enoughText(p.ans.Pieces, p.sys))
	for i, u := range p.ans.Pieces.Uses {
		empty := len(u.Layout.Placements) == 0
		if i == 0 && u.Length <= 0 && empty {
			continue
		}
		p.section(useTitle(i, p.ans) + near(u.Length, p.sys) + ", used " + near(u.Layout.Length, p.sys))
		if empty {
			p.line("Not needed.")
			continue
		}
		p.para("", useText(p.ans, u))
		p.placements(u.Layout)
	}
}
