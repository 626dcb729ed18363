package api_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// No plan leaves the service unverified: what asks the engine puts the plan to
// the verifier, by the one function that does so.
func TestEveryPlanIsVerified(t *testing.T) {
	asked, verifies := 0, false
	eachFile(t, func(name string) {
		if !strings.HasPrefix(name, "service/") || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, name), nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		bad, n := unverified(parsed)
		asked += n
		for _, b := range bad {
			t.Errorf("%s: %s", name, b)
		}
		for _, d := range parsed.Decls {
			if f, ok := d.(*ast.FuncDecl); ok && f.Name.Name == "sound" && calls(f)["verify.Check"] {
				verifies = true
			}
		}
	})
	if asked < 3 || !verifies {
		t.Errorf("%d functions ask the engine, and sound asks the verifier: %v", asked, verifies)
	}
}

func TestEveryPlanIsVerifiedRefuses(t *testing.T) {
	for _, tc := range []struct {
		source string
		want   []string
	}{
		{`func f() error { r := plan.Solve(job, 0, nil); return sound(job, r.Cut...) }`, nil},
		{`func f() plan.Result { return plan.Solve(job, 0, nil) }`, []string{"f asks the engine and not the verifier"}},
		{`func (j *job) f() { func() { j.h = plan.SolvePieces(j.job, nil, 0, nil) }() }`, []string{"f asks the engine and not the verifier"}},
		{`var solve = plan.Solve`, []string{"the engine is handed on and not called"}},
		{`func f() { g(plan.Solve); sound(job) }`, []string{"the engine is handed on and not called"}},
		{`func f() { plan.Sound(job) }`, nil},
		{`func f() { foam.Solve(job, nil); piping.Solve(job) }`, nil},
		{`func f(p *plan.Prepared) plan.Result { return p.Solve(0, nil) }`, []string{"f asks the engine and not the verifier"}},
		{`func (r ready) f() plan.Result { return r.of.prepared.Solve(0, nil) }`, []string{"f asks the engine and not the verifier"}},
		{`func (r ready) f() error { return sound(r.job, r.prepared.Solve(0, nil).Cut...) }`, nil},
	} {
		parsed, err := parser.ParseFile(token.NewFileSet(), "x.go", "package x\n"+tc.source, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := unverified(parsed); !slices.Equal(got, tc.want) {
			t.Errorf("of %q: %q, want %q", tc.source, got, tc.want)
		}
	}
}

// unverified lists what asks the engine for a plan without the verifier, and
// says how many functions ask.
func unverified(file *ast.File) (bad []string, asked int) {
	all, called := 0, 0
	ast.Inspect(file, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok && asksEngine(named(s)) {
			all++
		}
		if c, ok := n.(*ast.CallExpr); ok && asksEngine(named(c.Fun)) {
			called++
		}
		return true
	})
	for _, d := range file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok {
			continue
		}
		made := calls(f)
		for name := range made {
			if asksEngine(name) {
				asked++
				if !made["sound"] {
					bad = append(bad, fmt.Sprintf("%s asks the engine and not the verifier", f.Name.Name))
				}
			}
		}
	}
	if all > called {
		bad = append(bad, "the engine is handed on and not called")
	}
	return bad, asked
}

// asksEngine reports whether a name is that of a way into the plan engine: a
// function of package plan, or a method of what it prepared.
func asksEngine(name string) bool {
	of, call, _ := strings.Cut(name, ".")
	return strings.HasPrefix(call, "Solve") && of != "foam" && of != "piping"
}

// calls are the names of what a function calls.
func calls(f *ast.FuncDecl) map[string]bool {
	made := make(map[string]bool)
	ast.Inspect(f, func(n ast.Node) bool {
		if c, ok := n.(*ast.CallExpr); ok {
			made[named(c.Fun)] = true
		}
		return true
	})
	return made
}

// named is a plain name, or one of a package or of a value, "x.Name", however the
// value is reached; "" for anything else.
func named(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		if x, ok := e.X.(*ast.Ident); ok {
			return x.Name + "." + e.Sel.Name
		}
		return "value." + e.Sel.Name
	}
	return ""
}
