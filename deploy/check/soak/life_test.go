//go:build linux

package soak

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// A plan under way when the replica is told to end is answered, and readyz says
// meanwhile that nobody else should come.
func TestEndsAfterItsAnswers(t *testing.T) {
	r := newReplica(t, "only", "--drain", "3s")
	long, answered := longJob(), make(chan reply, 1)
	client := keepAlive(1)
	go func() { answered <- send(client, "http://"+r.addr, long) }()
	time.Sleep(400 * time.Millisecond)
	if r.figures()[`bridletie_lane_busy{lane="heavy"}`] != 1 {
		t.Fatal("the plan is not under way")
	}
	if err := r.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	time.Sleep(100 * time.Millisecond)
	for path, want := range map[string]int{"/readyz": 503, "/livez": 200} {
		w, err := http.Get("http://" + r.addr + path)
		if err != nil {
			t.Fatal(err)
		}
		w.Body.Close()
		if w.StatusCode != want || !w.Close {
			t.Errorf("%s while draining: status %d, want %d, and the connection closed: %v", path, w.StatusCode, want, w.Close)
		}
	}
	a := <-answered
	if err := <-r.ended; err != nil || a.status != http.StatusOK {
		t.Errorf("ended with %v; the plan: status %d, %v", err, a.status, a.err)
	}
	r.ended <- nil
	t.Logf("the plan was answered after %v, and then the replica ended", a.took.Round(time.Millisecond))
}

// Work that outlasts the grace is cut off, and the end says so.
func TestEndsThoughWorkGoesOn(t *testing.T) {
	r := newReplica(t, "only", "--drain", "0s", "--grace", "200ms")
	client := keepAlive(1)
	go send(client, "http://"+r.addr, longJob())
	time.Sleep(400 * time.Millisecond)
	begun := time.Now()
	if err := r.cmd.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	select {
	case err := <-r.ended:
		r.ended <- err
		var exit *exec.ExitError
		if took := time.Since(begun); !errors.As(err, &exit) || exit.ExitCode() != 1 || took > 5*time.Second {
			t.Errorf("ended with %v after %v", err, took)
		}
	case <-time.After(20 * time.Second):
		t.Error("does not end")
	}
}

// probed asks the probes every tenth of a second, as those who watch a replica do,
// and is what came of it.
func probed(t *testing.T, r *replica, d time.Duration) (all []reply) {
	t.Helper()
	client := &http.Client{Timeout: 20 * time.Second, Transport: &http.Transport{DisableKeepAlives: true}}
	for begun := time.Now(); time.Since(begun) < d; time.Sleep(100 * time.Millisecond) {
		for _, path := range []string{"/livez", "/readyz"} {
			sent, a := time.Now(), reply{}
			if w, err := client.Get("http://" + r.addr + path); err == nil {
				w.Body.Close()
				a.status = w.StatusCode
			}
			a.took = time.Since(sent)
			all = append(all, a)
		}
	}
	return all
}

// With one core, and that shared, and many times too much to do, a replica stays
// alive and ready, and sends away who has no room.
func TestStarved(t *testing.T) {
	t.Setenv("GOMAXPROCS", "1")
	r := newReplica(t, "only", "--cache", "0")
	if err := syscall.Setpriority(syscall.PRIO_PROCESS, r.cmd.Process.Pid, 19); err != nil {
		t.Fatal(err)
	}
	client := keepAlive(500)
	defer client.CloseIdleConnections()
	var plans, probes []reply
	var group sync.WaitGroup
	for range 2 { // who takes the cores
		group.Go(func() {
			for begun, n := time.Now(), 0; time.Since(begun) < seconds(8); n++ {
				_ = n
			}
		})
	}
	group.Go(func() {
		plans, _ = openLoop(client, "http://"+r.addr, demo(t, "/v1/yardage", "wing-chair.json"), 100, seconds(8))
	})
	group.Go(func() { probes = probed(t, r, seconds(8)) })
	group.Wait()
	t.Logf("%d plans, %d sent away, %d else; probes p50 %v, p99 %v", len(with(plans, 200)), len(with(plans, 503)), len(plans)-len(with(plans, 200))-len(with(plans, 503)),
		quantile(probes, 0.5), quantile(probes, 0.99))
	if len(with(probes, 200)) != len(probes) || len(with(plans, 200))+len(with(plans, 503)) != len(plans) || len(with(plans, 503)) == 0 {
		t.Errorf("%d of %d probes were answered", len(with(probes, 200)), len(probes))
	}
	bar(t, quantile(probes, 0.99) < 4*time.Second, "probes are answered in p99 %v, want 4s, as the manifests have it", quantile(probes, 0.99))
}

