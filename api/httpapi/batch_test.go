package httpapi_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service"
)

const ndjson = "application/x-ndjson"

// pleatLine is a line that is answered at once.
const pleatLine = `{"id":"P","operation":"/v1/pleats","request":{"from":{"how":"lengths","cloth":"100 cm","finished":"80 cm"},"style":"box"}}`

// repliedLine is an answer to a line.
type repliedLine struct {
	Line    int             `json:"line"`
	ID      string          `json:"id"`
	Status  int             `json:"status"`
	Answer  json.RawMessage `json:"answer"`
	Problem *gen.Problem    `json:"problem"`
}

func repliedLines(t testing.TB, text string) []repliedLine {
	t.Helper()
	var list []repliedLine
	for line := range strings.Lines(text) {
		var r repliedLine
		if err := json.Unmarshal([]byte(line), &r); err != nil || !strings.HasSuffix(line, "\n") {
			t.Fatalf("%v: %q", err, line)
		}
		if (r.Status == 200) != (r.Answer != nil) || (r.Status == 200) == (r.Problem != nil) || r.Problem != nil && r.Problem.Status != r.Status {
			t.Fatalf("neither answer nor problem, or both: %s", line)
		}
		list = append(list, r)
	}
	return list
}

// yardageLine is the sound job, made short, as a line.
func yardageLine(t testing.TB) string {
	t.Helper()
	var job bytes.Buffer
	if err := json.Compact(&job, []byte(sound)); err != nil {
		t.Fatal(err)
	}
	return `{"operation":"/v1/yardage","request":` + job.String() + `}`
}

// What is wrong with a line is its answer, with the place in the line, and the
// others are answered as if it were not there.
func TestBatchFaultsStayInTheirLine(t *testing.T) {
	c := newClient(t, options())
	cases := []struct {
		line   string
		status int
		want   string // the first fault
	}{
		{pleatLine, 200, ""},
		{`{"operation":"/v1/pleats"}`, 422, "#/request missing"},
		{`{"request":{}}`, 422, "#/operation missing"},
		{`{"operation":7,"request":{}}`, 422, "#/operation wrong-type"},
		{`{"operation":"/v1/batch","request":{}}`, 422, "#/operation not-one-of"},
		{`{"operation":"/livez","request":{}}`, 422, "#/operation not-one-of"},
		{`{"operation":"/v1/pleats","request":{},"Request":{}}`, 422, "#/Request unknown-field"},
		{`{"id":"","operation":"/v1/pleats","request":{}}`, 422, "#/id not-a-name"},
		{`{"id":5,"operation":"/v1/pleats","request":{}}`, 422, "#/id not-a-name"},
		{`{"id":"a\nb","operation":"/v1/pleats","request":{}}`, 422, "#/id not-a-name"},
		{strings.Replace(pleatLine, "80 cm", "80", 1), 422, "#/request/from/finished not-a-length"},
		{`{"operation":"/v1/pleats","request":[]}`, 422, "#/request wrong-type"},
		{`{"operation":"/v1/pleats","request":null}`, 422, "#/request wrong-type"},
		{`[]`, 422, "# wrong-type"},
		{`{"operation":"/v1/pleats","operation":"/v1/pleats","request":{}}`, 400, ""},
		{`{"operation":"/v1/pleats","request":{"a":1,"a":1}}`, 400, ""},
		{`{"operation":`, 400, ""},
		{"\xff", 400, ""},
		{"\ufeff" + pleatLine, 400, ""},
		{`{"operation":"/v1/pleats","request":` + strings.Repeat("[", 40) + strings.Repeat("]", 40) + `}`, 400, ""},
		{pleatLine + pleatLine, 400, ""},
		{`{"operation":"/v1/pleats","request":"` + strings.Repeat("x", httpapi.MaxBatchLine) + `"}`, 413, ""},
		{`{"operation":"/v1/pleats","request":"` + strings.Repeat("x", httpapi.MaxBody) + `"}`, 413, ""},
		{pleatLine, 200, ""},
	}
	var body strings.Builder
	for _, tc := range cases {
		body.WriteString(tc.line + "\r\n \n") // every second line is blank
	}
	w := c.do(http.MethodPost, "/v1/batch", strings.TrimRight(body.String(), "\r\n "), "Content-Type", ndjson)
	got := repliedLines(t, w.Body.String())
	if w.Code != 200 || len(got) != len(cases) {
		t.Fatalf("status %d, %d lines, want %d", w.Code, len(got), len(cases))
	}
	for i, tc := range cases {
		r := got[i]
		first := ""
		if r.Problem != nil && r.Problem.Errors != nil {
			first = (*r.Problem.Errors)[0].Pointer + " " + string((*r.Problem.Errors)[0].Code)
		}
		if r.Line != 2*i+1 || r.Status != tc.status || first != tc.want {
			t.Errorf("%.100q: line %d, status %d, %q, want line %d, status %d, %q", tc.line, r.Line, r.Status, first, 2*i+1, tc.status, tc.want)
		}
	}
	if !bytes.Equal(got[0].Answer, got[len(got)-1].Answer) || got[0].ID != "P" {
		t.Error("the same line has another answer after wrong ones")
	}
}

