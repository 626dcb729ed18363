package httpapi

import (
	"bytes"
	"context"
	"encoding/json"
	"net/http"
	"strconv"

	"github.com/bridletie/bridletie/api/contract"
)

// reply is an answer, written down in the form that was negotiated.
type reply struct {
	media string
	body  []byte
}

// drawn is what can be drawn and printed: a picture, or several.
type drawn interface {
	SVG() []byte
	Printed() ([]byte, error)
}

// answered reads the body of a request as an R, answers it, and writes the
// answer A down: in the wire form, or as its picture.
func answered[R, A, W any, D drawn](
	ctx context.Context, answer func(context.Context, R) (*A, error), wire func(*A, string) W, picture func(*A) D,
) (reply, error) {
	in, err := read[R](ctx)
	if err != nil {
		return reply{}, err
	}
	calc, end := step(ctx, "calc")
	ans, err := answer(calc, in.request)
	end()
	if err != nil {
		return reply{}, err
	}
	media, _ := ctx.Value(mediaKey).(string)
	name := "draw"
	if media == contract.JSON {
		name = "write"
	}
	_, end = step(ctx, name)
	defer end()
	body, err := written(media, func() any { return wire(ans, in.digest) }, func() drawn { return picture(ans) })
	return reply{media, body}, err
}

// written is something in the form that was negotiated; only that is made.
func written(media string, wire func() any, picture func() drawn) ([]byte, error) {
	switch media {
	case contract.SVG:
		return picture().SVG(), nil
	case contract.PDF:
		return picture().Printed()
	}
	var b bytes.Buffer
	err := json.NewEncoder(&b).Encode(wire())
	return b.Bytes(), err
}

// write sends the answer. No cache keeps it: it is that of one request.
func (r reply) write(w http.ResponseWriter) error {
	w.Header().Set("Content-Type", r.media)
	w.Header().Set("Content-Length", strconv.Itoa(len(r.body)))
	w.Header().Set("Cache-Control", "no-store")
	w.Header().Set("Vary", "Accept")
	w.WriteHeader(http.StatusOK)
	_, err := w.Write(r.body)
	return err
}
