package httpapi

import (
	"net"
	"net/http"
	"net/url"

	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/gen"
)

// keyExchange is the key of the exchange in echo's context.
const keyExchange = "bridletie"

// router returns the HTTP handler. It finds the route of a request with the generated
// routes and runs the pipeline. Only this file depends on echo.
func (s *Server) router() http.Handler {
	e := echo.New()
	e.HideBanner, e.HidePort = true, true
	e.IPExtractor = s.opts.extractor()
	e.Use(func(route echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			x := &exchange{r: c.Request(), w: &sending{ResponseWriter: c.Response().Writer}, address: c.RealIP()}
			x.route = func() { _ = route(c) } // only records the route found
			c.Set(keyExchange, x)
			return s.pipeline(x)
		}
	})
	notes := make(map[string][]echo.MiddlewareFunc)
	for _, r := range s.table {
		notes[r.id] = []echo.MiddlewareFunc{func(echo.HandlerFunc) echo.HandlerFunc { return note(r) }}
	}
	gen.RegisterHandlersWithOptions(e, nil, gen.RegisterHandlersOptions{OperationMiddlewares: notes})
	return e
}

// note returns a handler that records the operation of a route and its path parameters.
func note(r *row) echo.HandlerFunc {
	return func(c echo.Context) error {
		x, ok := c.Get(keyExchange).(*exchange)
		if !ok {
			return echo.ErrInternalServerError
		}
		x.routed = r
		for _, name := range c.ParamNames() {
			value := c.Param(name)
			if plain, err := url.PathUnescape(value); err == nil && x.r.URL.RawPath != "" {
				value = plain
			}
			if x.params == nil {
				x.params = make(map[string]string)
			}
			x.params[name] = value
		}
		return nil
	}
}

// extractor returns a function that determines the client's address: the peer of the
// connection or, behind a trusted proxy, the address in X-Forwarded-For.
func (a Access) extractor() echo.IPExtractor {
	if len(a.Proxies) == 0 {
		return echo.ExtractIPDirect()
	}
	trust := []echo.TrustOption{echo.TrustLoopback(false), echo.TrustLinkLocal(false), echo.TrustPrivateNet(false)}
	for _, p := range a.Proxies {
		p = p.Masked()
		trust = append(trust, echo.TrustIPRange(&net.IPNet{IP: p.Addr().AsSlice(), Mask: net.CIDRMask(p.Bits(), p.Addr().BitLen())}))
	}
	return echo.ExtractIPFromXFFHeader(trust...)
}
