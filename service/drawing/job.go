package drawing

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
)

// JobSVG is the drawings of a job sheet one below the other, as SVG.
func JobSVG(ans *service.JobAnswer) []byte { return JobPicture(ans).SVG() }

// JobPicture is the cover of the sheet.
func JobPicture(ans *service.JobAnswer) *Picture {
	s := &paper{sys: ans.Request.Units, k: 1, page: usualWidth}
	s.title("Job sheet", ans.Title())
	return s.picture(ans.Title(), ans.Title(), planStyles(1))
}

// JobPDF is the job sheet on pages to be printed.
func JobPDF(ans *service.JobAnswer) ([]byte, error) {
	on := A4()
	if ans.Request.Units == length.Imperial {
		on = Letter()
	}
	return PDF(on, ans.Title(), JobPicture(ans))
}

// JobText is the job sheet as plain text.
func JobText(ans *service.JobAnswer) string {
	p := &page{sys: ans.Request.Units}
	p.line(ans.Title())
	return p.b.String()
}
