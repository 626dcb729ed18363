package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
)

// manyLines are lines of several operations, some wrong, some blank.
func manyLines(t *testing.T) string {
	t.Helper()
	day, err := os.ReadFile(filepath.Join("..", "..", "testdata", "jobs", "a-day.ndjson"))
	if err != nil {
		t.Fatal(err)
	}
	var job bytes.Buffer
	if err := json.Compact(&job, []byte(request)); err != nil {
		t.Fatal(err)
	}
	return string(day) + "\n\n{\n" + `{"id":"JOB","operation":"/v1/yardage","request":` + job.String() + "}\n" + string(day)
}

// lineNumber is that of an answer.
func lineNumber(t *testing.T, line string) int {
	t.Helper()
	head, _, _ := strings.Cut(strings.TrimPrefix(line, `{"line":`), ",")
	n, err := strconv.Atoi(head)
	if err != nil {
		t.Fatalf("%.80q", line)
	}
	return n
}

// The answers of four shards, put in the order of their lines, are those of one
// run, byte for byte; and those of the server.
func TestShardsTogetherAreOneRun(t *testing.T) {
	lines := manyLines(t)
	dir := t.TempDir()
	in := filepath.Join(dir, "in.ndjson")
	if err := os.WriteFile(in, []byte(lines), 0o600); err != nil {
		t.Fatal(err)
	}
	code, whole, stderr := call(t, lines, "run", "--batch", "-")
	if code != exitOK || strings.Count(whole, "\n") < 15 || !strings.Contains(stderr, " 3 with a problem") {
		t.Fatalf("code %d, %d lines: %s", code, strings.Count(whole, "\n"), stderr)
	}
	var merged []string
	for i := range 4 {
		var errs bytes.Buffer
		env := func(key string) string { return map[string]string{indexKey: strconv.Itoa(i)}[key] }
		code := run(context.Background(), []string{"run", "--batch", in, "--shard", "env/4", "--out", filepath.Join(dir, "out-{shard}")}, env, nil, io.Discard, &errs)
		part, err := os.ReadFile(filepath.Join(dir, "out-"+strconv.Itoa(i)))
		if code != exitOK || err != nil {
			t.Fatalf("shard %d: code %d, %v: %s", i, code, err, &errs)
		}
		for line := range strings.Lines(string(part)) {
			if n := lineNumber(t, line); (n-1)%4 != i {
				t.Errorf("shard %d answers line %d", i, n)
			}
			merged = append(merged, line)
		}
	}
	slices.SortStableFunc(merged, func(a, b string) int { return lineNumber(t, a) - lineNumber(t, b) })
	if strings.Join(merged, "") != whole {
		t.Error("the shards together have other answers than one run")
	}
	server, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	r := httptest.NewRequest(http.MethodPost, "/v1/batch", strings.NewReader(lines))
	r.Header.Set("Content-Type", "application/x-ndjson")
	w := httptest.NewRecorder()
	server.Handler().ServeHTTP(w, r)
	if w.Body.String() != whole {
		t.Error("the server has other answers than run")
	}
	left, err := os.ReadDir(dir)
	if err != nil || len(left) != 5 {
		t.Errorf("%d files are left, want 5: %v", len(left), err)
	}
}

func TestBatchUsage(t *testing.T) {
	dir := t.TempDir()
	for _, tc := range []struct {
		args []string
		code int
	}{
		{[]string{"--batch", ""}, exitUsage},
		{[]string{"--batch", "-", "more"}, exitUsage},
		{[]string{"--batch=-", "--shard", "4/4"}, exitUsage},
		{[]string{"-batch=-", "--shard", "-1/4"}, exitUsage},
		{[]string{"--batch", "-", "--shard", "1"}, exitUsage},
		{[]string{"--batch", "-", "--shard", "0/0"}, exitUsage},
		{[]string{"--batch", "-", "--shard", "env/4"}, exitUsage}, // no such variable
		{[]string{"--batch", "-", "--nonesuch"}, exitUsage},
		{[]string{"--batch", filepath.Join(dir, "nonesuch")}, exitFail},
		{[]string{"--batch", "-", "--out", filepath.Join(dir, "nonesuch", "out")}, exitFail},
		{[]string{"--batch", "-", "-h"}, exitOK},
		{[]string{"--batch", "-"}, exitOK}, // no lines
	} {
		if code, out, stderr := call(t, "", append([]string{"run"}, tc.args...)...); code != tc.code || out != "" || stderr == "" {
			t.Errorf("%q: code %d, want %d: %s%s", tc.args, code, tc.code, stderr, out)
		}
	}
	if code, _, _ := call(t, "", "run", "batch"); code != exitFail {
		t.Error("a file named batch is no batch")
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	out := filepath.Join(dir, "out")
	if code := run(ctx, []string{"run", "--batch", "-", "--out", out}, noEnv, strings.NewReader(manyLines(t)), io.Discard, io.Discard); code != exitFail {
		t.Errorf("stopped: code %d", code)
	}
	if left, err := os.ReadDir(dir); err != nil || len(left) > 0 {
		t.Errorf("a run that was stopped leaves %v", left)
	}
}
