package main

import (
	"context"
	"errors"
	"flag"
	"io"
	"log/slog"
	"net"
	"net/http"
	"runtime/debug"
	"time"

	"golang.org/x/net/netutil"

	"github.com/bridletie/bridletie/api/httpapi"
	"github.com/bridletie/bridletie/api/tracing"
	"github.com/bridletie/bridletie/service"
)

// serve runs the HTTP server until the context ends, then drains it.
func serve(ctx context.Context, args []string, getenv func(string) string, stderr io.Writer) int {
	c, flags, err := readConfig(args, getenv, stderr)
	switch {
	case errors.Is(err, flag.ErrHelp):
		return exitOK
	case err != nil:
		return exitUsage
	}
	log := slog.New(slog.NewJSONHandler(stderr, nil))
	keys := 0
	if c.api.Keys != nil {
		keys = c.api.Keys.Len()
	}
	report(log, flags, keys)
	if c.memory > 0 {
		debug.SetMemoryLimit(int64(c.memory))
	}
	c.api.Log = log
	if err := listenAndDrain(ctx, c, log); err != nil {
		log.Error("stopped", "error", err.Error())
		return exitFail
	}
	log.Info("stopped")
	return exitOK
}

// listenAndDrain runs the listeners. When the context ends, readyz fails for the drain
// delay while requests are still served. Then the listeners close, and requests in
// progress are completed.
func listenAndDrain(ctx context.Context, c config, log *slog.Logger) error {
	tracer, endTrace, err := tracing.Start(ctx, c.trace, c.traceShare, service.EngineVersion)
	if err != nil {
		return err
	}
	defer sendSpans(endTrace, log)
	c.api.Tracer = tracer
	api, err := httpapi.New(c.api)
	if err != nil {
		return err
	}
	failed := make(chan error, 2)
	public := newServer(api.Handler(), c, log)
	servers := []*http.Server{public}
	if err := start(public, c.addr, c.conns, "service", log, failed); err != nil {
		return err
	}
	if c.metrics != "" && c.metrics != "off" {
		side := newServer(api.MetricsHandler(), c, log)
		servers = append(servers, side)
		if err := start(side, c.metrics, sideConns, "metrics", log, failed); err != nil {
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

// sendSpans sends the remaining spans.
func sendSpans(end func(context.Context) error, log *slog.Logger) {
	ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
	defer cancel()
	if err := end(ctx); err != nil {
		log.Warn("spans not sent", "error", err.Error())
	}
}

// newServer returns a server with a limit on every resource that a client can use.
func newServer(h http.Handler, c config, log *slog.Logger) *http.Server {
	return &http.Server{
		Handler:           h,
		ReadHeaderTimeout: c.headerTime,
		ReadTimeout:       c.readTime,
		WriteTimeout:      c.writeTime,
		IdleTimeout:       c.idleTime,
		MaxHeaderBytes:    c.api.HeaderBytes,
		ErrorLog:          slog.NewLogLogger(log.Handler(), slog.LevelWarn),
	}
}

// sideConns is the limit on connections to the metrics.
const sideConns = 16

// start listens and serves in the background. It logs the address, which with port 0 is
// known only then.
func start(s *http.Server, addr string, conns int, what string, log *slog.Logger, failed chan<- error) error {
	listener, err := net.Listen("tcp", addr)
	if err != nil {
		return err
	}
	listener = netutil.LimitListener(listener, conns)
	log.Info("listening", "what", what, "addr", listener.Addr().String())
	go func() {
		if err := s.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
			failed <- err
		}
	}()
	return nil
}
