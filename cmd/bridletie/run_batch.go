package main

import (
	"bufio"
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/api/httpapi"
)

// indexKey is the variable in which an Indexed Job of Kubernetes gives a pod its number,
// from 0.
const indexKey = "JOB_COMPLETION_INDEX"

// asksLines reports whether run was called for a batch instead of one request.
func asksLines(args []string) bool {
	return slices.ContainsFunc(args, func(arg string) bool {
		name, _, _ := strings.Cut(strings.TrimPrefix(arg, "-"), "=")
		return name == "-batch" || name == "batch" && strings.HasPrefix(arg, "-")
	})
}

// answerLines runs a batch with the same bytes as POST /v1/batch, without a limit on the
// number of lines. Responses keep the order of the lines. The output of all shards, merged
// by line number, therefore equals that of one run.
func answerLines(ctx context.Context, args []string, getenv func(string) string, stdin io.Reader, stdout, stderr io.Writer) int {
	flags := flag.NewFlagSet("run --batch", flag.ContinueOnError)
	flags.SetOutput(stderr)
	in := flags.String("batch", "", "file of lines as POST /v1/batch takes them, or - for standard input")
	share := flags.String("shard", "0/1", "run only the lines whose number, from 0, has remainder I modulo N: I/N, or env/N for I from "+indexKey)
	out := flags.String("out", "", "file to write the responses to, instead of standard output, only when complete; {shard} in it becomes I")
	if err := flags.Parse(args); errors.Is(err, flag.ErrHelp) {
		return exitOK
	} else if err != nil {
		return exitUsage
	}
	part, err := readShard(*share, getenv)
	if err == nil && (*in == "" || flags.NArg() > 0) {
		err = errors.New("--batch takes one file, or - for standard input, and no other file is named")
	}
	if err != nil {
		fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		return exitUsage
	}
	name := strings.ReplaceAll(*out, "{shard}", strconv.Itoa(part.index))
	tally, err := part.answer(ctx, *in, name, stdin, stdout)
	if err != nil {
		fmt.Fprintf(stderr, "bridletie run: %v\n", err)
		return exitFail
	}
	fmt.Fprintf(stderr, "shard %d of %d: %d lines answered, %d with a problem of their own, %d that the service could not answer\n",
		part.index, part.of, tally.Answered, tally.Refused-tally.Failed, tally.Failed)
	if tally.Failed > 0 { // a second run may succeed
		return exitFail
	}
	return exitOK
}

// shard is a share of the lines: those whose index modulo of equals index.
type shard struct{ index, of int }

// mostShards is the limit on shards; a larger number is taken for a typing error.
const mostShards = 100000

// readShard parses I/N, with I from 0 to N-1, or env/N with I from the environment.
func readShard(text string, getenv func(string) string) (shard, error) {
	index, of, _ := strings.Cut(text, "/")
	if index == "env" {
		index = getenv(indexKey)
	}
	i, errI := strconv.Atoi(index)
	n, errN := strconv.Atoi(of)
	if errI != nil || errN != nil || i < 0 || n < 1 || i >= n || n > mostShards {
		return shard{}, fmt.Errorf("--shard %.40q is not I/N with I from 0 to N-1, nor env/N with I in %s", text, indexKey)
	}
	return shard{i, n}, nil
}

// mine reports whether a line, numbered from 1, is in the share.
func (s shard) mine(line int) bool { return (line-1)%s.of == s.index }

// answer processes the share of the lines in a file. The output file appears only when it
// is complete.
func (s shard) answer(ctx context.Context, in, out string, stdin io.Reader, stdout io.Writer) (httpapi.LineTally, error) {
	server, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		return httpapi.LineTally{}, err
	}
	from := stdin
	if in != "-" {
		f, err := os.Open(in)
		if err != nil {
			return httpapi.LineTally{}, err
		}
		defer func() { _ = f.Close() }()
		from = f
	}
	if out == "" {
		return s.run(ctx, server, from, stdout)
	}
	to, err := os.CreateTemp(filepath.Dir(out), "."+filepath.Base(out)+".*")
	if err != nil {
		return httpapi.LineTally{}, err
	}
	defer func() { _ = os.Remove(to.Name()) }() // has no effect after the rename
	tally, err := s.run(ctx, server, from, to)
	if err = errors.Join(err, to.Chmod(0o644), to.Sync(), to.Close()); err != nil {
		return tally, err
	}
	return tally, os.Rename(to.Name(), out)
}

func (s shard) run(ctx context.Context, server *httpapi.Server, in io.Reader, out io.Writer) (httpapi.LineTally, error) {
	to := bufio.NewWriter(out)
	tally, err := server.AnswerLines(ctx, in, httpapi.LineRun{
		Mine: s.mine,
		Emit: func(line []byte) error {
			if _, err := to.Write(line); err != nil {
				return err
			}
			return to.Flush()
		},
	})
	return tally, errors.Join(err, to.Flush())
}
