package drawing

import (
	"strconv"

	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
	"github.com/bridletie/bridletie/service"
)

// benchPaper is a sheet for things of which the broadest is wide, in
// millimetres.
func benchPaper(sys length.System, wide float64) paper {
	k := min(max(wide, 100), 1e7) / usualWidth
	return paper{sys: sys, k: k, page: (usualWidth + marginLeft + marginRight) * k}
}

// plainCut draws a plain cloth with its pieces, at the scale of the sheet.
func (s *paper) plainCut(ans *service.YardageAnswer) {
	s.tie(80)
	sub := newSheet(ans)
	sub.k, sub.page = s.k, s.page
	sub.cutStrips()
	s.add(Group{Title: plainTitle(ans), Dy: s.y, Items: sub.items})
	for _, w := range sub.whole {
		s.whole = append(s.whole, Span{w.From + s.y, w.To + s.y})
	}
	for _, one := range sub.strips {
		one.Y += s.y
		if one.Name == "" {
			one.Name = clean(ans.Request.Cloth.Name)
		}
		s.strips = append(s.strips, one)
	}
	s.y += sub.y
	for _, j := range ans.Joins {
		s.body(tPlain, joinText(ans, j)+".")
	}
}

// plainTitle says what a cloth is and how much of it to buy.
func plainTitle(ans *service.YardageAnswer) string {
	return capital(clean(ans.Request.Cloth.Name)) + ", " + taped(ans.Request.Cloth.Width, ans.Request.Units) + " wide: " +
		near(ans.Order, ans.Request.Units) + " to buy"
}

// plainProof says how much of it the plan needs, and how good that is.
func plainProof(ans *service.YardageAnswer) string {
	return "Needed " + ans.Result.Needed().Text(ans.Request.Units, length.Up) + ". " + proofText(ans.Result, ans.Request.Units)
}

// capital begins a line.
func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}

// settingRows are the constants that an answer goes by.
func settingRows(used []practice.Value, sys length.System) [][]string {
	rows := make([][]string, len(used))
	for i, v := range used {
		source := v.Source
		if v.Given {
			source = "given with the request"
		}
		rows[i] = []string{v.Name, v.Text(v.Value, sys), source}
	}
	return rows
}

func (s *paper) settings(used []practice.Value) {
	s.table("What this goes by", []float64{0, 430, 690, 1490}, 1, []string{"Setting", "Value", "Source"}, settingRows(used, s.sys))
}

func (p *page) settings(used []practice.Value) {
	if len(used) == 0 {
		return
	}
	p.section("WHAT THIS GOES BY")
	p.table(0, settingRows(used, p.sys))
}

// plainCut writes a plain cloth: its sketch and what is cut, from the start.
func (p *page) plainCut(ans *service.YardageAnswer) {
	p.section(plainTitle(ans))
	p.para("", plainProof(ans))
	sub := planPage{page{sys: p.sys}, ans}
	for i, l := range ans.Result.Cut {
		if len(ans.Result.Cut) > 1 {
			sub.line("")
			sub.line("Length " + strconv.Itoa(i+1) + ": " + near(l.Length, p.sys))
		}
		sub.placements(l)
	}
	sub.joins()
	p.b.WriteString(sub.b.String())
}

// times is a count with its thing.
func times(n int64, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.FormatInt(n, 10) + " " + many
}

// repeated is a name with its number of copies.
func repeated(id, name string, count int) string {
	text := clean(id)
	if name = apart(name); name != "" {
		text += " " + name
	}
	if count > 1 {
		text += ", " + strconv.Itoa(count) + " of them"
	}
	return text
}
