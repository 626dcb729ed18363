package note

import (
	"slices"
	"strconv"
	"strings"

	"github.com/bridletie/bridletie/calc/length"
)

// Text is the note as a sentence, with lengths in these units. Of the ICU message
// format templates use:
//
//	{name}                                       the value
//	{name, list}                                 names as "a, b and c"
//	{name, plural, =0 {…} one {…} other {…}}     by a number or a length; # is the value
//	{name, select, word {…} other {…}}           by a word
//
// A note of an unknown code is its code, and a parameter that is not there stands
// as it is written in the template: neither happens to notes that pass the tests
// of this package.
func (n Note) Text(units length.System) string {
	e, known := registry[n.Code]
	if !known {
		return string(n.Code)
	}
	w := writer{note: n, units: units}
	w.write(e.template, "#")
	return w.b.String()
}

// writer fills a template in.
type writer struct {
	b     strings.Builder
	note  Note
	units length.System
}

// write writes a part of a template; number stands for each #.
func (w *writer) write(template, number string) {
	for template != "" {
		before, inside, after := cutBraces(template)
		w.b.WriteString(strings.ReplaceAll(before, "#", number))
		if inside != "" {
			w.fill(inside, number)
		}
		template = after
	}
}

// fill writes what stands between braces.
func (w *writer) fill(inside, number string) {
	name, rest, _ := strings.Cut(inside, ",")
	v := w.note.value(name)
	if v == nil {
		w.b.WriteString("{" + inside + "}")
		return
	}
	how, branches, _ := strings.Cut(strings.TrimSpace(rest), ",")
	text := v.Text(w.units)
	switch how {
	case "list":
		if words, ok := v.(Words); ok {
			text = words.listed()
		}
		w.b.WriteString(text)
	case "plural":
		labels := []string{"=" + strconv.FormatInt(amount(v), 10)}
		if amount(v) == 1 {
			labels = append(labels, "one")
		}
		w.write(branch(branches, labels...), text)
	case "select":
		w.write(branch(branches, text), number)
	default:
		w.b.WriteString(text)
	}
}

// value is that of a parameter; nil when there is none of the name.
func (n Note) value(name string) Value {
	for _, p := range n.Params {
		if p.Name == name {
			return p.Value
		}
	}
	return nil
}

// amount is what a plural goes by: a count, or a length in nanometres.
func amount(v Value) int64 {
	switch v := v.(type) {
	case Number:
		return int64(v)
	case Size:
		return int64(v.Length)
	case Figure:
		return int64(v)
	case Fraction:
		return int64(v)
	case Share:
		return int64(v)
	case Words:
		return int64(len(v))
	}
	return 0
}

// branch is the first of the branches with one of the labels, in the order of the
// labels, or else that for all others.
func branch(branches string, labels ...string) string {
	found, rank := "", len(labels)+1
	for branches != "" {
		label, inside, after := cutBraces(branches)
		label = strings.TrimSpace(label)
		k := slices.Index(labels, label)
		if k < 0 && label == "other" {
			k = len(labels)
		}
		if k >= 0 && k < rank {
			found, rank = inside, k
		}
		branches = after
	}
	return found
}

// cutBraces cuts a text round its first pair of braces. Without one, or where it
// is not closed, all is before.
func cutBraces(text string) (before, inside, after string) {
	from := strings.IndexByte(text, '{')
	if from < 0 {
		return text, "", ""
	}
	depth := 0
	for i := from; i < len(text); i++ {
		switch text[i] {
		case '{':
			depth++
		case '}':
			if depth--; depth == 0 {
				return text[:from], text[from+1 : i], text[i+1:]
			}
		}
	}
	return text, "", ""
}
