package httpapi

import (
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"
)

// The values of the CORS headers (the Fetch standard). The max age of two hours, in
// seconds, is the longest that all browsers honour.
const (
	corsMaxAge  = "7200"
	corsHeaders = "Accept, Content-Type, If-None-Match, Prefer, Traceparent, Tracestate, X-Request-Id"
	corsExposed = "ETag, Preference-Applied, RateLimit, RateLimit-Policy, Retry-After, X-Request-Id"
)

// anyOrigin in the allow-list admits pages of every origin.
const anyOrigin = "*"

// checkOrigins returns an error that names the first invalid entry of an allow-list.
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

// cors lets pages of the listed origins call operations without a key and read every
// response, including problems. Without the headers a page could not read a 422. A request
// with a key comes from a server and gets no CORS headers.
func (s *Server) cors(next handler) handler {
	if len(s.opts.Origins) == 0 {
		return next
	}
	open := s.opts.Origins[0] == anyOrigin
	return func(x *exchange) error {
		r := x.r
		if !open { // also without an Origin header, so that a cache does not reuse the response for another origin
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

// preflight responds to a CORS preflight request.
func (x *exchange) preflight(methods []string) {
	x.row = &row{id: "preflight"}
	h := x.w.Header()
	h.Set("Access-Control-Allow-Methods", strings.Join(methods, ", "))
	h.Set("Access-Control-Allow-Headers", corsHeaders)
	h.Set("Access-Control-Max-Age", corsMaxAge)
	x.w.WriteHeader(http.StatusNoContent)
}

// originOf returns the value of Access-Control-Allow-Origin for a request; given is false
// when the header must not be sent.
func (s *Server) originOf(r *http.Request) (origin string, given bool) {
	from := r.Header.Values("Origin")
	switch {
	case len(r.Header.Values("Authorization")) > 0:
		return "", false
	case s.opts.Origins[0] == anyOrigin: // sent even without an Origin header, so that the response can be cached
		return anyOrigin, true
	case len(from) == 1 && slices.Contains(s.opts.Origins, from[0]):
		return from[0], true
	}
	return "", false
}
