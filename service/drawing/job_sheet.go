package drawing

import "github.com/bridletie/bridletie/service/job"

// JobSheet is the drawings of a job as one document: one below the other as SVG,
// and printed each on pages of its own.
type JobSheet struct{ ans *job.Answer }

// JobSheetOf is the sheet of a job.
func JobSheetOf(ans *job.Answer) JobSheet { return JobSheet{ans} }

// SVG is the sheet as one drawing.
func (s JobSheet) SVG() []byte { return JobSVG(s.ans) }

// Printed is the sheet as PDF.
func (s JobSheet) Printed() ([]byte, error) { return JobPDF(s.ans) }
