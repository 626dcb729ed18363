package api_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
)

// A client needs no library: a struct for what it wants to know, and the
// standard library. Generated types are in api/gen for whoever wants all of them.
func Example_client() {
	server := startExample()
	defer server.Close()

	order, err := orderFor(context.Background(), server.URL, `{
	  "cloth": {"name": "Quayside trellis", "width": "140 cm", "soldBy": "0.1 m",
	    "pattern": {"lengthRepeat": "32 cm", "widthRepeat": "28 cm"}},
	  "panels": [{"id": "SEAT", "count": 4, "size": {"across": "48 cm", "along": "42 cm"}, "allow": "5 cm"}]
	}`)
	fmt.Println(order, err)
	_, err = orderFor(context.Background(), server.URL, `{"cloth": {"width": "13 stone"}, "panels": []}`)
	fmt.Println(err)
	// Output:
	// 1.1 m <nil>
	// The request has faults
	// #/cloth/width not-a-length: try a number and mm, cm, m, in, ft or yd, for example "62 cm"
	// #/panels too-few: try at least 1
}

// orderFor asks how much cloth to order.
func orderFor(ctx context.Context, service, job string) (string, error) {
	ctx, cancel := context.WithTimeout(ctx, time.Minute)
	defer cancel()
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, service+"/v1/yardage", strings.NewReader(job))
	if err != nil {
		return "", err
	}
	req.Header.Set("Content-Type", "application/json")
	answer, err := http.DefaultClient.Do(req)
	if err != nil {
		return "", err
	}
	defer answer.Body.Close()
	if answer.StatusCode != http.StatusOK {
		return "", problemOf(answer)
	}
	var plan struct {
		Order struct{ Text string }
	}
	if err := json.NewDecoder(answer.Body).Decode(&plan); err != nil {
		return "", err
	}
	return plan.Order.Text, nil
}

// problemOf is the problem that the service answered with, RFC 9457, as an error:
// each fault with the field that it is in and what would do.
func problemOf(answer *http.Response) error {
	var p struct {
		Title  string
		Errors []struct{ Pointer, Code, Try string }
	}
	if err := json.NewDecoder(answer.Body).Decode(&p); err != nil {
		return fmt.Errorf("status %s", answer.Status)
	}
	lines := []string{p.Title}
	for _, e := range p.Errors {
		lines = append(lines, fmt.Sprintf("%s %s: try %s", e.Pointer, e.Code, e.Try))
	}
	return fmt.Errorf("%s", strings.Join(lines, "\n"))
}

// startExample starts a service for the example; yours runs elsewhere.
func startExample() *httptest.Server {
	s, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		panic(err)
	}
	return httptest.NewServer(s.Handler())
}
