//go:build linux

package soak

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"
)

// longJob is a plan that takes seconds.
func longJob() ask {
	var panels []string
	for i := range 60 {
		panels = append(panels, fmt.Sprintf(`{"id":"P%d","count":%d,"size":{"across":"%d cm","along":"%d cm"},"allow":"2 cm"}`, i, 1+i%3, 20+i*37%70, 25+i*53%90))
	}
	return ask{"/v1/yardage", []byte(`{"cloth":{"width":"137 cm","pattern":{"lengthRepeat":"64 cm","widthRepeat":"68 cm"}},"effort":"thorough","panels":[` + strings.Join(panels, ",") + `]}`)}
}

// leave begins a request and breaks it off when it is being worked on.
func leave(t *testing.T, r *replica, a ask) {
	t.Helper()
	ctx, gone := context.WithCancel(context.Background())
	client := &http.Client{Transport: &http.Transport{}}
	ended := make(chan bool)
	go func() {
		defer close(ended)
		q, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+r.addr+a.path, bytes.NewReader(a.body))
		if err != nil {
			t.Error(err)
			return
		}
		q.Header.Set("Content-Type", "application/json")
		if w, err := client.Do(q); err == nil {
			w.Body.Close()
		}
	}()
	for begun := time.Now(); r.figures()[`bridletie_lane_busy{lane="heavy"}`] == 0; time.Sleep(time.Millisecond) {
		if time.Since(begun) > 10*time.Second {
			t.Fatal("the plan is never begun")
		}
	}
	time.Sleep(100 * time.Millisecond) // well into the search
	gone()
	<-ended
}

// A client that leaves while its plan is made frees the core.
func TestGoneClientFreesTheCore(t *testing.T) {
	r := newReplica(t, "only")
	long := longJob()
	var frees, works []time.Duration
	for range 15 {
		leave(t, r, long)
		begun := time.Now()
		for f := r.figures(); f[`bridletie_lane_busy{lane="heavy"}`]+f["bridletie_requests_in_flight"] > 0; f = r.figures() {
			if time.Since(begun) > 5*time.Second {
				t.Fatal("the work goes on for 5 s after its client has left")
			}
			time.Sleep(time.Millisecond)
		}
		frees = append(frees, time.Since(begun))
		time.Sleep(max(0, 100*time.Millisecond-time.Since(begun)))
		before := r.busy()
		time.Sleep(300 * time.Millisecond)
		works = append(works, r.busy()-before)
	}
	slices.Sort(frees)
	slices.Sort(works)
	n := len(frees)
	bar(t, frees[n-1] < 100*time.Millisecond, "the place is free after %v (median), %v (most) of %d, want 100ms", frees[n/2].Round(time.Millisecond), frees[n-1].Round(time.Millisecond), n)
	bar(t, works[n-1] <= 30*time.Millisecond, "in the 300ms after that the process used a core for %v (median), %v (most), want 30ms", works[n/2], works[n-1])
}
