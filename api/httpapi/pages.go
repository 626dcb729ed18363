package httpapi

import (
	"strings"

	"github.com/bridletie/bridletie/api/web"
	"github.com/bridletie/bridletie/service"
)

// loadPages reads the embedded pages and scripts.
func loadPages() (*web.Site, error) {
	_, number, _ := strings.Cut(service.EngineVersion, "/")
	return web.Load(number)
}

// QuoteVersion returns the version in the path of the quote element.
func (s *Server) QuoteVersion() string { return s.pages.Version() }

// page returns the embedded file at the path.
func (s *Server) page(x *exchange) (*reply, error) {
	f, ok := s.pages.Find(x.path())
	if !ok {
		return nil, problem(notFound, "")
	}
	d, err := f.Open()
	if err != nil {
		return nil, err
	}
	r := x.documented(d, f.Media, f.Cache)
	r.header.Set("Content-Security-Policy", f.Policy)
	r.header.Set("Referrer-Policy", "no-referrer")
	r.header.Set("Cross-Origin-Resource-Policy", "same-origin")
	if f.Shared {
		r.header.Set("Access-Control-Allow-Origin", "*") // a public script
		r.header.Set("Cross-Origin-Resource-Policy", "cross-origin")
	}
	return r, nil
}
