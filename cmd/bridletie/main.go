// Command bridletie works out how much cloth to order and how to cut it: as a server, or
// once for a request in a file.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"syscall"

	"github.com/bridletie/bridletie/service"
)

// The exit codes.
const (
	exitOK    = 0
	exitFail  = 1 // the request has a problem, or the server failed
	exitUsage = 2
)

const usage = `usage:
  bridletie serve [flags]                         serve HTTP until told to stop
  bridletie run [--op NAME] [--as json|text|svg|pdf] [--out FILE] [--drawings DIR] FILE|-
                                                  run one request from a file or standard input
  bridletie key [--rate N] [--work N] NAME        make a key for a client
  bridletie run --batch FILE|- [--shard I/N] [--out FILE]
                                                  run a batch of lines, or a share of them
  bridletie version                               print the version
Flags of a command: bridletie COMMAND -h
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	code := run(ctx, os.Args[1:], os.Getenv, os.Stdin, os.Stdout, os.Stderr)
	stop()
	os.Exit(code)
}

// run is the program. It returns the exit code. The context ends when the program receives
// a signal to stop.
func run(ctx context.Context, args []string, getenv func(string) string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(stderr, usage)
		return exitUsage
	}
	switch command, rest := args[0], args[1:]; command {
	case "serve":
		return serve(ctx, rest, getenv, stderr)
	case "run":
		if asksLines(rest) {
			return answerLines(ctx, rest, getenv, stdin, stdout, stderr)
		}
		return answer(ctx, rest, stdin, stdout, stderr)
	case "key":
		return newKey(rest, stdout, stderr)
	case "version":
		if len(rest) > 0 {
			fmt.Fprint(stderr, usage)
			return exitUsage
		}
		fmt.Fprintln(stdout, service.EngineVersion)
		return exitOK
	case "help", "-h", "--help":
		fmt.Fprint(stdout, usage)
		return exitOK
	default:
		fmt.Fprintf(stderr, "bridletie: there is no command %q\n%s", command, usage)
		return exitUsage
	}
}
