package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"strconv"
	"strings"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/api/tracing"
)

// config holds the settings of the server.
type config struct {
	addr    string        // of the service
	metrics string        // of the metrics; "off" for none
	drain   time.Duration // between readyz failing and the listener closing
	grace   time.Duration // for requests in progress after the listener has closed
	memory  bytesOf       // memory target of the garbage collector; 0 leaves it to GOMEMLIMIT
	conns   int           // limit on open connections

	trace      string  // address of the collector of spans, or off
	traceShare float64 // share of the requests that are traced, from 0 to 1

	headerTime, readTime, writeTime, idleTime time.Duration

	keysFile string

	api httpapi.Options
}

// bytesOf is a number of bytes, written with or without KiB, MiB or GiB.
type bytesOf int64

// String returns the number in the form that Set reads.
func (b *bytesOf) String() string { return strconv.FormatInt(int64(*b), 10) }

// Set parses the number.
func (b *bytesOf) Set(s string) error {
	number, shift := s, 0
	for i, unit := range []string{"KiB", "MiB", "GiB"} {
		if rest, ok := strings.CutSuffix(s, unit); ok {
			number, shift = rest, 10*(i+1)
		}
	}
	n, err := strconv.ParseInt(number, 10, 64)
	if err != nil || n < 0 || n > 1<<20 && shift > 0 || n > 1<<50 {
		return errors.New("bytes, such as 512MiB")
	}
	*b = bytesOf(n << shift)
	return nil
}

// list is a flag value: words separated by commas.
type list []string

// String returns the list in the form that Set reads.
func (l *list) String() string { return strings.Join(*l, ",") }

// Set parses the list.
func (l *list) Set(s string) error {
	*l = nil
	for _, word := range strings.Split(s, ",") {
		*l = append(*l, strings.TrimSpace(word))
	}
	return nil
}

// defaults returns the default settings.
func defaults() config {
	return config{
		addr: "127.0.0.1:8080", metrics: "127.0.0.1:9090", drain: 5 * time.Second, grace: 60 * time.Second, conns: 4096,
		trace: tracing.Off, traceShare: 1,
		headerTime: 5 * time.Second, readTime: 10 * time.Second, writeTime: 60 * time.Second, idleTime: 90 * time.Second,
		api: httpapi.DefaultOptions(),
	}
}

// flagsOf returns the flags of serve. Each has a variable, whose name envOf returns.
func flagsOf(c *config) *flag.FlagSet {
	f := flag.NewFlagSet("serve", flag.ContinueOnError)
	l := &c.api.Limits
	f.StringVar(&c.addr, "addr", c.addr, "address of the service")
	f.StringVar(&c.metrics, "metrics-addr", c.metrics, "address of the metrics, off for none")
	f.DurationVar(&c.drain, "drain", c.drain, "how long readyz fails before the listener closes")
	f.DurationVar(&c.grace, "grace", c.grace, "how long requests in progress may take after that")
	f.StringVar(&c.trace, "trace", c.trace, "http address of an OpenTelemetry collector, off for none")
	f.Float64Var(&c.traceShare, "trace-share", c.traceShare, "share of the requests that are traced, from 0 to 1, unless the caller decides")
	f.Var((*list)(&c.api.Origins), "allow-origin", "origins of pages that may call, separated by commas, * for all")

	f.IntVar(&l.BodyBytes, "max-body", l.BodyBytes, "bytes of a body, where the contract has no lower limit")
	f.IntVar(&l.BodyRoom, "body-room", l.BodyRoom, "total bytes of bodies being read or waiting, not counting the first 16 KiB of each")
	f.IntVar(&l.Depth, "max-depth", l.Depth, "nesting of the JSON of a request")
	f.IntVar(&l.Values, "max-values", l.Values, "values and names in a body, where the contract has no lower limit")
	f.IntVar(&l.Panels, "max-panels", l.Panels, "panels in one list")
	f.IntVar(&l.Pieces, "max-pieces", l.Pieces, "pieces in hand")
	f.IntVar(&l.Cloths, "max-cloths", l.Cloths, "cloths to compare")
	f.StringVar(&l.Effort, "max-effort", l.Effort, "the highest effort that a request may ask for: normal or thorough")
	f.IntVar(&l.AddressBytes, "max-address", l.AddressBytes, "bytes of path and query")
	f.IntVar(&l.HeaderFields, "max-header-fields", l.HeaderFields, "fields of a header")
	f.IntVar(&l.HeaderBytes, "max-header", l.HeaderBytes, "bytes of a header")
	f.IntVar(&c.conns, "max-connections", c.conns, "open connections; more wait to be accepted")

	f.DurationVar(&l.SolveTime, "deadline", l.SolveTime, "how long a request may be worked on")
	f.DurationVar(&c.headerTime, "header-timeout", c.headerTime, "how long a header may take to arrive")
	f.DurationVar(&c.readTime, "read-timeout", c.readTime, "how long a request may take to arrive")
	f.DurationVar(&c.writeTime, "write-timeout", c.writeTime, "how long a request may take from its header to the end of its response")
	f.DurationVar(&c.idleTime, "idle-timeout", c.idleTime, "how long a connection may be idle")

	f.IntVar(&l.Solves, "heavy", l.Solves, "concurrent plans and other long searches")
	f.IntVar(&l.SolveQueue, "heavy-queue", l.SolveQueue, "how many more may wait")
	f.DurationVar(&l.SolveWait, "heavy-wait", l.SolveWait, "how long they wait")
	f.IntVar(&l.Lights, "light", l.Lights, "concurrent short operations")
	f.IntVar(&l.LightQueue, "light-queue", l.LightQueue, "how many more may wait")
	f.DurationVar(&l.LightWait, "light-wait", l.LightWait, "how long they wait")
	f.DurationVar(&l.LightTime, "light-time", l.LightTime, "after which a short operation counts as a long one")
	a := &c.api.Access
	f.IntVar(&a.Rate.Requests, "rate", a.Rate.Requests, "requests a minute of one client; 0 for no quota")
	f.IntVar(&a.Rate.Work, "rate-work", a.Rate.Work, "milliseconds a minute that a core may be busy for one client; 0 for no quota")
	f.IntVar(&a.Clients, "rate-clients", httpapi.DefaultClients, "clients that are remembered for their quotas")
	f.Var((*prefixes)(&a.Proxies), "trusted-proxies", "networks of the proxies whose X-Forwarded-For, -Host and -Proto are believed, with commas between")
	f.StringVar(&c.keysFile, "keys-file", c.keysFile, "file with the list of keys; the list itself may stand in "+keysVariable)
	f.Var((*list)(&a.KeyFor), "key-for", "operations that need a key, by their ids in the contract, with commas between; * for all")
	f.Var((*bytesOf)(&c.api.Kept), "cache", "bytes of answers that are kept for those who ask the same; 0 has every answer made anew")
	f.Var(&c.memory, "memory", "bytes of memory that the program tries to stay below; 0 leaves it to GOMEMLIMIT")
	return f
}

