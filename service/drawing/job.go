package drawing

import (
	"fmt"
	"strings"

	"github.com/bridletie/bridletie/service/job"
)

// JobDrawing is a drawing of a job sheet, with a name that will do for a file.
type JobDrawing struct {
	Name    string
	Picture *Picture
}

// JobDrawings are the drawings of all parts that are shown, in the order of the
// sheet: the cover first, what to take care of last.
func JobDrawings(ans *job.Answer) []JobDrawing {
	var list []JobDrawing
	add := func(name string, p *Picture) {
		list = append(list, JobDrawing{fmt.Sprintf("%02d-%s", len(list)+1, name), p})
	}
	add("cover", jobCover(ans))
	for _, p := range jobParts(ans) {
		add(p.name, p.picture())
	}
	if ans.Cost != nil && !ans.Request.Hide.Cost {
		q := *ans.Cost
		q.Warnings = nil
		add("cost", CostChart(&q))
	}
	add("cautions", jobNotesPicture(ans))
	return list
}

// JobSVG is the drawings of a job sheet one below the other, as SVG.
func JobSVG(ans *job.Answer) []byte { return JobPicture(ans).SVG() }

// JobPicture is the drawings of a job sheet one below the other.
func JobPicture(ans *job.Answer) *Picture {
	var all []*Picture
	for _, d := range JobDrawings(ans) {
		all = append(all, d.Picture)
	}
	return stacked("Job sheet: "+apart(ans.Title()), all)
}

// JobPDF is the job sheet on pages to be printed, each drawing on new pages.
func JobPDF(ans *job.Answer) ([]byte, error) {
	var all []*Picture
	for _, d := range JobDrawings(ans) {
		all = append(all, d.Picture)
	}
	return PDF(PaperFor(ans.Request.Units), "Job sheet: "+clean(ans.Title()), all...)
}

// stacked puts pictures one below the other, each with its own styles.
func stacked(title string, pictures []*Picture) *Picture {
	out := &Picture{Title: title}
	var descs []string
	for _, p := range pictures {
		c := Class(len(out.Classes))
		out.Items = append(out.Items, Group{Title: p.Title, Dy: out.Height, Items: restyled(p.Items, c)})
		out.Classes = append(out.Classes, p.Classes...)
		out.Width, out.Scale = max(out.Width, p.Width), max(out.Scale, p.Scale)
		for _, w := range p.Whole {
			out.Whole = append(out.Whole, Span{w.From + out.Height, w.To + out.Height})
		}
		for _, strip := range p.Strips {
			strip.Y += out.Height
			out.Strips = append(out.Strips, strip)
		}
		out.Height += p.Height
		out.Units = p.Units
		descs = append(descs, p.Desc)
	}
	out.Desc = strings.Join(descs, " ")
	return out
}

// restyled are shapes with their classes moved by so many.
func restyled(items []Shape, by Class) []Shape {
	out := make([]Shape, len(items))
	for i, it := range items {
		switch s := it.(type) {
		case Rect:
			s.Class += by
			it = s
		case Line:
			s.Class += by
			it = s
		case Circle:
			s.Class += by
			it = s
		case Path:
			s.Class += by
			it = s
		case Text:
			s.Class += by
			it = s
		case Hatch:
			s.Class += by
			it = s
		case Group:
			s.Items = restyled(s.Items, by)
			it = s
		}
		out[i] = it
	}
	return out
}
