package api_test

import (
	"go/ast"
	"go/doc"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
)

// calc is a library: every package that others may import has its documentation
// and an example that is run.
func TestEveryCalcPackageHasAnExample(t *testing.T) {
	files := make(map[string][]*ast.File) // by folder
	eachFile(t, func(name string) {
		if !strings.HasPrefix(name, "calc/") || path.Ext(name) != ".go" || strings.Contains(name, "/internal/") {
			return
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, name), nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		files[path.Dir(name)] = append(files[path.Dir(name)], parsed)
	})
	overview := strings.FieldsFunc(fileDoc(files["calc"]), func(r rune) bool { return !unicode.IsLetter(r) })
	for dir, list := range files {
		for _, bad := range undocumented(list) {
			t.Errorf("%s: %s", dir, bad)
		}
		if !slices.Contains(overview, path.Base(dir)) {
			t.Errorf("calc/doc.go does not name %s", dir)
		}
	}
	if len(files) < 20 {
		t.Errorf("only %d packages were read", len(files))
	}
}

func TestEveryCalcPackageHasAnExampleRefuses(t *testing.T) {
	const documented = "// Package x does it.\npackage x\nfunc F() {}"
	for _, tc := range []struct {
		name    string
		sources []string
		want    []string
	}{
		{"both", []string{documented, "package x_test\nfunc ExampleF() {\n\t// Output: 1\n}"}, nil},
		{"one in the package", []string{documented, "package x\nfunc Example() {\n\t// Output:\n}"}, nil},
		{"no example", []string{documented}, []string{"it has no Example that is run"}},
		{"not run", []string{documented, "package x_test\nfunc ExampleF() {}"}, []string{"it has no Example that is run"}},
		{"only a name", []string{documented, "package x_test\nfunc Examples() {\n\t// Output: 1\n}"}, []string{"it has no Example that is run"}},
		{"no documentation", []string{"package x", "package x_test\nfunc Example() {\n\t// Output: 1\n}"}, []string{"it does not say what the package is"}},
		{"documented in a test", []string{"package x", "// Package x tests.\npackage x_test\nfunc Example() {\n\t// Output: 1\n}"}, []string{"it does not say what the package is"}},
	} {
		var files []*ast.File
		for n, source := range tc.sources {
			name := []string{"x.go", "x_test.go"}[min(n, 1)]
			parsed, err := parser.ParseFile(token.NewFileSet(), name, source, parser.ParseComments|parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			files = append(files, parsed)
		}
		if got := undocumented(files); !slices.Equal(got, tc.want) {
			t.Errorf("%s: %q, want %q", tc.name, got, tc.want)
		}
	}
}

// fileDoc is the documentation of a package.
func fileDoc(files []*ast.File) string {
	var b strings.Builder
	for _, f := range files {
		b.WriteString(f.Doc.Text())
	}
	return b.String()
}

// undocumented lists what a reader of a package misses.
func undocumented(files []*ast.File) []string {
	var out []string
	says := func(f *ast.File) bool {
		return strings.HasPrefix(f.Doc.Text(), "Package "+f.Name.Name+" ") && !strings.HasSuffix(f.Name.Name, "_test")
	}
	if !slices.ContainsFunc(files, says) {
		out = append(out, "it does not say what the package is")
	}
	run := func(e *doc.Example) bool { return e.Output != "" || e.EmptyOutput }
	if !slices.ContainsFunc(doc.Examples(files...), run) {
		out = append(out, "it has no Example that is run")
	}
	return out
}
