package api_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const module = "github.com/bridletie/bridletie"

// layer says what the Go files of a folder may import. Imports go one way:
// api, then service, then calc. Never widen a row to mend a build: move the
// code to where it belongs.
type layer struct {
	dir string   // the folder, or with a closing /... everything in and below it
	std []string // packages of the standard library
	own []string // packages of this module, by folder
	use []string // packages of this module that only tests may import
	ext []string // other modules, with all their packages
}

// pure are packages without input, output, clock or shared state.
var pure = []string{
	"bytes", "cmp", "encoding/binary", "errors", "fmt", "hash/fnv", "iter", "maps", "math", "math/big", "math/bits",
	"slices", "sort", "strconv", "strings", "unicode", "unicode/utf16", "unicode/utf8",
}

const (
	echo       = "github.com/labstack/echo"
	kin        = "github.com/getkin/kin-openapi"
	runtime    = "github.com/oapi-codegen/runtime"
	prometheus = "github.com/prometheus/client_golang"
	otel       = "go.opentelemetry.io/otel"
)

// layers is the policy; the first row that matches a folder holds. calc has no
// clock, no context and no log, so that an answer depends on the request alone.
var layers = []layer{
	{dir: "", std: []string{"embed"}},
	// calc itself is its documentation, whose example goes through several packages.
	{dir: "calc", use: []string{"calc/..."}},
	{dir: "calc/length", std: pure},
	{dir: "calc/note", std: pure, own: []string{"calc/length"}},
	{dir: "calc/fault", std: pure, own: []string{"calc/length"}},
	{dir: "calc/geom", std: pure, own: []string{"calc/length"}},
	{dir: "calc/cloth", std: pure, own: []string{"calc/length", "calc/fault"}},
	{dir: "calc/panel", std: pure, own: []string{"calc/length", "calc/geom", "calc/fault", "calc/cloth"}},
	{dir: "calc/layout", std: pure, own: []string{"calc/length", "calc/cloth", "calc/panel"}},
	// verify knows the job and the layouts, and nothing of how a plan is found.
	{dir: "calc/verify", std: pure, own: []string{"calc/length", "calc/cloth", "calc/panel", "calc/layout"}},
	// plan searches with numbers seeded from the job. It does not ask the verifier what will pass: only its tests do.
	{dir: "calc/plan", std: with(pure, "math/rand/v2"), own: []string{"calc/length", "calc/fault", "calc/note", "calc/cloth", "calc/panel", "calc/layout"},
		use: []string{"calc/verify"}},
	{dir: "calc/furniture", std: pure, own: []string{"calc/length", "calc/fault", "calc/note", "calc/cloth", "calc/panel", "calc/practice"}},
	{dir: "calc/calendar", std: pure},
	// money counts in decimals, and knows the minor units of ISO 4217.
	{dir: "calc/money", std: pure, own: []string{"calc/length"}, ext: []string{"github.com/shopspring/decimal"}},
	{dir: "calc/costing", std: pure, own: []string{"calc/fault", "calc/money", "calc/calendar", "calc/practice"}, ext: []string{"github.com/shopspring/decimal"}},
	{dir: "calc/buttoning", std: pure, own: []string{"calc/length", "calc/geom", "calc/fault", "calc/cloth", "calc/panel", "calc/practice"}},
	{dir: "calc/piping", std: pure, own: []string{"calc/length", "calc/geom", "calc/practice"}},
	{dir: "calc/repeat", std: pure, own: []string{"calc/length", "calc/fault", "calc/cloth"}},
	{dir: "calc/relief", std: pure, own: []string{"calc/length", "calc/geom", "calc/cloth", "calc/panel", "calc/practice"}},
	{dir: "calc/pleat", std: pure, own: []string{"calc/length", "calc/geom", "calc/practice"}},
	{dir: "calc/practice", std: pure, own: []string{"calc/length", "calc/fault"}},
	{dir: "calc/wadding", std: pure, own: []string{"calc/length", "calc/geom", "calc/fault", "calc/panel", "calc/practice"}},
	{dir: "calc/foundation", std: pure, own: []string{"calc/length", "calc/geom", "calc/fault", "calc/panel", "calc/practice"}},
	// fire reads its rules, which are embedded in the program as text, with the JSON decoder; no file is opened.
	{dir: "calc/fire", std: with(pure, "embed", "encoding/json", "regexp"), own: []string{"calc/length", "calc/calendar"}},
	// sheet draws its random changes from numbers seeded by the job.
	{dir: "calc/sheet", std: with(pure, "math/rand/v2"), own: []string{"calc/length"}},
	// foam nests its layers on sheets.
	{dir: "calc/foam", std: pure, own: []string{"calc/length", "calc/geom", "calc/fault", "calc/sheet", "calc/money", "calc/practice"}, ext: []string{"github.com/shopspring/decimal"}},
	// service does independent parts side by side.
	{dir: "service", std: with(pure, "context", "sync", "sync/atomic"), own: []string{"calc/..."}, ext: []string{"github.com/shopspring/decimal"}},
	// what is bought, and the job sheet made up of all answers, stand on the single answers.
	{dir: "service/buying", std: pure, own: []string{"calc/...", "service"}, ext: []string{"github.com/shopspring/decimal"}},
	{dir: "service/job", std: with(pure, "context"), own: []string{"calc/...", "service", "service/buying"}},
	// drawing embeds a font, and says a date that is always the same in its PDF.
	{dir: "service/drawing", std: with(pure, "sync", "time"), own: []string{"calc/...", "service", "service/buying", "service/job"}, ext: []string{"codeberg.org/go-pdf/fpdf", "golang.org/x/image/font", "github.com/shopspring/decimal"}},
	{dir: "api/gen", std: []string{"..."}, ext: []string{echo, runtime}},
	// strictjson puts values into wire forms, as encoding/json does.
	{dir: "api/strictjson", std: with(pure, "encoding/json", "reflect", "sync")},
	{dir: "api/web", std: []string{"..."}, ext: []string{"github.com/swaggest/swgui/v5/static", "github.com/yuin/goldmark"}},
	{dir: "api/admit", std: with(pure, "context", "sync", "sync/atomic", "time"), ext: []string{"github.com/maypok86/otter", "golang.org/x/time/rate"}},
	{dir: "api/reuse", std: with(pure, "context", "sync"), ext: []string{"github.com/maypok86/otter"}},
	{dir: "api/keyring", std: with(pure, "bufio", "crypto/rand", "crypto/sha256", "crypto/subtle", "encoding/base64", "encoding/hex", "io")},
	// formats reads the strings of the contract that are more than text.
	{dir: "api/formats", std: with(pure, "net/url"), own: []string{"calc/length", "calc/fault", "calc/cloth", "calc/calendar"}},
	// contract says what is asked and in which form, not what is answered: it names methods, and sends nothing.
	{dir: "api/contract", std: with(pure, "context", "crypto/sha256", "encoding/hex", "encoding/json", "io/fs", "net/http", "net/url", "regexp", "sync"), own: []string{"", "calc/fault", "api/formats", "api/strictjson"}, ext: []string{kin}},
	// wire translates, and knows nothing of how a request comes or an answer is sent.
	{dir: "api/wire", std: with(pure, "net/url"), own: []string{"calc/...", "service/...", "api/gen", "api/formats"}, ext: []string{"github.com/shopspring/decimal"}},
	// httpapi asks the contract, not the validator, and leaves translation to wire.
	{dir: "api/httpapi", std: []string{"..."}, own: []string{"calc/...", "service/...", "api/gen", "api/formats", "api/contract", "api/wire", "api/strictjson", "api/admit", "api/keyring", "api/reuse", "api/web"}, ext: []string{echo, prometheus, otel + "/attribute", otel + "/codes", otel + "/propagation", otel + "/trace"}},
	// tracing is the one package that makes connections, where the operator says so.
	{dir: "api/tracing", std: []string{"context", "fmt", "net/url", "time"}, ext: []string{otel}},
	// the tests of what lies in deploy, and what lists licences, are a module of their own.
	{dir: "deploy/check/...", std: []string{"..."}, ext: []string{"k8s.io", "sigs.k8s.io", "github.com/moby/buildkit"}},
	{dir: "api", std: []string{"..."}, own: []string{"..."}},
	{dir: "cmd/...", std: []string{"..."}, own: []string{"service", "api/httpapi", "api/admit", "api/keyring", "api/tracing"}, ext: []string{"golang.org/x/net/netutil"}},
}

