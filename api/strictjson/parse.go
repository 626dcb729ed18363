package strictjson

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Limits bound the size of a document. A larger one is refused.
type Limits struct {
	Depth  int // nesting of arrays and objects
	Values int // values of all kinds, including names of members
}

// Error says why a document was refused, and where.
type Error struct {
	Offset int    // in bytes, from 0
	Line   int    // from 1
	Column int    // in bytes, from 1
	Reason string // contains no input except a duplicate name, shortened
}

// Error returns the reason with its position.
func (e *Error) Error() string {
	return fmt.Sprintf("%s, at line %d, column %d", e.Reason, e.Line, e.Column)
}

// Parse parses a document. Its error is always an *Error. The values do not refer to the
// memory of doc.
func Parse(doc []byte, limits Limits) (*Value, error) {
	p := parser{doc: string(doc), limits: limits} // names and strings share its memory
	v, err := p.document()
	if err != nil {
		return nil, err
	}
	return v, nil
}

// parser parses from doc[pos:].
type parser struct {
	doc    string
	pos    int
	depth  int
	values int
	limits Limits
}

func (p *parser) document() (*Value, *Error) {
	if strings.HasPrefix(p.doc, "\uFEFF") {
		return nil, p.fail("a byte order mark stands before the document")
	}
	for rest := p.doc; !utf8.ValidString(rest); {
		r, size := utf8.DecodeRuneInString(rest)
		if r == utf8.RuneError && size == 1 {
			p.pos = len(p.doc) - len(rest)
			return nil, p.fail("the document is not UTF-8")
		}
		rest = rest[size:]
	}
	p.space()
	v, err := p.value()
	if err != nil {
		return nil, err
	}
	p.space()
	if p.pos < len(p.doc) {
		return nil, p.fail("there is text after the end of the document")
	}
	return &v, nil
}

// fail returns an error at the current position.
func (p *parser) fail(reason string) *Error {
	before := p.doc[:min(p.pos, len(p.doc))]
	return &Error{
		Offset: len(before),
		Line:   1 + strings.Count(before, "\n"),
		Column: len(before) - strings.LastIndexByte(before, '\n'),
		Reason: reason,
	}
}

// expected returns the error for finding something other than want.
func (p *parser) expected(want string) *Error {
	if p.pos >= len(p.doc) {
		return p.fail("the document ends too soon, where " + want + " should stand")
	}
	return p.fail(want + " should stand here")
}

func (p *parser) space() {
	for p.pos < len(p.doc) {
		switch p.doc[p.pos] {
		case ' ', '\t', '\n', '\r':
			p.pos++
		default:
			return
		}
	}
}

// peek returns the next byte, 0 at the end. A 0 byte is not allowed anywhere in a
// document.
func (p *parser) peek() byte {
	if p.pos < len(p.doc) {
		return p.doc[p.pos]
	}
	return 0
}

// take consumes c if it is next, and reports whether it was.
func (p *parser) take(c byte) bool {
	if p.peek() == c && p.pos < len(p.doc) {
		p.pos++
		return true
	}
	return false
}

// count counts a value or name, and returns an error beyond the limit.
func (p *parser) count() *Error {
	if p.values++; p.values > p.limits.Values {
		return p.fail("the document has more than " + strconv.Itoa(p.limits.Values) + " values and names")
	}
	return nil
}

func (p *parser) value() (Value, *Error) {
	if err := p.count(); err != nil {
		return Value{}, err
	}
	start := p.pos
	switch c := p.peek(); {
	case c == '{':
		return p.nested(start, Object, p.members)
	case c == '[':
		return p.nested(start, Array, p.items)
	case c == '"':
		s, err := p.str()
		return Value{Kind: String, Start: start, Text: s}, err
	case c == '-' || isDigit(c):
		err := p.number()
		return Value{Kind: Number, Start: start, Text: p.doc[start:p.pos]}, err
	}
	for _, word := range []struct {
		text string
		kind Kind
	}{{"null", Null}, {"true", Bool}, {"false", Bool}} {
		if strings.HasPrefix(p.doc[p.pos:], word.text) {
			p.pos += len(word.text)
			return Value{Kind: word.kind, Start: start, Text: word.text}, nil
		}
	}
	return Value{}, p.expected("a value")
}

// nested parses an array or object one level deeper.
func (p *parser) nested(start int, kind Kind, read func(*Value) *Error) (Value, *Error) {
	if p.depth++; p.depth > p.limits.Depth {
		return Value{}, p.fail("the document is nested deeper than " + strconv.Itoa(p.limits.Depth) + " levels")
	}
	p.pos++
	v := Value{Kind: kind, Start: start}
	err := read(&v)
	p.depth--
	return v, err
}

func (p *parser) items(v *Value) *Error {
	if p.space(); p.take(']') {
		return nil
	}
	for {
		item, err := p.value()
		if err != nil {
			return err
		}
		v.Items = append(v.Items, item)
		p.space()
		switch {
		case p.take(']'):
			return nil
		case !p.take(','):
			return p.expected("a comma or the end of the list")
		}
		p.space()
	}
}