// A replica is soon there, and its first answer is not much slower than others.
func TestBegins(t *testing.T) {
	r := newReplica(t, "only")
	a := demo(t, "/v1/piping", "wing-chair-piping.json")
	var ready, first []time.Duration
	for range 10 {
		r.end(syscall.SIGKILL)
		begun := time.Now()
		r.start()
		ready = append(ready, time.Since(begun))
		first = append(first, send(http.DefaultClient, "http://"+r.addr, a).took)
	}
	slices.Sort(ready)
	slices.Sort(first)
	bar(t, ready[5] < time.Second, "ready after %v (median), %v (most) of 10 starts, want 1s", ready[5].Round(time.Millisecond), ready[9].Round(time.Millisecond))
	t.Logf("the first answer takes %v (median)", first[5].Round(10*time.Microsecond))
}

// Settings that cannot be are one line and an end at once.
func TestBadSettings(t *testing.T) {
	r := newReplica(t, "only")
	for _, args := range [][]string{
		{"--addr", r.addr}, {"--addr", "nonsense"}, {"--deadline", "never"}, {"--heavy", "0"}, {"--keys-file", "/nonesuch"}, {"--allow-origin", "null"},
	} {
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		begun := time.Now()
		out, err := exec.CommandContext(ctx, os.Getenv("BRIDLETIE_SOAK"), append([]string{"serve", "--metrics-addr", "off"}, args...)...).CombinedOutput()
		cancel()
		var exit *exec.ExitError
		lines := bytes.Split(bytes.TrimSpace(out), []byte("\n"))
		if !errors.As(err, &exit) || exit.ExitCode() < 1 || len(lines[len(lines)-1]) < 10 {
			t.Errorf("%q: %v: %s", args, err, out)
		}
		bar(t, time.Since(begun) < time.Second, "%q: ended after %v, %d lines", args, time.Since(begun).Round(time.Millisecond), len(lines))
	}
}

// After all sorts of work the process has no connection but those that others made
// to it, no open file but its log, and nothing was written where it runs.
func TestKeepsToItself(t *testing.T) {
	r := newReplica(t, "only")
	for _, a := range []ask{
		demo(t, "/v1/yardage", "wing-chair.json"), demo(t, "/v1/piping", "wing-chair-piping.json"), demo(t, "/v1/job", "wing-chair-job.json"), demo(t, "/v1/foam", "settee-foam.json"),
	} {
		if w := send(http.DefaultClient, "http://"+r.addr, a); w.status != http.StatusOK {
			t.Errorf("%s: status %d", a.path, w.status)
		}
	}
	own := map[string]bool{}
	for _, addr := range []string{r.addr, r.side} {
		_, port, _ := net.SplitHostPort(addr)
		var n int
		_, _ = fmt.Sscan(port, &n)
		own[fmt.Sprintf("%04X", n)] = true
	}
	sockets := map[string]bool{} // inodes of those at the replica's own ports
	for _, table := range []string{"tcp", "tcp6", "udp", "udp6"} {
		text, err := os.ReadFile(fmt.Sprintf("/proc/%d/net/%s", r.cmd.Process.Pid, table))
		if err != nil {
			continue
		}
		for line := range strings.Lines(string(text)) {
			if f := strings.Fields(line); len(f) > 9 && strings.Contains(f[1], ":") {
				_, port, _ := strings.Cut(f[1], ":")
				sockets[f[9]] = own[port]
			}
		}
	}
	fds, err := filepath.Glob(fmt.Sprintf("/proc/%d/fd/*", r.cmd.Process.Pid))
	if err != nil || len(fds) < 5 {
		t.Fatalf("%d files: %v", len(fds), err)
	}
	ours := 0
	for _, fd := range fds {
		what, err := os.Readlink(fd)
		if err != nil {
			continue
		}
		inode, socket := strings.CutPrefix(strings.TrimSuffix(what, "]"), "socket:[")
		switch {
		case socket && sockets[inode]:
			ours++
		case socket:
			t.Errorf("a connection that nobody made to it: %s", what)
		case what == r.log || what == os.DevNull || strings.HasPrefix(what, "anon_inode:") || strings.HasPrefix(what, "pipe:") || strings.HasPrefix(what, "/sys/fs/cgroup/"):
		default:
			t.Errorf("an open file: %s", what)
		}
	}
	if ours < 2 {
		t.Errorf("%d sockets of its own", ours)
	}
	left, err := os.ReadDir(r.cmd.Dir)
	if err != nil || len(left) != 0 {
		t.Errorf("where it runs there is %v: %v", left, err)
	}
}

