// Package strictjson parses one JSON document (RFC 8259). It refuses inputs on which
// parsers disagree: duplicate names, lone surrogates, invalid UTF-8, a byte order mark,
// text after the end. It records the position of each value, so that a fault can be
// located.
//
// The package has no state and is safe for concurrent use.
package strictjson

import (
	"slices"
	"strconv"
	"strings"
)

// Kind is the kind of a value.
type Kind int

// The kinds of JSON value.
const (
	Null Kind = iota
	Bool
	Number
	String
	Array
	Object
)

// String returns the kind in words.
func (k Kind) String() string {
	return [...]string{"null", "true or false", "a number", "a string", "a list", "an object"}[k]
}

// Value is a value of a document.
type Value struct {
	Kind    Kind
	Start   int      // offset of its first byte in the document
	Text    string   // the content of a String, the literal of a Null, Bool or Number
	Items   []Value  // of an Array
	Members []Member // of an Object, in the order of the document
}

// Member is a name in an object and its value.
type Member struct {
	Name  string
	Value Value
}

// Get returns the member of that name; nil when there is none, or v is not an object.
func (v *Value) Get(name string) *Value {
	if v.Kind != Object {
		return nil
	}
	for i := range v.Members {
		if v.Members[i].Name == name {
			return &v.Members[i].Value
		}
	}
	return nil
}

// At follows a pointer's unescaped tokens and returns the deepest value reached; whole
// reports whether all tokens were found.
func (v *Value) At(tokens []string) (deepest *Value, whole bool) {
	deepest = v
	for _, token := range tokens {
		next := deepest.Get(token)
		if deepest.Kind == Array {
			if i, err := strconv.Atoi(token); err == nil && 0 <= i && i < len(deepest.Items) {
				next = &deepest.Items[i]
			}
		}
		if next == nil {
			return deepest, false
		}
		deepest = next
	}
	return deepest, true
}

// Canonical returns the document in canonical form: no spaces, members sorted by the bytes
// of their names, strings with the fewest escapes, and numbers as written.
func (v *Value) Canonical() []byte { return v.appendTo(make([]byte, 0, 1024)) }

func (v *Value) appendTo(b []byte) []byte {
	switch v.Kind {
	case String:
		return appendString(b, v.Text)
	case Array:
		b = append(b, '[')
		for i := range v.Items {
			if i > 0 {
				b = append(b, ',')
			}
			b = v.Items[i].appendTo(b)
		}
		return append(b, ']')
	case Object:
		var few [16]*Member // sorts most objects without an allocation
		members := few[:0]
		for i := range v.Members {
			members = append(members, &v.Members[i])
		}
		slices.SortFunc(members, func(x, y *Member) int { return strings.Compare(x.Name, y.Name) })
		b = append(b, '{')
		for i, m := range members {
			if i > 0 {
				b = append(b, ',')
			}
			b = append(appendString(b, m.Name), ':')
			b = m.Value.appendTo(b)
		}
		return append(b, '}')
	}
	return append(b, v.Text...)
}

// appendString quotes s, with only the escapes that JSON requires.
func appendString(b []byte, s string) []byte {
	const hex = "0123456789abcdef"
	b = append(b, '"')
	for i := range len(s) {
		switch c := s[i]; {
		case c == '"' || c == '\\':
			b = append(b, '\\', c)
		case c < 0x20:
			b = append(b, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
		default:
			b = append(b, c)
		}
	}
	return append(b, '"')
}
