package note

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// constants are the names of the codes of this package.
func constants(t *testing.T) map[string]Code {
	t.Helper()
	out := make(map[string]Code)
	for _, f := range parsed(t, ".") {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.CONST {
				continue
			}
			for _, s := range g.Specs {
				v := s.(*ast.ValueSpec)
				if typ, ok := v.Type.(*ast.Ident); ok && typ.Name == "Code" {
					out[v.Names[0].Name] = Code(strings.Trim(v.Values[0].(*ast.BasicLit).Value, `"`))
				}
			}
		}
	}
	return out
}

// parsed are the Go files in and below a folder, without tests and generated code.
func parsed(t *testing.T, root string) []*ast.File {
	t.Helper()
	var out []*ast.File
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && path != root && (strings.HasPrefix(d.Name(), ".") || slices.Contains([]string{"node_modules", "testdata", "gen", "deploy"}, d.Name())) {
			return filepath.SkipDir
		}
		if strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
			f, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err != nil {
				return err
			}
			out = append(out, f)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// takes says which constructors fit a use of a parameter.
var takes = map[string][]string{
	"":       {"Name", "Names", "Count", "Decimal", "Percent", "Length", "Exact", "Why"},
	"list":   {"Names"},
	"plural": {"Count", "Percent", "Length"},
	"select": {"Name"},
}

// Every call that makes a note names its code and gives just the parameters of
// its template, each of a kind that the template can use; and every code is used.
// A code that is handed on by itself has no parameters.
func TestCallsMatchTemplates(t *testing.T) {
	codes := constants(t)
	if len(codes) != len(registry) {
		t.Errorf("%d names and %d codes", len(codes), len(registry))
	}
	used := make(map[Code]bool)
	for _, f := range parsed(t, "../..") {
		c := callChecker{t: t, codes: codes, used: used, within: f.Name.Name == "note", of: make(map[ast.Node]bool)}
		ast.Inspect(f, c.visit)
	}
	for c := range registry {
		if !used[c] {
			t.Errorf("nothing says %s", c)
		}
	}
}

type callChecker struct {
	t      *testing.T
	codes  map[string]Code
	used   map[Code]bool
	within bool              // in this package
	of     map[ast.Node]bool // names of codes that are the first argument of a call
}

// name is what an expression names of this package; "" when it does not.
func (c *callChecker) name(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.SelectorExpr:
		if x, ok := e.X.(*ast.Ident); ok && x.Name == "note" {
			return e.Sel.Name
		}
	case *ast.IndexExpr:
		return c.name(e.X)
	case *ast.Ident:
		if c.within {
			return e.Name
		}
	}
	return ""
}

func (c *callChecker) visit(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.CallExpr:
		if c.name(n.Fun) == "New" {
			c.call(n)
		}
	case *ast.SelectorExpr:
		if code, ok := c.codes[c.name(n)]; ok && !c.of[n] {
			c.used[code] = true
			if u := uses(c.t, code, registry[code].template); len(u) > 0 {
				c.t.Errorf("%s has parameters and is handed on without them", code)
			}
		}
	}
	return true
}

func (c *callChecker) call(n *ast.CallExpr) {
	code, ok := c.codes[c.name(n.Args[0])]
	if !ok {
		if len(n.Args) > 1 {
			c.t.Errorf("a call of New with parameters does not name its code: %v", n.Args[0])
		}
		return
	}
	c.used[code], c.of[n.Args[0]] = true, true
	given := make(map[string]string)
	for _, a := range n.Args[1:] {
		p, ok := a.(*ast.CallExpr)
		if !ok || len(p.Args) == 0 {
			c.t.Errorf("%s: a parameter is not made in the call", code)
			return
		}
		lit, ok := p.Args[0].(*ast.BasicLit)
		if !ok {
			c.t.Errorf("%s: a parameter has no name that can be read here", code)
			return
		}
		given[strings.Trim(lit.Value, `"`)] = c.name(p.Fun)
	}
	wanted := make(map[string]bool)
	for _, u := range uses(c.t, code, registry[code].template) {
		wanted[u.name] = true
		if !slices.Contains(takes[u.how], given[u.name]) {
			c.t.Errorf("%s: the template has {%s, %s} and the call gives %q", code, u.name, u.how, given[u.name])
		}
	}
	for name := range given {
		if !wanted[name] {
			c.t.Errorf("%s: the template has no {%s}", code, name)
		}
	}
}