// A line is answered with the bytes of its operation, whatever operation it is.
func TestBatchAnswersAsTheOperationDoes(t *testing.T) {
	c := newClient(t, httpapi.DefaultOptions())
	var body strings.Builder
	var want, paths []string
	for path, item := range c.doc.Paths.Map() {
		if item.Post == nil || item.Post.RequestBody.Value.Content["application/json"] == nil {
			continue
		}
		paths = append(paths, path)
		for name, ref := range item.Post.RequestBody.Value.Content["application/json"].Examples {
			request, err := json.Marshal(ref.Value.Value)
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&body, "{\"id\":%q,\"operation\":%q,\"request\":%s}\n", name, path, request)
			own := c.do(http.MethodPost, path, string(request), "Content-Type", "application/json")
			want = append(want, fmt.Sprintf("{\"line\":%d,\"id\":%q,\"status\":200,\"answer\":%s}\n", len(want)+1, name, strings.TrimSuffix(own.Body.String(), "\n")))
		}
	}
	got := slices.Collect(strings.Lines(c.do(http.MethodPost, "/v1/batch", body.String(), "Content-Type", ndjson).Body.String()))
	if len(want) < 15 || len(got) != len(want) {
		t.Fatalf("%d lines, want %d, 15 or more", len(got), len(want))
	}
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("line %d is\n%.300s\nwant\n%.300s", i+1, got[i], want[i])
		}
	}
	// A line may name just these, and a refusal says so.
	slices.Sort(paths)
	p := repliedLines(t, c.do(http.MethodPost, "/v1/batch", `{"operation":"/v1","request":{}}`, "Content-Type", ndjson).Body.String())[0].Problem
	if try := *(*p.Errors)[0].Try; try != strings.Join(paths, ", ") {
		t.Errorf("a line may name %s, want %q", try, paths)
	}
}

// Answers keep the order of the lines, or come as they are done.
func TestBatchOrder(t *testing.T) {
	for query, want := range map[string][]int{"": {1, 2, 3}, "?order=kept": {1, 2, 3}, "?order=any": {2, 3, 1}} {
		opts := options()
		opts.Solves, opts.Batch.Flight = 2, 4
		others := make(chan bool, 2)
		opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
			<-others
			<-others
			return stacked(ctx, req)
		}
		web := httptest.NewServer(newServer(t, opts).Handler())
		body := yardageLine(t) + "\n" + pleatLine + "\n" + pleatLine
		if query != "?order=any" {
			others <- true
			others <- true
		}
		reply, err := web.Client().Post(web.URL+"/v1/batch"+query, ndjson, strings.NewReader(body))
		if err != nil {
			t.Fatal(err)
		}
		in := bufio.NewReader(reply.Body)
		var got []int
		for {
			line, err := in.ReadString('\n')
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			got = append(got, repliedLines(t, line)[0].Line)
			if query == "?order=any" && len(got) <= 2 {
				others <- true // the first is done only when the others have been read
			}
		}
		slices.Sort(got[:2])
		if !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", query, got, want)
		}
		reply.Body.Close()
		web.Close()
	}
	c := newClient(t, options())
	for _, query := range []string{"?order=", "?order=sorted", "?order=kept&order=any"} {
		if w := c.do(http.MethodPost, "/v1/batch"+query, pleatLine, "Content-Type", ndjson); w.Code != 422 && query != "?order=" {
			t.Errorf("%s: status %d", query, w.Code)
		}
	}
}

