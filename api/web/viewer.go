package web

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"sync"

	viewer "github.com/swaggest/swgui/v5/static"
)

// viewerFiles maps the served paths of the reference viewer to file names in the module
// that embeds them. The rest of that module (login redirects, other builds) is not served.
func viewerFiles() map[string]string {
	return map[string]string{
		"docs/assets/swagger-ui.css":       "swagger-ui.css.gz",
		"docs/assets/swagger-ui-bundle.js": "swagger-ui-bundle.js.gz",
	}
}

// addViewer adds the files of the viewer, which are stored compressed.
func (s *Site) addViewer() error {
	for name, packed := range viewerFiles() {
		if err := s.add(name, sync.OnceValues(func() (Document, error) { return unpacked(packed) })); err != nil {
			return err
		}
	}
	return nil
}

// unpacked returns a file of the viewer, decompressed.
func unpacked(name string) (Document, error) {
	zipped, err := viewer.FS.ReadFile(name)
	if err != nil {
		return Document{}, fmt.Errorf("web: the viewer of the reference: %w", err)
	}
	r, err := gzip.NewReader(bytes.NewReader(zipped))
	if err != nil {
		return Document{}, fmt.Errorf("web: the viewer of the reference, %s: %w", name, err)
	}
	body, err := io.ReadAll(r)
	if err != nil {
		return Document{}, fmt.Errorf("web: the viewer of the reference, %s: %w", name, err)
	}
	return Document{NewForm(body), func() *Form { return worthwhile(body, zipped) }}, nil
}
