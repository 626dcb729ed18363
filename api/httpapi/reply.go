package httpapi

import (
	"maps"
	"net/http"
	"slices"
	"strconv"

	"github.com/bridletie/bridletie/api/contract"
)

// reply is a response in memory. It is immutable, so that any number of requests can share
// it. It also frees the slot in the lane before a slow client has read it.
type reply struct {
	status int
	header http.Header
	body   []byte
}

// replyOf returns the reply to one request, with Cache-Control: no-store.
func replyOf(media string, body []byte) *reply {
	if media == contract.Text {
		media += "; charset=utf-8"
	}
	return &reply{http.StatusOK, http.Header{"Content-Type": {media}, "Cache-Control": {"no-store"}}, body}
}

// send writes the reply to the client.
func (r *reply) send(w http.ResponseWriter) error {
	h := w.Header()
	varies := h["Vary"] // keep the values set by the pipeline
	maps.Copy(h, r.header)
	h["Vary"] = slices.Clone(r.header["Vary"])
	for _, name := range varies {
		if !slices.Contains(h["Vary"], name) {
			h.Add("Vary", name)
		}
	}
	if r.status != http.StatusNotModified { // a 304 would give the length of the document
		h.Set("Content-Length", strconv.Itoa(len(r.body)))
	}
	w.WriteHeader(r.status)
	if len(r.body) == 0 { // a 304 must not call Write at all
		return nil
	}
	_, err := w.Write(r.body)
	return err
}

// size returns the approximate memory of the reply in bytes.
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
