package api_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/itchyny/gojq"

	"github.com/bridletie/bridletie/api/httpapi"
)

var update = flag.Bool("update", false, "write the demo picture and what README prints anew")

// address is where README's commands look for the service.
const address = "http://127.0.0.1:8080"

// printed are the blocks of README that show a command and what it prints.
var printed = regexp.MustCompile("(?s)```sh\n(curl [^`]*)```\n\n```json\n([^`]*)```\n")

// pages are README and those of the guide, from the root of the project.
func pages(t *testing.T) []string {
	t.Helper()
	guide, err := filepath.Glob(filepath.Join(root, "api", "web", "guide", "*.md"))
	if err != nil || len(guide) < 15 {
		t.Fatalf("the guide has %d pages: %v", len(guide), err)
	}
	list := []string{"README.md"}
	for _, file := range guide {
		list = append(list, path.Join("api/web/guide", filepath.Base(file)))
	}
	return list
}

// README and the guide show what their commands print. Each is read and answered in
// this process, and what it gives is compared as values, since gojq does not keep the
// order of names. Where a shell, curl and jq are at hand it is run as it stands, and
// compared to the letter.
func TestPagesPrintWhatIsTrue(t *testing.T) {
	server := serve(t)
	for _, name := range pages(t) {
		t.Run(name, func(t *testing.T) {
			printsWhatIsTrue(t, server.URL, filepath.Join(root, filepath.FromSlash(name)))
		})
	}
}

func printsWhatIsTrue(t *testing.T, url, file string) {
	t.Helper()
	text := readFile(t, file)
	var fresh bytes.Buffer
	at := 0
	for _, b := range printed.FindAllSubmatchIndex(text, -1) {
		command, want := string(text[b[2]:b[3]]), string(text[b[4]:b[5]])
		got := answerTo(t, url, command)
		same := reflect.DeepEqual(decoded(t, got), decoded(t, want))
		if shell, ok := runInShell(t, url, command); ok {
			if !reflect.DeepEqual(decoded(t, shell), decoded(t, got)) {
				t.Errorf("the shell's answer to\n%s\nis\n%s\nand not\n%s", command, shell, got)
			}
			got, same = shell, shell == want
		} else if same {
			got = want
		}
		if !same && !*update {
			t.Errorf("the command\n%s\nprints\n%s\nand not\n%s\nlook at it, then use -update", command, got, want)
		}
		fresh.Write(text[at:b[4]])
		fresh.WriteString(got)
		at = b[5]
	}
	fresh.Write(text[at:])
	if *update {
		writeFile(t, file, fresh.Bytes())
	}
}

// Each page shows a command that the test above runs, but for those that are about
// none.
func TestGuideShowsCommands(t *testing.T) {
	without := []string{"index", "library", "running", "limits", "lengths", "element"}
	for _, name := range pages(t) {
		shows := printed.Match(readFile(t, filepath.Join(root, filepath.FromSlash(name))))
		if slices.Contains(without, strings.TrimSuffix(path.Base(name), ".md")) == shows {
			t.Errorf("%s shows a command and what it prints: %v", name, shows)
		}
	}
}

// The picture in README is what the engine draws now.
func TestDemoPicture(t *testing.T) {
	job := readFile(t, filepath.Join(root, "testdata", "jobs", "wing-chair.json"))
	got := post(t, serve(t).URL+"/v1/yardage", job, http.Header{"Content-Type": {"application/json"}, "Accept": {"image/svg+xml"}})
	file := filepath.Join(root, "testdata", "demo", "wing-chair.svg")
	if *update {
		writeFile(t, file, got)
		return
	}
	if want := readFile(t, file); !bytes.Equal(got, want) {
		t.Errorf("%s (%d bytes) is not what is drawn now (%d bytes); look at it, then use -update", file, len(want), len(got))
	}
}

// serve starts the service as it is in use.
func serve(t *testing.T) *httptest.Server {
	t.Helper()
	s, err := httpapi.New(httpapi.DefaultOptions())
	if err != nil {
		t.Fatal(err)
	}
	server := httptest.NewServer(s.Handler())
	t.Cleanup(server.Close)
	return server
}

