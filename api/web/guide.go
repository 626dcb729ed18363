package web

import (
	"bytes"
	"embed"
	"fmt"
	"html"
	"io/fs"
	"path"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/parser"
	"github.com/yuin/goldmark/text"
	"github.com/yuin/goldmark/util"
)

// The pages of the guide are Markdown, so that they read well in the repository too.
//
//go:embed guide/*.md
var guide embed.FS

// repository is where links that lead out of the guide go, once it is served.
const repository = "https://github.com/bridletie/bridletie/blob/main/"

// addGuide serves guide/NAME.md as /guide/NAME, and index.md as /guide.
func (s *Site) addGuide() error {
	names, err := fs.Glob(guide, "guide/*.md")
	if err != nil {
		return err
	}
	for _, name := range names {
		stem := strings.TrimSuffix(path.Base(name), ".md")
		at := "/guide/" + stem
		if stem == "index" {
			at = "/guide"
		}
		s.files[at] = &File{
			Media: media()[".html"], Policy: policyPage, Cache: cacheCheck,
			Open: Packed(func() ([]byte, error) {
				source, err := guide.ReadFile(name)
				if err != nil {
					return nil, err
				}
				return guidePage(source)
			}),
		}
	}
	return nil
}

// guidePage is a page of the guide as HTML.
func guidePage(source []byte) ([]byte, error) {
	md := goldmark.New(
		goldmark.WithExtensions(extension.Table),
		goldmark.WithParserOptions(parser.WithAutoHeadingID(), parser.WithASTTransformers(util.Prioritized(guideLinks{}, 100))),
	)
	var body bytes.Buffer
	if err := md.Convert(source, &body); err != nil {
		return nil, fmt.Errorf("guide: %w", err)
	}
	title, _, _ := strings.Cut(strings.TrimPrefix(string(source), "# "), "\n")
	var page bytes.Buffer
	page.WriteString("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n" +
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n" +
		"<title>" + html.EscapeString(title) + " - Bridletie</title>\n" +
		"<link rel=\"stylesheet\" href=\"/guide/assets/guide.css\">\n</head>\n<body>\n" +
		"<header><nav aria-label=\"Bridletie\"><a href=\"/guide\">Guide</a> <a href=\"/docs\">Reference</a> <a href=\"/demo/bench\">Bench</a></nav></header>\n<main>\n")
	page.Write(bytes.ReplaceAll(body.Bytes(), []byte("<pre>"), []byte(`<pre tabindex="0">`))) // so that it scrolls by key too
	page.WriteString("</main>\n</body>\n</html>\n")
	return page.Bytes(), nil
}

// guideLinks turns links between the pages as they lie in the repository into those
// between the pages as they are served.
type guideLinks struct{}

// Transform changes the links of a page.
func (guideLinks) Transform(page *ast.Document, _ text.Reader, _ parser.Context) {
	_ = ast.Walk(page, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if link, ok := n.(*ast.Link); ok && entering {
			link.Destination = []byte(servedLink(string(link.Destination)))
		}
		return ast.WalkContinue, nil
	})
}

// servedLink is where a link of a page in the repository leads once it is served.
func servedLink(to string) string {
	page, part, _ := strings.Cut(to, "#")
	if part != "" {
		part = "#" + part
	}
	switch {
	case strings.Contains(to, ":") || strings.HasPrefix(to, "/") || page == "":
		return to
	case page == "index.md":
		return "/guide" + part
	case path.Ext(page) == ".md" && !strings.Contains(page, "/"):
		return "/guide/" + strings.TrimSuffix(page, ".md") + part
	case strings.HasSuffix(page, "openapi.yaml"):
		return "/openapi.yaml"
	}
	return repository + strings.TrimPrefix(path.Join("api/web/guide", page), "/") + part
}