// A client may wait for an answer before it sends the next line.
func TestBatchIsAnsweredWhileItIsSent(t *testing.T) {
	web := httptest.NewServer(newServer(t, options()).Handler())
	defer web.Close()
	body, send := io.Pipe()
	r, err := http.NewRequest(http.MethodPost, web.URL+"/v1/batch", body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", ndjson)
	go give(send, pleatLine+"\n")
	reply, err := web.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	in := bufio.NewReader(reply.Body)
	for n := 1; n <= 5; n++ {
		line, err := in.ReadString('\n')
		if err != nil {
			t.Fatal(err)
		}
		if got := repliedLines(t, line)[0]; got.Line != n || got.Status != 200 {
			t.Fatalf("line %d has status %d, want line %d", got.Line, got.Status, n)
		}
		if n < 5 {
			give(send, pleatLine+"\n")
		}
	}
	send.Close()
	if rest, err := io.ReadAll(in); err != nil || len(rest) > 0 {
		t.Errorf("after the end: %q, %v", rest, err)
	}
}

// endless gives the same line again and again, and counts the bytes taken.
type endless struct {
	mu    sync.Mutex
	line  string
	rest  string
	taken int
}

func (e *endless) Read(p []byte) (int, error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.rest == "" {
		e.rest = e.line
	}
	n := copy(p, e.rest)
	e.rest = e.rest[n:]
	e.taken += n
	return n, nil
}

func (e *endless) sofar() int {
	e.mu.Lock()
	defer e.mu.Unlock()
	return e.taken
}

// No more is read than is answered, and a little ahead; what is under way ends
// when the context does.
func TestBatchReadsNoFasterThanItAnswers(t *testing.T) {
	opts := options()
	opts.Solves, opts.Batch.Flight = 2, 3
	var mu sync.Mutex
	working, most, ended := 0, 0, 0
	opts.Yardage = func(ctx context.Context, _ service.YardageRequest) (*service.YardageAnswer, error) {
		mu.Lock()
		working++
		most = max(most, working)
		mu.Unlock()
		<-ctx.Done()
		mu.Lock()
		working--
		ended++
		mu.Unlock()
		return nil, ctx.Err()
	}
	s := newServer(t, opts)
	in := &endless{line: yardageLine(t) + strings.Repeat(" ", 60000) + "\n"}
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() {
		_, err := s.AnswerLines(ctx, in, httpapi.LineRun{Emit: func([]byte) error { return nil }})
		done <- err
	}()
	before := -1
	for now := in.sofar(); now != before; now = in.sofar() { // until nothing more is read
		before = now
		time.Sleep(50 * time.Millisecond)
	}
	if limit := 3*len(in.line) + (32+3)<<15; before > limit || before < 3*len(in.line) {
		t.Errorf("%d bytes were read, want at most %d: 3 lines of %d and what is read ahead", before, limit, len(in.line))
	}
	cancel()
	if err := <-done; !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
	mu.Lock()
	defer mu.Unlock()
	if working != 0 || most != 2 || ended != 2 {
		t.Errorf("%d still at work, at most %d at once, %d ended; want 0, 2, 2", working, most, ended)
	}
}

// A client that goes frees what works for it: at once when its lines have all been
// read, else when the next answer cannot be sent.
func TestBatchEndsWithItsClient(t *testing.T) {
	for name, body := range map[string]io.Reader{
		"all read": strings.NewReader(yardageLine(t)),
		"endless":  &endless{line: yardageLine(t) + "\n" + pleatLine + "\n"},
	} {
		opts := options()
		opts.Solves = 2
		begun, ended, first := make(chan bool, 100), make(chan bool, 100), make(chan bool, 20)
		for range cap(first) {
			first <- true
		}
		opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
			begun <- true
			select {
			case <-first:
				if name == "endless" {
					time.Sleep(50 * time.Millisecond)
					return stacked(ctx, req)
				}
			default:
			}
			<-ctx.Done()
			ended <- true
			return nil, ctx.Err()
		}
		s := newServer(t, opts)
		returned := make(chan bool)
		web := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			defer close(returned)
			s.Handler().ServeHTTP(w, r)
		}))
		ctx, cancel := context.WithCancel(context.Background())
		r, err := http.NewRequestWithContext(ctx, http.MethodPost, web.URL+"/v1/batch?order=any", io.NopCloser(body))
		if err != nil {
			t.Fatal(err)
		}
		r.Header.Set("Content-Type", ndjson)
		go func() {
			if reply, err := web.Client().Do(r); err == nil {
				_, _ = io.Copy(io.Discard, reply.Body)
				reply.Body.Close()
			}
		}()
		<-begun
		cancel()
		for _, c := range []chan bool{ended, returned} {
			select {
			case <-c:
			case <-returned: // the first of the endless ones may have been the last
			case <-time.After(20 * time.Second):
				t.Fatalf("%s: the work goes on", name)
			}
		}
		web.Close()
	}
}

