package httpapi

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
)

// What pages of other origins are told (the Fetch standard). Two hours is the
// longest that every browser keeps a preflight.
const (
	corsMaxAge  = "7200"
	corsHeaders = "Accept, Content-Type, If-None-Match, Prefer, Traceparent, Tracestate, X-Request-Id"
	corsExposed = "ETag, Preference-Applied, RateLimit, RateLimit-Policy, Retry-After, X-Request-Id"
)

// anyOrigin in the allow-list lets pages of every origin call.
const anyOrigin = "*"

// checkOrigins names the entry of an allow-list that is no origin.
func checkOrigins(list []string) error {
	for _, o := range list {
		u, err := url.Parse(o)
		switch {
		case o == anyOrigin && len(list) == 1:
		case o == anyOrigin:
			return errors.New("httpapi: an allow-list with * has no other entry")
		case err != nil, u.Scheme != "http" && u.Scheme != "https", u.Host == "", o != u.Scheme+"://"+u.Host, o != strings.ToLower(o), strings.Contains(o, "*"):
			return fmt.Errorf("httpapi: %.80q is not an origin such as https://shop.example", o)
		}
	}
	return nil
}

// cors lets pages of the listed origins call what needs no key and read every
// answer, problems too: a page that may not read a 422 sees only that something
// failed. A request with a key comes from a server, and is told nothing.
func (s *Server) cors(next handler) handler {
	if len(s.opts.Origins) == 0 {
		return next
	}
	open := s.opts.Origins[0] == anyOrigin
	return func(x *exchange) error {
		r := x.r
		if !open { // also for a request without an origin: a cache must not keep its answer for one that has
			x.w.before = http.Header{"Vary": {"Origin"}}
		}
		origin, given := s.originOf(r)
		if !given {
			return next(x)
		}
		h := x.w.Header()
		h.Set("Access-Control-Allow-Origin", origin)
		h.Set("Access-Control-Expose-Headers", corsExposed)
		if wanted := r.Header.Get("Access-Control-Request-Method"); r.Method != http.MethodOptions || wanted == "" {
			return next(x)
		}
		template, ok := s.contract.Template(r.URL.Path)
		if !ok {
			return next(x)
		}
		x.preflight(s.contract.Methods(template))
		return nil
	}
}

// preflight answers a page that asks whether it may call.
func (x *exchange) preflight(methods []string) {
	x.row = &row{id: "preflight"}
	h := x.w.Header()
	h.Set("Access-Control-Allow-Methods", strings.Join(methods, ", "))
	h.Set("Access-Control-Allow-Headers", corsHeaders)
	h.Set("Access-Control-Max-Age", corsMaxAge)
	x.w.WriteHeader(http.StatusNoContent)
}

// originOf is what Access-Control-Allow-Origin says to a request; given is false
// when it says nothing.
func (s *Server) originOf(r *http.Request) (origin string, given bool) {
	from := r.Header.Values("Origin")
	switch {
	case len(r.Header.Values("Authorization")) > 0:
		return "", false
	case s.opts.Origins[0] == anyOrigin: // said to everybody, so that it may be cached
		return anyOrigin, true
	case len(from) == 1 && slices.Contains(s.opts.Origins, from[0]):
		return from[0], true
	}
	return "", false
}
