package check

import (
	"crypto/ecdsa"
	"crypto/elliptic"
	"crypto/rand"
	"crypto/x509"
	"encoding/json"
	"encoding/pem"
	"fmt"
	"math/big"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"sigs.k8s.io/yaml"
)

// tool runs a program on the machine; the test is skipped where it is missing,
// but for CI, which installs it.
func tool(t *testing.T, dir, name string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	cmd := exec.CommandContext(t.Context(), name, args...)
	cmd.Dir = dir
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Errorf("%s %q: %v\n%s", name, args, err, out)
	}
	return string(out)
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// certificate writes one for a test.
func certificate(t *testing.T, cert, key string) {
	t.Helper()
	private, err := ecdsa.GenerateKey(elliptic.P256(), rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	template := &x509.Certificate{SerialNumber: big.NewInt(1), NotAfter: time.Now().Add(time.Hour)}
	der, err := x509.CreateCertificate(rand.Reader, template, template, &private.PublicKey, private)
	if err != nil {
		t.Fatal(err)
	}
	secret, err := x509.MarshalPKCS8PrivateKey(private)
	if err != nil {
		t.Fatal(err)
	}
	keyPEM := pem.EncodeToMemory(&pem.Block{Type: "PRIVATE KEY", Bytes: secret})
	both := append(pem.EncodeToMemory(&pem.Block{Type: "CERTIFICATE", Bytes: der}), keyPEM...)
	for name, text := range map[string][]byte{cert: both, key: keyPEM} {
		if err := os.WriteFile(name, text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// HAProxy and nginx take their files as they are, with certificates of the test.
func TestProxyFiles(t *testing.T) {
	dir := t.TempDir()
	cert, key := filepath.Join(dir, "bridletie.pem"), filepath.Join(dir, "bridletie.key")
	certificate(t, cert, key)
	for from, to := range map[string]string{"../proxy/haproxy.cfg": "haproxy.cfg", "../proxy/nginx.conf": "nginx.conf"} {
		text := strings.NewReplacer("/etc/haproxy/bridletie.pem", cert, "/etc/nginx/bridletie.pem", cert, "/etc/nginx/bridletie.key", key,
			"/run/nginx.pid", filepath.Join(dir, "pid")).Replace(read(t, from))
		if err := os.WriteFile(filepath.Join(dir, to), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	t.Run("haproxy", func(t *testing.T) { tool(t, dir, "haproxy", "-c", "-f", "haproxy.cfg") })
	t.Run("nginx", func(t *testing.T) { tool(t, dir, "nginx", "-t", "-p", dir, "-c", filepath.Join(dir, "nginx.conf")) })
	proxy := read(t, "../proxy/haproxy.cfg")
	buffer := 0
	if m := regexp.MustCompile(`(?m)^ *tune\.bufsize (\d+)$`).FindStringSubmatch(proxy); m != nil {
		buffer, _ = strconv.Atoi(m[1])
	}
	if buffer < 1<<20+65536 {
		t.Errorf("a request of 1 MiB with its header does not fit a buffer of %d bytes, and is not sent again", buffer)
	}
	for _, want := range []string{"option http-buffer-request", "option redispatch", "retry-on", "/readyz"} {
		if !strings.Contains(proxy, want) {
			t.Errorf("haproxy.cfg has no %s", want)
		}
	}
}

// systemd takes the unit, and finds it hardened.
func TestUnit(t *testing.T) {
	dir := t.TempDir()
	unit := strings.ReplaceAll(read(t, "../systemd/bridletie.service"), "/usr/local/bin/bridletie", "/bin/true")
	if err := os.WriteFile(filepath.Join(dir, "bridletie.service"), []byte(unit), 0o600); err != nil {
		t.Fatal(err)
	}
	tool(t, dir, "systemd-analyze", "verify", "--man=no", "./bridletie.service")
	exposure := regexp.MustCompile(`Overall exposure level for \S+: ([0-9.]+)`)
	out := tool(t, dir, "systemd-analyze", "security", "--offline=true", "--no-pager", "./bridletie.service")
	m := exposure.FindStringSubmatch(out)
	if m == nil {
		t.Fatalf("no exposure in\n%s", out)
	}
	var level float64
	if _, err := fmt.Sscan(m[1], &level); err != nil || level > 2 {
		t.Errorf("exposure %v of 10, want at most 2\n%s", level, out)
	}
}

// The rules are right, and do in made-up cases what they should.
func TestRules(t *testing.T) {
	tool(t, "../prometheus", "promtool", "check", "rules", "rules.yml")
	tool(t, "../prometheus", "promtool", "check", "config", "scrape.yml")
	tool(t, "../prometheus", "promtool", "test", "rules", "rules_test.yml")
}

// Every alert says how bad it is, what it is, and has its part of the runbook; and
// a case.
func TestAlertsAreExplained(t *testing.T) {
	var rules struct {
		Groups []struct {
			Rules []struct {
				Alert       string            `json:"alert"`
				Labels      map[string]string `json:"labels"`
				Annotations map[string]string `json:"annotations"`
			} `json:"rules"`
		} `json:"groups"`
	}
	if err := yaml.Unmarshal([]byte(read(t, "../prometheus/rules.yml")), &rules); err != nil {
		t.Fatal(err)
	}
	book := read(t, "../RUNBOOK.md")
	n := 0
	for _, g := range rules.Groups {
		for _, r := range g.Rules {
			if r.Alert == "" {
				continue
			}
			n++
			if s := r.Labels["severity"]; s != "page" && s != "ticket" {
				t.Errorf("%s: severity %q", r.Alert, s)
			}
			_, anchor, _ := strings.Cut(r.Annotations["runbook_url"], "RUNBOOK.md#")
			if r.Annotations["summary"] == "" || anchor != strings.ToLower(r.Alert) || !strings.Contains(book, "\n## "+r.Alert+"\n") {
				t.Errorf("%s: no summary, or no part of the runbook", r.Alert)
			}
			if !strings.Contains(read(t, "../prometheus/rules_test.yml"), r.Alert) {
				t.Errorf("%s: no case", r.Alert)
			}
		}
	}
	if n < 8 {
		t.Errorf("%d alerts", n)
	}
}

// Every question of the dashboard is one to Prometheus, told by promtool, which
// takes each as a rule.
func TestDashboard(t *testing.T) {
	var board struct {
		UID, Title string
		Panels     []struct {
			Type, Title string
			Targets     []struct{ Expr string }
		}
	}
	if err := json.Unmarshal([]byte(read(t, "../grafana/bridletie.json")), &board); err != nil || board.UID == "" {
		t.Fatal(err)
	}
	var rules strings.Builder
	rules.WriteString("groups:\n- name: dashboard\n  rules:\n")
	n := 0
	for _, p := range board.Panels {
		if p.Type != "row" && len(p.Targets) == 0 {
			t.Errorf("%s asks nothing", p.Title)
		}
		for _, target := range p.Targets {
			n++
			fmt.Fprintf(&rules, "  - record: panel:q%d\n    expr: %q\n", n, strings.ReplaceAll(target.Expr, "$__rate_interval", "5m"))
		}
	}
	file := filepath.Join(t.TempDir(), "dashboard.yml")
	if err := os.WriteFile(file, []byte(rules.String()), 0o600); err != nil || n < 15 {
		t.Fatalf("%d questions: %v", n, err)
	}
	tool(t, ".", "promtool", "check", "rules", file)
	bad := filepath.Join(filepath.Dir(file), "bad.yml")
	if err := os.WriteFile(bad, []byte("groups:\n- name: x\n  rules:\n  - record: a:b\n    expr: \"sum(rate(x[5m])\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if exec.Command("promtool", "check", "rules", bad).Run() == nil {
		t.Error("promtool takes a question with a bracket missing")
	}
}
