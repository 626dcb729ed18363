//go:build linux

package soak

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/tls"
	"crypto/x509"
	"encoding/pem"
	"fmt"
	"math/big"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"syscall"
	"testing"
	"time"
)

// certificate writes one for 127.0.0.1 and returns who trusts it.
func certificate(t *testing.T, file string) *x509.CertPool {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(1), NotAfter: time.Now().Add(time.Hour), IPAddresses: []net.IP{net.IPv4(127, 0, 0, 1)}}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	key, err := x509.MarshalPKCS8PrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	both := append(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: key})...)
	if err := os.WriteFile(file, both, 0o600); err != nil {
		t.Fatal(err)
	}
	cert, err := x509.ParseCertificate(der)
	if err != nil {
		t.Fatal(err)
	}
	pool := x509.NewCertPool()
	pool.AddCert(cert)
	return pool
}

// proxy starts HAProxy with the sample file, its addresses changed, and where
// retries are not wanted, without them.
func proxy(t *testing.T, retries bool, replicas ...*replica) (base string, trusted *x509.CertPool) {
	t.Helper()
	dir := t.TempDir()
	cert, config := filepath.Join(dir, "bridletie.pem"), filepath.Join(dir, "haproxy.cfg")
	trusted = certificate(t, cert)
	sample, err := os.ReadFile("../../proxy/haproxy.cfg")
	if err != nil {
		t.Fatal(err)
	}
	text := string(sample)
	change := func(pattern, with string) {
		re := regexp.MustCompile(pattern)
		if !re.MatchString(text) {
			t.Fatalf("the sample file has no %s", pattern)
		}
		text = re.ReplaceAllLiteralString(text, with)
	}
	var servers strings.Builder
	for _, r := range replicas {
		fmt.Fprintf(&servers, "    server %s %s\n", r.name, r.addr)
	}
	front := freePort(t)
	change(`bind :443 ssl crt \S+`, "bind "+front+" ssl crt "+cert)
	change(`bind :80\b`, "bind "+freePort(t))
	change(`( *server \S+ \S+\n)+`, servers.String())
	if !retries {
		change(`(?m)^ *retries .*$`, "    retries 0")
		change(`(?m)^ *option redispatch.*$`, "")
		change(`(?m)^ *retry-on .*$`, "")
	}
	if err := os.WriteFile(config, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	log := filepath.Join(dir, "log")
	cmd, ended := background(t, log, nil, "haproxy", "-db", "-f", config)
	t.Cleanup(func() {
		_ = cmd.Process.Kill()
		<-ended
		if t.Failed() {
			t.Logf("the proxy: %s", tail(log))
		}
	})
	insecure := &http.Client{Timeout: time.Second, Transport: &http.Transport{TLSClientConfig: &tls.Config{RootCAs: trusted, MinVersion: tls.VersionTLS12}}}
	defer insecure.CloseIdleConnections()
	for begun := time.Now(); ; time.Sleep(50 * time.Millisecond) {
		if w, err := insecure.Get("https://" + front + "/readyz"); err == nil {
			w.Body.Close()
			if w.StatusCode == http.StatusOK {
				return "https://" + front, trusted
			}
		}
		if time.Since(begun) > 20*time.Second {
			t.Fatalf("the proxy does not answer: %s", tail(log))
		}
	}
}

// traffic is what clients ask while something is done to the replicas.
type traffic struct {
	asked, failed atomic.Int64
	mu            sync.Mutex
	faults        map[string]int
	first         map[string][32]byte // of each path, whose answers must all be the same
}

func (tr *traffic) fault(format string, args ...any) {
	tr.failed.Add(1)
	tr.mu.Lock()
	defer tr.mu.Unlock()
	tr.faults[fmt.Sprintf(format, args...)]++
}

// during has 16 clients ask, each on one connection, until all is done and there
// were enough requests.
func during(t *testing.T, base string, trusted *x509.CertPool, asks []ask, enough int64, do func()) *traffic {
	t.Helper()
	tr := &traffic{faults: map[string]int{}, first: map[string][32]byte{}}
	var done atomic.Bool
	begun := time.Now()
	var group sync.WaitGroup
	for n := range 16 {
		group.Go(func() {
			client := &http.Client{Timeout: time.Minute, Transport: &http.Transport{MaxIdleConnsPerHost: 1, TLSClientConfig: &tls.Config{RootCAs: trusted, MinVersion: tls.VersionTLS12}}}
			defer client.CloseIdleConnections()
			for i := n; !done.Load() || tr.asked.Load() < enough; i++ {
				if time.Since(begun) > 3*time.Minute {
					return
				}
				tr.one(client, base, asks[i%len(asks)])
			}
		})
	}
	time.Sleep(500 * time.Millisecond)
	do()
	done.Store(true)
	group.Wait()
	if tr.asked.Load() < enough {
		t.Errorf("%d requests in three minutes, want %d", tr.asked.Load(), enough)
	}
	took := time.Since(begun)
	t.Logf("%d requests in %.1f s (%.0f a second): %d failed", tr.asked.Load(), took.Seconds(), float64(tr.asked.Load())/took.Seconds(), tr.failed.Load())
	for what, n := range tr.faults {
		t.Logf("  %d: %s", n, what)
	}
	return tr
}

func (tr *traffic) one(client *http.Client, base string, a ask) {
	r := send(client, base, a)
	tr.asked.Add(1)
	switch {
	case r.err != nil:
		kind := r.err
		for next := kind; next != nil; {
			kind = next
			u, ok := next.(interface{ Unwrap() error })
			if !ok {
				break
			}
			next = u.Unwrap()
		}
		tr.fault("%s: %v", a.path, kind)
		return
	case r.status != http.StatusOK:
		tr.fault("%s: status %d", a.path, r.status)
		return
	}
	tr.mu.Lock()
	want, ok := tr.first[a.path]
	if !ok {
		tr.first[a.path] = r.sum
	}
	tr.mu.Unlock()
	if ok && want != r.sum {
		tr.fault("%s: another answer than before", a.path)
	}
}

// mixed are requests of every size up to the largest body, the small ones often.
func mixed(t *testing.T, large bool) (all []ask) {
	t.Helper()
	repeat, foam, piping := demo(t, "/v1/repeat", "curtains-repeat.json"), demo(t, "/v1/foam", "settee-foam.json"), demo(t, "/v1/piping", "wing-chair-piping.json")
	yardage := demo(t, "/v1/yardage", "wing-chair.json")
	for range 8 {
		all = append(all, repeat, foam, repeat, foam, repeat)
	}
	all = append(all, piping, yardage)
	if large {
		all = append(all, repeat.padded(16<<10), foam.padded(64<<10), yardage.padded(64<<10), repeat.padded(64<<10), foam.padded(256<<10), piping.padded(1<<20))
	}
	return all
}

// threeReplicas drain for longer than the proxy takes to see it.
func threeReplicas(t *testing.T, args ...string) []*replica {
	t.Helper()
	args = append([]string{"--drain", "2s", "--light-wait", "10s", "--heavy-wait", "20s", "--heavy-queue", "64"}, args...)
	return []*replica{newReplica(t, "a", args...), newReplica(t, "b", args...), newReplica(t, "c", args...)}
}

// settled is long enough for the proxy to find a replica again.
const settled = 2 * time.Second

// Replicas restarted one after the other fail no request, though the proxy sends
// none twice.
func TestRollingRestart(t *testing.T) {
	replicas := threeReplicas(t)
	base, trusted := proxy(t, false, replicas...)
	tr := during(t, base, trusted, mixed(t, false), 10000, func() {
		for _, r := range replicas {
			t.Logf("%s ended in %v", r.name, r.end(syscall.SIGTERM).Round(time.Millisecond))
			r.start()
			time.Sleep(settled)
		}
	})
	if tr.failed.Load() != 0 {
		t.Errorf("%d of %d requests failed", tr.failed.Load(), tr.asked.Load())
	}
}

// The same without a drain fails some: the test above can see it.
func TestRestartWithoutDrainIsSeen(t *testing.T) {
	replicas := threeReplicas(t, "--drain", "0s")
	base, trusted := proxy(t, false, replicas...)
	tr := during(t, base, trusted, mixed(t, false), 100, func() {
		replicas[0].end(syscall.SIGTERM)
		time.Sleep(settled)
	})
	if tr.failed.Load() == 0 {
		t.Error("none failed")
	}
}

// One replica after the other killed, and one stopped for five seconds, fail no
// request where the proxy sends again, as the sample file has it; with bodies up
// to the largest.
func TestKilled(t *testing.T) {
	replicas := threeReplicas(t)
	base, trusted := proxy(t, true, replicas...)
	tr := during(t, base, trusted, mixed(t, true), 10000, func() {
		for _, r := range replicas[:2] {
			r.end(syscall.SIGKILL)
			time.Sleep(settled)
			r.start()
			time.Sleep(settled)
		}
		for _, s := range []syscall.Signal{syscall.SIGSTOP, syscall.SIGCONT} {
			if err := replicas[2].cmd.Process.Signal(s); err != nil {
				t.Error(err)
			}
			time.Sleep(5 * time.Second)
		}
	})
	if tr.failed.Load() != 0 {
		t.Errorf("%d of %d requests failed", tr.failed.Load(), tr.asked.Load())
	}
}
