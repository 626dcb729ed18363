package httpapi_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// Bodies that are slow to come fill the room there is for large ones: another large
// one is sent away, a small one is not, and when the slow ones have gone there is
// room again.
func TestRoomForBodies(t *testing.T) {
	opts := options()
	opts.BodyRoom = 1 << 20
	c := newClient(t, opts)
	large := strings.Repeat(" ", 500<<10)
	ask := func(body io.Reader) *httptest.ResponseRecorder {
		r := httptest.NewRequest(http.MethodPost, "/v1/piping", body)
		r.Header.Set("Content-Type", "application/json")
		return c.send(r)
	}
	type slow struct {
		send *io.PipeWriter
		done chan bool
	}
	var crowd []slow
	for range 2 {
		body, send := io.Pipe()
		s := slow{send, make(chan bool)}
		go func() {
			defer close(s.done)
			ask(body)
		}()
		for _, text := range []string{large, " "} { // the second is taken when the first was counted
			if _, err := io.WriteString(send, text); err != nil {
				t.Fatal(err)
			}
		}
		crowd = append(crowd, s)
	}
	for range 3 {
		w := ask(strings.NewReader(large))
		if w.Code != http.StatusServiceUnavailable || w.Header().Get("Retry-After") == "" || w.Header().Get("Connection") != "close" {
			t.Errorf("no room: status %d, %v: %.300s", w.Code, w.Header(), w.Body)
		}
	}
	if w := ask(strings.NewReader(piped)); w.Code != http.StatusOK {
		t.Errorf("a small one: status %d", w.Code)
	}
	for _, s := range crowd {
		s.send.CloseWithError(io.ErrUnexpectedEOF)
		<-s.done
	}
	for range 5 { // each gives back what it took
		if w := ask(strings.NewReader(large + piped)); w.Code != http.StatusOK {
			t.Errorf("room again: status %d", w.Code)
		}
	}
}