// Where the service stops reading, the last line says so.
func TestBatchLimits(t *testing.T) {
	opts := options()
	opts.Batch.Linger = 0
	s := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: s.Handler()}
	many := strings.Repeat("\n", httpapi.MaxBatchLines-1) + pleatLine + "\n" + pleatLine + "\n" + pleatLine
	got := repliedLines(t, c.do(http.MethodPost, "/v1/batch", many, "Content-Type", ndjson).Body.String())
	if len(got) != 2 || got[0].Line != 10000 || got[0].Status != 200 || got[1].Line != 10001 || got[1].Status != 413 {
		t.Errorf("too many lines: %d answers, %+v", len(got), got)
	}
	r := httptest.NewRequest(http.MethodPost, "/v1/batch", io.LimitReader(&endless{line: strings.Repeat(" ", 1<<20) + "\n"}, httpapi.MaxBatchBody+2))
	r.Header.Set("Content-Type", ndjson)
	r.ContentLength = -1
	if got := repliedLines(t, c.send(r).Body.String()); len(got) != 1 || got[0].Line != 64 || got[0].Status != 413 {
		t.Errorf("too many bytes: %+v", got)
	}
	r = httptest.NewRequest(http.MethodPost, "/v1/batch", strings.NewReader(pleatLine))
	r.Header.Set("Content-Type", ndjson)
	r.ContentLength = httpapi.MaxBatchBody + 1
	if w := c.send(r); w.Code != 413 {
		t.Errorf("a body said to be too large: status %d", w.Code)
	}
	r = httptest.NewRequest(http.MethodPost, "/v1/batch", io.MultiReader(strings.NewReader(pleatLine+"\n"+pleatLine), failing{}))
	r.Header.Set("Content-Type", ndjson)
	if got := repliedLines(t, c.send(r).Body.String()); len(got) != 2 || got[1].Status != 400 {
		t.Errorf("a body that breaks off: %+v", got)
	}
	for _, empty := range []string{"", "\n\n \r\n"} {
		if w := c.do(http.MethodPost, "/v1/batch", empty, "Content-Type", ndjson); w.Code != 422 {
			t.Errorf("no lines: status %d", w.Code)
		}
	}
	for _, media := range []string{"", "application/json", ndjson + ";charset=utf-16", ndjson + ";a=b", "text/plain"} {
		if w := c.do(http.MethodPost, "/v1/batch", pleatLine, "Content-Type", media); w.Code != 415 {
			t.Errorf("%q: status %d", media, w.Code)
		}
	}
	if w := c.do(http.MethodPost, "/v1/batch", pleatLine, "Content-Type", ndjson, "Content-Encoding", "gzip"); w.Code != 415 {
		t.Errorf("compressed: status %d", w.Code)
	}
	s.Drain()
	if got := repliedLines(t, c.do(http.MethodPost, "/v1/batch", pleatLine, "Content-Type", ndjson).Body.String()); len(got) != 1 || got[0].Line != 1 || got[0].Status != 503 {
		t.Errorf("draining: %+v", got)
	}
}

