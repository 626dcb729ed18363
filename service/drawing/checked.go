package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/plan"
	"github.com/bridletie/bridletie/service"
)

// maxFaults is how many faults of a plan made by hand are listed and marked.
const maxFaults = 100

// handMade is the plan made by hand in the form of an answer, so that it is
// drawn as one.
func handMade(ans *service.CheckAnswer) *service.YardageAnswer {
	out := &service.YardageAnswer{
		Request: ans.Request.YardageRequest, Order: ans.Order(), Result: plan.Result{Cut: ans.Hand},
		Warnings: ans.Warnings, Cautions: ans.Cautions,
	}
	for k, l := range ans.Hand {
		out.Lengths = append(out.Lengths, service.CutLength{Needed: l.Length, Start: l.Start, Order: ans.Orders[k]})
	}
	return out
}

// CheckTitle names a check in a line: "Plan made by hand: Heron and sedge".
func CheckTitle(ans *service.CheckAnswer) string {
	if name := clean(ans.Request.Cloth.Name); name != "" {
		return "Plan made by hand: " + apart(name)
	}
	return "Plan made by hand"
}

// verdict is the answer in a line.
func verdict(ans *service.CheckAnswer) string {
	switch n := len(ans.Faults); n {
	case 0:
		return "Right: every panel is there, in its place, with its pattern."
	case 1:
		return "Wrong: 1 fault."
	default:
		return "Wrong: " + strconv.Itoa(n) + " faults."
	}
}

// shownFaults are those that are listed and marked, and how many more there are.
func shownFaults(ans *service.CheckAnswer) (shown []service.PlanFault, more int) {
	n := min(len(ans.Faults), maxFaults)
	return ans.Faults[:n], len(ans.Faults) - n
}

// faultText is a fault in words: its kind, how far out, and what it is about.
func faultText(ans *service.CheckAnswer, f service.PlanFault) string {
	sys := ans.Request.Units
	text := strings.ReplaceAll(string(f.Kind), "-", " ")
	if f.By > 0 {
		text += " by " + f.By.Text(sys, length.Up)
	}
	text += ": " + clean(f.Detail)
	if f.At >= 0 {
		pl := ans.Hand[f.Layout].Placements[f.Placement]
		text += " (" + fromStart(pl.Y, sys) + ", " + fromLeft(pl.X, sys) + ")"
	}
	if f.Layout >= 0 && len(ans.Hand) > 1 {
		text += ", in length " + strconv.Itoa(f.Layout+1)
	}
	return text
}

func moreFaults(more int) string {
	if more == 0 {
		return ""
	}
	return "And " + strconv.Itoa(more) + " more, which are not listed or marked."
}

// handLengths says how long the plan is and what to buy for it.
func handLengths(ans *service.CheckAnswer) []string {
	sys := ans.Request.Units
	out := []string{"By hand " + ans.Length().Text(sys, length.Up) + ", to buy " + near(ans.Order(), sys) + "."}
	for k, l := range ans.Hand {
		text := beginText(ans.Request.Cloth, l, sys)
		if len(ans.Hand) > 1 {
			text = "Length " + strconv.Itoa(k+1) + ": " + l.Length.Text(sys, length.Up) + ", to buy " + near(ans.Orders[k], sys) + ". " + text
		}
		out = append(out, text)
	}
	return out
}

// savingText compares the plan with the engine's.
func savingText(ans *service.CheckAnswer) string {
	sys, save := ans.Request.Units, ans.WouldSave()
	text := "The engine's plan takes " + ans.Engine.Result.Needed().Text(sys, length.Up) + ", to buy " + near(ans.Engine.Order, sys) + "; "
	switch {
	case save > 0:
		text += "it would save " + save.Text(sys, length.Down) + "."
	case save == 0:
		text += "it saves nothing."
	default:
		text += "the plan made by hand is shorter by " + (-save).Text(sys, length.Down) + "."
	}
	if !ans.Right() {
		text += " This counts only once the plan is right."
	}
	return text
}

// boundText says how short a plan can be.
func boundText(ans *service.CheckAnswer) string {
	if ans.Engine.Result.Bound <= 0 {
		return ""
	}
	return "No right plan can use less than " + ans.Engine.Result.Bound.Text(ans.Request.Units, length.Down) + "."
}

