package web

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"sync"

	viewer "github.com/swaggest/swgui/v5/static"
)

// viewerFiles are the files of the reference's viewer: where they are served,
// and their names in the module that embeds them. The rest of that module
// (redirects for logins, other builds of the same) is not served.
func viewerFiles() map[string]string {
	return map[string]string{
		"docs/assets/swagger-ui.css":       "swagger-ui.css.gz",
		"docs/assets/swagger-ui-bundle.js": "swagger-ui-bundle.js.gz",
	}
}

// addViewer adds the files of the viewer, which come compressed.
func (s *Site) addViewer() error {
	for name, packed := range viewerFiles() {
		if err := s.add(name, sync.OnceValues(func() (Document, error) { return unpacked(packed) })); err != nil {
			return err
		}
	}
	return nil
}

// unpacked is a file of the viewer.
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
