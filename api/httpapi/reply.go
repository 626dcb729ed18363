package httpapi

import (
	"maps"
	"net/http"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/api/contract"
)

// reply is an answer that was written down. It is never changed once made, so
// that any number of requests may be answered with it, and no work waits for a slow
// reader.
type reply struct {
	status int
	header http.Header
	body   []byte
}

// replyOf is an answer to a question. No cache keeps it: it is that of one request.
func replyOf(media string, body []byte) *reply {
	if media == contract.Text {
		media += "; charset=utf-8"
	}
	return &reply{http.StatusOK, http.Header{"Content-Type": {media}, "Cache-Control": {"no-store"}}, body}
}

// send writes the answer out.
func (r *reply) send(w http.ResponseWriter) error {
	h := w.Header()
	varies := h["Vary"] // by what the pipeline went
	maps.Copy(h, r.header)
	h["Vary"] = slices.Clone(r.header["Vary"])
	for _, name := range varies {
		if !slices.Contains(h["Vary"], name) {
			h.Add("Vary", name)
		}
	}
	if r.status != http.StatusNotModified { // whose length would be that of the document
		h.Set("Content-Length", strconv.Itoa(len(r.body)))
	}
	w.WriteHeader(r.status)
	if len(r.body) == 0 { // a 304 may not even write nothing
		return nil
	}
	_, err := w.Write(r.body)
	return err
}

// size is about how many bytes the record takes.
func (r *reply) size() int {
	n := cap(r.body)
	for name, values := range r.header {
		n += len(name)
		for _, v := range values {
			n += len(v) + 32
		}
	}
	return n
}
