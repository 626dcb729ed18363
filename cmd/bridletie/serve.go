package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"time"

	"github.com/bridletie/bridletie/api/httpapi"
)

// config is how the server runs.
type config struct {
	addr    string        // of the service
	metrics string        // of the metrics; "" for none
	drain   time.Duration // between readyz failing and the listener closing
	grace   time.Duration // for answers under way once the listener is closed
	origins []string      // of pages that may call
}

// readConfig takes flags before the environment and the environment before the
// defaults.
func readConfig(args []string, getenv func(string) string, stderr io.Writer) (config, error) {
	c := config{addr: "127.0.0.1:8080", metrics: "127.0.0.1:9090", drain: 5 * time.Second, grace: 60 * time.Second}
	flags := flag.NewFlagSet("serve", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.StringVar(&c.addr, "addr", c.addr, "address of the service (BRIDLETIE_ADDR)")
	flags.StringVar(&c.metrics, "metrics-addr", c.metrics, "address of the metrics, off for none (BRIDLETIE_METRICS_ADDR)")
	flags.DurationVar(&c.drain, "drain", c.drain, "how long readyz fails before the listener closes (BRIDLETIE_DRAIN)")
	flags.DurationVar(&c.grace, "grace", c.grace, "how long answers under way may take after that (BRIDLETIE_GRACE)")
	flags.Func("allow-origin", "origins of pages that may call, with commas between, * for all (BRIDLETIE_ALLOW_ORIGIN)", func(list string) error {
		c.origins = strings.Split(list, ",")
		return nil
	})
	for name, key := range map[string]string{
		"allow-origin": "BRIDLETIE_ALLOW_ORIGIN",
		"addr":         "BRIDLETIE_ADDR", "metrics-addr": "BRIDLETIE_METRICS_ADDR", "drain": "BRIDLETIE_DRAIN", "grace": "BRIDLETIE_GRACE",
	} {
		if v := getenv(key); v != "" {
			if err := flags.Set(name, v); err != nil {
				fmt.Fprintf(stderr, "bridletie serve: %s=%q: %v\n", key, v, err)
				return c, err
			}
		}
	}
	if err := flags.Parse(args); err != nil {
		return c, err
	}
	if flags.NArg() > 0 || c.drain < 0 || c.grace < 0 {
		err := errors.New("serve takes flags only, and times that are not negative")
		fmt.Fprintf(stderr, "bridletie: %v\n", err)
		return c, err
	}
	return c, nil
}

// serve answers over HTTP until the context ends, then drains.
func serve(ctx context.Context, args []string, getenv func(string) string, stderr io.Writer) int {
	c, err := readConfig(args, getenv, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return exitOK
	case err != nil:
		return exitUsage
	}
	log := slog.New(slog.NewJSONHandler(stderr, nil))
	if err := listenAndDrain(ctx, c, log); err != nil {
		log.Error("stopped", "error", err.Error())
		return exitFail
	}
	log.Info("stopped")
	return exitOK
}

// listenAndDrain runs the listeners. When the context ends, readyz fails for
// the drain delay while requests are answered, then the listeners close and
// what is under way is finished.
func listenAndDrain(ctx context.Context, c config, log *slog.Logger) error {
	opts := httpapi.DefaultOptions()
	opts.Log, opts.Origins = log, c.origins
	api, err := httpapi.New(opts)
	if err != nil {
		return err
	}
	failed := make(chan error, 2)
	public := newServer(api.Handler(), log)
	servers := []*http.Server{public}
	if err := start(public, c.addr, "service", log, failed); err != nil {
		return err
	}
	if c.metrics != "" && c.metrics != "off" {
		side := newServer(api.MetricsHandler(), log)
		servers = append(servers, side)
		if err := start(side, c.metrics, "metrics", log, failed); err != nil {
			return errors.Join(err, public.Close())
		}
	}
	select {
	case err := <-failed:
		for _, s := range servers {
			err = errors.Join(err, s.Close())
		}
		return err
	case <-ctx.Done():
	}
	api.Drain()
	log.Info("draining", "delay", c.drain.String())
	time.Sleep(c.drain)
	end, cancel := context.WithTimeout(context.Background(), c.grace)
	defer cancel()
	for _, s := range servers {
		if e := s.Shutdown(end); e != nil {
			err = errors.Join(err, e, s.Close())
		}
	}
	return err
}

// newServer has a limit on everything that a client may draw out.
func newServer(h http.Handler, log *slog.Logger) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: 5 * time.Second,
		ReadTimeout:       10 * time.Second,
		WriteTimeout:      60 * time.Second,
		IdleTimeout:       90 * time.Second,
		MaxHeaderBytes:    16 << 10,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
}

// start listens and serves in the background. The log says the address, which
// with port 0 is known only now.
func start(s *http.Server, addr, what string, log *slog.Logger, failed chan<- error) error {
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	log.Info("listening", "what", what, "addr", listener.Addr().String())
	go func() {
		if err := s.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			failed <- err
		}
	}()
	return nil
}
