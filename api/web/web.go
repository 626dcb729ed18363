// Package web holds the quote element, the demo pages and the reference: files
// that lie in the program and are served as they are.
//
// A file is served because of where it lies beneath static:
//
//	quote.js              /quote.js, and /quote/{version}/quote.js; made small
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

// Document is an immutable file with its encodings.
type Document struct {
	Plain   Form
	Gzipped func() *Form // nil, or returns nil, when there is none
}

// Form is a file in one encoding.
type Form struct {
	Body []byte
	ETag string // strong: each encoding has its own
}

// Values of Cache-Control. Pages and their files are revalidated each time, with 304 when
// unchanged. A path that contains its version never changes.
const (
	cacheCheck   = "no-cache"
	cacheForever = "public, max-age=31536000, immutable"
)

// media returns the media types served, by file extension.
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

// The content security policies. Nothing may be framed, and only pages load other files. A
// page may load the files beside it and call this service. Inline scripts and inline
// styles are blocked.
const (
	policyFile = "default-src 'none'; frame-ancestors 'none'"
	policyPage = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
		"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)

// policies returns the policies of pages that need other than the usual one, by path.
func policies() map[string]string {
	withData := strings.Replace(policyPage, "img-src 'self'", "img-src 'self' data:", 1)
	return map[string]string{
		"/docs":       withData, // the viewer's stylesheet has icons as data URLs
		"/demo/order": withData, // its empty icon is a data URL
		"/demo/bench": withData,
	}
}

// Site holds all files, by served path.
type Site struct {
	files   map[string]*File
	version string
}

// Load reads the embedded files. number is the version of the release.
func Load(number string) (*Site, error) {
	script, err := static.ReadFile("static/quote.js")
	if err != nil {
		return nil, fmt.Errorf("web: %w", err)
	}
	if script, err = Compact(script); err != nil {
		return nil, err
	}
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

// Version returns the version in the path of a script: the release, and eight digits of
// the script's SHA-256, so that a changed script gets a new path.
func Version(number string, script []byte) string {
	sum := sha256.Sum256(script)
	return number + "-" + hex.EncodeToString(sum[:4])
}

// Integrity returns the subresource integrity value of a script.
func Integrity(script []byte) string {
	sum := sha512.Sum384(script)
	return "sha384-" + base64.StdEncoding.EncodeToString(sum[:])
}

// Version returns the version of the quote element.
func (s *Site) Version() string { return s.version }

// Find returns the file at a path, and whether there is one.
func (s *Site) Find(at string) (*File, bool) {
	f, ok := s.files[at]
	return f, ok
}

// Paths returns the paths of all files.
func (s *Site) Paths() []string {
	var all []string
	for at := range s.files {
		all = append(all, at)
	}
	return all
}

// add adds a file at the path given by its name beneath static.
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

// servedAt returns the served path of a file beneath static.
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

// NewForm returns bytes with their ETag.
func NewForm(body []byte) Form {
	sum := sha256.Sum256(body)
	return Form{Body: body, ETag: `"` + hex.EncodeToString(sum[:16]) + `"`}
}

// Packed returns a function that makes a document on first use. The compressed form is
// made on its own first use, and only if it is at least a tenth smaller.
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

// Gzip compresses at the highest level. The same bytes always give the same result.
func Gzip(body []byte) []byte {
	var b bytes.Buffer
	w, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return body // cannot happen: the level is a valid constant
	}
	_, _ = w.Write(body) // writing to a buffer cannot fail
	_ = w.Close()
	return b.Bytes()
}
