package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"

	"github.com/bridletie/bridletie/api/httpapi"
)

// The operations that looksLike chooses from.
const (
	jobQuestion     = "job"
	yardageQuestion = "yardage"
)

// looksLike returns the given operation and form, or defaults that suit the request. A
// request with furniture and cloths but no panels is a job, whose default form is text.
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

// draw writes every drawing of a response to a folder, and creates the folder if
// necessary.
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
