package httpapi_test

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/admit"
	"github.com/bridletie/bridletie/api/httpapi"
)

// listen serves a handler on loopback with the time-outs of the real server.
func listen(t testing.TB, h http.Handler) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := &http.Server{Handler: h, ReadHeaderTimeout: 5 * time.Second, ReadTimeout: 10 * time.Second, WriteTimeout: time.Minute}
	go func() { _ = s.Serve(l) }()
	t.Cleanup(func() { _ = s.Close() })
	return l.Addr().String()
}

// rate sends the same request from a few clients that keep their connections, for
// so long, and counts the answers a second. The client does next to nothing, so
// that it is the server that is measured.
func rate(t testing.TB, addr, path string, body []byte, d time.Duration) float64 {
	t.Helper()
	request := fmt.Appendf(nil, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", path, len(body), body)
	var answers atomic.Int64
	var all sync.WaitGroup
	begun := time.Now()
	for range 2 * runtime.GOMAXPROCS(0) {
		all.Go(func() {
			c, err := net.Dial("tcp", addr)
			if err != nil {
				t.Error(err)
				return
			}
			defer c.Close()
			from := bufio.NewReaderSize(c, 64<<10)
			for time.Since(begun) < d {
				if _, err := c.Write(request); err != nil {
					t.Error(err)
					return
				}
				if err := readAnswer(from); err != nil {
					t.Error(err)
					return
				}
				answers.Add(1)
			}
		})
	}
	all.Wait()
	return float64(answers.Load()) / time.Since(begun).Seconds()
}

// readAnswer steps over one answer with status 200.
func readAnswer(from *bufio.Reader) error {
	length := -1
	for first := true; ; first = false {
		line, err := from.ReadSlice('\n')
		if err != nil {
			return err
		}
		line = bytes.TrimRight(line, "\r\n")
		if first && !bytes.Contains(line, []byte(" 200 ")) {
			return fmt.Errorf("%s", line)
		}
		if len(line) == 0 {
			break
		}
		if value, ok := bytes.CutPrefix(line, []byte("Content-Length: ")); ok {
			length, _ = strconv.Atoi(string(value))
		}
	}
	if length >= 0 {
		_, err := from.Discard(length)
		return err
	}
	for { // in chunks
		line, err := from.ReadSlice('\n')
		if err != nil {
			return err
		}
		n, err := strconv.ParseInt(string(bytes.TrimRight(line, "\r\n")), 16, 32)
		if err != nil {
			return err
		}
		if _, err := from.Discard(int(n) + 2); err != nil || n == 0 {
			return err
		}
	}
}

// TestSpeed measures requests a second on loopback: the bare handler, the service
// with every answer made anew, and the service as it is set up, which has made the
// answer before. Each is the best of several short runs by turns, so that a busy
// machine harms all alike. BRIDLETIE_SPEED says for how long each runs, such as 1s.
func TestSpeed(t *testing.T) {
	d, err := time.ParseDuration(os.Getenv("BRIDLETIE_SPEED"))
	if err != nil {
		t.Skip("BRIDLETIE_SPEED is not set")
	}
	cores := float64(runtime.GOMAXPROCS(0))
	t.Logf("%-10s %10s %10s %10s %8s %8s   requests a second on %v cores, which the clients share", "", "bare", "anew", "kept", "anew", "kept", cores)
	for _, one := range shortAnswers {
		body := []byte(job(t, one.job))
		opts := httpapi.DefaultOptions()
		opts.Log = slog.New(slog.NewJSONHandler(io.Discard, nil))
		opts.Rate = admit.Rate{Requests: 1 << 30, Work: 1 << 30} // counted, and never used up
		kept := newServer(t, opts).Handler()
		opts.Kept = 0
		anew := newServer(t, opts).Handler()
		e := echo.New()
		e.POST(one.path, one.bare(bodyOf(t, anew, one.path, body)))
		addrs := []string{listen(t, e), listen(t, anew), listen(t, kept)}
		best := make([]float64, len(addrs))
		for range 5 {
			for i, addr := range addrs {
				best[i] = max(best[i], rate(t, addr, one.path, body, d))
			}
		}
		t.Logf("%-10s %10.0f %10.0f %10.0f %7.0f%% %7.0f%%", one.path[4:], best[0], best[1], best[2], 100*best[1]/best[0], 100*best[2]/best[0])
	}
}
