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

// guide holds the pages of the guide as Markdown, which is also readable in the
// repository.
//
//go:embed guide/*.md
var guide embed.FS

// repository is the base of links that lead out of the guide.
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

// guidePage converts a page of the guide to HTML.
func guidePage(source []byte) ([]byte, error) {
	md := goldmark.New(
		goldmark.WithExtensions(extension.Table),
		goldmark.WithParserOptions(parser.WithAutoHeadingID(), parser.WithASTTransformers(util.Prioritized(guideLinks{}, 100))), //nolint:misspell // the name that goldmark gave it
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

// guideLinks rewrites links between files of the repository as links between served pages.
type guideLinks struct{}

// Transform rewrites the links of a page.
func (guideLinks) Transform(page *ast.Document, _ text.Reader, _ parser.Context) {
	_ = ast.Walk(page, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if link, ok := n.(*ast.Link); ok && entering {
			link.Destination = []byte(servedLink(string(link.Destination)))
		}
		return ast.WalkContinue, nil
	})
}

// servedLink returns the served address for a link in a page of the repository.
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
