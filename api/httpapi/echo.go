package httpapi

import (
	"net"
	"net/http"
	"net/url"

	"github.com/labstack/echo/v4"

	"github.com/bridletie/bridletie/api/gen"
)

// keyExchange is where the exchange stands in echo's context.
const keyExchange = "bridletie"

// router finds the route of a request, by the generated routes, and hands it over to
// the pipeline. Nothing else knows that it is echo which does so.
func (s *Server) router() http.Handler {
	e := echo.New()
	e.HideBanner, e.HidePort = true, true
	e.IPExtractor = s.opts.extractor()
	e.Use(func(route echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			x := &exchange{r: c.Request(), w: &sending{ResponseWriter: c.Response().Writer}, address: c.RealIP()}
			x.route = func() { _ = route(c) } // which only notes what was found
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

// note is a route that notes of which operation it is, and what stands in its path.
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

// extractor finds the address of a client: of the other end of the connection,
// unless that is a proxy that is believed.
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
