package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service/drawing"
)

// The questions that a request may look like.
const (
	jobQuestion     = "job"
	yardageQuestion = "yardage"
)

// looksLike is the operation and the form that were asked for, or else those that
// suit the request: pieces of furniture and cloths, without panels, are a job,
// which is read as text.
func looksLike(op, as string, body []byte) (asked, form string) {
	if op == "" {
		op = yardageQuestion
		var fields map[string]json.RawMessage
		if json.Unmarshal(body, &fields) == nil && fields["pieces"] != nil && fields["cloths"] != nil && fields["panels"] == nil {
			op = jobQuestion
		}
	}
	switch {
	case as != "":
	case op == jobQuestion:
		as = "text"
	default:
		as = "json"
	}
	return op, as
}

// drawJob writes every drawing of a job sheet to a folder, which is made when it
// is not there, each as an SVG named after what it shows, and the whole sheet as
// PDF beside them.
func drawJob(ctx context.Context, body []byte, folder string) error {
	server, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		return err
	}
	ans, p := server.AnswerJob(ctx, body)
	if p != nil {
		return p
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, d := range drawing.JobDrawings(ans) {
		if err := os.WriteFile(filepath.Join(folder, d.Name+".svg"), d.Picture.SVG(), 0o644); err != nil {
			return err
		}
	}
	pdf, err := drawing.JobPDF(ans)
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(folder, "job-sheet.pdf"), pdf, 0o644)
}