// inTests is what a test may import on top of what its layer may.
var inTests = layer{std: []string{"..."}, ext: []string{otel, "pgregory.net/rapid", "github.com/stretchr/testify", "github.com/itchyny/gojq", "gonum.org/v1/gonum", "github.com/paulmach/orb", "go.yaml.in/yaml/v4"}}

func with(list []string, more ...string) []string { return append(slices.Clone(list), more...) }

// goFile is what the policy looks at.
type goFile struct {
	path    string // from the root of the project, with slashes
	imports []string
}

func TestLayers(t *testing.T) {
	used := make(map[string]bool)
	for _, f := range goFiles(t) {
		l, ok := layerOf(f.path)
		if !ok {
			t.Errorf("%s: its folder has no layer: give it one in this test", f.path)
			continue
		}
		used[l.dir] = true
		for _, bad := range refused(f) {
			t.Errorf("%s: must not import %s", f.path, bad)
		}
	}
	for _, l := range layers {
		if !used[l.dir] {
			t.Errorf("the layer %q has no files: did its folder move?", l.dir)
		}
	}
}

// The policy bites: what must be let through, and what must not.
func TestLayersRefuse(t *testing.T) {
	for _, tc := range []struct {
		file, imports string
		ok            bool
	}{
		{"spec.go", "embed", true},
		{"spec.go", "fmt", false},
		{"spec.go", module + "/calc/length", false},
		{"calc/length/x.go", "math/bits", true},
		{"calc/length/x.go", "math/rand", false},
		{"calc/length/x.go", "math/rand/v2", false},
		{"calc/length/x.go", module + "/calc/fault", false},
		{"calc/plan/x.go", "math/rand/v2", true},
		{"calc/plan/x.go", "math/rand", false},
		{"calc/plan/x.go", "time", false},
		{"calc/plan/x.go", "context", false},
		{"calc/plan/x.go", "sync", false},
		{"calc/plan/x.go", "sync/atomic", false},
		{"calc/plan/x.go", "log/slog", false},
		{"calc/plan/x.go", "os", false},
		{"calc/plan/x.go", "net/http", false},
		{"calc/plan/x.go", "unsafe", false},
		{"calc/plan/x.go", "C", false},
		{"calc/plan/x.go", module + "/calc/panel", true},
		{"calc/plan/x.go", module + "/service", false},
		{"calc/plan/x.go", module + "/api/gen", false},
		{"calc/plan/x.go", "pgregory.net/rapid", false},
		{"calc/plan/x_test.go", "pgregory.net/rapid", true},
		{"calc/plan/x_test.go", "os", true},
		{"calc/plan/x_test.go", module + "/calc/plan", true},
		{"calc/plan/x_test.go", module + "/service", false},
		{"calc/plan/x_test.go", kin + "/openapi3", false},
		{"calc/panel/x.go", module + "/calc/plan", false},
		{"calc/plan/x.go", module + "/calc/layout", true},
		{"calc/plan/x.go", module + "/calc/verify", false},
		{"calc/plan/x_test.go", module + "/calc/verify", true},
		{"calc/verify/x.go", module + "/calc/layout", true},
		{"calc/verify/x.go", module + "/calc/plan", false},
		{"calc/verify/x.go", module + "/calc/sheet", false},
		{"calc/verify/x.go", "math/rand/v2", false},
		{"calc/verify/x_test.go", module + "/calc/verify", true},
		{"calc/verify/x_test.go", module + "/calc/plan", false},
		{"calc/layout/x.go", module + "/calc/plan", false},
		{"calc/layout/x.go", module + "/calc/verify", false},
		{"service/x.go", module + "/calc/verify", true},
		{"service/x.go", "context", true},
		{"service/x.go", "time", false},
		{"service/x.go", module + "/calc/plan", true},
		{"service/x.go", module + "/service/drawing", false},
		{"service/x.go", module + "/service/job", false},
		{"service/x.go", module + "/service/buying", false},
		{"service/buying/x.go", module + "/service", true},
		{"service/buying/x.go", module + "/service/job", false},
		{"service/buying/x.go", "context", false},
		{"service/job/x.go", module + "/service/buying", true},
		{"service/job/x.go", module + "/service/drawing", false},
		{"service/job/x.go", "sync", false},
		{"service/job/deeper/x.go", "fmt", false},
		{"calc/fire/x.go", "embed", true},
		{"calc/fire/x.go", "os", false},
		{"calc/fire/x.go", "time", false},
		{"service/x.go", module + "/api/gen", false},
		{"service/x.go", kin + "/openapi3", false},
		{"service/drawing/x.go", module + "/service", true},
		{"service/drawing/x.go", module + "/service/job", true},
		{"service/drawing/x.go", module + "/api/gen", false},
		{"service/drawing/x.go", "context", false},
		{"service/drawing/x.go", echo + "/v4", false},
		{"api/httpapi/x.go", echo + "/v4", true},
		{"api/httpapi/x.go", echo + "er/v4", false},
		{"api/httpapi/x.go", module, false},
		{"api/httpapi/x.go", kin + "/openapi3", false},
		{"api/httpapi/x_test.go", kin + "/openapi3", true},
		{"api/httpapi/x.go", module + "/api/contract", true},
		{"api/httpapi/x.go", module + "/api/wire", true},
		{"api/httpapi/x.go", module + "/service/drawing", true},
		{"api/httpapi/x.go", module + "/cmd/bridletie", false},
		{"api/formats/x.go", module + "/calc/cloth", true},
		{"api/formats/x.go", module + "/service", false},
		{"api/formats/x.go", kin + "/openapi3", false},
		{"api/contract/x.go", kin + "/openapi3", true},
		{"api/contract/x.go", module + "/calc/fault", true},
		{"api/contract/x.go", module + "/service", false},
		{"api/contract/x.go", module + "/api/gen", false},
		{"api/contract/x.go", module + "/api/wire", false},
		{"api/contract/x.go", module + "/api/httpapi", false},
		{"api/contract/x.go", echo + "/v4", false},
		{"api/wire/x.go", module + "/api/gen", true},
		{"api/wire/x.go", module + "/service", true},
		{"api/wire/x.go", "net/http", false},
		{"api/wire/x.go", "context", false},
		{"api/wire/x.go", "encoding/json", false},
		{"api/wire/x.go", echo + "/v4", false},
		{"api/wire/x.go", kin + "/openapi3", false},
		{"api/wire/x.go", module + "/api/contract", false},
		{"api/wire/x.go", module + "/api/httpapi", false},
		{"api/strictjson/x.go", "net/http", false},
		{"api/strictjson/x.go", module + "/calc/length", false},
		{"api/gen/x.go", module + "/service", false},
		{"cmd/bridletie/x.go", "os/signal", true},
		{"cmd/bridletie/x.go", echo + "/v4", false},
		{"cmd/bridletie/x.go", module + "/service/drawing", false},
		{"cmd/bridletie/x.go", module + "/calc/plan", false},
		{"somewhere/x.go", "fmt", false},
		{"calc/x.go", "fmt", false},
		{"calc/x.go", module + "/calc/plan", false},
		{"calc/x_test.go", module + "/calc/plan", true},
		{"calc/x_test.go", module + "/service", false},
		{"api/httpapi/deeper/x.go", "fmt", false},
	} {
		got := len(refused(goFile{tc.file, []string{tc.imports}})) == 0
		if got != tc.ok {
			t.Errorf("%s importing %q: allowed is %v, want %v", tc.file, tc.imports, got, tc.ok)
		}
	}
}

