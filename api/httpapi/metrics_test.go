package httpapi_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"

	"github.com/bridletie/bridletie/api/httpapi"
)

// metricsAfter are the metrics once every operation has been asked, rightly and
// wrongly, alone and in lines, and after many paths, ids and methods that are not
// there; and how many requests that were.
func metricsAfter(t *testing.T) (text string, sent int) {
	t.Helper()
	s := newServer(t, options())
	c := &client{t: t, doc: spec(t), handler: s.Handler()}
	do := func(method, path, body, media string) {
		sent++
		r := httptest.NewRequest(method, path, strings.NewReader(body))
		if media != "" {
			r.Header.Set("Content-Type", media)
		}
		r.Header.Set("X-Request-Id", "id-"+strconv.Itoa(sent))
		c.handler.ServeHTTP(httptest.NewRecorder(), r)
	}
	for path, item := range c.doc.Paths.Map() {
		for method := range item.Operations() {
			do(method, path, "{}", "application/json")
			do(method, path, "{", "application/json")
			do(method, path, pleatLine+"\n"+`{"operation":"`+path+`","request":{}}`, ndjson)
		}
	}
	do(http.MethodPost, "/v1/yardage", sound, "application/json")
	for i := range 2000 {
		n := strconv.Itoa(i)
		do("M"+n, "/v1/yardage", "", "")
		do(http.MethodGet, "/problems/"+n, "", "")
		do(http.MethodGet, "/"+n+"?q="+n, "", "")
	}
	return scrape(s.MetricsHandler()), sent
}

var (
	sample = regexp.MustCompile(`^([a-z_]+)(?:\{(.*)\})? (\S+)$`)
	label  = regexp.MustCompile(`([a-z_]+)="([^"]*)"`)
)

// The names keep Prometheus's rules, and labels have few values whatever is sent:
// the operations of the contract, and for any other fewer than 10.
func TestMetricsAreFewAndWellNamed(t *testing.T) {
	text, sent := metricsAfter(t)
	problems, err := promlint.New(strings.NewReader(text)).Lint()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range problems {
		t.Errorf("%s: %s", p.Metric, p.Text)
	}
	operations := 0
	for _, item := range spec(t).Paths.Map() {
		operations += len(item.Operations())
	}
	values := map[string]map[string]bool{}
	series, requests := 0, 0.0
	for line := range strings.Lines(text) {
		m := sample.FindStringSubmatch(strings.TrimSpace(line))
		if m == nil {
			continue
		}
		series++
		if m[1] == "bridletie_requests_total" {
			n, err := strconv.ParseFloat(m[3], 64)
			if err != nil {
				t.Fatal(err)
			}
			requests += n
		}
		for _, l := range label.FindAllStringSubmatch(m[2], -1) {
			if values[l[1]] == nil {
				values[l[1]] = map[string]bool{}
			}
			values[l[1]][l[2]] = true
		}
	}
	if series < 200 || series >= 1000 {
		t.Errorf("%d series, want from 200 to 999", series)
	}
	if requests != float64(sent) {
		t.Errorf("%v requests are counted, %d were sent", requests, sent)
	}
	for name, v := range values {
		most := 9
		switch name {
		case "le": // of histograms, each with buckets of its own
			most = 60
		case "operation":
			most = operations + 1 // none
		}
		if len(v) > most {
			t.Errorf("label %s has %d values, at most %d", name, len(v), most)
		}
	}
}

// What alerts, rules and the dashboard ask for is there.
func TestDeployNamesMetricsThatAreThere(t *testing.T) {
	text, _ := metricsAfter(t)
	there := map[string]bool{}
	for line := range strings.Lines(text) {
		if m := sample.FindStringSubmatch(strings.TrimSpace(line)); m != nil {
			there[m[1]] = true
		}
	}
	for _, part := range []string{"prometheus/rules.yml", "grafana/bridletie.json", "kubernetes/overlays/production/horizontalpodautoscaler.yaml"} {
		file, err := os.ReadFile(filepath.Join("..", "..", "deploy", filepath.FromSlash(part)))
		if err != nil {
			t.Fatal(err)
		}
		names := regexp.MustCompile(`\b(?:bridletie|go|process)_[a-z_]+\b`).FindAllString(string(file), -1)
		if len(names) == 0 {
			t.Errorf("%s names no metric", part)
		}
		for _, name := range names {
			if !there[name] {
				t.Errorf("%s names %s, which is not among the metrics", part, name)
			}
		}
	}
}

// The metrics are not where the service is.
func TestMetricsAreNotPublic(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	for _, path := range []string{"/metrics", "/debug/pprof/", "/debug/vars"} {
		if w := c.do("GET", path, ""); w.Code != 404 {
			t.Errorf("%s: status %d", path, w.Code)
		}
	}
}
