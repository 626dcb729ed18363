package httpapi_test

import (
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/strictjson"
)

// suite is the files of a part of the JSON parsing cases in testdata/bench, whose
// README names their source and licence.
func suite(t *testing.T, part string) map[string][]byte {
	t.Helper()
	dir := filepath.Join("..", "..", "testdata", "bench", "json", part)
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	files := make(map[string][]byte)
	for _, e := range entries {
		content, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			t.Fatal(err)
		}
		files[e.Name()] = content
	}
	return files
}

// twiceNamed are the cases that RFC 8259 lets pass with a warning and RFC 7493
// refuses, as this service does: names that stand twice in an object.
func twiceNamed(name string) bool {
	return slices.Contains([]string{"y_object_duplicated_key.json", "y_object_duplicated_key_and_value.json"}, name)
}

// What is no JSON is refused as such, what is JSON never is, and nothing makes
// the service fail.
func TestParsingSuite(t *testing.T) {
	files := suite(t, "test_parsing")
	c := newClient(t, options())
	limits := strictjson.Limits{Depth: 32, Values: 20000}
	seen := map[byte]int{}
	for name, content := range files {
		seen[name[0]]++
		code := c.post(string(content)).Code
		_, err := strictjson.Parse(content, limits)
		switch {
		case name[0] == 'n' || twiceNamed(name):
			if err == nil || code != http.StatusBadRequest && !(code == http.StatusRequestEntityTooLarge && len(content) > 65536) {
				t.Errorf("%s: status %d, want 400", name, code)
			}
		case name[0] == 'y':
			if err != nil || code != http.StatusUnprocessableEntity {
				t.Errorf("%s: status %d, want 422: %v", name, code, err)
			}
		case code >= 500:
			t.Errorf("%s: status %d", name, code)
		}
	}
	if seen['n'] < 180 || seen['y'] < 90 || seen['i'] < 30 {
		t.Errorf("only %v cases", seen)
	}
}

// The strings of the suite, as a name in a request, are taken or refused, and
// never answered as something else.
func TestParsingSuiteInAString(t *testing.T) {
	files := suite(t, "test_parsing")
	c := newClient(t, options())
	n := 0
	for name, content := range files {
		inner, ok := strings.CutPrefix(strings.TrimSpace(string(content)), `["`)
		inner, closed := strings.CutSuffix(inner, `"]`)
		if !ok || !closed || strings.Contains(inner, `"`) {
			continue
		}
		n++
		w := c.post(strings.Replace(sound, `"Heron and sedge"`, `"`+inner+`"`, 1))
		switch code := w.Code; {
		case name[0] == 'n' && code != 400:
			t.Errorf("%s: status %d, want 400", name, code)
		case name[0] == 'y' && code != 200 && code != 422:
			t.Errorf("%s: status %d, want 200 or 422", name, code)
		case code == 422 && !equal(faultsOf(t, w), one("#/cloth/name not-a-name")):
			t.Errorf("%s: faults %q", name, faultsOf(t, w))
		case code >= 500:
			t.Errorf("%s: status %d", name, code)
		}
	}
	if n < 50 {
		t.Errorf("only %d strings", n)
	}
}

func TestTransformSuite(t *testing.T) {
	c := newClient(t, options())
	for name, content := range suite(t, "test_transform") {
		if code := c.post(string(content)).Code; code >= 500 {
			t.Errorf("%s: status %d", name, code)
		}
	}
}
