package api_test

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// document is one that people read, and the most lines that it may have.
type document struct {
	name string
	most int
}

// documents are all but the pages of the guide.
var documents = []document{
	{"README.md", 150},
	{"DEVELOPERS.md", 300},
	{"deploy/README.md", 110},
	{"deploy/SIZING.md", 70},
	{"deploy/CHECKLIST.md", 100},
	{"deploy/RUNBOOK.md", 60},
	{"testdata/README.md", 60},
	{"testdata/workroom/README.md", 120},
}

// What the documents name exists: targets of make, files, tests, variables.
func TestDocumentsNameWhatExists(t *testing.T) {
	code := everything(t)
	makefile := string(readFile(t, filepath.Join(root, "Makefile")))
	named := 0
	all := slices.Clone(documents)
	for _, page := range pages(t)[1:] {
		all = append(all, document{page, 150})
	}
	for _, d := range all {
		text := string(readFile(t, filepath.Join(root, d.name)))
		if n := strings.Count(text, "\n"); n > d.most {
			t.Errorf("%s has %d lines, at most %d", d.name, n, d.most)
		}
		for _, missing := range missingIn(d.name, text, makefile, code) {
			t.Errorf("%s names %s, which does not exist", d.name, missing)
		}
		named += len(targets(text)) + len(files.FindAllString(text, -1))
	}
	if named < 40 {
		t.Errorf("the documents name only %d targets and files", named)
	}
}

func TestDocumentsRefuse(t *testing.T) {
	const makefile, code = "demo: build ## the demo\n", "func TestThis(t *testing.T) {\n BRIDLETIE_ADDR"
	for _, tc := range []struct {
		text string
		ok   bool
	}{
		{"`make demo` and [the contract](openapi.yaml), `calc/plan` and `TestThis`, `BRIDLETIE_ADDR`", true},
		{"make up your mind", true},
		{"`make supper`", false},
		{"```sh\nmake supper\n```", false},
		{"[the contract](openapi.yml)", false},
		{`<img src="testdata/demo/armchair.svg">`, false},
		{"`calc/plans`", false},
		{"`cmd/bridletie/main.c`", false},
		{"`TestThat`", false},
		{"`BRIDLETIE_PORT`", false},
	} {
		missing := missingIn("README.md", tc.text, makefile, code)
		if got := len(missing) == 0; got != tc.ok {
			t.Errorf("%q: passes is %v, want %v (%q)", tc.text, got, tc.ok, missing)
		}
	}
}

var (
	inline    = regexp.MustCompile("`make ([a-z-]+)[^`]*`")
	blocks    = regexp.MustCompile("(?s)```sh\n(.*?)```")
	inBlock   = regexp.MustCompile(`(?m)^make ([a-z-]+)`)
	links     = regexp.MustCompile(`\]\(([^)#:]+)\)|src="([^":]+)"`)
	files     = regexp.MustCompile("`((?:api|calc|cmd|deploy|service|testdata)/[\\w./-]*)`")
	tests     = regexp.MustCompile(`\b(?:Test|Fuzz|Benchmark)[A-Z]\w+`)
	variables = regexp.MustCompile(`\bBRIDLETIE_[A-Z_]+`)
)

// targets are those of make that a text names, in its lines and in its blocks.
func targets(text string) []string {
	var out []string
	for _, m := range inline.FindAllStringSubmatch(text, -1) {
		out = append(out, m[1])
	}
	for _, block := range blocks.FindAllString(text, -1) {
		for _, m := range inBlock.FindAllStringSubmatch(block, -1) {
			out = append(out, m[1])
		}
	}
	return out
}

// missingIn lists what the text of a document names and nothing else has.
func missingIn(name, text, makefile, code string) []string {
	var out []string
	for _, target := range targets(text) {
		if !strings.Contains("\n"+makefile, "\n"+target+":") {
			out = append(out, "make "+target)
		}
	}
	for _, m := range links.FindAllStringSubmatch(text, -1) {
		if to := m[1] + m[2]; !exists(filepath.Join(filepath.Dir(name), to)) {
			out = append(out, to)
		}
	}
	for _, m := range files.FindAllStringSubmatch(text, -1) {
		if !exists(m[1]) {
			out = append(out, m[1])
		}
	}
	for _, test := range tests.FindAllString(text, -1) {
		if !strings.Contains(code, "func "+test+"(") {
			out = append(out, test)
		}
	}
	for _, v := range variables.FindAllString(text, -1) {
		if !strings.Contains(code, v) {
			out = append(out, v)
		}
	}
	return out
}

// mostWords is the limit on the words of one sentence in a document.
const mostWords = 35

