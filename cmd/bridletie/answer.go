package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/http"
	"os"
	"slices"
	"strings"

	"github.com/bridletie/bridletie/api/httpapi"
)

// answer runs the request in a file through the server's handler in this process, so that
// the bytes are the same as the server's.
func answer(ctx context.Context, args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("run", flag.ContinueOnError)
	flags.SetOutput(stderr)
	as := flags.String("as", "", "form of the response: json, text, svg or pdf; by default text for a job, otherwise json")
	op := flags.String("op", "", "the operation: one of "+names()+"; by default job or yardage, recognised from the request")
	drawings := flags.String("drawings", "", "folder to write every drawing of a job sheet to, as SVG")
	out := flags.String("out", "", "file to write the response to, instead of standard output")
	file, code := parseRun(flags, args, stderr)
	if code != exitOK || file == "" {
		return code
	}
	if _, ok := httpapi.Forms()[*as]; !ok && *as != "" {
		fmt.Fprintf(stderr, "bridletie run: -as %q is not json, text, svg or pdf\n", *as)
		return exitUsage
	}
	if _, ok := operation(*op); !ok && *op != "" {
		fmt.Fprintf(stderr, "bridletie run: -op %q is not one of %s\n", *op, names())
		return exitUsage
	}
	body, err := readRequest(file, stdin)
	if err != nil {
		fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		return exitFail
	}
	name, form := looksLike(*op, *as, body)
	asked, _ := operation(name)
	if *drawings != "" && !asked.Drawings {
		fmt.Fprintf(stderr, "bridletie run: -drawings is for a job\n")
		return exitUsage
	}
	reply, err := ask(ctx, asked, form, body[:min(len(body), asked.Bytes+1)], *drawings)
	if err == nil {
		err = deliver(reply, *out, stdout)
	}
	var p *httpapi.Problem
	switch {
	case errors.As(err, &p):
		fmt.Fprint(stderr, p.Readable())
		return exitFail
	case err != nil:
		fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		return exitFail
	}
	return exitOK
}

// deliver writes a response to the file, or to standard output when file is "".
func deliver(reply []byte, file string, stdout io.Writer) error {
	if file != "" {
		return os.WriteFile(file, reply, 0o644)
	}
	_, err := stdout.Write(reply)
	return err
}

// parseRun parses the flags, which may come before and after the file. file is "" with
// exitOK when help was requested.
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

// operation returns the operation with that name of --op, and whether there is one.
func operation(name string) (httpapi.Operation, bool) {
	for _, op := range httpapi.Operations() {
		if op.Command == name {
			return op, true
		}
	}
	return httpapi.Operation{}, false
}

// names returns the names of all operations, sorted.
func names() string {
	var list []string
	for _, op := range httpapi.Operations() {
		list = append(list, op.Command)
	}
	slices.Sort(list)
	return strings.Join(list, ", ")
}

// readRequest reads the file, or standard input for "-", up to one byte beyond the largest
// limit on a request.
func readRequest(file string, stdin io.Reader) ([]byte, error) {
	most := 0
	for _, op := range httpapi.Operations() {
		most = max(most, op.Bytes)
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

// ask returns the response in that form. If drawings names a folder, the drawings are
// written there. The error is a *httpapi.Problem when the request is at fault.
func ask(ctx context.Context, op httpapi.Operation, form string, body []byte, drawings string) ([]byte, error) {
	server, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		return nil, err
	}
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, op.Path, bytes.NewReader(body))
	if err != nil {
		return nil, err
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Accept", httpapi.Forms()[form])
	w := memory{header: http.Header{}}
	server.Handler().ServeHTTP(&w, r)
	if w.status != http.StatusOK {
		return nil, httpapi.ReadProblem(w.status, w.body.Bytes())
	}
	if drawings != "" {
		err = draw(ctx, server, op, body, drawings)
	}
	return w.body.Bytes(), err
}

// memory is a ResponseWriter that stores the response.
type memory struct {
	header http.Header
	status int
	body   bytes.Buffer
}

// Header returns the header of the response.
func (m *memory) Header() http.Header { return m.header }

// WriteHeader stores the first status.
func (m *memory) WriteHeader(status int) {
	if m.status == 0 {
		m.status = status
	}
}

// Write stores the body.
func (m *memory) Write(b []byte) (int, error) {
	m.WriteHeader(http.StatusOK)
	return m.body.Write(b)
}
