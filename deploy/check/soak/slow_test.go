//go:build linux

package soak

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"
)

// crowd are connections of clients that do as they like.
type crowd struct {
	t     *testing.T
	addr  string
	conns []net.Conn
}

// join opens connections and says something on each; a small receive buffer makes
// a slow reader felt at once.
func (c *crowd) join(n int, say string) []net.Conn {
	c.t.Helper()
	from := len(c.conns)
	for range n {
		conn, err := net.DialTimeout("tcp", c.addr, 5*time.Second)
		if err != nil {
			c.t.Fatal(err)
		}
		_ = conn.(*net.TCPConn).SetReadBuffer(4096)
		c.conns = append(c.conns, conn)
		if _, err := io.WriteString(conn, say); err != nil {
			c.t.Fatal(err)
		}
	}
	return c.conns[from:]
}

func (c *crowd) leave() {
	for _, conn := range c.conns {
		conn.Close()
	}
}

// drip says one byte a second on each until the other side closes or the time is
// up, and is how many were closed.
func drip(conns []net.Conn, d time.Duration) (closed int) {
	gone := make([]bool, len(conns))
	for begun := time.Now(); time.Since(begun) < d && closed < len(conns); time.Sleep(time.Second) {
		for i, conn := range conns {
			if gone[i] {
				continue
			}
			_ = conn.SetReadDeadline(time.Now().Add(time.Millisecond))
			_, rerr := io.Copy(io.Discard, conn)
			_, werr := conn.Write([]byte("x"))
			if timeout, ok := rerr.(net.Error); werr != nil || rerr == nil || !ok || !timeout.Timeout() {
				gone[i] = true
				closed++
			}
		}
	}
	return closed
}

// closedWithin counts who is closed by the other side in time.
func closedWithin(conns []net.Conn, d time.Duration) (closed int) {
	until := time.Now().Add(d)
	for _, conn := range conns {
		_ = conn.SetReadDeadline(until)
		_, err := io.Copy(io.Discard, conn)
		if timeout, ok := err.(net.Error); err == nil || !ok || !timeout.Timeout() {
			closed++
		}
	}
	return closed
}

// state is what a leak would show in.
type state struct{ goroutines, files, live float64 }

// state asks for the live heap by what the collector aims at next: twice of it.
// What the process holds of the system it gives back when it likes.
func (r *replica) state() state {
	f := r.figures()
	return state{f["go_goroutines"], f["process_open_fds"], f["go_memstats_next_gc_bytes"] / 2}
}

func (s state) String() string {
	return fmt.Sprintf("%.0f goroutines, %.0f files, %.1f MiB live", s.goroutines, s.files, s.live/(1<<20))
}

// Clients that are slow, silent, half gone or suddenly away are closed in time,
// hold nobody up, and leave nothing behind.
func TestSlowClients(t *testing.T) {
	r := newReplica(t, "only", "--header-timeout", "2s", "--read-timeout", "3s", "--idle-timeout", "4s", "--deadline", "4s", "--write-timeout", "6s")
	light := demo(t, "/v1/repeat", "curtains-repeat.json")
	client := keepAlive(4)
	idle, _ := openLoop(client, "http://"+r.addr, light, 50, 3*time.Second)
	client.CloseIdleConnections()
	crowded(t, r, false) // once to warm up: what is kept for the next is no leak
	before := settle(r, light)
	t.Logf("before: %v; light p50 %v, p99 %v", before, quantile(idle, 0.5), quantile(idle, 0.99))
	for range int(seconds(2) / time.Second) {
		crowded(t, r, true)
	}
	after := settle(r, light)
	now, most := r.memory()
	t.Logf("after:  %v; resident %d MiB, at most %d", after, now>>20, most>>20)
	if after.goroutines > before.goroutines+3 || after.files > before.files+3 {
		t.Error("goroutines or files are left")
	}
	if after.live > before.live*1.1+2<<20 || most > ceiling {
		t.Error("memory is left, or there was too much of it")
	}
	if f := r.figures(); f["bridletie_requests_in_flight"] != 0 || f[`bridletie_lane_busy{lane="heavy"}`] != 0 || f[`bridletie_lane_busy{lane="light"}`] != 0 || f["bridletie_panics_total"] != 0 {
		t.Error("something is still being answered, or there was a panic")
	}
}

