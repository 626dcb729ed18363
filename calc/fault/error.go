package fault

import "strings"

// Err is the list as an error, or nil when nothing is wrong. Callers find the
// faults again with errors.As and a List.
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
		b.WriteString(f.Pointer + ": " + f.Detail)
		if f.Try != "" {
			b.WriteString(" (" + f.Try + ")")
		}
	}
	return b.String()
}
