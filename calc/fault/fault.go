// Package fault is the vocabulary for what is wrong with a request: every
// fault names the field by its path, gives a code from a closed
// list, says what was given and what would do instead. Validators collect
// faults; they never stop at the first.
package fault

import (
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
	Path   Path // where it stands
	Code   Code
	Detail string // one sentence for a person
	Given  string // what stood there, cut to 64 characters; "" when nothing did
	Try    string // what would do
}

// Pointer is where the fault stands as people and programs read it:
// "#/panels/2/size/across"; "#" is the whole body.
func (f Fault) Pointer() string { return f.Path.Pointer() }

// Same reports whether two faults say the same of the same place.
func (f Fault) Same(o Fault) bool {
	return f.Code == o.Code && f.Detail == o.Detail && f.Given == o.Given && f.Try == o.Try && f.Pointer() == o.Pointer()
}

// List collects faults in the order found. The zero List is ready to use. As an
// error it says the first fault and how many more there are; take it from Err,
// since a List in a variable of type error is not nil even when it is empty.
type List struct{ faults []Fault }

// Add records a fault; given is cut to 64 characters on a character border.
func (l *List) Add(at Path, code Code, given, detail, try string) {
	l.faults = append(l.faults, Fault{Path: at.kept(), Code: code, Detail: detail, Given: Clip(given), Try: try})
}

// Append takes over the faults of another list.
func (l *List) Append(other List) { l.faults = append(l.faults, other.faults...) }

// Faults are the faults so far; nil when there are none.
func (l List) Faults() []Fault { return l.faults }

// Len is how many faults there are.
func (l List) Len() int { return len(l.faults) }

// Err is the list as an error, or nil when nothing is wrong. errors.As finds the
// List in it, with every fault.
func (l List) Err() error {
	if len(l.faults) == 0 {
		return nil
	}
	return l
}

// mostSaid is how many faults Error says in full.
const mostSaid = 4

// Error says where each of the first few faults is, what is wrong there and what
// would do.
func (l List) Error() string {
	var b strings.Builder
	for i, f := range l.faults {
		if i > 0 {
			b.WriteString("; ")
		}
		if i == mostSaid {
			b.WriteString("and more")
			break
		}
		b.WriteString(f.Pointer() + ": " + f.Detail)
		if f.Try != "" {
			b.WriteString(" (" + f.Try + ")")
		}
	}
	return b.String()
}

// Where are the faults that a condition holds for.
func (l List) Where(holds func(Fault) bool) List {
	var out List
	for _, f := range l.faults {
		if holds(f) {
			out.faults = append(out.faults, f)
		}
	}
	return out
}

// ListOf is a list of faults.
func ListOf(faults ...Fault) List { return List{faults} }

// Below is the list of a part of the body, with paths into the whole: at is
// where the part stands.
func (l List) Below(at Path) List {
	var out List
	for _, f := range l.faults {
		f.Path = at.Then(f.Path)
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
