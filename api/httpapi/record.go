package httpapi

import (
	"bytes"
	"context"
	"errors"
	"maps"
	"net/http"
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
	maps.Copy(w.Header(), r.header)
	if r.status != http.StatusNotModified { // whose length would be that of the document
		w.Header().Set("Content-Length", strconv.Itoa(len(r.body)))
	}
	w.WriteHeader(r.status)
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

// record has next answer a request like c's, with another context, into a record.
func (s *Server) record(ctx context.Context, c echo.Context, next echo.HandlerFunc) (*recorded, error) {
	w := &recorder{header: http.Header{}}
	own := s.echo.NewContext(c.Request().WithContext(ctx), w)
	own.SetPath(c.Path())
	own.SetParamNames(c.ParamNames()...)
	own.SetParamValues(c.ParamValues()...)
	own.Set(keyRequestID, c.Get(keyRequestID))
	own.Set(keyOperation, c.Get(keyOperation))
	if err := s.recovered(own, next); err != nil {
		return nil, err
	}
	if w.status == 0 {
		return nil, errors.New("no answer")
	}
	return &recorded{w.status, w.header, w.body.Bytes()}, nil
}
