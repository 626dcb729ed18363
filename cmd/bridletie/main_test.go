package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service"
)

const request = `{"cloth":{"width":"140 cm","pattern":{"lengthRepeat":"32 cm","widthRepeat":"35 cm"}},
	"panels":[{"id":"SEAT","count":2,"size":{"across":"50 cm","along":"48 cm"},"match":{"how":"centred"}}],"effort":"quick"}`

func noEnv(string) string { return "" }

// call runs the program to its end.
func call(t *testing.T, stdin string, args ...string) (code int, stdout, stderr string) {
	t.Helper()
	var out, errs bytes.Buffer
	code = run(context.Background(), args, noEnv, strings.NewReader(stdin), &out, &errs)
	return code, out.String(), errs.String()
}

func TestUsage(t *testing.T) {
	for _, tc := range []struct {
		args []string
		code int
	}{
		{nil, exitUsage},
		{[]string{"solve"}, exitUsage},
		{[]string{"run"}, exitUsage},
		{[]string{"run", "a", "b"}, exitUsage},
		{[]string{"run", "--as", "gif", "-"}, exitUsage},
		{[]string{"run", "--nonesuch", "-"}, exitUsage},
		{[]string{"run", "--op", "yardage/check", "-"}, exitUsage},
		{[]string{"version", "now"}, exitUsage},
		{[]string{"serve", "now"}, exitUsage},
		{[]string{"serve", "--drain", "soon"}, exitUsage},
		{[]string{"serve", "--drain", "-1s"}, exitUsage},
		{[]string{"serve", "--addr", "127.0.0.1:99999", "--metrics-addr", "off"}, exitFail},
		{[]string{"run", filepath.Join("testdata", "nonesuch.json")}, exitFail},
		{[]string{"help"}, exitOK},
		{[]string{"serve", "-h"}, exitOK},
		{[]string{"run", "-h"}, exitOK},
		{[]string{"version"}, exitOK},
	} {
		code, _, stderr := call(t, request, tc.args...)
		if code != tc.code {
			t.Errorf("%q: code %d, want %d: %s", tc.args, code, tc.code, stderr)
		}
		if code != exitOK && stderr == "" {
			t.Errorf("%q: no word about what is wrong", tc.args)
		}
	}
	if _, out, _ := call(t, "", "version"); out != service.EngineVersion+"\n" {
		t.Errorf("version printed %q", out)
	}
}

func TestBadEnvironment(t *testing.T) {
	var errs bytes.Buffer
	env := func(key string) string {
		if key == "BRIDLETIE_DRAIN" {
			return "soon"
		}
		return ""
	}
	if code := run(context.Background(), []string{"serve"}, env, nil, io.Discard, &errs); code != exitUsage || !strings.Contains(errs.String(), "BRIDLETIE_DRAIN") {
		t.Errorf("code %d: %s", code, &errs)
	}
}

// The bytes are those that the server sends.
func TestRunIsTheServersAnswer(t *testing.T) {
	server, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	web := httptest.NewServer(server.Handler())
	defer web.Close()
	for as, accept := range map[string]string{"json": "application/json", "svg": "image/svg+xml", "pdf": "application/pdf"} {
		r, err := http.NewRequest(http.MethodPost, web.URL+"/v1/yardage", strings.NewReader(request))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set("Accept", accept)
		reply, err := web.Client().Do(r)
		if err != nil {
			t.Fatal(err)
		}
		want, err := io.ReadAll(reply.Body)
		if err != nil {
			t.Fatal(err)
		}
		reply.Body.Close()
		code, out, stderr := call(t, request, "run", "--as", as, "-")
		if code != exitOK || out != string(want) || len(out) < 200 {
			t.Errorf("%s: code %d, %d bytes, the server sends %d: %s", as, code, len(out), len(want), stderr)
		}
	}
}

// A plan made by hand is checked through the same handler, in every form; the
// demo jobs say what their names say.
func TestRunChecks(t *testing.T) {
	for name, first := range map[string]string{
		"carver-pair-check.json":       "Right: ",
		"carver-pair-check-wrong.json": "Wrong: 3 faults.",
	} {
		file := filepath.Join("..", "..", "testdata", "jobs", name)
		for as, want := range map[string]string{"text": first, "json": `{"right":`, "svg": "<svg "} {
			code, out, stderr := call(t, "", "run", "--op", "yardage-check", "--as", as, file)
			if code != exitOK || !strings.HasPrefix(out, want) || as == "svg" && !strings.Contains(out, first) {
				t.Errorf("%s as %s: code %d, %s%.200s", name, as, code, stderr, out)
			}
		}
		if code, _, stderr := call(t, "", "run", file); code != exitFail || !strings.Contains(stderr, "#/placements") {
			t.Errorf("%s as a job: code %d, %s", name, code, stderr)
		}
	}
	long := strings.Repeat(" ", 70000) + request
	if code, _, stderr := call(t, long, "run", "--op", "yardage-check", "-"); code != exitFail || !strings.Contains(stderr, "#/placements") {
		t.Errorf("70000 bytes, which a plan may have: code %d, %s", code, stderr)
	}
}

