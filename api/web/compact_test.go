package web

import (
	"bytes"
	"testing"
)

func TestCompact(t *testing.T) {
	for _, tc := range []struct{ script, want string }{
		{"// What it is.\nfunction f(first) {\n  /* Why. */\n  return first + 1;\n}\n", "function f(e){return e+1}"},
		{"const table = `\n  // not a comment\n`.trim();\n", "const table=`\n  // not a comment\n`.trim()"},
		{"", ""},
	} {
		if got, err := Compact([]byte(tc.script)); err != nil || string(got) != tc.want {
			t.Errorf("%q: %q, %v; want %q", tc.script, got, err, tc.want)
		}
	}
	if got, err := Compact([]byte("function (")); err == nil {
		t.Errorf("what is no script is taken: %q", got)
	}
}

// The element is made small in the same way each time, and by much.
func TestElementIsMadeSmall(t *testing.T) {
	script, err := static.ReadFile("static/quote.js")
	if err != nil {
		t.Fatal(err)
	}
	first, err := Compact(script)
	if err != nil {
		t.Fatal(err)
	}
	if len(first) > len(script)*4/5 { // a third of it are words in three languages, which stay as they are
		t.Errorf("%d bytes of %d", len(first), len(script))
	}
	for range 20 {
		if again, err := Compact(script); err != nil || !bytes.Equal(again, first) {
			t.Fatal("the same script gives other bytes", err)
		}
	}
}
