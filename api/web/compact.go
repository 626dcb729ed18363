package web

import (
	"bytes"
	"regexp"
	"strings"
)

// inlineNote matches a type annotation within a line.
var inlineNote = regexp.MustCompile(`/\*\* [^*]*\*/ ?`)

// Compact returns one of this project's scripts without comments and indentation. It
// relies on how the scripts are written: a comment fills whole lines, or has the form /**
// … */ within one. A template literal over several lines is left unchanged.
func Compact(script []byte) []byte {
	var out bytes.Buffer
	template, comment := false, false
	for line := range bytes.Lines(script) {
		text := strings.TrimRight(string(line), "\n")
		bare := strings.TrimSpace(text)
		within := template
		if !comment && (within || !strings.HasPrefix(bare, "//")) && strings.Count(text, "`")%2 == 1 {
			template = !template
		}
		switch {
		case within:
			out.WriteString(text + "\n")
		case comment:
			comment = !strings.HasSuffix(bare, "*/")
		case strings.HasPrefix(bare, "/**") && !strings.Contains(bare, "*/"):
			comment = true
		case strings.HasPrefix(bare, "//"):
		default:
			if bare = strings.TrimSpace(inlineNote.ReplaceAllString(bare, "")); bare != "" {
				out.WriteString(bare + "\n")
			}
		}
	}
	return out.Bytes()
}
