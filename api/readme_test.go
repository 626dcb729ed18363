package api_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/httpapi"
)

var update = flag.Bool("update", false, "write the demo picture and what README prints anew")

// address is where README's commands look for the service.
const address = "http://127.0.0.1:8080"

// printed are the blocks of README that show a command and what it prints.
var printed = regexp.MustCompile("(?s)```sh\n(curl [^`]*)```\n\n```json\n([^`]*)```\n")

// README shows what its commands print, to the letter. They are read and
// answered in this process, and run as they stand where a shell, curl and jq
// are at hand.
func TestReadmePrintsWhatIsTrue(t *testing.T) {
	server := serve(t)
	file := filepath.Join(root, "README.md")
	text := readFile(t, file)
	blocks := printed.FindAllSubmatchIndex(text, -1)
	if len(blocks) < 3 {
		t.Fatalf("README has %d commands with what they print, want 3 or more", len(blocks))
	}
	var fresh bytes.Buffer
	at := 0
	for _, b := range blocks {
		command, want := string(text[b[2]:b[3]]), string(text[b[4]:b[5]])
		got := answerTo(t, server.URL, command)
		if got != want && !*update {
			t.Errorf("README's command\n%s\nprints\n%s\nand not\n%s\nlook at it, then use -update", command, got, want)
		}
		if shell, ok := runInShell(t, server.URL, command); ok && shell != got {
			t.Errorf("the shell's answer to\n%s\nis\n%s\nand not\n%s", command, shell, got)
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

// together is a program of jq that takes a field of what is piped over into a
// file's object.
var together = regexp.MustCompile(`^\.\[0\] \+ \{(\w+): \.\[1\]\.(\w+)\}$`)

// filtered is what jq prints.
func filtered(t *testing.T, words []string, piped string) string {
	t.Helper()
	if words[0] == "-s" {
		m := together.FindStringSubmatch(words[1])
		if m == nil || len(words) != 4 || words[3] != "-" {
			t.Fatalf("this test does not know jq %q", words)
		}
		var file, from map[string]json.RawMessage
		if err := errors.Join(json.Unmarshal(readFile(t, filepath.Join(root, words[2])), &file), json.Unmarshal([]byte(piped), &from)); err != nil {
			t.Fatal(err)
		}
		file[m[1]] = from[m[2]]
		out, err := json.Marshal(file)
		if err != nil {
			t.Fatal(err)
		}
		return string(out)
	}
	compact := words[0] == "-c"
	if compact {
		words = words[1:]
	}
	out, err := filter(words[0], []byte(piped), compact)
	if err != nil || len(words) != 1 {
		t.Fatalf("jq %q: %v", words, err)
	}
	return out
}

// runInShell runs the command with another address; false when the programs
// that it needs are not there.
func runInShell(t *testing.T, url, command string) (string, bool) {
	t.Helper()
	for _, program := range []string{"sh", "curl", "jq"} {
		if _, err := exec.LookPath(program); err != nil {
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

// shellWords splits a command as a shell does, as far as README needs it:
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

// filter is jq, as far as README needs it: stages with bars between them, each a
// path, a choice or an object.
func filter(program string, body []byte, compact bool) (string, error) {
	var values []json.RawMessage
	for d := json.NewDecoder(bytes.NewReader(body)); ; {
		var v json.RawMessage
		if err := d.Decode(&v); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return "", err
		}
		values = append(values, v)
	}
	for stage := range strings.SplitSeq(program, " | ") {
		var next []json.RawMessage
		for _, v := range values {
			more, err := apply(stage, v)
			if err != nil {
				return "", err
			}
			next = append(next, more...)
		}
		values = next
	}
	var out bytes.Buffer
	for _, v := range values {
		var err error
		if compact {
			err = json.Compact(&out, v)
		} else {
			err = json.Indent(&out, bytes.TrimSpace(v), "", "  ")
		}
		if err != nil {
			return "", err
		}
		out.WriteString("\n")
	}
	return out.String(), nil
}

var choice = regexp.MustCompile(`^select\((\S+) == ("\w+")\)$`)

// apply is one stage of a filter.
func apply(stage string, v json.RawMessage) ([]json.RawMessage, error) {
	if m := choice.FindStringSubmatch(stage); m != nil {
		got, err := follow(m[1], v)
		if err != nil || string(got[0]) != m[2] {
			return nil, err
		}
		return []json.RawMessage{v}, nil
	}
	inner, ok := strings.CutPrefix(stage, "{")
	if !ok {
		return follow(stage, v)
	}
	var fields []string
	for field := range strings.SplitSeq(strings.TrimSuffix(inner, "}"), ",") {
		name, path, given := strings.Cut(strings.TrimSpace(field), ": ")
		if !given {
			path = "." + name
		}
		value, err := follow(path, v)
		if err != nil {
			return nil, err
		}
		fields = append(fields, fmt.Sprintf("%q:%s", name, value[0]))
	}
	return []json.RawMessage{json.RawMessage("{" + strings.Join(fields, ",") + "}")}, nil
}

// A path of a filter: .a.b, .a[] for all entries of a list, or . for everything.
var step = regexp.MustCompile(`\.([a-zA-Z]+)(\[\])?`)

func follow(path string, v json.RawMessage) ([]json.RawMessage, error) {
	if step.ReplaceAllString(path, "") != "" && path != "." {
		return nil, errors.New("this test cannot follow " + path)
	}
	list := []json.RawMessage{v}
	for _, s := range step.FindAllStringSubmatch(path, -1) {
		var object map[string]json.RawMessage
		if len(list) != 1 {
			return nil, errors.New("this test cannot follow " + path)
		}
		if err := json.Unmarshal(list[0], &object); err != nil {
			return nil, err
		}
		list[0] = object[s[1]]
		if list[0] == nil {
			return nil, errors.New("nothing at " + path)
		}
		if s[2] != "" {
			if err := json.Unmarshal(list[0], &list); err != nil {
				return nil, err
			}
		}
	}
	return list, nil
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
