//go:build linux

package soak

import (
	"bytes"
	"crypto/sha256"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"
)

// ask is a request.
type ask struct {
	path string
	body []byte
}

// demo is a request of the demo workroom.
func demo(t *testing.T, path, file string) ask {
	t.Helper()
	body, err := os.ReadFile(filepath.Join("../../../testdata/jobs", file))
	if err != nil {
		t.Fatal(err)
	}
	return ask{path, body}
}

// padded is the request with blanks, which mean nothing, up to a size.
func (a ask) padded(size int) ask {
	return ask{a.path, append(slices.Clone(a.body), bytes.Repeat([]byte(" "), size-len(a.body))...)}
}

// reply is what came of a request.
type reply struct {
	status int // 0 when there was no answer
	err    error
	retry  int // seconds after which to come back; -1 when it does not say
	took   time.Duration
	sum    [32]byte // of the answer
	at     time.Duration
	late   time.Duration // how much later it was sent than planned
}

func send(client *http.Client, base string, a ask) (r reply) {
	begun := time.Now()
	defer func() { r.took = time.Since(begun) }()
	w, err := client.Post(base+a.path, "application/json", bytes.NewReader(a.body))
	if err != nil {
		return reply{err: err}
	}
	defer w.Body.Close()
	answer, err := io.ReadAll(w.Body)
	if err != nil {
		return reply{err: err}
	}
	r = reply{status: w.StatusCode, retry: -1, sum: sha256.Sum256(answer)}
	if n, err := strconv.Atoi(w.Header.Get("Retry-After")); err == nil {
		r.retry = n
	}
	return r
}

// keepAlive is a client that holds its connections.
func keepAlive(conns int) *http.Client {
	return &http.Client{Timeout: time.Minute, Transport: &http.Transport{MaxIdleConnsPerHost: conns, MaxConnsPerHost: conns}}
}

// closedLoop has so many clients ask one request after the other, for a time.
func closedLoop(base string, a ask, clients int, d time.Duration) []reply {
	client := keepAlive(clients)
	defer client.CloseIdleConnections()
	var mu sync.Mutex
	var all []reply
	var group sync.WaitGroup
	begun := time.Now()
	for range clients {
		group.Go(func() {
			for time.Since(begun) < d {
				r := send(client, base, a)
				r.at = time.Since(begun)
				mu.Lock()
				all = append(all, r)
				mu.Unlock()
			}
		})
	}
	group.Wait()
	return all
}

// openLoop sends at a rate, whatever has become of those before, and waits for
// all answers. No more than 4,000 are under way; the rate is what was reached.
func openLoop(client *http.Client, base string, a ask, rate float64, d time.Duration) (all []reply, reached float64) {
	var mu sync.Mutex
	var group sync.WaitGroup
	room := make(chan bool, 4000)
	begun := time.Now()
	n := 0
	for ; ; n++ {
		planned := time.Duration(float64(n) / rate * float64(time.Second))
		if planned > d {
			break
		}
		time.Sleep(planned - time.Since(begun))
		room <- true
		late := time.Since(begun) - planned
		group.Go(func() {
			r := send(client, base, a)
			r.at, r.late = time.Since(begun), late
			mu.Lock()
			all = append(all, r)
			mu.Unlock()
			<-room
		})
	}
	reached = float64(n) / time.Since(begun).Seconds()
	group.Wait()
	return all, reached
}

// with are the replies of a status.
func with(all []reply, status int) (some []reply) {
	for _, r := range all {
		if r.status == status {
			some = append(some, r)
		}
	}
	return some
}

// quantile of how long they took.
func quantile(all []reply, q float64) time.Duration {
	return quantileOf(all, q, func(r reply) time.Duration { return r.took })
}

func quantileOf(all []reply, q float64, of func(reply) time.Duration) time.Duration {
	if len(all) == 0 {
		return 0
	}
	took := make([]time.Duration, len(all))
	for i, r := range all {
		took[i] = of(r)
	}
	slices.Sort(took)
	return took[min(len(took)-1, int(q*float64(len(took))))].Round(10 * time.Microsecond)
}