func (p *parser) members(v *Value) *Error {
	if p.space(); p.take('}') {
		return nil
	}
	v.Members = make([]Member, 0, 4)
	var seen map[string]struct{} // nil while there are few
	for {
		m, err := p.member(v.Members, seen)
		if err != nil {
			return err
		}
		v.Members = append(v.Members, m)
		if seen != nil {
			seen[m.Name] = struct{}{}
		} else if len(v.Members) == manyMembers {
			seen = make(map[string]struct{}, 2*manyMembers)
			for i := range v.Members {
				seen[v.Members[i].Name] = struct{}{}
			}
		}
		p.space()
		switch {
		case p.take('}'):
			return nil
		case !p.take(','):
			return p.expected("a comma or the end of the object")
		}
		p.space()
	}
}

// manyMembers is the number of members from which an index is faster than a scan.
const manyMembers = 16

// stands reports whether a name occurs in members, or in their index if there is one.
func stands(name string, members []Member, seen map[string]struct{}) bool {
	if seen != nil {
		_, ok := seen[name]
		return ok
	}
	return slices.ContainsFunc(members, func(m Member) bool { return m.Name == name })
}

// member parses a name, which must be new in its object, and its value.
func (p *parser) member(before []Member, seen map[string]struct{}) (Member, *Error) {
	if p.peek() != '"' {
		return Member{}, p.expected("a name in quotes")
	}
	if err := p.count(); err != nil {
		return Member{}, err
	}
	start := p.pos
	name, err := p.str()
	if err != nil {
		return Member{}, err
	}
	if stands(name, before, seen) {
		p.pos = start
		return Member{}, p.fail("the name " + quoteShort(name) + " stands twice in one object")
	}
	if p.space(); !p.take(':') {
		return Member{}, p.expected("a colon")
	}
	p.space()
	v, err := p.value()
	return Member{Name: name, Value: v}, err
}

// quoteShort quotes a name, shortened to 40 characters.
func quoteShort(name string) string {
	const most = 40
	if r := []rune(name); len(r) > most {
		name = string(r[:most]) + "…"
	}
	return string(appendString(nil, name))
}

// number consumes a number.
func (p *parser) number() *Error {
	p.take('-')
	switch {
	case p.take('0'):
	case !p.digits():
		return p.expected("a digit")
	}
	if p.take('.') && !p.digits() {
		return p.expected("a digit")
	}
	if p.take('e') || p.take('E') {
		if !p.take('+') {
			p.take('-')
		}
		if !p.digits() {
			return p.expected("a digit")
		}
	}
	return nil
}

// digits consumes digits and reports whether there were any.
func (p *parser) digits() bool {
	start := p.pos
	for isDigit(p.peek()) {
		p.pos++
	}
	return p.pos > start
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// str parses a string.
func (p *parser) str() (string, *Error) {
	p.pos++
	var b []byte // the content; nil before the first escape
	start := p.pos
	for p.pos < len(p.doc) {
		switch c := p.doc[p.pos]; {
		case c == '"':
			rest := p.doc[start:p.pos]
			p.pos++
			if b == nil {
				return rest, nil
			}
			return string(append(b, rest...)), nil
		case c < 0x20:
			return "", p.fail("a control character stands in a string")
		case c == '\\':
			b = append(b, p.doc[start:p.pos]...)
			r, err := p.escape()
			if err != nil {
				return "", err
			}
			b = utf8.AppendRune(b, r)
			start = p.pos
		default:
			p.pos++
		}
	}
	return "", p.expected("a closing quote")
}

// escape parses an escape sequence.
func (p *parser) escape() (rune, *Error) {
	at := p.pos
	p.pos++
	c := p.peek()
	if c != 'u' {
		const from, to = `"\/bfnrt`, "\"\\/\b\f\n\r\t"
		if i := strings.IndexByte(from, c); i >= 0 && c != 0 {
			p.pos++
			return rune(to[i]), nil
		}
		return 0, p.fail("a backslash stands before what it cannot escape")
	}
	r, ok := p.hex()
	if !ok {
		return 0, p.expected("four hexadecimal digits")
	}
	if !utf16.IsSurrogate(r) {
		return r, nil
	}
	if p.take('\\') && p.peek() == 'u' {
		if low, ok := p.hex(); ok {
			if both := utf16.DecodeRune(r, low); both != utf8.RuneError {
				return both, nil
			}
		}
	}
	p.pos = at
	return 0, p.fail("half of a surrogate pair stands alone")
}

// hex consumes the u and four hexadecimal digits.
func (p *parser) hex() (rune, bool) {
	p.pos++
	if p.pos+4 > len(p.doc) {
		return 0, false
	}
	var r rune
	for i := range 4 {
		switch c := p.doc[p.pos+i]; {
		case isDigit(c):
			r = r<<4 | rune(c-'0')
		case 'a' <= c|0x20 && c|0x20 <= 'f':
			r = r<<4 | rune(c|0x20-'a'+10)
		default:
			return 0, false
		}
	}
	p.pos += 4
	return r, true
}
