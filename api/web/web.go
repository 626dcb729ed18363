// Package web holds the quote element, the demo pages and the reference: files
// that lie in the program and are served as they are.
//
// A file is served because of where it lies beneath static:
//
//	quote.js              /quote.js, and /quote/{version}/quote.js; without its comments
//	quote/VERSION.js      /quote/VERSION/quote.js: an older one that shops still embed
//	demo/NAME.html        /demo/NAME
//	demo/assets/FILE      /demo/assets/FILE
//	docs/index.html       /docs
//	docs/assets/FILE      /docs/assets/FILE
//	guide/assets/FILE     /guide/assets/FILE
//
// The pages of the guide lie beside static, in guide: NAME.md is /guide/NAME.
//
// To add a page: put it there, and give it a row in policies if it needs more
// than the usual policy. To add a kind of file: give it a row in media, and the
// path in openapi.yaml that media type.
package web

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"crypto/sha512"
	"embed"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"
	"sync"
)

//go:embed static
var static embed.FS

// File is a file ready to be served.
type File struct {
	Media  string // its media type
	Policy string // its Content-Security-Policy
	Cache  string // its Cache-Control
	Shared bool   // whether pages of other origins may load it
	Open   func() (Document, error)
}

// Document is bytes that never change.
type Document struct {
	Plain   Form
	Gzipped func() *Form // nil, or answers nil, where there is none
}

// Form is the bytes of a file in one encoding.
type Form struct {
	Body []byte
	ETag string // strong: each encoding has its own
}

// How long files are kept: a page and its files are asked for anew each time,
// and 304 spares the bytes; a path that names its version never changes.
const (
	cacheCheck   = "no-cache"
	cacheForever = "public, max-age=31536000, immutable"
)

// media are the types that are served, by the ending of the file.
func media() map[string]string {
	return map[string]string{
		".html": "text/html; charset=utf-8",
		".css":  "text/css; charset=utf-8",
		".js":   "text/javascript; charset=utf-8",
		".svg":  "image/svg+xml",
		".json": "application/json",
		".txt":  "text/plain; charset=utf-8",
	}
}

// The policies. Nothing may be framed, and no file but a page loads anything.
// A page of ours may load what lies beside it and ask this service; no text in
// it is run or styles it.
const (
	policyFile = "default-src 'none'; frame-ancestors 'none'"
	policyPage = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
		"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)

// policies are those of pages that need another than the usual one, by path.
func policies() map[string]string {
	withData := strings.Replace(policyPage, "img-src 'self'", "img-src 'self' data:", 1)
	return map[string]string{
		"/docs":       withData, // the viewer's stylesheet has its icons as data
		"/demo/order": withData, // the icon of the page is nothing, written as data
		"/demo/bench": withData,
	}
}

// Site is all files, by the path at which they are served.
type Site struct {
	files   map[string]*File
	version string
}

// Load reads the embedded files. The number is that of the release.
func Load(number string) (*Site, error) {
	script, err := static.ReadFile("static/quote.js")
	if err != nil {
		return nil, fmt.Errorf("web: %w", err)
	}
	script = Compact(script)
	s := &Site{files: make(map[string]*File), version: Version(number, script)}
	err = fs.WalkDir(static, "static", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		body, err := static.ReadFile(name)
		if err != nil {
			return err
		}
		if name == "static/quote.js" {
			body = script
		}
		return s.add(strings.TrimPrefix(name, "static/"), Packed(func() ([]byte, error) { return body, nil }))
	})
	if err == nil {
		err = errors.Join(s.addViewer(), s.addGuide())
	}
	if err != nil {
		return nil, fmt.Errorf("web: %w", err)
	}
	return s, nil
}

// Version is what the path of a script is named by: the release, and eight
// digits of the script's SHA-256, so that other bytes have another path.
func Version(number string, script []byte) string {
	sum := sha256.Sum256(script)
	return number + "-" + hex.EncodeToString(sum[:4])
}

// Integrity is the subresource integrity of a script.
func Integrity(script []byte) string {
	sum := sha512.Sum384(script)
	return "sha384-" + base64.StdEncoding.EncodeToString(sum[:])
}

// Version is that of the quote element.
func (s *Site) Version() string { return s.version }

// Find is the file at a path.
func (s *Site) Find(at string) (*File, bool) {
	f, ok := s.files[at]
	return f, ok
}

// Paths are the paths of all files.
func (s *Site) Paths() []string {
	var all []string
	for at := range s.files {
		all = append(all, at)
	}
	return all
}

// add serves a file where its name beneath static says.
func (s *Site) add(name string, open func() (Document, error)) error {
	kind, ok := media()[path.Ext(name)]
	if !ok {
		return fmt.Errorf("%s: files of its ending are not served", name)
	}
	at, ok := servedAt(name)
	if !ok {
		return fmt.Errorf("%s: nothing that lies there is served", name)
	}
	f := &File{Media: kind, Policy: policyFile, Cache: cacheCheck, Open: open}
	if path.Ext(name) == ".html" {
		f.Policy = policyPage
	}
	if own, ok := policies()[at]; ok {
		f.Policy = own
	}
	f.Shared = name == "quote.js" || strings.HasPrefix(name, "quote/")
	if strings.HasPrefix(name, "quote/") {
		f.Cache = cacheForever
	}
	s.files[at] = f
	if name == "quote.js" {
		forever := *f
		forever.Cache = cacheForever
		s.files["/quote/"+s.version+"/quote.js"] = &forever
	}
	return nil
}

// servedAt is the path of a file beneath static.
func servedAt(name string) (string, bool) {
	dir, file := path.Split(name)
	stem := strings.TrimSuffix(file, path.Ext(file))
	switch {
	case name == "quote.js":
		return "/quote.js", true
	case dir == "quote/" && path.Ext(file) == ".js":
		return "/quote/" + stem + "/quote.js", true
	case dir == "demo/" && path.Ext(file) == ".html":
		return "/demo/" + stem, true
	case name == "docs/index.html":
		return "/docs", true
	case dir == "demo/assets/" || dir == "docs/assets/" || dir == "guide/assets/":
		return "/" + name, true
	}
	return "", false
}

// NewForm is bytes with their ETag.
func NewForm(body []byte) Form {
	sum := sha256.Sum256(body)
	return Form{Body: body, ETag: `"` + hex.EncodeToString(sum[:16]) + `"`}
}

// Packed makes a document when it is first asked for, and its compressed form when
// that is: where it is a tenth smaller.
func Packed(read func() ([]byte, error)) func() (Document, error) {
	return sync.OnceValues(func() (Document, error) {
		body, err := read()
		return Document{NewForm(body), sync.OnceValue(func() *Form { return worthwhile(body, Gzip(body)) })}, err
	})
}

func worthwhile(body, zipped []byte) *Form {
	if len(zipped) > len(body)*9/10 {
		return nil
	}
	f := NewForm(zipped)
	return &f
}

// Gzip compresses as tightly as gzip does; the same bytes always give the same.
func Gzip(body []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return body // the level is a constant that gzip has
	}
	_, _ = w.Write(body) // a buffer takes all
	_ = w.Close()
	return b.Bytes()
}