// More clients than files: those who were let in are answered, and when they have
// gone so is everybody.
func TestTooFewFiles(t *testing.T) {
	r := newReplica(t, "only", "--idle-timeout", "3s", "--header-timeout", "3s")
	limit := exec.Command("prlimit", "--pid", fmt.Sprint(r.cmd.Process.Pid), "--nofile=256:256")
	if out, err := limit.CombinedOutput(); err != nil {
		t.Fatalf("prlimit: %v %s", err, out)
	}
	c := &crowd{t: t, addr: r.addr}
	c.join(600, "")
	time.Sleep(time.Second)
	c.leave()
	begun := time.Now()
	awaitOK(t, "http://"+r.addr+"/readyz")
	if took := time.Since(begun); took > 5*time.Second {
		t.Errorf("answers again only after %v", took)
	}
	if n := r.figures()["process_open_fds"]; n > 100 {
		t.Errorf("%.0f files are open", n)
	}
}

// One caller who asks far too much changes nothing for another.
func TestNoisyNeighbour(t *testing.T) {
	if os.Getenv("BRIDLETIE_SOAK") == "" {
		t.Skip("make soak runs it")
	}
	var keys [2]string
	var list strings.Builder
	for i, name := range []string{"noisy", "quiet"} {
		out, err := exec.Command(os.Getenv("BRIDLETIE_SOAK"), "key", name).Output()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(out)) {
			line = strings.TrimSpace(line)
			switch {
			case strings.HasPrefix(line, name+" sha256:"):
				fmt.Fprintln(&list, line)
			case line != "" && !strings.Contains(line, " "):
				keys[i] = line
			}
		}
	}
	file := filepath.Join(t.TempDir(), "keys")
	if err := os.WriteFile(file, []byte(list.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	r := newReplica(t, "only", "--keys-file", file, "--rate", "900", "--cache", "0")
	a := demo(t, "/v1/repeat", "curtains-repeat.json")
	noisy, quiet := keyed(keys[0]), keyed(keys[1])
	for range 10 {
		send(quiet, "http://"+r.addr, a)
	}
	alone, _ := openLoop(quiet, "http://"+r.addr, a, 10, seconds(6))
	var beside, refused []reply
	var group sync.WaitGroup
	group.Go(func() { refused, _ = openLoop(noisy, "http://"+r.addr, a, 300, seconds(8)) }) // 20 times 900 a minute
	group.Go(func() { beside, _ = openLoop(quiet, "http://"+r.addr, a, 10, seconds(8)) })
	group.Wait()
	if len(with(alone, 200)) != len(alone) || len(with(beside, 200)) != len(beside) {
		t.Errorf("%d of %d answered beside the other, %d of %d alone", len(with(beside, 200)), len(beside), len(with(alone, 200)), len(alone))
	}
	if len(with(refused, 200))+len(with(refused, 429)) != len(refused) || len(with(refused, 429)) < len(refused)/10 {
		t.Errorf("of %d requests of the noisy one %d are answered and %d refused", len(refused), len(with(refused, 200)), len(with(refused, 429)))
	}
	t.Logf("the noisy one: %d answered, %d refused; the other: p50 %v and p99 %v, alone %v and %v", len(with(refused, 200)), len(with(refused, 429)),
		quantile(beside, 0.5), quantile(beside, 0.99), quantile(alone, 0.5), quantile(alone, 0.99))
}

// keyed is a client with a key.
func keyed(key string) *http.Client {
	return &http.Client{Timeout: time.Minute, Transport: withKey{key, &http.Transport{MaxIdleConnsPerHost: 50}}}
}

type withKey struct {
	key  string
	next *http.Transport
}

func (k withKey) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.Header.Set("Authorization", "Bearer "+k.key)
	return k.next.RoundTrip(r)
}

// The largest bodies from many clients at once stay below what the process is told.
func TestLargestBodiesAtOnce(t *testing.T) {
	r := newReplica(t, "only", "--memory", fmt.Sprint(64<<20), "--cache", "0")
	many := make([]string, 9000)
	for i := range many {
		many[i] = fmt.Sprintf(`{"name":"run %d","length":"%d mm","radius":"%d cm"}`, i, 300+i%4000, 5+i%20)
	}
	asks := []ask{
		{"/v1/piping", []byte(`{"cord":{"diameter":"4 mm"},"cloth":{"width":"137 cm"},"runs":[` + strings.Join(many, ",") + `]}`)},
		{"/v1/yardage/check", bytes.Repeat([]byte("["), 1<<20)},
		{"/v1/yardage/compare", append([]byte(`{"cloths":[`), append(bytes.Repeat([]byte(`{"a":1},`), 120000), []byte(`1]}`)...)...)},
		{"/v1/yardage", bytes.Repeat([]byte(" "), 1<<20)},
	}
	statuses := map[int]int{}
	var mu sync.Mutex
	var group sync.WaitGroup
	for i := range 16 {
		group.Go(func() {
			for _, a := range closedLoop("http://"+r.addr, asks[i%len(asks)], 1, seconds(8)) {
				mu.Lock()
				statuses[a.status]++
				mu.Unlock()
			}
		})
	}
	group.Wait()
	_, most := r.memory()
	t.Logf("answers by status: %v; memory at most %d MiB, told to stay below 64", statuses, most>>20)
	if statuses[500] > 0 || most > ceiling {
		t.Error("a failure, or too much memory")
	}
}

