package api_test

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// topLevel is all that stands at the root, besides dotfiles and what is never
// committed: out, which the demo writes, and what go test leaves when it
// profiles.
var topLevel = []string{
	"DEVELOPERS.md", "LICENSE", "Makefile", "README.md", "api", "calc", "cmd", "deploy", "go.mod", "go.sum",
	"openapi.yaml", "service", "spec.go", "testdata",
}

func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		name := e.Name()
		left := name == "out" || name == "cover.out" || path.Ext(name) == ".test" || path.Ext(name) == ".prof"
		if !strings.HasPrefix(name, ".") && !left {
			got = append(got, name)
		}
	}
	slices.Sort(got)
	if !slices.Equal(got, topLevel) {
		t.Errorf("the root holds %q, want %q", got, topLevel)
	}
}

const mostLines = 400

// Files are short enough to be read at one go. Tests and generated code may be
// longer.
func TestFileLength(t *testing.T) {
	read := 0
	eachFile(t, func(name string) {
		if path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return
		}
		text, err := os.ReadFile(filepath.Join(root, name))
		if err != nil {
			t.Fatal(err)
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), name, text, parser.PackageClauseOnly|parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		if ast.IsGenerated(parsed) {
			return
		}
		read++
		if n := bytes.Count(text, []byte("\n")); n > mostLines {
			t.Errorf("%s has %d lines, at most %d", name, n, mostLines)
		}
	})
	if read < 40 {
		t.Errorf("only %d files were read", read)
	}
}

// calc is made of functions of their arguments: nothing runs at start-up or on
// the side, and no package offers a variable but its errors.
func TestCalcIsPure(t *testing.T) {
	read := 0
	eachFile(t, func(name string) {
		if !strings.HasPrefix(name, "calc/") || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return
		}
		read++
		for _, bad := range impurities(t, filepath.Join(root, name), nil) {
			if row := path.Dir(name) == "calc/practice" && strings.HasSuffix(bad, " is exported"); row {
				continue // a row of the one table, which Go has no constant for
			}
			t.Errorf("%s: %s", name, bad)
		}
	})
	if read < 20 {
		t.Errorf("only %d files were read", read)
	}
}

func TestCalcIsPureRefuses(t *testing.T) {
	for _, tc := range []struct {
		source string
		want   []string
	}{
		{`var ErrRange error`, nil},
		{`var table = [3]int{}; const Most = 3`, nil},
		{`func f() { var Local int; _ = Local }`, nil},
		{`type t int; func (t) init() {}`, nil},
		{`var Error error`, []string{"the variable Error is exported"}},
		{`var Table, errRange = 1, 2`, []string{"the variable Table is exported"}},
		{`var ( a int; Most = 3 )`, []string{"the variable Most is exported"}},
		{`func init() {}`, []string{"it has an init"}},
		{`func f() { func() { go f() }() }`, []string{"it starts a goroutine"}},
	} {
		if got := impurities(t, "x.go", "package x\n"+tc.source); !slices.Equal(got, tc.want) {
			t.Errorf("impurities of %q are %q, want %q", tc.source, got, tc.want)
		}
	}
}

// impurities parses a file, or the source when there is one.
func impurities(t *testing.T, file string, source any) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, source, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, d := range parsed.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Name.Name == "init" && d.Recv == nil {
				out = append(out, "it has an init")
			}
		case *ast.GenDecl:
			if d.Tok == token.VAR {
				out = append(out, exported(d)...)
			}
		}
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		if _, ok := n.(*ast.GoStmt); ok {
			out = append(out, "it starts a goroutine")
		}
		return true
	})
	return out
}

// exported lists the variables of a declaration that others see. An error is
// named Err and then what is wrong.
func exported(d *ast.GenDecl) []string {
	var out []string
	for _, s := range d.Specs {
		for _, name := range s.(*ast.ValueSpec).Names {
			after, isErr := strings.CutPrefix(name.Name, "Err")
			if name.IsExported() && (!isErr || !ast.IsExported(after)) {
				out = append(out, fmt.Sprintf("the variable %s is exported", name.Name))
			}
		}
	}
	return out
}
