package drawing

import (
	"cmp"
	"strconv"

	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/panel"
	"github.com/bridletie/bridletie/service"
)

// A panel on the sheet is drawn in a cell on the left; what is longer than broken
// is drawn shortened, so that the small ones beside it can still be told.
const (
	cellAcross = 430.0
	cellAlong  = 330.0
	broken     = 1500.0 // mm of the panel
	leastSeen  = 7.0
	besideCell = 470.0
)

// cutSheet is the sheet of a cutting list while it is drawn.
type cutSheet struct {
	paper
	ans   *service.CuttingListAnswer
	scale float64 // of the panels
}

// CuttingListPicture is a cutting list as a sheet in black and white: every panel
// to one scale, with its sizes, its wish and how its size came about.
func CuttingListPicture(ans *service.CuttingListAnswer) *Picture {
	s := &cutSheet{paper: paper{sys: ans.Request.Piece.Units, k: 1, page: usualWidth + marginLeft + marginRight}, ans: ans}
	s.scale = s.fitting()
	title := cuttingListTitle(ans)
	s.title(title, clothOfList(ans))
	s.facts(s.counts())
	s.explain(cutSigns())
	s.gap(8)
	s.body(tQuiet, "All panels are drawn to one scale, 1:"+strconv.FormatFloat(float64(int(s.scaleOnPaper()*10+0.5))/10, 'f', -1, 64)+
		" when the sheet is printed at full size. What is longer than "+near(length.Length(broken)*length.Millimetre, s.sys)+" is drawn shortened.")
	for c, heading := range coverHeadings {
		s.cover(heading, ans.Covers[c])
	}
	s.needs()
	s.checks(ans.Warnings, ans.Cautions)
	return s.picture(title, s.words(), blackAndWhite(planStyles(1)))
}

// scaleOnPaper is how many times smaller than life a panel is on the printed
// sheet.
func (s *cutSheet) scaleOnPaper() float64 { return s.paper.scale() / s.scale }

var coverHeadings = [...]string{furniture.Top: "Top cover", furniture.Outside: "Outside cover", furniture.Lining: "Lining"}

func cuttingListTitle(ans *service.CuttingListAnswer) string {
	kind, _ := furniture.Find(ans.Request.Piece.Kind)
	title := "Cutting list: " + cmp.Or(apart(ans.Request.Name), kind.Name)
	if n := ans.Request.Piece.Count; n > 1 {
		title += ", " + strconv.Itoa(n) + " pieces alike"
	}
	return title
}

func clothOfList(ans *service.CuttingListAnswer) string {
	c := ans.Request.Cloth
	if c == nil {
		return "For no cloth in particular."
	}
	text := clothText(*c, ans.Request.Piece.Units)
	if name := apart(c.Name); name != "" {
		text = name + ": " + text
	}
	return text
}

// blackAndWhite are styles without a colour or a tint.
func blackAndWhite(styles []Style) []Style {
	const black, white = 0x000000, 0xffffff
	for i := range styles {
		if styles[i].Stroke != 0 {
			styles[i].Stroke = RGB(black)
		}
		switch {
		case Class(i) == cPanelFill || Class(i) == cCloth:
			styles[i].Fill = RGB(white)
		case styles[i].Fill != 0:
			styles[i].Fill = RGB(black)
		}
	}
	styles[cRule].Width = 1
	return styles
}

// fitting is the scale at which the largest panel, shortened, fits its cell.
func (s *cutSheet) fitting() float64 {
	across, along := 100.0, 100.0
	for _, panels := range s.ans.Covers {
		for _, p := range panels {
			cut := p.Cut()
			across, along = max(across, min(cut.Across.MM(), broken)), max(along, min(cut.Along.MM(), broken))
		}
	}
	return min(cellAcross/across, cellAlong/along)
}

func (s *cutSheet) counts() []fact {
	out := make([]fact, 0, len(coverHeadings))
	for c, heading := range coverHeadings {
		if len(s.ans.Covers[c]) == 0 {
			continue
		}
		n := 0
		for _, p := range s.ans.Covers[c] {
			n += p.Count
		}
		out = append(out, fact{heading, times(int64(n), "panel", "panels"), strconv.Itoa(len(s.ans.Covers[c])) + " different"})
	}
	return out
}