// refused lists the imports that the layer of a file does not have; all of them
// where its folder has no layer.
func refused(f goFile) []string {
	l, ok := layerOf(f.path)
	if !ok {
		return f.imports
	}
	var out []string
	for _, name := range f.imports {
		allowed := l.allows(name)
		if strings.HasSuffix(f.path, "_test.go") {
			allowed = allowed || inTests.allows(name) || layer{own: l.use}.allows(name) ||
				name == path.Join(module, path.Dir(f.path)) || strings.HasPrefix(f.path, "api/") && inTestsOfAPI(name)
		}
		if !allowed {
			out = append(out, name)
		}
	}
	return out
}

// inTestsOfAPI lets the tests of the api use all of its own packages and the
// contract.
func inTestsOfAPI(name string) bool {
	return layer{own: []string{"", "api/...", "service/..."}, ext: []string{kin}}.allows(name)
}

func layerOf(file string) (layer, bool) {
	dir := path.Dir(file)
	if dir == "." {
		dir = ""
	}
	for _, l := range layers {
		if matches(l.dir, dir) {
			return l, true
		}
	}
	return layer{}, false
}

// allows reports whether a row has an import. "unsafe" and "C" are in no row.
func (l layer) allows(name string) bool {
	if name == "unsafe" || name == "C" {
		return false
	}
	if own, ok := strings.CutPrefix(name+"/", module+"/"); ok {
		return slices.ContainsFunc(l.own, func(p string) bool { return matches(p, strings.TrimSuffix(own, "/")) })
	}
	if first, _, _ := strings.Cut(name, "/"); strings.Contains(first, ".") {
		return slices.ContainsFunc(l.ext, func(p string) bool { return strings.HasPrefix(name+"/", p+"/") })
	}
	return slices.ContainsFunc(l.std, func(p string) bool { return matches(p, name) })
}