// settle has the collector run, by asking, and waits until all is quiet.
func settle(r *replica, light ask) state {
	closedLoop("http://"+r.addr, light, 1, 2*time.Second)
	http.DefaultClient.CloseIdleConnections()
	least := r.state()
	for range 8 { // idle connections last for four seconds
		time.Sleep(time.Second)
		now := r.state()
		least = state{min(least.goroutines, now.goroutines), min(least.files, now.files), min(least.live, now.live)}
	}
	return least
}

// crowded has all sorts of clients at once, with a light operation asked meanwhile.
func crowded(t *testing.T, r *replica, checked bool) {
	t.Helper()
	c := &crowd{t: t, addr: r.addr}
	light, long := demo(t, "/v1/repeat", "curtains-repeat.json"), longJob()
	head := "POST /v1/repeat HTTP/1.1\r\nHost: soak\r\nContent-Type: application/json\r\n"
	silent := c.join(1000, "")
	headers := c.join(200, "POST /v1/repeat HTTP/1.1\r\nHo")
	bodies := c.join(200, head+fmt.Sprintf("Content-Length: %d\r\n\r\n{", len(light.body)))
	readers := c.join(100, "")
	var group sync.WaitGroup
	for _, conn := range readers { // asks for more than fits into any buffer, and reads nothing
		group.Go(func() {
			_ = conn.SetWriteDeadline(time.Now().Add(5 * time.Second))
			_, _ = io.WriteString(conn, strings.Repeat("GET /openapi.yaml HTTP/1.1\r\nHost: soak\r\n\r\n", 200))
		})
	}
	whole := head + fmt.Sprintf("Content-Length: %d\r\n\r\n%s", len(light.body), light.body)
	idle := c.join(200, whole)
	for _, conn := range idle { // answered, and then silent
		if w, err := http.ReadResponse(bufio.NewReader(conn), nil); err != nil || w.StatusCode != http.StatusOK {
			t.Errorf("no answer: %v", err)
			break
		}
	}
	for _, conn := range c.join(100, head+"Content-Length: 1000\r\n\r\n{") { // half closed in mid-body
		_ = conn.(*net.TCPConn).CloseWrite()
	}
	for _, conn := range c.join(100, head+"Content-Length: 1000\r\n\r\n{") { // reset in mid-body
		_ = conn.(*net.TCPConn).SetLinger(0)
		conn.Close()
	}
	var meanwhile []reply
	group.Go(func() {
		client := keepAlive(4)
		defer client.CloseIdleConnections()
		meanwhile, _ = openLoop(client, "http://"+r.addr, light, 50, 5*time.Second)
	})
	var slow [2]int
	for i, conns := range [][]net.Conn{headers, bodies} {
		group.Go(func() { slow[i] = drip(conns, 12*time.Second) })
	}
	for range 5 {
		leave(t, r, long)
	}
	group.Wait()
	closed := []int{slow[0], slow[1], closedWithin(silent, 8*time.Second), closedWithin(idle, 8*time.Second), 0}
	closed[4] = closedWithin(readers, 10*time.Second)
	c.leave()
	if !checked {
		return
	}
	t.Logf("closed by the service: %d of 200 with slow headers, %d of 200 with slow bodies, %d of 1000 silent, %d of 200 idle, %d of 100 slow readers; light meanwhile p50 %v, p99 %v",
		closed[0], closed[1], closed[2], closed[3], closed[4], quantile(meanwhile, 0.5), quantile(meanwhile, 0.99))
	for i, want := range []int{200, 200, 1000, 200, 100} {
		if closed[i] != want {
			t.Errorf("group %d: %d of %d were closed", i, closed[i], want)
		}
	}
	if n := len(meanwhile) - len(with(meanwhile, 200)); n > 0 {
		t.Errorf("%d of %d light requests failed meanwhile", n, len(meanwhile))
	}
}
