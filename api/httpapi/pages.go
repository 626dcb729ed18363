package httpapi

import (
	"context"
	"net/http"
	"strings"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/web"
	"github.com/bridletie/bridletie/service"
)

// loadPages reads the embedded pages and scripts.
func loadPages() (*web.Site, error) {
	_, number, _ := strings.Cut(service.EngineVersion, "/")
	return web.Load(number)
}

// QuoteVersion is the version in the path of the quote element.
func (s *Server) QuoteVersion() string { return s.pages.Version() }

// page answers with the file at a path.
func (h handlers) page(ctx context.Context, at string) (pageFile, error) {
	f, ok := h.pages.Find(at)
	if !ok {
		return pageFile{}, problem(notFound, "")
	}
	return pageFile{f, serve(ctx, document{f.Plain, f.Gzipped}, f.Media)}, nil
}

// QuoteScript answers GET /quote.js.
func (h handlers) QuoteScript(ctx context.Context, _ gen.QuoteScriptRequestObject) (gen.QuoteScriptResponseObject, error) {
	return h.page(ctx, "/quote.js")
}

// QuoteScriptVersion answers GET /quote/{version}/quote.js.
func (h handlers) QuoteScriptVersion(ctx context.Context, r gen.QuoteScriptVersionRequestObject) (gen.QuoteScriptVersionResponseObject, error) {
	return h.page(ctx, "/quote/"+r.Version+"/quote.js")
}

// DemoPage answers GET /demo/{page}.
func (h handlers) DemoPage(ctx context.Context, r gen.DemoPageRequestObject) (gen.DemoPageResponseObject, error) {
	return h.page(ctx, "/demo/"+r.Page)
}

// DemoAsset answers GET /demo/assets/{file}.
func (h handlers) DemoAsset(ctx context.Context, r gen.DemoAssetRequestObject) (gen.DemoAssetResponseObject, error) {
	return h.page(ctx, "/demo/assets/"+r.File)
}

// DocsPage answers GET /docs.
func (h handlers) DocsPage(ctx context.Context, _ gen.DocsPageRequestObject) (gen.DocsPageResponseObject, error) {
	return h.page(ctx, "/docs")
}

// DocsAsset answers GET /docs/assets/{file}.
func (h handlers) DocsAsset(ctx context.Context, r gen.DocsAssetRequestObject) (gen.DocsAssetResponseObject, error) {
	return h.page(ctx, "/docs/assets/"+r.File)
}

// pageFile is an embedded file as an answer.
type pageFile struct {
	file *web.File
	as   served
}

// VisitQuoteScriptResponse writes the answer.
func (p pageFile) VisitQuoteScriptResponse(w http.ResponseWriter) error { return p.write(w) }

// VisitQuoteScriptVersionResponse writes the answer.
func (p pageFile) VisitQuoteScriptVersionResponse(w http.ResponseWriter) error { return p.write(w) }

// VisitDemoPageResponse writes the answer.
func (p pageFile) VisitDemoPageResponse(w http.ResponseWriter) error { return p.write(w) }

// VisitDemoAssetResponse writes the answer.
func (p pageFile) VisitDemoAssetResponse(w http.ResponseWriter) error { return p.write(w) }

// VisitDocsPageResponse writes the answer.
func (p pageFile) VisitDocsPageResponse(w http.ResponseWriter) error { return p.write(w) }

// VisitDocsAssetResponse writes the answer.
func (p pageFile) VisitDocsAssetResponse(w http.ResponseWriter) error { return p.write(w) }

func (p pageFile) write(w http.ResponseWriter) error {
	h := w.Header()
	h.Set("Content-Security-Policy", p.file.Policy)
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	if p.file.Shared {
		h.Set("Access-Control-Allow-Origin", "*") // a script that anybody may read
		h.Set("Cross-Origin-Resource-Policy", "cross-origin")
	}
	return p.as.writeFor(w, p.file.Cache)
}

// takesGzip reports whether the client takes answers compressed by gzip
// (RFC 9110, section 12.5.3). A client that says nothing gets them plain.
func takesGzip(ctx context.Context) bool {
	header, _ := ctx.Value(encodingKey).(string)
	best := -1
	for one := range strings.SplitSeq(header, ",") {
		name, params, _ := strings.Cut(one, ";")
		name = strings.ToLower(strings.TrimSpace(name))
		if name != "gzip" && name != "x-gzip" && (name != "*" || best >= 0) {
			continue
		}
		q, ok := contract.QValue(strings.Split(params, ";"))
		if !ok {
			q = 0
		}
		best = q
	}
	return best > 0
}