// The demo jobs of the foundation and of wadding, in every form.
func TestRunBench(t *testing.T) {
	for op, job := range map[string]struct{ file, first string }{
		"foundation": {"wing-chair-foundation.json", "Foundation, traditional build"},
		"wadding":    {"wadding.json", "Wadding and filling"},
	} {
		file := filepath.Join("..", "..", "testdata", "jobs", job.file)
		for as, want := range map[string]string{"text": job.first, "json": "{", "svg": "<svg "} {
			code, out, stderr := call(t, "", "run", "--op", op, "--as", as, file)
			if code != exitOK || !strings.HasPrefix(out, want) || as == "svg" && !strings.Contains(out, job.first) {
				t.Errorf("%s as %s: code %d, %s%.200s", op, as, code, stderr, out)
			}
		}
	}
}

// A fire check is answered through the same handler, in every form.
func TestRunFireCheck(t *testing.T) {
	for name, first := range map[string]string{
		"fireside-chair-fire.json": "EVIDENCE WANTED",
		"banquette-fire.json":      "NOT ALLOWED",
	} {
		file := filepath.Join("..", "..", "testdata", "jobs", name)
		for as, want := range map[string]string{"text": first, "json": `{"verdict":`, "svg": "<svg "} {
			code, out, stderr := call(t, "", "run", "--op", "fire-check", "--as", as, file)
			if code != exitOK || !strings.HasPrefix(out, want) {
				t.Errorf("%s as %s: code %d, %s%.200s", name, as, code, stderr, out)
			}
		}
	}
}

func TestRunFiles(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "job.json"), filepath.Join(dir, "plan.txt")
	if err := os.WriteFile(in, []byte(request), 0o600); err != nil {
		t.Fatal(err)
	}
	code, stdout, stderr := call(t, "", "run", in, "--as", "text", "--out", out)
	if code != exitOK || stdout != "" {
		t.Fatalf("code %d, %q: %s", code, stdout, stderr)
	}
	text, err := os.ReadFile(out)
	if err != nil || !strings.Contains(string(text), "SEAT") {
		t.Errorf("%v, text: %s", err, text)
	}
}

func TestRunProblems(t *testing.T) {
	for _, as := range []string{"json", "text", "svg"} {
		for body, want := range map[string]string{
			`{`: "not well-formed",
			`{"cloth":{"width":"13 stone"},"panels":[{"id":"A"}]}`: "#/cloth/width",
			strings.Repeat(" ", 70000):                             "too large",
		} {
			code, stdout, stderr := call(t, body, "run", "--as", as, "-")
			if code != exitFail || stdout != "" || !strings.Contains(stderr, want) {
				t.Errorf("%s, %.20q: code %d, %q, %q", as, body, code, stdout, stderr)
			}
		}
	}
}

// The server starts, answers, and on being told to stop first says so, still
// answering, and then ends well.
func TestServeAndDrain(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	logs, logWriter := io.Pipe()
	ended := make(chan int, 1)
	go func() {
		args := []string{"serve", "--addr", "127.0.0.1:0", "--metrics-addr", "127.0.0.1:0", "--drain", "700ms"}
		ended <- run(ctx, args, noEnv, nil, io.Discard, logWriter)
		logWriter.Close()
	}()
	lines := bufio.NewScanner(logs)
	addr := map[string]string{}
	for len(addr) < 2 && lines.Scan() {
		var line struct{ What, Addr string }
		if json.Unmarshal(lines.Bytes(), &line) == nil && line.Addr != "" {
			addr[line.What] = "http://" + line.Addr
		}
	}
	go func() {
		for lines.Scan() {
		}
	}()
	status := func(method, url string) int {
		t.Helper()
		r, err := http.NewRequest(method, url, strings.NewReader(request))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", "application/json")
		reply, err := http.DefaultClient.Do(r)
		if err != nil {
			t.Fatal(err)
		}
		defer reply.Body.Close()
		return reply.StatusCode
	}
	api := addr["service"]
	for path, want := range map[string]int{"/livez": 200, "/readyz": 200, "/metrics": 404, "/openapi.yaml": 200} {
		if got := status("GET", api+path); got != want {
			t.Errorf("%s: status %d, want %d", path, got, want)
		}
	}
	if got := status("GET", addr["metrics"]+"/metrics"); got != 200 {
		t.Errorf("metrics: status %d", got)
	}
	if got := status("POST", api+"/v1/yardage"); got != 200 {
		t.Errorf("yardage: status %d", got)
	}
	stop()
	time.Sleep(150 * time.Millisecond)
	if got := status("GET", api+"/readyz"); got != 503 {
		t.Errorf("readyz while draining: status %d", got)
	}
	if got := status("POST", api+"/v1/yardage"); got != 200 {
		t.Errorf("yardage while draining: status %d", got)
	}
	select {
	case code := <-ended:
		if code != exitOK {
			t.Errorf("ended with %d", code)
		}
	case <-time.After(10 * time.Second):
		t.Fatal("did not end")
	}
	if _, err := http.Get(api + "/livez"); err == nil {
		t.Error("answers after the end")
	}
}

// Nothing that a client may draw out is without a limit.
func TestServerLimits(t *testing.T) {
	s := newServer(http.NotFoundHandler(), defaults(), slog.New(slog.DiscardHandler))
	if s.ReadHeaderTimeout != 5*time.Second || s.ReadTimeout != 10*time.Second || s.WriteTimeout != 60*time.Second ||
		s.IdleTimeout != 90*time.Second || s.MaxHeaderBytes != 16<<10 {
		t.Errorf("limits are %+v", s)
	}
}