type failing struct{}

func (failing) Read([]byte) (int, error) { return 0, errors.New("broken off") }

// A batch that comes while the service drains is answered like any other request.
func TestBatchWhileDraining(t *testing.T) {
	s := newServer(t, options())
	s.Drain()
	c := &client{t: t, doc: spec(t), handler: s.Handler()}
	if got := repliedLines(t, c.do(http.MethodPost, "/v1/batch", pleatLine, "Content-Type", ndjson).Body.String()); len(got) != 1 || got[0].Status != 200 {
		t.Errorf("%+v", got)
	}
}

// The largest request of any operation fits a line.
func TestBatchLineHoldsAnyRequest(t *testing.T) {
	c := newClient(t, options())
	for path, item := range c.doc.Paths.Map() {
		if item.Post == nil || item.Post.RequestBody.Value.Content["application/json"] == nil {
			continue
		}
		head, tail := `{"operation":"`+path+`","request":{"`, `":1}}`
		line := head + strings.Repeat("x", httpapi.MaxBatchLine-len(head)-len(tail)) + tail
		own := strings.TrimSuffix(strings.TrimPrefix(line, `{"operation":"`+path+`","request":`), "}")
		for _, w := range []*httptest.ResponseRecorder{
			c.do(http.MethodPost, path, own, "Content-Type", "application/json"),
			c.do(http.MethodPost, path, own[:len(own)-4096-len(tail)]+tail[:4], "Content-Type", "application/json"),
		} {
			if w.Code == 200 {
				t.Errorf("%s: status %d", path, w.Code)
			}
		}
		if got := c.do(http.MethodPost, path, own, "Content-Type", "application/json").Code; got != 413 {
			t.Errorf("%s takes a body of %d bytes, which no line holds: status %d", path, len(own), got)
		}
	}
}

// A panic is a line like any other; and lines wait for their turn where a request
// of its own would be sent away.
func TestBatchPanicsAndTurns(t *testing.T) {
	opts := options()
	opts.Solves, opts.SolveWait, opts.Batch.Flight = 1, 0, 5
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		if req.Cloth.Name == "Reed" {
			panic("secret of the engine")
		}
		time.Sleep(time.Millisecond)
		return stacked(ctx, req)
	}
	s := newServer(t, opts)
	c := &client{t: t, doc: spec(t), handler: s.Handler()}
	line := yardageLine(t)
	body := strings.Repeat(line+"\n", 3) + strings.Replace(line, "Heron and sedge", "Reed", 1) + "\n" + line
	w := c.do(http.MethodPost, "/v1/batch", body, "Content-Type", ndjson)
	var got []int
	for _, r := range repliedLines(t, w.Body.String()) {
		got = append(got, r.Status)
	}
	if !slices.Equal(got, []int{200, 200, 200, 500, 200}) || strings.Contains(w.Body.String(), "secret") {
		t.Errorf("statuses %v: %.300s", got, w.Body)
	}
	for _, want := range []string{
		`bridletie_batch_lines_total{class="2xx",operation="yardage"} 4`, `bridletie_batch_lines_total{class="5xx",operation="yardage"} 1`,
		`bridletie_requests_total{class="2xx",operation="batch"} 1`, "bridletie_batch_lines_in_flight 0", "bridletie_panics_total 1",
	} {
		if m := scrape(s.MetricsHandler()); !strings.Contains(m, want) {
			t.Errorf("no %s in the metrics", want)
		}
	}
}

