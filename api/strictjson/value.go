// Package strictjson reads one JSON document (RFC 8259) and refuses what other
// readers let pass and then disagree about: names that stand twice, lone
// surrogates, bytes that are not UTF-8, a byte order mark, text after the end.
// It keeps where each value stood, so that a fault can be put in its place.
//
// The package keeps no state and its functions may be used by any number of
// goroutines.
package strictjson

import (
	"slices"
	"strconv"
	"strings"
)

// Kind is what a value is.
type Kind int

// The kinds of JSON.
const (
	Null Kind = iota
	Bool
	Number
	String
	Array
	Object
)

// String is the kind in words.
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

// Get is the member of that name; nil when there is none, or v is no object.
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

// At is the value that a pointer's unescaped tokens lead to, as far as they
// lead; whole reports whether that is all the way.
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

// Canonical is the document without spaces, with the members of every object
// in the order of their names' bytes, strings with the fewest escapes, and
// numbers as they stand.
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
		var few [16]*Member // so that most objects are ordered without another allocation
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

// appendString quotes s, escaping only what JSON says must be.
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
