package fault

import (
	"slices"
	"strconv"
	"strings"
)

// Path is where something stands in a request: the fields and the entries of
// lists that lead to it. The zero Path is the whole body.
type Path struct{ last *segment }

// segment is one step of a path.
type segment struct {
	up    *segment // the step before it; nil for the first
	name  string   // of a field
	entry int      // the number of an entry of a list; aField for a field
}

const aField = -1

// At is the path of a field of the body.
func At(field string) Path { return Path{}.Field(field) }

// Field is the path of the named member.
func (p Path) Field(name string) Path { return Path{&segment{p.last, name, aField}} }

// Index is the path of the i-th entry of a list, counted from 0.
func (p Path) Index(i int) Path { return Path{&segment{p.last, "", i}} }

// IsBody reports whether the path is that of the whole body.
func (p Path) IsBody() bool { return p.last == nil }

// Is reports whether two paths lead to the same place.
func (p Path) Is(o Path) bool {
	a, b := p.last, o.last
	for a != nil && b != nil && a.name == b.name && a.entry == b.entry {
		a, b = a.up, b.up
	}
	return a == b
}

// In is the path from a field of the body on; false where it does not lead
// through that field.
func (p Path) In(field string) (rest Path, ok bool) {
	s := p.segments()
	if len(s) == 0 || s[0].entry != aField || s[0].name != field {
		return Path{}, false
	}
	return Path{}.then(s[1:]), true
}

// Entry is the number of the entry that the path leads through first, and the path
// from there on; false where it begins with a field, or nowhere.
func (p Path) Entry() (i int, rest Path, ok bool) {
	s := p.segments()
	if len(s) == 0 || s[0].entry == aField {
		return 0, Path{}, false
	}
	return s[0].entry, Path{}.then(s[1:]), true
}

// Then is the path that goes on from p as rest does from the body.
func (p Path) Then(rest Path) Path { return p.then(rest.segments()) }

func (p Path) then(rest []segment) Path {
	for _, s := range rest {
		p = Path{&segment{p.last, s.name, s.entry}}
	}
	return p
}

// segments are the steps, the first one first.
func (p Path) segments() []segment {
	var out []segment
	for s := p.last; s != nil; s = s.up {
		out = append(out, *s)
	}
	slices.Reverse(out)
	return out
}

// kept is a copy that shares nothing with p: since no validator's path outlives
// it, a request without faults is looked through without one on the heap.
func (p Path) kept() Path { return Path{p.last.kept()} }

func (s *segment) kept() *segment {
	if s == nil {
		return nil
	}
	return &segment{s.up.kept(), strings.Clone(s.name), s.entry}
}

// Tokens are the names and numbers of the path as they stand in the document.
func (p Path) Tokens() []string {
	var out []string
	for _, s := range p.segments() {
		if s.entry != aField {
			s.name = strconv.Itoa(s.entry)
		}
		out = append(out, s.name)
	}
	return out
}

// Pointer is the path as an RFC 6901 pointer in a URI fragment: "#/panels/2". What
// a fragment may not hold as it stands is percent-encoded (section 6).
func (p Path) Pointer() string { return string(p.last.pointer([]byte{'#'})) }

func (s *segment) pointer(b []byte) []byte {
	if s == nil {
		return b
	}
	b = append(s.up.pointer(b), '/')
	if s.entry != aField {
		return strconv.AppendInt(b, int64(s.entry), 10)
	}
	for i := range len(s.name) {
		const hex = "0123456789ABCDEF"
		switch c := s.name[i]; {
		case c == '~':
			b = append(b, "~0"...)
		case c == '/':
			b = append(b, "~1"...)
		case inFragment(c):
			b = append(b, c)
		default:
			b = append(b, '%', hex[c>>4], hex[c&15])
		}
	}
	return b
}

// inFragment reports whether RFC 3986 lets c stand in a fragment unencoded.
func inFragment(c byte) bool {
	switch {
	case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9':
		return true
	}
	return strings.IndexByte("-._~!$&'()*+,;=:@/?", c) >= 0
}
