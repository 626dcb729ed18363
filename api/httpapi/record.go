package httpapi

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"net/http"
	"slices"
	"strconv"

	"github.com/labstack/echo/v4"
)

// recorded is an answer that was written down. It is never changed once made, so
// that any number of requests may be answered with it.
type recorded struct {
	status int
	header http.Header
	body   []byte
}

// send writes the answer out.
func (r *recorded) send(c echo.Context) error {
	w := c.Response()
	h := w.Header()
	varies := h.Values("Vary") // by what the pipeline went
	maps.Copy(h, r.header)
	h["Vary"] = slices.Clone(h["Vary"])
	for _, name := range varies {
		if !slices.Contains(h["Vary"], name) {
			h.Add("Vary", name)
		}
	}
	if r.status != http.StatusNotModified { // whose length would be that of the document
		w.Header().Set("Content-Length", strconv.Itoa(len(r.body)))
	}
	w.WriteHeader(r.status)
	if len(r.body) == 0 { // a 304 may not even write nothing
		return nil
	}
	_, err := w.Write(r.body)
	return err
}

// recorder is where an answer is written down, so that no work waits for a slow
// reader.
type recorder struct {
	status int
	header http.Header
	body   bytes.Buffer
}

// Header is that of the answer.
func (r *recorder) Header() http.Header { return r.header }

// WriteHeader keeps the first status.
func (r *recorder) WriteHeader(status int) {
	if r.status == 0 {
		r.status = status
	}
}

// Write keeps the body.
func (r *recorder) Write(b []byte) (int, error) {
	r.WriteHeader(http.StatusOK)
	return r.body.Write(b)
}

// recording is the answering of a request like another, with what it needs of it:
// the other may be over before this one is.
type recording struct {
	s    *Server
	w    *recorder
	c    echo.Context
	next echo.HandlerFunc
}

func (s *Server) recording(c echo.Context, next echo.HandlerFunc) *recording {
	r := &recording{s: s, w: &recorder{header: http.Header{}}, next: next}
	r.c = s.echo.NewContext(c.Request(), r.w)
	r.c.SetPath(c.Path())
	r.c.SetParamNames(c.ParamNames()...)
	r.c.SetParamValues(c.ParamValues()...)
	r.c.Set(keyRequestID, c.Get(keyRequestID))
	r.c.Set(keyOperation, c.Get(keyOperation))
	return r
}

// record has the answer written down.
func (r *recording) record(ctx context.Context) (*recorded, error) {
	r.c.SetRequest(r.c.Request().WithContext(ctx))
	switch err := r.s.recovered(r.c, r.next); {
	case errors.Is(err, http.ErrAbortHandler): // of which nothing was sent
		return nil, errors.New("the answer was broken off")
	case err != nil:
		return nil, err
	}
	if r.w.status == 0 {
		return nil, errors.New("no answer")
	}
	return &recorded{r.w.status, r.w.header, r.w.body.Bytes()}, nil
}

// size is about how many bytes the record takes.
func (r *recorded) size() int {
	n := cap(r.body)
	for name, values := range r.header {
		n += len(name)
		for _, v := range values {
			n += len(v) + 32
		}
	}
	return n
}
