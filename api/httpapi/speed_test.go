package httpapi_test

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"log/slog"
	"maps"
	"net"
	"net/http"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
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

// speed is how many answers there were in a second, and in a second of a core, the
// clients' share of it counted in.
type speed struct{ wall, core float64 }

// rate sends the same request from a few clients that keep their connections, for
// so long, and counts the answers. The clients do next to nothing, so that it is
// the server that is measured.
func rate(t testing.TB, addr, path string, body []byte, d time.Duration) speed {
	t.Helper()
	request := fmt.Appendf(nil, "POST %s HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n%s", path, len(body), body)
	var answers atomic.Int64
	var all sync.WaitGroup
	begun, busy := time.Now(), cpuTime(t)
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
	n := float64(answers.Load())
	return speed{n / time.Since(begun).Seconds(), n / (cpuTime(t) - busy).Seconds()}
}

// cpuTime is what this process has used of the cores.
func cpuTime(t testing.TB) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
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

// TestSpeed measures requests a second on loopback: a bare handler, one that also
// calculates, the service with every answer made anew, and the service as it is set
// up, which has made the answer before. They run by turns, several times for a
// short while each, and the best of each counts, so that a busy machine harms all
// alike. BRIDLETIE_SPEED says for how long each runs, such as 1s.
func TestSpeed(t *testing.T) {
	d, err := time.ParseDuration(os.Getenv("BRIDLETIE_SPEED"))
	if err != nil {
		t.Skip("BRIDLETIE_SPEED is not set")
	}
	t.Run("each", func(t *testing.T) { speedOfEach(t, d) })
	for _, one := range shortAnswers {
		body := []byte(job(t, one.job))
		opts := httpapi.DefaultOptions()
		opts.Log = slog.New(slog.NewJSONHandler(io.Discard, nil))
		opts.Rate = admit.Rate{Requests: 1 << 30, Work: 1 << 30} // counted, and never used up
		kept := newServer(t, opts).Handler()
		opts.Kept = 0
		anew := newServer(t, opts).Handler()
		bare, calc := echo.New(), echo.New()
		bare.POST(one.path, one.bare(bodyOf(t, anew, one.path, body)))
		calc.POST(one.path, one.calc)
		names := []string{"bare", "bare and calculation", "service, made anew", "service, kept"}
		best := make([]speed, len(names))
		addrs := []string{listen(t, bare), listen(t, calc), listen(t, anew), listen(t, kept)}
		for range 7 {
			for i, addr := range addrs {
				got := rate(t, addr, one.path, body, d)
				best[i] = speed{max(best[i].wall, got.wall), max(best[i].core, got.core)}
			}
		}
		for i, name := range names {
			t.Logf("%-10s %-22s %7.0f/s, %6.0f/s of a core: %4.0f%% of bare, %4.0f%% of bare and calculation", one.path[4:], name,
				best[i].wall, best[i].core, 100*best[i].core/best[0].core, 100*best[i].core/best[1].core)
		}
	}
}

// speedOfEach measures every operation that reads a body with its first example,
// every answer made anew.
func speedOfEach(t *testing.T, d time.Duration) {
	opts := httpapi.DefaultOptions()
	opts.Kept, opts.Solves, opts.SolveQueue = 0, runtime.GOMAXPROCS(0), 100
	server := newServer(t, opts)
	addr := listen(t, server.Handler())
	for _, op := range server.Bodies() {
		path := strings.TrimPrefix(op, "POST ")
		examples := spec(t).Paths.Value(path).Post.RequestBody.Value.Content["application/json"].Examples
		name := slices.Sorted(maps.Keys(examples))[0]
		var best speed
		for range 3 {
			got := rate(t, addr, path, []byte(exampleBody(t, examples[name].Value.Value)), d)
			best = speed{max(best.wall, got.wall), max(best.core, got.core)}
		}
		t.Logf("%-20s %-16s %7.0f/s of a core, %.2f ms", path, name, best.core, 1e3/best.core)
	}
}
