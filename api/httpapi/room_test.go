package httpapi_test

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
)

// Those who send much and do not end fill their room and no more: others with
// much to send are told to come back, and what people usually send is answered.
func TestSlowSendersFillTheirRoomOnly(t *testing.T) {
	opts := options()
	opts.BodiesBytes = httpapi.MaxCheckBody
	c := newClient(t, opts)
	half := "[" + strings.Repeat("1,", httpapi.MaxCheckBody/3)
	var senders []*io.PipeWriter
	done := make(chan int, 2)
	begin := func() {
		body, sender := io.Pipe()
		senders = append(senders, sender)
		go func() {
			r := httptest.NewRequest(http.MethodPost, "/v1/piping", body)
			r.Header.Set("Content-Type", "application/json")
			w := httptest.NewRecorder()
			c.handler.ServeHTTP(w, r)
			done <- w.Code
		}()
	}
	begin()
	if _, err := io.WriteString(senders[0], half); err != nil {
		t.Fatal(err)
	}
	begin()
	go give(senders[1], half)
	select {
	case code := <-done:
		if code != 503 {
			t.Errorf("the second: status %d", code)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("the second found room")
	}
	if w := c.do(http.MethodPost, "/v1/repeat", job(t, "curtains-repeat.json"), "Content-Type", "application/json"); w.Code != 200 {
		t.Errorf("a short body: status %d", w.Code)
	}
	senders[0].Close()
	if code := <-done; code != 400 {
		t.Errorf("the first: status %d", code)
	}
	for range 3 { // the room is given back, whatever the answer was
		if w := c.do(http.MethodPost, "/v1/piping", half, "Content-Type", "application/json"); w.Code != 400 {
			t.Errorf("with room again: status %d", w.Code)
		}
	}
}