// CheckText is the answer to a check as a page of plain text, in at most 78
// columns: first whether the plan is right, then its faults in cutting order,
// its lengths, what the engine would save, and what to check.
func CheckText(ans *service.CheckAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(verdict(ans))
	p.line("")
	p.para("", CheckTitle(ans))
	p.para("", clothText(ans.Request.Cloth, p.sys))
	shown, more := shownFaults(ans)
	if len(shown) > 0 {
		p.section("FAULTS")
	}
	for i, f := range shown {
		p.para(padLeft(strconv.Itoa(i+1), 3)+"  ", faultText(ans, f))
	}
	p.para("", moreFaults(more))
	p.section("LENGTHS")
	for _, t := range handLengths(ans) {
		p.para("", t)
	}
	p.para("", savingText(ans))
	p.para("", boundText(ans))
	p.notes(ans.Warnings, ans.Cautions)
	return p.b.String()
}

// CheckPicture is the drawing of a plan that was checked: whether it is right,
// the lengths of cloth to scale with the panels that have faults hatched and
// numbered, and the list of the faults.
func CheckPicture(ans *service.CheckAnswer) *Picture {
	s := newSheet(handMade(ans))
	shown, more := shownFaults(ans)
	s.markFaults(ans, shown)
	s.checkHeader(ans)
	s.legend()
	s.cutStrips()
	if len(shown) > 0 {
		s.heading("Faults")
	}
	for i, f := range shown {
		s.body(tPlain, strconv.Itoa(i+1)+"  "+faultText(ans, f)+".")
	}
	s.body(tBold, moreFaults(more))
	s.panels()
	s.closing(ans.Warnings, ans.Cautions)
	return s.picture(CheckTitle(ans), verdict(ans)+" "+strings.Join(handLengths(ans), " ")+" "+savingText(ans), planStyles(s.k))
}

func (s *sheet) checkHeader(ans *service.CheckAnswer) {
	s.title(CheckTitle(ans), clothText(ans.Request.Cloth, s.sys))
	s.gap(10)
	s.para(s.left(), s.right(), 56, tBold, verdict(ans))
	s.gap(20)
	s.rule()
	s.gap(14)
	for _, t := range handLengths(ans) {
		s.body(tPlain, t)
	}
	s.body(tPlain, savingText(ans))
	s.body(tPlain, boundText(ans))
}

// markFaults notes at each placement the numbers of its faults in the list.
func (s *sheet) markFaults(ans *service.CheckAnswer, shown []service.PlanFault) {
	s.faulty = make([]map[int]string, len(ans.Hand))
	mark := func(layout, placement int, number string) {
		if layout < 0 || placement < 0 {
			return
		}
		if s.faulty[layout] == nil {
			s.faulty[layout] = make(map[int]string)
		}
		if had := s.faulty[layout][placement]; had != "" {
			number = had + ", " + number
		}
		s.faulty[layout][placement] = number
	}
	for i, f := range shown {
		mark(f.Layout, f.Placement, strconv.Itoa(i+1))
		mark(f.OtherLayout, f.Other, strconv.Itoa(i+1))
	}
}

// faultShapes are, for the panels of one layout that have faults, the hatching
// to be laid under what is drawn of them, and the frame and the numbers of the
// faults to be laid over it.
func (s *sheet) faultShapes(l plan.Layout, faulty map[int]string) (hatched, framed []Shape) {
	for i, pl := range l.Placements {
		numbers, ok := faulty[i]
		if !ok {
			continue
		}
		f, k := frameOf(pl), s.k
		text := "fault " + clip(numbers)
		size := s.shrunk(text, 34, f.w-24*k)
		hatched = append(hatched, Hatch{f.x, f.y, f.w, f.h, 42 * k, cFaultHatch})
		framed = append(framed, Rect{f.x, f.y, f.w, f.h, cFault},
			Text{At: Pt{f.x + 14*k, f.y + 14*k + size*k}, S: text, Size: max(size, 8) * k, Class: tLabelBold})
	}
	return hatched, framed
}

// clip keeps a list of numbers short enough for a panel.
func clip(numbers string) string {
	const most = 24
	if len(numbers) <= most {
		return numbers
	}
	return numbers[:strings.LastIndexByte(numbers[:most], ',')] + " …"
}