func post(t *testing.T, url string, body []byte, header http.Header) []byte {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodPost, url, bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	r.Header = header
	w, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = w.Body.Close() }()
	answer, err := io.ReadAll(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// answerTo sends what the curl commands ask and prints what they do: each curl is
// followed by a jq, and what that prints is at hand for the next.
func answerTo(t *testing.T, url, command string) string {
	t.Helper()
	var stages [][]string
	for _, w := range shellWords(command) {
		if w == "|" {
			stages = append(stages, nil)
			continue
		}
		if stages == nil {
			stages = [][]string{nil}
		}
		stages[len(stages)-1] = append(stages[len(stages)-1], w)
	}
	var out string
	for i, words := range stages {
		switch {
		case words[0] == "curl" && i+1 < len(stages):
			out = string(curled(t, url, words, out))
		case words[0] == "jq":
			out = filtered(t, words[1:], out)
		default:
			t.Fatalf("%q: this test does not know %q, or it does not end in jq", command, words)
		}
	}
	return out
}

// curled is what a curl command gets; piped is what comes to it.
func curled(t *testing.T, url string, words []string, piped string) []byte {
	t.Helper()
	var path string
	var body []byte
	header := http.Header{}
	for i := 1; i < len(words); i++ {
		switch w := words[i]; {
		case w == "-s":
		case w == "-H":
			i++
			name, value, _ := strings.Cut(words[i], ": ")
			header.Set(name, value)
		case w == "--data-binary" && words[i+1] == "@-":
			i++
			body = []byte(piped)
		case w == "--data-binary" && strings.HasPrefix(words[i+1], "@"):
			i++
			body = readFile(t, filepath.Join(root, words[i][1:]))
		case w == "--data-binary":
			i++
			body = []byte(words[i])
		case strings.HasPrefix(w, address):
			path = strings.TrimPrefix(w, address)
		default:
			t.Fatalf("this test does not know %q of curl", w)
		}
	}
	return post(t, url+path, body, header)
}

// filtered is what jq prints. With -s it reads a file and what is piped as one list.
func filtered(t *testing.T, words []string, piped string) string {
	t.Helper()
	var values []any
	compact := false
	switch words[0] {
	case "-c":
		compact, words = true, words[1:]
		values = decoded(t, piped)
	case "-s":
		if len(words) != 4 || words[3] != "-" {
			t.Fatalf("this test does not know jq %q", words)
		}
		values = []any{slices.Concat(decoded(t, string(readFile(t, filepath.Join(root, words[2])))), decoded(t, piped))}
		words = words[1:2]
	default:
		values = decoded(t, piped)
	}
	if len(words) != 1 {
		t.Fatalf("this test does not know jq %q", words)
	}
	query, err := gojq.Parse(words[0])
	if err != nil {
		t.Fatalf("jq %q: %v", words[0], err)
	}
	var out bytes.Buffer
	for _, v := range values {
		for results := query.Run(v); ; {
			got, more := results.Next()
			if !more {
				break
			}
			if err, failed := got.(error); failed {
				t.Fatalf("jq %q: %v", words[0], err)
			}
			printJSON(t, &out, got, compact)
		}
	}
	return out.String()
}

// decoded are the JSON values of a text.
func decoded(t *testing.T, text string) []any {
	t.Helper()
	var list []any
	for d := json.NewDecoder(strings.NewReader(text)); ; {
		var v any
		if err := d.Decode(&v); errors.Is(err, io.EOF) {
			return list
		} else if err != nil {
			t.Fatal(err)
		}
		list = append(list, v)
	}
}

// printJSON prints a value as jq does.
func printJSON(t *testing.T, out *bytes.Buffer, v any, compact bool) {
	t.Helper()
	text, err := gojq.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	if compact {
		out.Write(text)
	} else if err := json.Indent(out, text, "", "  "); err != nil {
		t.Fatal(err)
	}
	out.WriteString("\n")
}

// runInShell runs the command with another address; false when the programs
// that it needs are not there.
func runInShell(t *testing.T, url, command string) (string, bool) {
	t.Helper()
	for _, program := range []string{"sh", "curl", "jq"} {
		if _, err := exec.LookPath(program); err != nil {
			if os.Getenv("CI") != "" {
				t.Fatal(err)
			}
			t.Logf("not run in a shell: %v", err)
			return "", false
		}
	}
	c := exec.CommandContext(t.Context(), "sh", "-c", strings.ReplaceAll(command, address, url))
	c.Dir = root
	out, err := c.Output()
	if err != nil {
		t.Errorf("%s\n%v", command, err)
	}
	return string(out), true
}

// shellWords splits a command as a shell does, as far as the pages need it:
// single quotes, and a backslash before the end of a line.
func shellWords(command string) []string {
	var words []string
	var word strings.Builder
	quoted, begun := false, false
	for _, r := range strings.ReplaceAll(command, "\\\n", " ") {
		switch {
		case r == '\'':
			quoted, begun = !quoted, true
		case !quoted && (r == ' ' || r == '\n'):
			if begun {
				words = append(words, word.String())
			}
			word.Reset()
			begun = false
		default:
			word.WriteRune(r)
			begun = true
		}
	}
	return words
}

func readFile(t *testing.T, file string) []byte {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func writeFile(t *testing.T, file string, text []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, text, 0o644); err != nil {
		t.Fatal(err)
	}
}