// envOf returns the name of a flag's variable.
func envOf(name string) string {
	return "BRIDLETIE_" + strings.ToUpper(strings.ReplaceAll(name, "-", "_"))
}

// readConfig reads the settings: flags override the environment, which overrides the
// defaults.
func readConfig(args []string, getenv func(string) string, stderr io.Writer) (config, *flag.FlagSet, error) {
	c := defaults()
	flags := flagsOf(&c)
	flags.SetOutput(stderr)
	var bad error
	flags.VisitAll(func(f *flag.Flag) {
		key := envOf(f.Name)
		f.Usage += " (" + key + ")"
		if v := getenv(key); v != "" && bad == nil {
			if err := flags.Set(f.Name, v); err != nil {
				bad = fmt.Errorf("%s=%q: %w", key, v, err)
			}
		}
	})
	if bad != nil {
		fmt.Fprintf(stderr, "bridletie serve: %v\n", bad)
		return c, nil, bad
	}
	if err := flags.Parse(args); err != nil {
		return c, nil, err
	}
	err := c.validate(flags.NArg())
	if err == nil {
		c.api.Keys, err = readKeys(c.keysFile, getenv(keysVariable))
	}
	if err != nil {
		fmt.Fprintf(stderr, "bridletie serve: %v\n", err)
		return c, nil, err
	}
	return c, flags, nil
}

// validate returns an error that names the invalid setting. The service validates its own
// options. rest is the number of arguments left over.
func (c *config) validate(rest int) error {
	switch {
	case rest > 0:
		return errors.New("serve takes flags only")
	case c.drain < 0 || c.grace < 0:
		return errors.New("drain and grace must not be negative")
	case c.headerTime <= 0 || c.readTime <= 0 || c.idleTime <= 0:
		return errors.New("the time-outs must be positive")
	case c.writeTime <= c.api.SolveTime:
		return errors.New("write-timeout must be longer than deadline, or answers are cut off")
	case c.conns < 1:
		return errors.New("max-connections must be positive")
	case c.trace != tracing.Off && c.trace != "":
		_, err := tracing.Address(c.trace)
		return err
	}
	return nil
}

// report logs every setting. None is a secret: keys come from a file or from a variable
// without a flag.
func report(log *slog.Logger, flags *flag.FlagSet, keys int) {
	all := []any{slog.Int("keys", keys)}
	flags.VisitAll(func(f *flag.Flag) { all = append(all, slog.String(f.Name, f.Value.String())) })
	log.Info("settings", slog.Group("settings", all...))
}
