package web

import (
	"strings"
	"testing"
)

func TestCompact(t *testing.T) {
	const script = `// What it is.

/** @typedef {import('./x')} X */
/**
 * Longer, with a stray ` + "`" + ` in it.
 * @param {string} a
 */
function f(a) {
  // Why.
  const b = /** @type {X} */ (a); // kept: it does not fill the line
  /** @type {Map<string, string>} */ #c = new Map();
  return ` + "`${b} // and /** this */ stay`" + `;
}
const table = ` + "`" + `
  // not a comment
/** nor this */
` + "`" + `.trim();
`
	const want = `function f(a) {
const b = (a); // kept: it does not fill the line
#c = new Map();
return ` + "`${b} // and stay`" + `;
}
const table = ` + "`" + `
  // not a comment
/** nor this */
` + "`" + `.trim();
`
	if got := string(Compact([]byte(script))); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// What Compact cannot tell from a comment is not in the script: a note in a text,
// or a comment of another form.
func TestScriptIsWrittenForCompact(t *testing.T) {
	script, err := static.ReadFile("static/quote.js")
	if err != nil {
		t.Fatal(err)
	}
	for n, line := range strings.Split(string(script), "\n") {
		if at := strings.Index(line, "/*"); at >= 0 && !strings.HasPrefix(line[at:], "/**") {
			t.Errorf("line %d: a comment that is no note: %s", n+1, line)
		}
		if at := strings.Index(line, "/**"); at >= 0 && strings.ContainsAny(line[:at], "'`\"") && strings.Count(line[:at], "'")%2+strings.Count(line[:at], "`")%2 > 0 {
			t.Errorf("line %d: a note within a text: %s", n+1, line)
		}
	}
}