// words are the sheet for who cannot see it.
func (s *cutSheet) words() string {
	text := ""
	for c, heading := range coverHeadings {
		for i, p := range s.ans.Covers[c] {
			if i == 0 {
				text += heading + ": "
			}
			text += repeated(p.ID, p.Name, p.Count) + ", " + cutText(p.Cut(), s.sys) + ". "
		}
	}
	return text
}

// cover draws the panels of one cover below one another.
func (s *cutSheet) cover(heading string, panels []panel.Panel) {
	if len(panels) == 0 {
		return
	}
	s.heading(heading)
	for i := range panels {
		from := s.y
		s.rule()
		s.one(&panels[i])
		s.keep(from, 0)
	}
	s.rule()
}

// one draws a panel and writes beside it what there is to say.
func (s *cutSheet) one(p *panel.Panel) {
	s.gap(14)
	top := s.y
	shape, high := s.shape(*p)
	s.add(Group{Title: repeated(p.ID, p.Name, p.Count), Dx: s.left(), Dy: top, Items: shape})
	x := s.left() + besideCell
	line := func(size float64, c Class, text string) { s.para(x, s.right(), size, c, text) }
	name := clean(p.ID)
	if n := apart(p.Name); n != "" {
		name += "  " + n
	}
	line(38, tBold, strconv.Itoa(p.Count)+" × "+name)
	line(32, tBold, "cut "+bound(cutText(p.Cut(), s.sys))+"  (across × along)")
	line(smallSize, tPlain, "finished "+bound(sizeText(p.Size.Across, p.Size.Along, s.sys))+s.added(p.Allow))
	line(smallSize, tPlain, "Pattern: "+wishText(*p, s.sys)+turnsText(p.Turn)+halvesText(*p))
	if how := s.derived(p.ID); how != "" {
		line(24, tQuiet, how)
	}
	s.y = max(s.y, top+high)
	s.gap(20)
}

// added says what is allowed on each side.
func (s *cutSheet) added(a panel.Sides) string {
	if a == (panel.Sides{}) {
		return ""
	}
	if a.Top == a.Bottom && a.Top == a.Left && a.Top == a.Right {
		return "; allowed " + taped(a.Top, s.sys) + " all round"
	}
	return "; allowed " + tape(a.Top, s.sys) + " top, " + tape(a.Bottom, s.sys) + " bottom, " + tape(a.Left, s.sys) + " left, " + taped(a.Right, s.sys) + " right"
}

func turnsText(t panel.Turn) string {
	switch t {
	case panel.Half:
		return "; may lie upside down"
	case panel.Quarter:
		return "; may be turned by a quarter"
	}
	return ""
}

// halvesText says how a panel is joined that may be.
func halvesText(p panel.Panel) string {
	if p.Join == panel.JoinHalves {
		return "; joined down the middle where it is wider than the cloth"
	}
	return ""
}

func (s *cutSheet) derived(id string) string {
	for _, p := range s.ans.List.Panels {
		if p.ID == id {
			return p.How.Text(s.sys)
		}
	}
	return ""
}

// needs lists what the piece needs besides covers.
func (s *cutSheet) needs() {
	var rows [][]string
	for _, r := range s.ans.List.Runs {
		rows = append(rows, []string{strconv.Itoa(r.Count), "piping, " + r.Name, near(r.Length, s.sys) + " each"})
	}
	for _, b := range s.ans.List.Buttons {
		rows = append(rows, []string{"", "diamonds on " + clean(b.Panel) + ", about", sizeText(b.Diamond.Across, b.Diamond.Along, s.sys)})
	}
	for _, f := range s.ans.List.Fillings {
		rows = append(rows, []string{strconv.Itoa(f.Count), f.Name, sizeText(f.Size.Across, f.Size.Along, s.sys) + ", " + taped(f.Thickness, s.sys) + " thick"})
	}
	for _, f := range s.ans.List.Frames {
		rows = append(rows, []string{strconv.Itoa(f.Count), "frame " + clean(f.ID), sizeText(f.Size.Across, f.Size.Along, s.sys)})
	}
	s.table("Besides", []float64{0, 80, 720, usualWidth + marginLeft + marginRight - 2*marginPage}, 1, []string{"", "what", "size"}, rows)
}
