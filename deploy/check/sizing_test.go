package check

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// asked are requests of the demo workroom, one for each operation.
var asked = []struct{ path, file, body string }{
	{path: "/v1/yardage", file: "wing-chair.json"},
	{path: "/v1/yardage", file: "carver-pair.json"},
	{path: "/v1/yardage/check", file: "carver-pair-check.json"},
	{path: "/v1/yardage/compare", file: "carver-pair-cloths.json"},
	{path: "/v1/job", file: "wing-chair-job.json"},
	{path: "/v1/estimate", body: `{"kind": "wing-chair", "size": "large", "pattern": "medium"}`},
	{path: "/v1/cutting-list", file: "wing-chair-measures.json"},
	{path: "/v1/buttoning", file: "wing-chair-back.json"},
	{path: "/v1/piping", file: "wing-chair-piping.json"},
	{path: "/v1/repeat", file: "curtains-repeat.json"},
	{path: "/v1/relief-cuts", file: "carver-seat-relief.json"},
	{path: "/v1/pleats", file: "arm-front-pleats.json"},
	{path: "/v1/wadding", file: "wadding.json"},
	{path: "/v1/foundation", file: "wing-chair-foundation.json"},
	{path: "/v1/fire-check", file: "fireside-chair-fire.json"},
	{path: "/v1/foam", file: "settee-foam.json"},
}

// replica is a running binary on one core.
type replica struct{ addr, metrics string }

// started starts the binary that BRIDLETIE_SIZING names; without one, the test is
// skipped.
func started(t *testing.T, env ...string) replica {
	t.Helper()
	binary := os.Getenv("BRIDLETIE_SIZING")
	if binary == "" {
		t.Skip("make sizing runs it")
	}
	r := replica{freePort(t), freePort(t)}
	cmd := exec.CommandContext(t.Context(), binary, "serve", "--addr", r.addr, "--metrics-addr", r.metrics, "--drain", "0s", "--cache", "0")
	cmd.Env = append(append(os.Environ(), "GOMAXPROCS=1"), env...)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
	})
	waitFor(t, "http://"+r.addr+"/readyz")
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

func waitFor(t *testing.T, url string) {
	t.Helper()
	for begun := time.Now(); time.Since(begun) < 30*time.Second; time.Sleep(50 * time.Millisecond) {
		if w, err := http.Get(url); err == nil {
			w.Body.Close()
			if w.StatusCode == http.StatusOK {
				return
			}
		}
	}
	t.Fatalf("%s does not answer", url)
}

