//go:build linux

package soak

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// replica is a running binary. It may be ended and begun again at its address.
type replica struct {
	t          *testing.T
	name       string
	addr, side string // of the service and of its metrics
	args, env  []string
	cmd        *exec.Cmd
	ended      chan error
	log        string
}

// newReplica starts the binary; without one, the test is skipped.
func newReplica(t *testing.T, name string, args ...string) *replica {
	t.Helper()
	if os.Getenv("BRIDLETIE_SOAK") == "" {
		t.Skip("make soak runs it")
	}
	r := &replica{t: t, name: name, addr: freePort(t), side: freePort(t), args: args, log: filepath.Join(t.TempDir(), name+".log")}
	t.Cleanup(func() {
		if r.cmd.ProcessState == nil {
			_ = r.cmd.Process.Kill()
			<-r.ended
		}
		if t.Failed() {
			t.Logf("%s: %s", r.name, tail(r.log))
		}
	})
	r.start()
	return r
}

func freePort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// start starts the binary and waits until it is ready.
func (r *replica) start() {
	r.t.Helper()
	args := append([]string{"serve", "--addr", r.addr, "--metrics-addr", r.side}, r.args...)
	r.cmd, r.ended = background(r.t, r.log, r.env, os.Getenv("BRIDLETIE_SOAK"), args...)
	awaitOK(r.t, "http://"+r.addr+"/readyz")
}

// background starts a program that ends with the test.
func background(t *testing.T, log string, env []string, name string, args ...string) (*exec.Cmd, chan error) {
	t.Helper()
	out, err := os.OpenFile(log, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(name, args...)
	cmd.Env, cmd.Dir = append(os.Environ(), env...), t.TempDir()
	cmd.Stdout, cmd.Stderr = out, out
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() {
		ended <- cmd.Wait()
		out.Close()
	}()
	return cmd, ended
}

func awaitOK(t *testing.T, url string) {
	t.Helper()
	client := http.Client{Timeout: 2 * time.Second, Transport: &http.Transport{DisableKeepAlives: true}}
	for begun := time.Now(); time.Since(begun) < 30*time.Second; time.Sleep(20 * time.Millisecond) {
		if w, err := client.Get(url); err == nil {
			w.Body.Close()
			if w.StatusCode == http.StatusOK {
				return
			}
		}
	}
	t.Fatalf("%s does not answer", url)
}

// end sends a signal and waits for the end, which must be a good one unless the
// signal allows none.
func (r *replica) end(s syscall.Signal) time.Duration {
	r.t.Helper()
	begun := time.Now()
	if err := r.cmd.Process.Signal(s); err != nil {
		r.t.Errorf("%s: %v", r.name, err)
	}
	select {
	case err := <-r.ended:
		if err != nil && s != syscall.SIGKILL {
			r.t.Errorf("%s ended with %v: %s", r.name, err, tail(r.log))
		}
	case <-time.After(time.Minute):
		r.t.Fatalf("%s does not end", r.name)
	}
	return time.Since(begun)
}

// tail is the end of a log.
func tail(file string) string {
	text, err := os.ReadFile(file)
	if err != nil {
		return err.Error()
	}
	return string(text[max(0, len(text)-1500):])
}

// logged is how long the log is.
func (r *replica) logged() int64 {
	info, err := os.Stat(r.log)
	if err != nil {
		r.t.Fatal(err)
	}
	return info.Size()
}

// times are how long answers took inside the replica, by operation and status.
type times map[string][]reply

func (ts times) quantile(what string, q float64) time.Duration { return quantile(ts[what], q) }

// times reads the log from an offset.
func (r *replica) times(from int64) times {
	text, err := os.ReadFile(r.log)
	if err != nil {
		r.t.Fatal(err)
	}
	all := times{}
	for line := range strings.Lines(string(text[from:])) {
		var l struct {
			Operation string
			Status    int
			MS        float64
		}
		if json.Unmarshal([]byte(line), &l) == nil && l.Operation != "" {
			what := fmt.Sprintf("%s %d", l.Operation, l.Status)
			all[what] = append(all[what], reply{took: time.Duration(l.MS * float64(time.Millisecond))})
		}
	}
	return all
}

// figures are the metrics of the replica, by name and labels as they are written.
func (r *replica) figures() map[string]float64 {
	r.t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	q, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+r.side+"/metrics", nil)
	if err != nil {
		r.t.Fatal(err)
	}
	w, err := http.DefaultClient.Do(q)
	if err != nil {
		r.t.Fatal(err)
	}
	defer w.Body.Close()
	all := map[string]float64{}
	for lines := bufio.NewScanner(w.Body); lines.Scan(); {
		if at := strings.LastIndexByte(lines.Text(), ' '); at > 0 && lines.Text()[0] != '#' {
			if v, err := strconv.ParseFloat(lines.Text()[at+1:], 64); err == nil {
				all[lines.Text()[:at]] = v
			}
		}
	}
	if len(all) < 50 {
		r.t.Fatalf("%d metrics", len(all))
	}
	return all
}

// memory are the resident bytes of the process, now and at most.
func (r *replica) memory() (now, most int) {
	r.t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", r.cmd.Process.Pid))
	if err != nil {
		r.t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		name, rest, _ := strings.Cut(line, ":")
		kilo, _ := strconv.Atoi(strings.TrimSuffix(strings.TrimSpace(rest), " kB"))
		switch name {
		case "VmRSS":
			now = kilo << 10
		case "VmHWM":
			most = kilo << 10
		}
	}
	if now == 0 || most == 0 {
		r.t.Fatal(errors.New("no figures of memory"))
	}
	return now, most
}

// busy is how long cores have worked for the process, to a hundredth of a second.
func (r *replica) busy() time.Duration {
	r.t.Helper()
	text, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", r.cmd.Process.Pid))
	if err != nil {
		r.t.Fatal(err)
	}
	fields := strings.Fields(string(text[strings.LastIndexByte(string(text), ')')+1:]))
	user, _ := strconv.Atoi(fields[11])
	system, _ := strconv.Atoi(fields[12])
	return time.Duration(user+system) * 10 * time.Millisecond // 100 ticks a second on Linux
}

// bar holds a time or a rate against what it should be. What the machine does
// besides may spoil it, so it fails the test only where that is asked for.
func bar(t *testing.T, good bool, format string, args ...any) {
	t.Helper()
	word := "kept  "
	if !good {
		word = "MISSED"
	}
	t.Logf("%s: "+format, append([]any{word}, args...)...)
	if !good && os.Getenv("BRIDLETIE_SOAK_BARS") != "" {
		t.Fail()
	}
}
