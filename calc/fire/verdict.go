package fire

// Verdict is what a rule says of a layer.
type Verdict uint8

// The verdicts, the best first: of several the last in this order counts.
const (
	Exempt         Verdict = iota // the rule says that it does not ask anything
	EvidenceHeld                  // the papers said to be held answer what is asked
	EvidenceWanted                // something that must be known is not, or a paper does not fit
	OtherRegime                   // another instrument governs, which is not checked here
	NotAllowed                    // what is known fails what is asked
)

// String is the verdict's word on the wire.
func (v Verdict) String() string {
	switch v {
	case Exempt:
		return "exempt"
	case EvidenceHeld:
		return "evidence-held"
	case EvidenceWanted:
		return "evidence-wanted"
	case OtherRegime:
		return "other-regime"
	case NotAllowed:
		return "not-allowed"
	}
	return "unknown"
}

// Lets reports whether the verdict lets the layer be used as far as its rule
// goes.
func (v Verdict) Lets() bool { return v == Exempt || v == EvidenceHeld }

// verdictOf is the verdict with that word.
func verdictOf(word string) (Verdict, bool) {
	for v := Exempt; v <= NotAllowed; v++ {
		if v.String() == word {
			return v, true
		}
	}
	return 0, false
}

// Truth is whether a condition is met.
type Truth uint8

// The three truths.
const (
	Unknown Truth = iota
	No
	Yes
)

// String is the truth's word on the wire.
func (t Truth) String() string {
	switch t {
	case Yes:
		return "yes"
	case No:
		return "no"
	}
	return "unknown"
}

func (t Truth) not() Truth {
	switch t {
	case Yes:
		return No
	case No:
		return Yes
	}
	return Unknown
}

// and is Kleene's: no when one is no, unknown when one is unknown.
func (t Truth) and(o Truth) Truth {
	switch {
	case t == No || o == No:
		return No
	case t == Yes && o == Yes:
		return Yes
	}
	return Unknown
}

func (t Truth) or(o Truth) Truth { return t.not().and(o.not()).not() }

func truth(b bool) Truth {
	if b {
		return Yes
	}
	return No
}
