package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"maps"
	"net/http"
	"os"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/service/drawing"
)

// answer answers the request in a file through the handler of the server, in
// this process, so that the bytes are those that the server would send.
func answer(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("run", flag.ContinueOnError)
	flags.SetOutput(stderr)
	as := flags.String("as", "", "form of the answer: json, text, svg or pdf; left out, text for a job and json for all else")
	op := flags.String("op", "", "what is asked: one of "+names()+"; left out, what the request looks like, a job or yardage")
	drawings := flags.String("drawings", "", "folder to write every drawing of a job sheet to, as SVG")
	out := flags.String("out", "", "file to write the answer to, instead of standard output")
	file, code := parseRun(flags, args, stderr)
	if code != exitOK || file == "" {
		return code
	}
	if *as != "" && !slices.Contains([]string{"json", "text", "svg", "pdf"}, *as) {
		fmt.Fprintf(stderr, "bridletie run: -as %q is not json, text, svg or pdf\n", *as)
		return exitUsage
	}
	if _, ok := questions()[*op]; !ok && *op != "" {
		fmt.Fprintf(stderr, "bridletie run: -op %q is not one of %s\n", *op, names())
		return exitUsage
	}
	body, err := readRequest(file, stdin)
	if err != nil {
		fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		return exitFail
	}
	asked, form := looksLike(*op, *as, body)
	if *drawings != "" && asked != jobQuestion {
		fmt.Fprintf(stderr, "bridletie run: -drawings is for a job\n")
		return exitUsage
	}
	ask := questions()[asked]
	reply, err := ask.reply(ctx, form, body[:min(len(body), ask.most+1)])
	if err == nil && *drawings != "" {
		err = drawJob(ctx, body, *drawings)
	}
	if err != nil {
		var p *httpapi.Problem
		if errors.As(err, &p) {
			fmt.Fprint(stderr, p.Readable())
		} else {
			fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		}
		return exitFail
	}
	if *out != "" {
		err = os.WriteFile(*out, reply, 0o644)
	} else {
		_, err = stdout.Write(reply)
	}
	if err != nil {
		fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		return exitFail
	}
	return exitOK
}

// parseRun reads the flags, which may stand before and after the file. The file
// is "" with exitOK when help was asked for.
func parseRun(flags *flag.FlagSet, args []string, stderr io.Writer) (file string, code int) {
	for {
		switch err := flags.Parse(args); {
		case errors.Is(err, flag.ErrHelp):
			return "", exitOK
		case err != nil:
			return "", exitUsage
		}
		rest := flags.Args()
		switch {
		case len(rest) == 0 && file != "":
			return file, exitOK
		case len(rest) == 0 || file != "":
			fmt.Fprintf(stderr, "bridletie %s: name one %s\n", flags.Name(), map[string]string{"run": "file, or - for standard input", "key": "client"}[flags.Name()])
			return "", exitUsage
		}
		file, args = rest[0], rest[1:]
	}
}

// question is an operation that can be asked.
type question struct {
	path string
	most int // bytes of a request
	text func(context.Context, *httpapi.Server, []byte) (string, *httpapi.Problem)
}

