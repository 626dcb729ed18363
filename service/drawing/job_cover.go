package drawing

import (
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/fault"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service/job"
)

// jobCover is the first page of a job sheet: what is made, what to buy, what it
// costs, how long it takes, and what could not be worked out.
func jobCover(ans *job.Answer) *Picture {
	s := jobPaper(ans)
	s.title("Job sheet", apart(ans.Title()))
	for _, line := range jobPieceLines(ans) {
		s.body(tPlain, line)
	}
	if rows := jobFaultRows(ans); len(rows) > 0 {
		s.table("Not worked out", []float64{0, 380, 1490}, 0, []string{"Part", "Why"}, rows)
	}
	h := ans.Request.Hide
	switch {
	case !h.OrderList:
		s.orderList(ans.Orders)
		if without := ans.Without(); len(without) > 0 {
			s.body(tBold, "Nothing is ordered for: "+apart(strings.Join(without, "; "))+".")
		}
	case !h.Cloths:
		s.table("Cloth to buy", []float64{0, 200, 650, 1490}, 0, []string{"Buy", "Cloth", "Which is"}, jobClothRows(ans))
	}
	if !h.Cost && ans.Cost != nil {
		s.jobCost(ans.Cost)
	}
	if !h.DayPlan {
		s.jobDays(ans.Days)
	}
	return s.picture("Job sheet", "Job sheet: "+apart(ans.Title()), planStyles(s.k))
}

// jobPaperWidth is the breadth of the cover and of the last page, that of the
// tables on them.
const jobPaperWidth = usualWidth + marginLeft + marginRight

func jobPaper(ans *job.Answer) *paper {
	return &paper{sys: ans.Request.Units, k: 1, page: jobPaperWidth}
}

// jobPieceLines say what is made.
func jobPieceLines(ans *job.Answer) []string {
	var out []string
	for i := range ans.Request.Pieces {
		p := &ans.Request.Pieces[i]
		n := 0
		for _, panels := range ans.Lists[i].Covers {
			for _, q := range panels {
				n += q.Count
			}
		}
		out = append(out, clean(p.ID)+": "+apart(p.Title())+", "+strconv.Itoa(n)+" panels, "+jobBuildText(p.Build)+".")
	}
	return out
}

func jobBuildText(b job.Build) string {
	switch b {
	case job.Modern:
		return "elastic webs and foam"
	case job.Keep:
		return "frame and stuffing kept"
	}
	return "traditional build"
}

func jobClothRows(ans *job.Answer) [][]string {
	var rows [][]string
	for i := range ans.Plans {
		p := &ans.Plans[i]
		c := ans.Cloths[p.Cloth]
		if p.Plan.Fault.Len() > 0 {
			continue
		}
		rows = append(rows, []string{p.Order.Text(ans.Request.Units, length.Up), apart(c.Name()) + ", " + taped(c.Cloth.Width, ans.Request.Units) + " wide", ans.Why(p).Text(ans.Request.Units)})
	}
	return rows
}

// jobFaultRows are the parts that could not be worked out.
func jobFaultRows(ans *job.Answer) [][]string {
	var rows [][]string
	for _, f := range ans.Faulted() {
		rows = append(rows, []string{f.Part, jobFaultText(f.Faults)})
	}
	return rows
}

func jobFaultText(l fault.List) string {
	var all []string
	for _, f := range l.Faults()[:min(l.Len(), 3)] {
		all = append(all, f.Pointer()+": "+apart(f.Detail)+" (try: "+apart(f.Try)+")")
	}
	text := strings.Join(all, "; ")
	if more := l.Len() - 3; more > 0 {
		text += "; and " + strconv.Itoa(more) + " more"
	}
	return text
}

// jobNotesPicture is the last page: warnings and cautions, each with the parts
// that say so.
func jobNotesPicture(ans *job.Answer) *Picture {
	s := jobPaper(ans)
	s.title("Look out, and before you cut", apart(ans.Title()))
	stops := []float64{0, 1080, 1490}
	var rows [][]string
	for _, l := range noteLines(ans.Warnings, ans.Cautions, s.sys) {
		rows = append(rows, []string{l.text, jobFrom(l.from)})
	}
	s.table("The gravest first", stops, -1, []string{"", "Said by"}, rows)
	return s.picture("Cautions", "Warnings and cautions of the job.", planStyles(s.k))
}

// jobFrom names the parts that say something, the first few.
func jobFrom(from []string) string {
	const few = 4
	var all []string
	for _, f := range from[:min(len(from), few)] {
		all = append(all, apart(f))
	}
	text := strings.Join(all, ", ")
	if more := len(from) - few; more > 0 {
		text += " and " + strconv.Itoa(more) + " more"
	}
	return text
}
