package api_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"go/types"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// Lengths are rounded in calc/length and nowhere else: not by a whole number made
// of a float64, and not by dividing by a step and multiplying again.
func TestRoundingHasOneHome(t *testing.T) {
	read := 0
	eachFile(t, func(name string) {
		within := strings.HasPrefix(name, "calc/") || strings.HasPrefix(name, "service/") || strings.HasPrefix(name, "api/httpapi/")
		if !within || path.Dir(name) == "calc/length" || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return
		}
		read++
		for _, bad := range roundedByHand(t, filepath.Join(root, name), nil) {
			t.Errorf("%s: %s is rounded by hand: calc/length does that", name, bad)
		}
	})
	if read < 100 {
		t.Errorf("only %d files were read", read)
	}
}

func TestRoundingHasOneHomeRefuses(t *testing.T) {
	for _, tc := range []struct {
		source string
		want   []string
	}{
		{`length.Length(math.Ceil(mm*1e3)) * length.Micrometre`, []string{"length.Length(math.Ceil(mm * 1e3))"}},
		{`length.Length(math.Floor(nm + 0.5))`, []string{"length.Length(math.Floor(nm + 0.5))"}},
		{`length.Length((math.Round(x)))`, []string{"length.Length((math.Round(x)))"}},
		{`length.Length(math.Trunc(x))`, []string{"length.Length(math.Trunc(x))"}},
		{`(l + tenth/2) / tenth * tenth`, []string{"(l + tenth / 2) / tenth * tenth"}},
		{`((l + length.Millimetre - 1) / length.Millimetre) * length.Millimetre`, []string{"((l + length.Millimetre - 1) / length.Millimetre) * length.Millimetre"}},
		{`l / length.Millimetre`, nil},
		{`int(math.Ceil(n))`, nil},
		{`length.Length(n) * length.Micrometre`, nil},
		{`a / b * c`, nil},
		{`length.RoundMM(mm, length.Micrometre, length.Up)`, nil},
	} {
		if got := roundedByHand(t, "x.go", "package x\nvar _ = "+tc.source); !slices.Equal(got, tc.want) {
			t.Errorf("of %s: %q, want %q", tc.source, got, tc.want)
		}
	}
}

// roundedByHand parses a file, or the source when there is one.
func roundedByHand(t *testing.T, file string, source any) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, source, parser.SkipObjectResolution)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	ast.Inspect(parsed, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			if named(n.Fun) != "length.Length" || len(n.Args) != 1 {
				return true
			}
			of, ok := ast.Unparen(n.Args[0]).(*ast.CallExpr)
			if ok && slices.Contains([]string{"math.Ceil", "math.Floor", "math.Round", "math.Trunc", "math.RoundToEven"}, named(of.Fun)) {
				out = append(out, types.ExprString(n))
			}
		case *ast.BinaryExpr:
			by, ok := ast.Unparen(n.X).(*ast.BinaryExpr)
			if ok && n.Op == token.MUL && by.Op == token.QUO && types.ExprString(by.Y) == types.ExprString(n.Y) {
				out = append(out, types.ExprString(n))
			}
		}
		return true
	})
	return out
}
