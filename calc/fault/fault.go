// Package fault is the vocabulary for what is wrong with a request: every
// fault names the field by an RFC 6901 pointer, gives a code from a closed
// list, says what was given and what would do instead. Validators collect
// faults; they never stop at the first.
package fault

import (
	"strconv"
	"strings"
)

// Code is one of the closed list that openapi.yaml publishes as FaultCode.
type Code string

// The closed list. Tests match these, never the prose.
const (
	Missing        Code = "missing"          // a required field is absent
	UnknownField   Code = "unknown-field"    // a field that the contract does not have
	WrongType      Code = "wrong-type"       // a string where an object belongs, null, and so on
	NotOneOf       Code = "not-one-of"       // outside the listed values
	NotALength     Code = "not-a-length"     // no number with a unit
	NotAShare      Code = "not-a-share"      // no percentage
	NotAFraction   Code = "not-a-fraction"   // no drop such as half or 1/3
	NotAName       Code = "not-a-name"       // empty, too long or with characters that a name may not have
	TooSmall       Code = "too-small"        // below what is allowed
	TooLarge       Code = "too-large"        // above what is allowed
	TooFew         Code = "too-few"          // a list with too few entries
	TooMany        Code = "too-many"         // a list, or the whole job, with too many entries
	Duplicate      Code = "duplicate"        // an id or name used twice
	UnknownPanel   Code = "unknown-panel"    // refers to a panel that is not there
	UnknownMotif   Code = "unknown-motif"    // refers to a motif that the cloth does not have
	Loop           Code = "loop"             // runs-on links that come back to themselves
	CountDiffers   Code = "count-differs"    // linked panels with unlike counts
	NeedsPattern   Code = "needs-pattern"    // a wish that the cloth's repeats cannot express
	NotAllowed     Code = "not-allowed"      // a turn or combination that the cloth or another field forbids
	WiderThanCloth Code = "wider-than-cloth" // a panel that does not fit the width and may not be joined
	LongerThanBolt Code = "longer-than-bolt" // a panel longer than any length on sale
	NotADate       Code = "not-a-date"       // no day, or where it may be, month or year
	UnknownLayer   Code = "unknown-layer"    // refers to a layer that is not in the stack
	NotAPrice      Code = "not-a-price"      // no decimal of few digits
	NotADensity    Code = "not-a-density"    // no number of kg/m3
	UnknownFoam    Code = "unknown-foam"     // refers to a foam that is not there
	UnknownCloth   Code = "unknown-cloth"    // refers to a cloth that is not there
	NoPlace        Code = "no-place"         // a wish that would push the panel off the cloth wherever it lies
)

// Fault is one thing wrong with one field.
type Fault struct {
	Pointer string // RFC 6901 pointer as a URI fragment, "#/panels/2/size/across"; "#" is the whole body
	Code    Code
	Detail  string // one sentence for a person
	Given   string // what stood there, cut to 64 characters; "" when nothing did
	Try     string // what would do
}

// Path is an RFC 6901 pointer under construction. The zero Path is the whole
// body.
type Path string

// Field is the path of the named member.
func (p Path) Field(name string) Path {
	name = strings.ReplaceAll(name, "~", "~0")
	return p + "/" + Path(strings.ReplaceAll(name, "/", "~1"))
}

// Index is the path of the i-th entry of a list, counted from 0.
func (p Path) Index(i int) Path { return p + "/" + Path(strconv.Itoa(i)) }

// Pointer is the path as a URI fragment: what a fragment may not hold as it
// stands is percent-encoded (RFC 6901, section 6).
func (p Path) Pointer() string {
	var b strings.Builder
	b.WriteByte('#')
	for i := range len(p) {
		if c := p[i]; inFragment(c) {
			b.WriteByte(c)
		} else {
			const hex = "0123456789ABCDEF"
			b.Write([]byte{'%', hex[c>>4], hex[c&15]})
		}
	}
	return b.String()
}

// inFragment reports whether RFC 3986 lets c stand in a fragment unencoded.
func inFragment(c byte) bool {
	switch {
	case 'a' <= c && c <= 'z', 'A' <= c && c <= 'Z', '0' <= c && c <= '9':
		return true
	}
	return strings.IndexByte("-._~!$&'()*+,;=:@/?", c) >= 0
}

// List collects faults in the order found. The zero List is ready to use.
type List struct{ faults []Fault }

// Add records a fault; given is cut to 64 characters on a character border.
func (l *List) Add(at Path, code Code, given, detail, try string) {
	l.faults = append(l.faults, Fault{Pointer: at.Pointer(), Code: code, Detail: detail, Given: Clip(given), Try: try})
}

// Append takes over the faults of another list.
func (l *List) Append(other List) { l.faults = append(l.faults, other.faults...) }

// Faults are the faults so far; nil when there are none.
func (l *List) Faults() []Fault { return l.faults }

// Len is how many faults there are.
func (l *List) Len() int { return len(l.faults) }

// ListOf is a list of faults.
func ListOf(faults ...Fault) List { return List{faults} }

// Below is the list of a part of the body, with pointers into the whole: at is
// where the part stands.
func (l List) Below(at Path) List {
	head := at.Pointer()
	var out List
	for _, f := range l.faults {
		f.Pointer = head + strings.TrimPrefix(f.Pointer, "#")
		out.faults = append(out.faults, f)
	}
	return out
}

// MaxGiven is how much of a bad value a fault repeats, in characters.
const MaxGiven = 64

// Clip cuts s to MaxGiven characters. Bytes that are not UTF-8 come out as the
// replacement character.
func Clip(s string) string {
	n := 0
	for i := range s {
		if n == MaxGiven {
			s = s[:i]
			break
		}
		n++
	}
	return strings.ToValidUTF8(s, "\uFFFD")
}
