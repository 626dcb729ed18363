package api_test

import (
	"bytes"
	"encoding/json"
	"maps"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// The job sheets of the demo jobs, as text and as JSON, are those in
// testdata/sheets.
func TestJobSheets(t *testing.T) {
	server := serve(t)
	for _, name := range []string{"wing-chair", "carver-pair", "settee", "banquette"} {
		body := readFile(t, filepath.Join(root, "testdata", "jobs", name+"-job.json"))
		text := string(post(t, server.URL+"/v1/job", body, http.Header{"Content-Type": {"application/json"}, "Accept": {"text/plain"}}))
		for n, line := range strings.Split(text, "\n") {
			if utf8.RuneCountInString(line) > 78 {
				t.Errorf("%s: line %d is wider than a page: %s", name, n+1, line)
			}
		}
		sheet(t, name+".txt", []byte(text))
		sheet(t, name+".json", inSections(t, post(t, server.URL+"/v1/job", body, http.Header{"Content-Type": {"application/json"}})))
	}
}

// sheet holds a sheet against its file.
func sheet(t *testing.T, name string, got []byte) {
	t.Helper()
	file := filepath.Join(root, "testdata", "sheets", name)
	if *update {
		writeFile(t, file, got)
		return
	}
	if want := readFile(t, file); !bytes.Equal(got, want) {
		a, b := strings.Split(string(want), "\n"), strings.Split(string(got), "\n")
		at := 0
		for at < min(len(a), len(b))-1 && a[at] == b[at] {
			at++
		}
		t.Errorf("%s differs from line %d on; it has\n%.300s\nand not\n%.300s\nlook at it, then use -update", name, at+1, b[at], a[at])
	}
}

// inSections is an answer with a section on each line, and each entry of its lists.
func inSections(t *testing.T, answer []byte) []byte {
	t.Helper()
	var fields map[string]json.RawMessage
	if err := json.Unmarshal(answer, &fields); err != nil {
		t.Fatalf("%v: %.300s", err, answer)
	}
	var lines []string
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		lines = append(lines, `"`+name+`": `+inLines(t, fields[name], "          "))
	}
	return []byte("{\n" + strings.Join(lines, ",\n") + "\n}\n")
}
