package check

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/moby/buildkit/frontend/dockerfile/instructions"
	"github.com/moby/buildkit/frontend/dockerfile/parser"
)

// stages are those of the Containerfile.
func stages(t *testing.T) []instructions.Stage {
	t.Helper()
	file, err := os.Open("../Containerfile")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	parsed, err := parser.Parse(file)
	if err != nil {
		t.Fatal(err)
	}
	list, _, err := instructions.Parse(parsed.AST, nil)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// The image is a binary on nothing, run by nobody, and what is copied is there.
func TestContainerfile(t *testing.T) {
	list := stages(t)
	last := list[len(list)-1]
	if len(list) != 2 || last.BaseName != "scratch" {
		t.Fatalf("%d stages, the last from %q", len(list), last.BaseName)
	}
	seen := map[string]string{}
	for _, c := range last.Commands {
		switch c := c.(type) {
		case *instructions.UserCommand:
			seen["user"] = c.User
		case *instructions.EntrypointCommand:
			seen["entrypoint"] = strings.Join(c.CmdLine, " ")
		case *instructions.CmdCommand:
			seen["cmd"] = strings.Join(c.CmdLine, " ")
		case *instructions.ExposeCommand:
			seen["expose"] = strings.Join(c.Ports, " ")
		case *instructions.RunCommand:
			t.Error("there is nothing to run in scratch")
		case *instructions.CopyCommand:
			for _, from := range c.SourcePaths {
				if name, ok := strings.CutPrefix(from, "/src/"); ok {
					if _, err := os.Stat(filepath.Join("..", "..", name)); err != nil {
						t.Error(err)
					}
				}
			}
		}
	}
	for what, want := range map[string]string{"user": "65532:65532", "entrypoint": "/bridletie", "cmd": "serve", "expose": "8080 9090"} {
		if seen[what] != want {
			t.Errorf("%s is %q, want %q", what, seen[what], want)
		}
	}
}

// buildLine is the line that builds the binary, and the environment it is run in.
func buildLine(t *testing.T) (args, env []string) {
	t.Helper()
	for _, c := range stages(t)[0].Commands {
		switch c := c.(type) {
		case *instructions.EnvCommand:
			for _, e := range c.Env {
				env = append(env, e.Key+"="+e.Value)
			}
		case *instructions.RunCommand:
			if line := strings.Join(c.CmdLine, " "); strings.HasPrefix(line, "go build") {
				args = strings.Fields(strings.ReplaceAll(strings.ReplaceAll(line, `"-s -w -buildid="`, "-s\x00-w\x00-buildid="), `"`, ""))
			}
		}
	}
	for i, a := range args {
		args[i] = strings.ReplaceAll(a, "\x00", " ")
	}
	if len(args) == 0 || !slices.Contains(args, "-trimpath") || !slices.Contains(args, "-buildvcs=false") {
		t.Fatalf("the build line is %q", args)
	}
	return args, env
}

// The build line gives the same bytes in another folder, and, where there is time
// for it (BRIDLETIE_REPRODUCE), with nothing kept from the first build; and the
// binary is static.
func TestBuildIsReproducible(t *testing.T) {
	args, env := buildLine(t)
	var binaries [2][]byte
	for i := range binaries {
		dir := t.TempDir()
		source := filepath.Join(dir, "source")
		if out, err := exec.Command("git", "-C", "../..", "checkout-index", "-a", "--prefix="+source+"/").CombinedOutput(); err != nil {
			t.Fatalf("no checkout to build from: %v: %s", err, out)
		}
		to := filepath.Join(dir, "bridletie")
		line := slices.Clone(args[1:])
		line[slices.Index(line, "-o")+1] = to
		build := exec.Command("go", line...)
		build.Dir = source
		build.Env = append(os.Environ(), env...)
		if i == 1 && os.Getenv("BRIDLETIE_REPRODUCE") != "" {
			build.Env = append(build.Env, "GOCACHE="+filepath.Join(dir, "cache"))
		}
		if out, err := build.CombinedOutput(); err != nil {
			t.Fatalf("%q: %v: %s", line, err, out)
		}
		var err error
		if binaries[i], err = os.ReadFile(to); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(to, "version").CombinedOutput(); err != nil || !strings.HasPrefix(string(out), "bridletie/") {
			t.Errorf("version: %v: %s", err, out)
		}
		if bytes.Contains(binaries[i], []byte("/lib64/ld-linux")) {
			t.Error("the binary wants a loader")
		}
		if bytes.Contains(binaries[i], []byte(dir)) {
			t.Error("the binary holds the path of its folder")
		}
	}
	if !bytes.Equal(binaries[0], binaries[1]) {
		t.Errorf("two builds differ: %d and %d bytes", len(binaries[0]), len(binaries[1]))
	}
	t.Logf("%d bytes", len(binaries[0]))
}
