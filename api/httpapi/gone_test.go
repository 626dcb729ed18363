package httpapi_test

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
)

// keptLog is a log that may be read while it is written.
type keptLog struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *keptLog) Write(b []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(b)
}

// statuses are those that were logged of requests, with how often each.
func (l *keptLog) statuses(t *testing.T) map[int]int {
	l.mu.Lock()
	defer l.mu.Unlock()
	out := map[int]int{}
	for line := range strings.Lines(l.text.String()) {
		var entry struct {
			Msg    string
			Status int
		}
		if err := json.Unmarshal([]byte(line), &entry); err != nil {
			t.Fatal(err)
		}
		if entry.Msg == "request" {
			out[entry.Status]++
		}
	}
	return out
}

func (l *keptLog) count(t *testing.T) (n int) {
	for _, k := range l.statuses(t) {
		n += k
	}
	return n
}

// tight is a listener whose connections hold little of what is not read.
type tight struct{ net.Listener }

func (l tight) Accept() (net.Conn, error) {
	c, err := l.Listener.Accept()
	if tcp, ok := c.(*net.TCPConn); ok {
		_ = tcp.SetWriteBuffer(4 << 10)
	}
	return c, err
}

// listening is a server on a socket of its own, and its log.
func listening(t *testing.T, opts httpapi.Options) (addr string, server *httpapi.Server, log *keptLog) {
	t.Helper()
	log = &keptLog{}
	opts.Log = slog.New(slog.NewJSONHandler(log, nil))
	server = newServer(t, opts)
	socket, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	web := &http.Server{Handler: server.Handler(), ReadHeaderTimeout: time.Minute, ErrorLog: slog.NewLogLogger(slog.DiscardHandler, slog.LevelError)}
	done := make(chan struct{})
	go func() {
		defer close(done)
		_ = web.Serve(tight{socket})
	}()
	t.Cleanup(func() {
		web.Close()
		<-done
	})
	return socket.Addr().String(), server, log
}

// requestText is a request as it is sent.
func requestText(method, path, accept, media, body string) string {
	text := method + " " + path + " HTTP/1.1\r\nHost: harbour\r\n"
	if accept != "" {
		text += "Accept: " + accept + "\r\n"
	}
	if body != "" {
		text += "Content-Type: " + media + "\r\nContent-Length: " + fmt.Sprint(len(body)) + "\r\n"
	}
	return text + "\r\n" + body
}

// asked sends a request, reads the answer to its end, and leaves at once, perhaps
// abruptly.
func asked(t *testing.T, addr, text string, abrupt bool) int {
	t.Helper()
	conn, err := net.Dial("tcp", addr)
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	_ = conn.SetDeadline(time.Now().Add(time.Minute))
	if _, err := io.WriteString(conn, text); err != nil {
		t.Fatal(err)
	}
	if abrupt {
		_ = conn.(*net.TCPConn).SetLinger(0)
	}
	w, err := http.ReadResponse(bufio.NewReader(conn), nil)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := io.Copy(io.Discard, w.Body); err != nil {
		t.Fatal(err)
	}
	return w.StatusCode
}

// An answer that was sent whole is logged and counted as what it was, however soon
// its client leaves once it has read it: for answers of every kind.
func TestAnswersSentWholeAreNeverGone(t *testing.T) {
	const js = "application/json"
	lines := `{"id": "A", "operation": "/v1/pleats", "request": ` + strings.ReplaceAll(pleatsSound, "\n", "") + `}` + "\n"
	texts := map[string]string{
		"made anew or kept":  requestText("POST", "/v1/repeat", "", js, soundRepeat),
		"drawn":              requestText("POST", "/v1/repeat", "image/svg+xml", js, soundRepeat),
		"searched for":       requestText("POST", "/v1/yardage", "", js, job(t, "carver-pair.json")),
		"refused":            requestText("POST", "/v1/repeat", "", js, `{"drops": []}`),
		"not found":          requestText("GET", "/v1/nothing", "", "", ""),
		"a list":             requestText("GET", "/v1/furniture", "", "", ""),
		"a long document":    requestText("GET", "/openapi.yaml", "", "", ""),
		"alive":              requestText("GET", "/livez", "", "", ""),
		"lines of a batch":   requestText("POST", "/v1/batch", "", "application/x-ndjson", strings.Repeat(lines, 5)),
		"lines of a compare": requestText("POST", "/v1/yardage/compare", "application/x-ndjson", js, job(t, "carver-pair-cloths.json")),
	}
	const times = 50
	for name, text := range texts {
		t.Run(name, func(t *testing.T) {
			addr, server, log := listening(t, httpapi.DefaultOptions())
			want := map[int]int{}
			for i := range times {
				want[asked(t, addr, text, i%2 == 1)]++
			}
			for range 400 {
				if log.count(t) == times {
					break
				}
				time.Sleep(5 * time.Millisecond)
			}
			if got := log.statuses(t); fmt.Sprint(got) != fmt.Sprint(want) {
				t.Errorf("logged %v, sent %v", got, want)
			}
			good, bad := 0, 0
			for line := range strings.Lines(scrape(server.MetricsHandler())) {
				var n int
				if rest, ok := strings.CutPrefix(line, `bridletie_requests_total{class="4xx"`); ok {
					_, _ = fmt.Sscanf(rest[strings.Index(rest, "} ")+2:], "%d", &n)
					bad += n
				} else if rest, ok := strings.CutPrefix(line, `bridletie_requests_total{class="2xx"`); ok {
					_, _ = fmt.Sscanf(rest[strings.Index(rest, "} ")+2:], "%d", &n)
					good += n
				}
			}
			if good != want[200] || good+bad != times {
				t.Errorf("counted %d good and %d bad, sent %v", good, bad, want)
			}
		})
	}
}

// An answer that could not be sent whole, since its client had left before its end,
// is gone: while it was worked on, or while it was sent.
func TestAnswersThatNobodyTakesAreGone(t *testing.T) {
	thorough := strings.Replace(job(t, "wing-chair.json"), `"effort": "normal"`, `"effort": "thorough"`, 1)
	for name, tc := range map[string]struct {
		text string
		read int64 // of the answer, in bytes
	}{
		"while it is worked on":    {requestText("POST", "/v1/yardage", "", "application/json", thorough), 0},
		"while a document is sent": {requestText("GET", "/openapi.json", "", "", ""), 100},
		"while an answer is sent":  {requestText("POST", "/v1/job", "", "application/json", jobFile(t, "suite")), 100},
		"between lines":            {requestText("POST", "/v1/yardage/compare", "application/x-ndjson", "application/json", job(t, "wing-chair-cloths.json")), 100},
	} {
		t.Run(name, func(t *testing.T) {
			addr, server, log := listening(t, httpapi.DefaultOptions())
			conn, err := net.Dial("tcp", addr)
			if err != nil {
				t.Fatal(err)
			}
			_ = conn.(*net.TCPConn).SetReadBuffer(4 << 10)
			_ = conn.(*net.TCPConn).SetLinger(0)
			if _, err := io.WriteString(conn, tc.text); err != nil {
				t.Fatal(err)
			}
			if tc.read == 0 {
				until(t, server, `bridletie_lane_busy{lane="heavy"} 1`)
			}
			if _, err := io.CopyN(io.Discard, conn, tc.read); err != nil {
				t.Fatal(err)
			}
			conn.Close()
			for range 2000 {
				if log.count(t) > 0 {
					break
				}
				time.Sleep(5 * time.Millisecond)
			}
			if got := log.statuses(t); len(got) != 1 || got[499] != 1 {
				t.Errorf("logged %v", got)
			}
		})
	}
}