// questions are those of --op.
func questions() map[string]question {
	return map[string]question{
		"yardage":       {"/v1/yardage", httpapi.MaxBody, page((*httpapi.Server).AnswerYardage, drawing.PlanText)},
		"compare":       {"/v1/yardage/compare", httpapi.MaxCheckBody, page((*httpapi.Server).AnswerCompare, drawing.CompareText)},
		"yardage-check": {"/v1/yardage/check", httpapi.MaxCheckBody, page((*httpapi.Server).AnswerCheck, drawing.CheckText)},
		"estimate":      {"/v1/estimate", httpapi.MaxBody, page((*httpapi.Server).AnswerEstimate, drawing.EstimateText)},
		"cutting-list":  {"/v1/cutting-list", httpapi.MaxBody, page((*httpapi.Server).AnswerCuttingList, drawing.CuttingListText)},
		"buttoning":     {"/v1/buttoning", httpapi.MaxBody, page((*httpapi.Server).AnswerButtoning, drawing.ButtoningText)},
		"piping":        {"/v1/piping", httpapi.MaxCheckBody, page((*httpapi.Server).AnswerPiping, drawing.PipingText)},
		"repeat":        {"/v1/repeat", httpapi.MaxBody, page((*httpapi.Server).AnswerRepeat, drawing.RepeatText)},
		"relief-cuts":   {"/v1/relief-cuts", httpapi.MaxBody, page((*httpapi.Server).AnswerRelief, drawing.ReliefText)},
		"pleats":        {"/v1/pleats", httpapi.MaxBody, page((*httpapi.Server).AnswerPleats, drawing.PleatsText)},
		"wadding":       {"/v1/wadding", httpapi.MaxBody, page((*httpapi.Server).AnswerWadding, drawing.WaddingText)},
		"foundation":    {"/v1/foundation", httpapi.MaxBody, page((*httpapi.Server).AnswerFoundation, drawing.FoundationText)},
		"fire-check":    {"/v1/fire-check", httpapi.MaxBody, page((*httpapi.Server).AnswerFireCheck, drawing.FireText)},
		"job":           {"/v1/job", httpapi.MaxJobBody, page((*httpapi.Server).AnswerJob, drawing.JobText)},
		"foam":          {"/v1/foam", httpapi.MaxFoamBody, page((*httpapi.Server).AnswerFoam, drawing.FoamText)},
	}
}

// page asks for an answer and writes it as a page of text.
func page[A any](ask func(*httpapi.Server, context.Context, []byte) (*A, *httpapi.Problem), write func(*A) string) func(context.Context, *httpapi.Server, []byte) (string, *httpapi.Problem) {
	return func(ctx context.Context, s *httpapi.Server, body []byte) (string, *httpapi.Problem) {
		ans, p := ask(s, ctx, body)
		if p != nil {
			return "", p
		}
		return write(ans), nil
	}
}

// names are those of all questions, in order.
func names() string { return strings.Join(slices.Sorted(maps.Keys(questions())), ", ") }

// readRequest reads the file, or standard input for "-", to one byte past what
// is believed of any request.
func readRequest(file string, stdin io.Reader) ([]byte, error) {
	most := 0
	for _, q := range questions() {
		most = max(most, q.most)
	}
	from := stdin
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return nil, err
		}
		defer func() { _ = f.Close() }()
		from = f
	}
	return io.ReadAll(io.LimitReader(from, int64(most)+1))
}

// reply is the answer in that form. Its error is a *httpapi.Problem when the
// request is at fault.
func (q question) reply(ctx context.Context, as string, body []byte) ([]byte, error) {
	server, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		return nil, err
	}
	if as == "text" {
		text, p := q.text(ctx, server, body)
		if p != nil {
			return nil, p
		}
		return []byte(text), nil
	}
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, q.path, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Accept", map[string]string{"json": "application/json", "svg": "image/svg+xml", "pdf": "application/pdf"}[as])
	w := memory{header: http.Header{}}
	server.Handler().ServeHTTP(&w, r)
	if w.status == http.StatusOK {
		return w.body.Bytes(), nil
	}
	return nil, httpapi.ReadProblem(w.status, w.body.Bytes())
}

// memory keeps an answer.
type memory struct {
	header http.Header
	status int
	body   bytes.Buffer
}

// Header is the header of the answer.
func (m *memory) Header() http.Header { return m.header }

// WriteHeader keeps the first status.
func (m *memory) WriteHeader(status int) {
	if m.status == 0 {
		m.status = status
	}
}

// Write keeps the body.
func (m *memory) Write(b []byte) (int, error) {
	m.WriteHeader(http.StatusOK)
	return m.body.Write(b)
}