// A line is no way round a key or a quota.
func TestBatchLinesNeedWhatRequestsNeed(t *testing.T) {
	ring, workroom, _, supplier := ringOf(t)
	opts := options()
	opts.Keys, opts.KeyFor = ring, []string{"pleats"}
	c := newClient(t, opts)
	body := pleatLine + "\n" + yardageLine(t) + "\n" + pleatLine
	for key, want := range map[string][]int{"": {401, 200, 401}, workroom: {200, 200, 200}, supplier: {200, 429, 429}} { // the supplier has 2 a minute
		header := []string{"Content-Type", ndjson}
		if key != "" {
			header = append(header, "Authorization", "Bearer "+key)
		}
		var got []int
		for _, r := range repliedLines(t, c.do(http.MethodPost, "/v1/batch", body, header...).Body.String()) {
			got = append(got, r.Status)
		}
		if !slices.Equal(got, want) {
			t.Errorf("statuses %v, want %v", got, want)
		}
	}
}

// Only so many batches at once; and one that takes too long is broken off, so that
// nobody takes it for whole.
func TestBatchPlacesAndTime(t *testing.T) {
	opts := options()
	opts.Batch.AtOnce, opts.Batch.Time, opts.SolveTime = 1, time.Second, 500*time.Millisecond
	begun := make(chan bool, 1)
	opts.Yardage = func(ctx context.Context, req service.YardageRequest) (*service.YardageAnswer, error) {
		begun <- true
		time.Sleep(2500 * time.Millisecond) // deaf to its context
		return nil, ctx.Err()
	}
	web := httptest.NewServer(newServer(t, opts).Handler())
	defer web.Close()
	body, send := io.Pipe()
	r, err := http.NewRequest(http.MethodPost, web.URL+"/v1/batch", body)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Content-Type", ndjson)
	go give(send, pleatLine+"\n"+yardageLine(t)+"\n")
	reply, err := web.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	<-begun
	second, err := web.Client().Post(web.URL+"/v1/batch", ndjson, strings.NewReader(pleatLine))
	if err != nil {
		t.Fatal(err)
	}
	second.Body.Close()
	if second.StatusCode != 503 || second.Header.Get("Retry-After") == "" {
		t.Errorf("a second batch: status %d", second.StatusCode)
	}
	got, err := io.ReadAll(reply.Body)
	if err == nil || len(repliedLines(t, string(got))) != 1 {
		t.Errorf("after its time: error %v, %q", err, got)
	}
	send.Close()
}

// Whatever a line is, it has one answer, and so has the line after it.
func FuzzBatch(f *testing.F) {
	f.Add([]byte(pleatLine))
	f.Add([]byte(`{"id":"x","operation":"/v1/yardage","request":` + "\n" + `{"operation":"/v1/foam"}`))
	f.Add([]byte("\r\n\x00\xff\n{\"request\":{\"a\":1e999}}"))
	s := newServer(f, options())
	f.Fuzz(func(t *testing.T, body []byte) {
		var out strings.Builder
		last := 0
		for line := range bytes.Lines(append(body, "\n"+pleatLine...)) {
			last++
			_ = line
		}
		_, err := s.AnswerLines(context.Background(), bytes.NewReader(append(body, "\n"+pleatLine...)), httpapi.LineRun{
			Emit: func(line []byte) error { out.Write(line); return nil },
		})
		got := repliedLines(t, out.String())
		if err != nil || len(got) == 0 || got[len(got)-1].Line != last || got[len(got)-1].Status != 200 {
			t.Fatalf("%v: %d answers to %d lines", err, len(got), last)
		}
		for _, r := range got {
			if r.Status >= 500 {
				t.Errorf("line %d: status %d", r.Line, r.Status)
			}
		}
	})
}

// give writes to a pipe; whoever reads from it sees what goes wrong.
func give(to io.Writer, text string) { _, _ = io.WriteString(to, text) }
