package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"

	"github.com/bridletie/bridletie/api/httpapi"
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

// draw writes every drawing of an answer to a folder, which is made when it is not
// there.
func draw(ctx context.Context, server *httpapi.Server, op httpapi.Operation, body []byte, folder string) error {
	list, err := server.Drawings(ctx, op.Path, body)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	for _, d := range list {
		if err := os.WriteFile(filepath.Join(folder, d.Name), d.Body, 0o644); err != nil {
			return err
		}
	}
	return nil
}