// Large bodies that stop short of their end, on many connections, do not fill the
// memory: there is so much room for them, and small requests go on.
func TestBodiesThatNeverEnd(t *testing.T) {
	r := newReplica(t, "only")
	c := &crowd{t: t, addr: r.addr}
	c.join(500, "POST /v1/piping HTTP/1.1\r\nHost: soak\r\nContent-Type: application/json\r\nContent-Length: 1048576\r\n\r\n")
	var group sync.WaitGroup
	short := strings.Repeat(" ", 1<<20-1)
	for _, conn := range c.conns {
		group.Go(func() {
			_ = conn.SetWriteDeadline(time.Now().Add(5 * time.Second))
			_, _ = io.WriteString(conn, short) // until it is sent away
		})
	}
	time.Sleep(time.Second)
	small, _ := openLoop(keepAlive(4), "http://"+r.addr, demo(t, "/v1/repeat", "curtains-repeat.json"), 50, 3*time.Second)
	group.Wait()
	_, most := r.memory()
	c.leave()
	t.Logf("500 MB were offered; small requests meanwhile: p50 %v, p99 %v; memory at most %d MiB", quantile(small, 0.5), quantile(small, 0.99), most>>20)
	if len(with(small, 200)) != len(small) || most > ceiling {
		t.Errorf("%d of %d small requests were answered, or too much memory", len(with(small, 200)), len(small))
	}
}

// What net/http refuses by itself is refused, and a body of a hundred megabytes in
// chunks is not read.
func TestOnTheWire(t *testing.T) {
	r := newReplica(t, "only")
	say := func(parts ...string) (status int, wrote int) {
		conn, err := net.Dial("tcp", r.addr)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		_ = conn.SetDeadline(time.Now().Add(20 * time.Second))
		got := make(chan int, 1)
		go func() {
			w, err := http.ReadResponse(bufio.NewReader(conn), nil)
			if err != nil {
				got <- 0
				return
			}
			_, _ = io.Copy(io.Discard, w.Body)
			got <- w.StatusCode
		}()
		for _, p := range parts {
			n, err := io.WriteString(conn, p)
			wrote += n
			if err != nil {
				break
			}
		}
		return <-got, wrote
	}
	head := "POST /v1/repeat HTTP/1.1\r\nHost: soak\r\nContent-Type: application/json\r\n"
	chunk := "10000\r\n" + strings.Repeat(" ", 1<<16) + "\r\n"
	for what, tc := range map[string]struct {
		parts []string
		want  int
	}{
		"a header of 64 KB":         {[]string{"GET /livez HTTP/1.1\r\nHost: soak\r\nX-Long: " + strings.Repeat("q", 64<<10) + "\r\n\r\n"}, 431},
		"an address of 9 KB":        {[]string{"GET /livez?" + strings.Repeat("q", 9<<10) + " HTTP/1.1\r\nHost: soak\r\n\r\n"}, 414},
		"a length of 100 MB":        {[]string{head + "Content-Length: 100000000\r\n\r\n", strings.Repeat(" ", 1000)}, 413},
		"chunks of 100 MB":          {append([]string{head + "Transfer-Encoding: chunked\r\n\r\n"}, slices.Repeat([]string{chunk}, 1600)...), 413},
		"two lengths":               {[]string{head + "Content-Length: 5\r\nContent-Length: 6\r\n\r\n{}"}, 400},
		"a length and chunks":       {[]string{head + "Content-Length: 2\r\nTransfer-Encoding: gzip\r\n\r\n{}"}, 501},
		"no host":                   {[]string{"GET /livez HTTP/1.1\r\n\r\n"}, 400},
		"no HTTP":                   {[]string{"hello\r\n\r\n"}, 400},
		"a line end in a header":    {[]string{"GET /livez HTTP/1.1\r\nHost: soak\r\nX-Request-Id: a\x00b\r\n\r\n"}, 400},
		"what is right, afterwards": {[]string{"GET /livez HTTP/1.1\r\nHost: soak\r\nConnection: close\r\n\r\n"}, 200},
	} {
		status, wrote := say(tc.parts...)
		if status != tc.want && (status != 0 || what != "chunks of 100 MB") {
			t.Errorf("%s: status %d, want %d", what, status, tc.want)
		}
		if wrote > 16<<20 {
			t.Errorf("%s: %d bytes were taken", what, wrote)
		}
	}
}
