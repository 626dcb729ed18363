package web

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
)

func load(t *testing.T) *Site {
	t.Helper()
	s, err := Load("1.2.3")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Every embedded file is served, and every policy is that of a page.
func TestEveryFileIsServed(t *testing.T) {
	s, files := load(t), 0
	err := fs.WalkDir(static, "static", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files++
			if at, ok := servedAt(strings.TrimPrefix(name, "static/")); !ok || s.files[at] == nil {
				t.Errorf("%s is not served", name)
			}
		}
		return err
	})
	if err != nil || files == 0 {
		t.Fatalf("%d files, %v", files, err)
	}
	pages, err := fs.Glob(guide, "guide/*.md")
	if err != nil {
		t.Fatal(err)
	}
	if n := len(s.Paths()); n != files+1+len(viewerFiles())+len(pages) {
		t.Errorf("%d paths for %d files, the viewer's, %d pages of the guide, and the script by its version", n, files, len(pages))
	}
	for _, at := range s.Paths() {
		d, err := s.files[at].Open()
		if err != nil || len(d.Plain.Body) == 0 || d.Plain.ETag == "" {
			t.Errorf("%s cannot be opened: %v", at, err)
		}
	}
	for at := range policies() {
		if f, ok := s.Find(at); !ok || !strings.HasPrefix(f.Media, "text/html") {
			t.Errorf("the policy of %s is of no page", at)
		}
	}
	if at := "/quote/" + s.Version() + "/quote.js"; !slices.Contains(s.Paths(), at) {
		t.Errorf("%s is not served", at)
	}
}

// What an older path holds is what the path says.
func TestOlderScriptsAreThemselves(t *testing.T) {
	older, err := fs.Glob(static, "static/quote/*.js")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range older {
		body, err := static.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		stem := strings.TrimSuffix(strings.TrimPrefix(name, "static/quote/"), ".js")
		number, _, _ := strings.Cut(stem, "-")
		if want := Version(number, body); stem != want {
			t.Errorf("%s holds %s", name, want)
		}
	}
}

func TestServedAt(t *testing.T) {
	for name, want := range map[string]string{
		"quote.js":                "/quote.js",
		"quote/0.1.0-0a1b2c3d.js": "/quote/0.1.0-0a1b2c3d/quote.js",
		"demo/shop.html":          "/demo/shop",
		"demo/assets/shop.css":    "/demo/assets/shop.css",
		"docs/index.html":         "/docs",
		"docs/assets/x.js":        "/docs/assets/x.js",
		"demo/shop.css":           "",
		"demo/deeper/shop.html":   "",
		"index.html":              "",
		"quote/x.html":            "",
	} {
		if got, ok := servedAt(name); got != want || ok != (want != "") {
			t.Errorf("%s is served at %q", name, got)
		}
	}
}

// Other bytes have another version and another hash.
func TestVersionsAndIntegrity(t *testing.T) {
	a, b := []byte("a"), []byte("b")
	if v := Version("0.1.0", a); v != "0.1.0-ca978112" || v == Version("0.1.0", b) {
		t.Errorf("version %s", v)
	}
	// The hash of "a" by `printf a | openssl dgst -sha384 -binary | base64`.
	if i := Integrity(a); i != "sha384-VKWbnyKwuAiA2EJ+VIt8I6vYc0huHwNdzpzWl+hRdQM8qojm1XvDXvrgta/TFF8x" {
		t.Errorf("integrity %s", i)
	}
}
