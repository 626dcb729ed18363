package web

import (
	"bytes"
	"fmt"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/js"
)

// Compact is a script of ours without what pages need not load: comments, spaces and
// long names of what is local. The same script gives the same bytes, which the hash
// in the guide and the path of the element stand for.
func Compact(script []byte) ([]byte, error) {
	var out bytes.Buffer
	// From a reader, since the minifier writes into bytes that it is given.
	if err := js.Minify(minify.New(), &out, bytes.NewReader(script), nil); err != nil {
		return nil, fmt.Errorf("web: a script: %w", err)
	}
	return out.Bytes(), nil
}
