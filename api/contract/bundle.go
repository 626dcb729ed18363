package contract

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io/fs"
	"net/url"
	"regexp"

	"github.com/getkin/kin-openapi/openapi3"
)

// fileName is that of the document.
const fileName = "openapi.yaml"

// Open reads openapi.yaml, and the files that it refers to.
func Open(files fs.FS) (*openapi3.T, error) {
	text, err := fs.ReadFile(files, fileName)
	if err != nil {
		return nil, fmt.Errorf("contract: %w", err)
	}
	loader := openapi3.NewLoader()
	loader.IsExternalRefsAllowed = true
	loader.ReadFromURIFunc = func(_ *openapi3.Loader, at *url.URL) ([]byte, error) {
		if at.Host != "" || at.Scheme != "" {
			return nil, fmt.Errorf("%s does not lie beside the document", at)
		}
		return fs.ReadFile(files, at.Path)
	}
	doc, err := loader.LoadFromDataWithPath(text, &url.URL{Path: fileName})
	if err != nil {
		return nil, fmt.Errorf("contract: %s: %w", fileName, err)
	}
	for _, example := range doc.Components.Examples {
		example.Ref = "" // it is written where it is used, and not where it lies
	}
	return doc, nil
}

// inFile is an example that lies in a file of its own, as openapi.yaml has it.
var inFile = regexp.MustCompile(`(?m)^( *)(\w+): \{\$ref: (testdata/examples/\w+\.json)\}$`)

// Bundle is the text of openapi.yaml with everything in it that it refers to. Every
// JSON is YAML, so a file is put where its name stands.
func Bundle(files fs.FS) ([]byte, error) {
	text, err := fs.ReadFile(files, fileName)
	if err != nil {
		return nil, fmt.Errorf("contract: %w", err)
	}
	var out bytes.Buffer
	from := 0
	for _, at := range inFile.FindAllSubmatchIndex(text, -1) {
		part, err := fs.ReadFile(files, string(text[at[6]:at[7]]))
		if err != nil {
			return nil, fmt.Errorf("contract: %s: %w", fileName, err)
		}
		out.Write(text[from:at[5]])
		out.WriteString(":\n")
		for line := range bytes.Lines(part) {
			out.Write(text[at[2]:at[3]])
			out.WriteString("  ")
			out.Write(line)
		}
		from = at[1] + 1 // the file ends with a line end of its own
	}
	out.Write(text[from:])
	return out.Bytes(), nil
}

// inYAML is where openapi.yaml says where it is served.
var inYAML = regexp.MustCompile(`(?m)^servers:\n(?: +.*\n)+`)

// servedAt is a text of the document that names where it is served.
func (c *Contract) servedAt(read func() ([]byte, error), base string) ([]byte, error) {
	text, err := read()
	if err != nil || base == "" {
		return text, err
	}
	before, err := json.Marshal(c.servers)
	if err != nil {
		return nil, fmt.Errorf("contract: %w", err)
	}
	here, err := json.Marshal(openapi3.Servers{{URL: base, Description: "Where this document was asked for."}})
	if err != nil {
		return nil, fmt.Errorf("contract: %w", err)
	}
	from := append([]byte(`"servers":`), before...)
	if at := inYAML.FindIndex(text); at != nil {
		from = text[at[0]:at[1]]
		here = append(here, '\n')
		here = append([]byte("servers: "), here...)
	} else {
		here = append([]byte(`"servers":`), here...)
	}
	if bytes.Count(text, from) != 1 {
		return nil, fmt.Errorf("contract: the document does not say once where it is served")
	}
	return bytes.Replace(text, from, here, 1), nil
}