// figure is a metric of the replica.
func (r replica) figure(t *testing.T, name string) float64 {
	t.Helper()
	w, err := http.Get("http://" + r.metrics + "/metrics")
	if err != nil {
		t.Fatal(err)
	}
	defer w.Body.Close()
	text, err := io.ReadAll(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	m := regexp.MustCompile(`(?m)^` + name + ` (\S+)$`).FindSubmatch(text)
	if m == nil {
		t.Fatalf("no %s", name)
	}
	v, err := strconv.ParseFloat(string(m[1]), 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func asks(t testing.TB, url string, body []byte) int {
	w, err := http.Post(url, "application/json", bytes.NewReader(body))
	if err != nil {
		t.Error(err)
		return 0
	}
	defer w.Body.Close()
	n, err := io.Copy(io.Discard, w.Body)
	if err != nil || w.StatusCode != http.StatusOK {
		t.Errorf("%s: status %d: %v", url, w.StatusCode, err)
	}
	return int(n)
}

func bodyOf(t *testing.T, file, body string) []byte {
	t.Helper()
	if file == "" {
		return []byte(body)
	}
	return []byte(read(t, filepath.Join("../../testdata/jobs", file)))
}

// The time on a core that an answer takes, by the process's own clock, which others
// on the machine disturb little. It is written into SIZING.md.
func TestSizingOfOneCore(t *testing.T) {
	r := started(t)
	var table strings.Builder
	fmt.Fprintf(&table, "Measured on %s, %s, shared with other work, %d cores of which one was used.\n\n", cpu(), runtime.Version(), runtime.NumCPU())
	table.WriteString("| operation | request | answer | core time of one answer | answers a second and core |\n|---|---|---|---|---|\n")
	for _, a := range asked {
		body := bodyOf(t, a.file, a.body)
		size := asks(t, "http://"+r.addr+a.path, body) // and warm
		before, begun, n := r.figure(t, "process_cpu_seconds_total"), time.Now(), 0
		for n < 5 || time.Since(begun) < 2*time.Second && n < 2000 {
			asks(t, "http://"+r.addr+a.path, body)
			n++
		}
		each := (r.figure(t, "process_cpu_seconds_total") - before) / float64(n)
		name := a.file
		if name == "" {
			name = "a wing chair"
		}
		fmt.Fprintf(&table, "| `%s` | %s | %.1f KB | %s ms | %s |\n", a.path, name, float64(size)/1e3, digits(each*1e3), digits(1/each))
	}
	fmt.Fprintf(&table, "\nMemory of the process after all that: %.0f MiB.\n", r.figure(t, "process_resident_memory_bytes")/(1<<20))
	put(t, "one core", table.String())
}

// digits are two that count.
func digits(v float64) string {
	unit := math.Pow(10, math.Floor(math.Log10(v))-1)
	return strconv.FormatFloat(math.Round(v/unit)*unit, 'f', max(0, int(-math.Floor(math.Log10(unit)))), 64)
}

// cpu is the name of the processor.
func cpu() string {
	text, _ := os.ReadFile("/proc/cpuinfo")
	if m := regexp.MustCompile(`model name\s*: (.*)`).FindSubmatch(text); m != nil {
		return string(m[1])
	}
	return runtime.GOARCH
}

// put writes a part of SIZING.md anew.
func put(t *testing.T, part, text string) {
	t.Helper()
	const file = "../SIZING.md"
	page := regexp.MustCompile(`(?s)(<!-- ` + part + `: written by make sizing -->\n).*?(<!-- end -->)`)
	whole := read(t, file)
	if !page.MatchString(whole) {
		t.Fatalf("SIZING.md has no part %q", part)
	}
	fresh := page.ReplaceAllString(whole, "${1}"+strings.ReplaceAll(text, "$", "$$")+"${2}")
	if err := os.WriteFile(file, []byte(fresh), 0o644); err != nil {
		t.Fatal(err)
	}
}

// erlangC is the chance that a request waits when a cores' worth of work is offered
// to c places (A. K. Erlang 1917; any text on queueing has it).
func erlangC(c int, a float64) float64 {
	term, sum := 1.0, 0.0
	for k := range c {
		sum += term
		term *= a / float64(k+1)
	}
	last := term * float64(c) / (float64(c) - a)
	return last / (sum + last)
}

// waits is how long a request waits on average, with rate requests a second, c
// places, a service time of that mean and of that variance over the square of the
// mean (Allen and Cunneen's approximation; exact for one place).
func waits(c int, rate, mean, variance float64) float64 {
	return erlangC(c, rate*mean) * mean / (float64(c) - rate*mean) * (1 + variance) / 2
}

func TestErlang(t *testing.T) {
	for _, tc := range []struct {
		got, want float64
	}{
		{erlangC(1, 0.5), 0.5},
		{erlangC(2, 1), 1.0 / 3},
		{erlangC(3, 2), 4.0 / 9},
		{waits(1, 0.5, 1, 1), 1},   // M/M/1: rho/(1-rho)
		{waits(1, 0.5, 1, 0), 0.5}, // M/D/1: half of it
	} {
		if math.Abs(tc.got-tc.want) > 1e-12 {
			t.Errorf("%v, want %v", tc.got, tc.want)
		}
	}
}

const proxyFile = `
global
    maxconn 2000
    log stdout format raw local0
defaults
    mode http
    log global
    log-format "times %%Tw %%Tr %%ST"
    timeout connect 2s
    timeout client 60s
    timeout server 60s
    timeout queue 60s
frontend in
    bind %s
    default_backend replicas
backend replicas
    balance leastconn
    server a %s maxconn 1
    server b %s maxconn 1
`

// Two replicas behind HAProxy, which lets one request at a time to each and keeps
// the others waiting, wait as long as the model of two places says, within a factor
// of two: the load is drawn at random, and the machine is not alone.
func TestReplicasWaitAsTheModelSays(t *testing.T) {
	a, b := started(t), started(t)
	addr := freePort(t)
	config := filepath.Join(t.TempDir(), "haproxy.cfg")
	if err := os.WriteFile(config, fmt.Appendf(nil, proxyFile, addr, a.addr, b.addr), 0o600); err != nil {
		t.Fatal(err)
	}
	proxy := exec.CommandContext(t.Context(), "haproxy", "-db", "-f", config)
	log, err := proxy.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := proxy.Start(); err != nil {
		t.Fatal(err)
	}
	waitFor(t, "http://"+addr+"/livez")
	body := bodyOf(t, "wing-chair.json", "")
	url := "http://" + addr + "/v1/yardage"
	const warm, requests, load = 40, 400, 0.7
	for range 4 {
		asks(t, url, body)
	}
	begun := time.Now()
	var both sync.WaitGroup
	for range 2 { // the service time when both are busy
		both.Go(func() {
			for range warm / 2 {
				asks(t, url, body)
			}
		})
	}
	both.Wait()
	service := time.Since(begun).Seconds() / (warm / 2)
	random := rand.New(rand.NewPCG(1, 2))
	begun = time.Now()
	for range requests {
		both.Go(func() { asks(t, url, body) })
		time.Sleep(time.Duration(random.ExpFloat64() * service / (2 * load) * float64(time.Second)))
	}
	rate := requests / time.Since(begun).Seconds()
	both.Wait()
	_ = proxy.Process.Kill()
	var waited, served []float64
	for lines := bufio.NewScanner(log); lines.Scan(); {
		var tw, tr float64
		var status int
		if _, err := fmt.Sscanf(lines.Text(), "times %f %f %d", &tw, &tr, &status); err == nil && status == 200 {
			waited, served = append(waited, tw/1e3), append(served, tr/1e3)
		}
	}
	_ = proxy.Wait()
	if len(served) < warm+requests {
		t.Fatalf("%d requests in the log, want %d", len(served), warm+requests)
	}
	waited, served = waited[len(waited)-requests:], served[len(served)-requests:]
	mean, spread := moments(served)
	measured, _ := moments(waited)
	said := waits(2, rate, mean, spread)
	line := fmt.Sprintf("Two replicas, %d plans of wing-chair.json at %.1f a second: service time %.0f ms (variance over square %.2f), each busy %.0f %%; waiting %.0f ms measured, %.0f ms by the model.\n",
		requests, rate, mean*1e3, spread, 50*rate*mean, measured*1e3, said*1e3)
	t.Log(line)
	put(t, "two replicas", line)
	if rate*mean > 1.8 {
		t.Skip("the machine was too busy for this load")
	}
	if measured > 2*said || measured < said/2 {
		t.Errorf("measured %.4f s, the model says %.4f s", measured, said)
	}
}

// moments are the mean, and the variance over its square.
func moments(list []float64) (mean, spread float64) {
	for _, v := range list {
		mean += v / float64(len(list))
	}
	for _, v := range list {
		spread += (v - mean) * (v - mean) / float64(len(list)-1)
	}
	return mean, spread / (mean * mean)
}
