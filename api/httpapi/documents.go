package httpapi

import (
	"encoding/json"
	"net/http"
	"strings"
	"sync"

	"github.com/bridletie/bridletie/api/contract"
	"github.com/bridletie/bridletie/api/gen"
	"github.com/bridletie/bridletie/api/web"
	"github.com/bridletie/bridletie/api/wire"
	"github.com/bridletie/bridletie/calc/fire"
	"github.com/bridletie/bridletie/calc/furniture"
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/service"
	"github.com/bridletie/bridletie/service/drawing"
)

// documentName identifies a document in one media type.
type documentName struct{ id, kind, media string } // id of the operation; kind of furniture, or ""

// documents are all documents that the service makes from embedded data. They never
// change, so each is made once, on first use.
type documents map[documentName]func() (web.Document, error)

func newDocuments(rules *fire.Set) documents {
	d := make(documents)
	d.packed("fireRules", "", contract.JSON, func() ([]byte, error) { return inJSON(wire.FireRulesOut(rules)) })
	d.packed("furniture", "", contract.JSON, func() ([]byte, error) {
		list := gen.Furniture{Engine: service.EngineVersion}
		for _, k := range furniture.Kinds() {
			list.Kinds = append(list.Kinds, wire.FurnitureKindOut(k))
		}
		return inJSON(list)
	})
	for _, k := range furniture.Kinds() {
		d.packed("furniturePicture", k.ID, contract.SVG, func() ([]byte, error) { return drawing.PieceSVG(k), nil })
		guide := func() drawn { return drawing.MeasuringPicture(k, length.Metric) }
		d.plain("furnitureKind", k.ID, contract.JSON, func() ([]byte, error) { return inJSON(wire.FurnitureKindOut(k)) })
		d.plain("furnitureKind", k.ID, contract.SVG, func() ([]byte, error) { return guide().SVG(), nil })
		d.plain("furnitureKind", k.ID, contract.PDF, func() ([]byte, error) { return guide().Printed() })
	}
	return d
}

// plain adds a document that is never compressed.
func (d documents) plain(id, kind, media string, read func() ([]byte, error)) {
	d[documentName{id, kind, media}] = sync.OnceValues(func() (web.Document, error) {
		body, err := read()
		return web.Document{Plain: web.NewForm(body)}, err
	})
}

// packed adds a document that also has a compressed form.
func (d documents) packed(id, kind, media string, read func() ([]byte, error)) {
	d[documentName{id, kind, media}] = web.Packed(read)
}

// inJSON returns v as JSON with a final line end.
func inJSON(v any) ([]byte, error) {
	body, err := json.Marshal(v)
	return append(body, '\n'), err
}

// document returns the document of the operation as a reply.
func (s *Server) document(x *exchange) (*reply, error) {
	find, ok := s.documents[documentName{x.row.id, x.params["kind"], x.found.media}]
	if !ok {
		return nil, problem(notFound, "")
	}
	d, err := find()
	if err != nil {
		return nil, err
	}
	return x.documented(d, x.found.media, "no-cache"), nil
}

// documented returns a document as a reply with that Cache-Control header, or 304 when the
// client has it already.
func (x *exchange) documented(d web.Document, media, cache string) *reply {
	form, packed := d.Plain, (*web.Form)(nil)
	h := http.Header{"Cache-Control": {cache}}
	if d.Gzipped != nil {
		h.Set("Vary", "Accept-Encoding")
		if takesGzip(x.r.Header) {
			packed = d.Gzipped()
		}
	}
	if packed != nil {
		form = *packed
	}
	h.Set("ETag", form.ETag)
	if known(strings.Join(x.r.Header.Values("If-None-Match"), ","), form.ETag) {
		return &reply{status: http.StatusNotModified, header: h}
	}
	if packed != nil {
		h.Set("Content-Encoding", "gzip")
	}
	h.Set("Content-Type", media)
	return &reply{http.StatusOK, h, form.Body}
}

// known reports whether If-None-Match matches this ETag, by the weak comparison (RFC 9110,
// section 13.1.2).
func known(condition, etag string) bool {
	for tag := range strings.SplitSeq(condition, ",") {
		if tag = strings.TrimPrefix(strings.TrimSpace(tag), "W/"); tag == "*" || tag == etag {
			return true
		}
	}
	return false
}

// takesGzip reports whether the client accepts gzip (RFC 9110, section 12.5.3). Without an
// Accept-Encoding header it returns false.
func takesGzip(sent http.Header) bool {
	best := -1
	for one := range strings.SplitSeq(strings.Join(sent.Values("Accept-Encoding"), ","), ",") {
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