// No document has a sentence of more than 35 words.
func TestDocumentsHaveShortSentences(t *testing.T) {
	names := append(pages(t)[1:], "deploy/SETTINGS.md") // the pages of the guide
	for _, d := range documents {
		names = append(names, d.name)
	}
	read := 0
	for _, name := range names {
		all := sentences(readFile(t, filepath.Join(root, name)))
		read += len(all)
		for _, long := range longSentences(all) {
			t.Errorf("%s: %d words, at most %d: %s", name, len(strings.Fields(long)), mostWords, long)
		}
	}
	if read < 500 {
		t.Errorf("the documents have only %d sentences", read)
	}
}

func TestLongSentencesAreFound(t *testing.T) {
	words := func(n int) string { return strings.TrimSpace(strings.Repeat("word ", n)) }
	code := "`" + words(10) + "`"
	for _, tc := range []struct {
		markdown string
		long     int
	}{
		{words(35) + ".\n", 0},
		{words(36) + ".\n", 1},
		{words(20) + ".\n" + words(20) + "?\n", 0},
		{words(20) + ",\n" + words(20) + ".\n", 1},
		{words(20) + "; " + words(20) + ".\n", 1},
		{words(20) + ": " + words(20) + ".\n", 1},
		{words(20) + "\n\n" + words(20) + "\n", 0},
		{"- " + words(20) + "\n- " + words(36) + "\n", 1},
		{"## " + words(36) + "\n", 1},
		{"> **" + words(36) + "**\n", 1},
		{words(35) + " [" + words(1) + "](README.md).\n", 1},
		{"```sh\n" + words(40) + "\n```\n", 0},
		{words(34) + " " + code + ".\n", 0},
		{words(35) + " " + code + ".\n", 1},
		{words(35) + " <https://example.org/>.\n", 1},
		{"| a | b |\n|---|---|\n| " + words(20) + " | " + words(20) + " |\n", 0},
		{"| a | b |\n|---|---|\n| " + words(36) + " | " + words(20) + " |\n", 1},
		{words(20) + " 3.5 " + words(20) + ".\n", 1},
		{words(20) + "\n    " + words(20) + "\n", 1},
		{words(20) + "\n\n    " + words(40) + "\n", 0},
		{"1. " + words(20) + "\n   " + words(20) + "\n", 1},
		{words(36), 1},
	} {
		if got := longSentences(sentences([]byte(tc.markdown))); len(got) != tc.long {
			t.Errorf("%q: %d long sentences, want %d", tc.markdown, len(got), tc.long)
		}
	}
}

func longSentences(all []string) []string {
	return slices.DeleteFunc(slices.Clone(all), func(s string) bool { return len(strings.Fields(s)) <= mostWords })
}

var (
	sentenceEnd = regexp.MustCompile(`[.?!][)"*]*\s+`)
	fenced      = regexp.MustCompile("(?ms)^```.*?^```$")
	comments    = regexp.MustCompile(`(?s)<!--.*?-->`)
	codeSpan    = regexp.MustCompile("`[^`]*`")
	linkTarget  = regexp.MustCompile(`\]\([^)]*\)`)
	newBlock    = regexp.MustCompile(`^\s*(?:[-*] |\d+\. |#+ |\|)`)
	lineMarks   = regexp.MustCompile(`^\s*(?:> ?|[-*] |\d+\. |#+ )*`)
)

// sentences returns those of a Markdown text. A paragraph, a heading, an item of a list
// and a cell of a table each end one. Blocks of code are left out; inline code is one word.
func sentences(source []byte) []string {
	text := fenced.ReplaceAllString(string(source), "\n")
	text = linkTarget.ReplaceAllString(comments.ReplaceAllString(text, ""), "]")
	var out []string
	var block []string
	end := func() {
		whole := codeSpan.ReplaceAllString(strings.Join(block, " "), "code")
		cells := []string{whole}
		if strings.HasPrefix(whole, "|") {
			cells = strings.Split(whole, "|")
		}
		for _, cell := range cells {
			for _, s := range sentenceEnd.Split(cell, -1) {
				if s = strings.TrimSpace(s); s != "" {
					out = append(out, s)
				}
			}
		}
		block = nil
	}
	for line := range strings.Lines(text) {
		if line = strings.TrimRight(line, "\r\n"); strings.TrimSpace(line) == "" || newBlock.MatchString(line) {
			end()
		}
		if block != nil || !strings.HasPrefix(line, "    ") { // else a block of code
			if line = lineMarks.ReplaceAllString(line, ""); line != "" {
				block = append(block, line)
			}
		}
	}
	end()
	return out
}

func exists(name string) bool {
	_, err := os.Stat(filepath.Join(root, name))
	return err == nil
}

// everything is the text of all Go files but this one.
func everything(t *testing.T) string {
	t.Helper()
	var all bytes.Buffer
	eachFile(t, func(name string) {
		if filepath.Ext(name) == ".go" && name != "api/documents_test.go" {
			all.Write(readFile(t, filepath.Join(root, name)))
		}
	})
	return all.String()
}