// matches reports whether a folder is that of the pattern, or below it when the
// pattern ends in "...".
func matches(pattern, dir string) bool {
	above, below := strings.CutSuffix(pattern, "...")
	if below {
		return strings.HasPrefix(dir+"/", above)
	}
	return dir == pattern
}

// root is the project's, seen from this folder.
const root = ".."

// goFiles reads the imports of every Go file in this process, so that the test
// cache sees which files the answer depends on.
func goFiles(t *testing.T) []goFile {
	t.Helper()
	var out []goFile
	eachFile(t, func(name string) {
		if path.Ext(name) != ".go" {
			return
		}
		parsed, err := parser.ParseFile(token.NewFileSet(), filepath.Join(root, name), nil, parser.ImportsOnly)
		if err != nil {
			t.Fatal(err)
		}
		f := goFile{path: name}
		for _, i := range parsed.Imports {
			imported, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				t.Fatal(err)
			}
			f.imports = append(f.imports, imported)
		}
		out = append(out, f)
	})
	return out
}

// eachFile calls f for every file of the project, but for what dotfiles, out
// and testdata hold.
func eachFile(t *testing.T, f func(name string)) {
	t.Helper()
	err := filepath.WalkDir(root, func(at string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		name, err := filepath.Rel(root, at)
		if err != nil {
			return err
		}
		name = filepath.ToSlash(name)
		if d.IsDir() {
			hidden := name != "." && strings.HasPrefix(d.Name(), ".")
			if hidden || name == "out" || d.Name() == "testdata" || d.Name() == "node_modules" {
				return fs.SkipDir
			}
			return nil
		}
		f(name)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
