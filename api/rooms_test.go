package api_test

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// What is generated is types and routes. A server of response objects, of which few
// are ever used, is three times as long.
func TestGeneratedIsTypesAndRoutes(t *testing.T) {
	file := filepath.Join(root, "api", "gen", "gen.gen.go")
	text := readFile(t, file)
	for _, name := range unwanted(t, file, text) {
		t.Errorf("%s declares %s: see api/gen/config.yaml", file, name)
	}
	const most = 7200
	if n := bytes.Count(text, []byte("\n")); n > most {
		t.Errorf("%s has %d lines, at most %d", file, n, most)
	}
}

func TestGeneratedRefuses(t *testing.T) {
	for source, want := range map[string][]string{
		`type Units string`: nil,
		`func (e Units) Invalid() bool { return false }`:               nil,
		`type ResponseObjects int; func visit() {}`:                    nil,
		`func (e Units) Valid() bool { return true }`:                  {"Valid"},
		`type LivezResponseObject interface { VisitLivez() error }`:    {"LivezResponseObject", "VisitLivez"},
		`type Livez200 struct{}; func (Livez200) VisitLivez() {}`:      {"VisitLivez"},
		`type LivezRequestObject struct{}`:                             {"LivezRequestObject"},
		`type StrictServerInterface interface{ Livez() error }`:        {"StrictServerInterface"},
		`func NewStrictHandler() {}; var StrictHandlerFunc = func(){}`: {"NewStrictHandler", "StrictHandlerFunc"},
	} {
		if got := unwanted(t, "x.go", []byte("package x\n"+source)); !slices.Equal(got, want) {
			t.Errorf("unwanted in %q are %q, want %q", source, got, want)
		}
	}
}

// unwanted are the names of what a file declares and generated code must not.
func unwanted(t *testing.T, file string, text []byte) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, text, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	look := func(name *ast.Ident) {
		n := name.Name
		if n == "Valid" || strings.HasPrefix(n, "Visit") || strings.Contains(n, "Strict") ||
			strings.HasSuffix(n, "ResponseObject") || strings.HasSuffix(n, "RequestObject") {
			out = append(out, n)
		}
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.FuncDecl:
			look(n.Name)
		case *ast.TypeSpec:
			look(n.Name)
		case *ast.ValueSpec:
			for _, name := range n.Names {
				look(name)
			}
		case *ast.InterfaceType:
			for _, m := range n.Methods.List {
				for _, name := range m.Names {
					look(name)
				}
			}
		}
		return true
	})
	return out
}

// One file knows which router finds the operation of a request, so that another
// router is one small step.
func TestEchoIsInOneFile(t *testing.T) {
	if got, want := importers(goFiles(t), echo), []string{"api/gen/gen.gen.go", "api/httpapi/echo.go"}; !slices.Equal(got, want) {
		t.Errorf("echo is imported by %q, want %q", got, want)
	}
	if got := importers([]goFile{{"a.go", []string{echo + "/v4"}}, {"a_test.go", []string{echo + "/v4"}}, {"b.go", []string{echo + "er/v4"}}}, echo); !slices.Equal(got, []string{"a.go"}) {
		t.Errorf("importers are %q", got)
	}
}

// importers are the files but tests that import a module, in order.
func importers(files []goFile, module string) []string {
	var out []string
	for _, f := range files {
		if !strings.HasSuffix(f.path, "_test.go") && slices.ContainsFunc(f.imports, func(name string) bool { return strings.HasPrefix(name, module+"/") }) {
			out = append(out, f.path)
		}
	}
	slices.Sort(out)
	return out
}
