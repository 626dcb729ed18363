package web

import (
	"bytes"
	"regexp"
	"strings"
)

// inlineNote is a note for the type checker within a line.
var inlineNote = regexp.MustCompile(`/\*\* [^*]*\*/ ?`)

// Compact is a script of ours without its comments and indents, which pages need
// not load. It goes by the way in which the script is written: a comment fills
// whole lines, or is a note of the form /** … */ in one; a template over several
// lines is left as it is.
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
