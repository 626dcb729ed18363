package practice

import (
	"slices"

	"github.com/bridletie/bridletie/calc/fault"
)

// Book is the settings that an operation takes in its request, in the order in
// which they are listed.
type Book struct {
	list []Setting
	at   map[string]int
}

// BookOf is the book of some subjects.
func BookOf(subjects ...Subject) *Book {
	b := &Book{at: make(map[string]int)}
	for _, row := range table {
		if slices.Contains(subjects, row.Subject) {
			b.at[row.Name] = len(b.list)
			b.list = append(b.list, *row)
		}
	}
	return b
}

// Settings are all of them, with their defaults.
func (b *Book) Settings() []Setting { return b.list }

// Faults are what is wrong with given values: names that are not in the book or
// given twice, another kind than the setting's, or out of its range. at is where
// the list stands.
func (b *Book) Faults(given []Given, at fault.Path) fault.List {
	var l fault.List
	seen := make(map[string]bool, len(given))
	for i, g := range given {
		here := at.Index(i)
		k, ok := b.at[g.Name]
		switch {
		case !ok:
			l.Add(here.Field("name"), fault.NotOneOf, g.Name, "there is no setting of this name", "a name from the list of settings in /openapi.yaml")
			continue
		case seen[g.Name]:
			l.Add(here.Field("name"), fault.Duplicate, g.Name, "this setting is given already", "each setting once")
			continue
		}
		seen[g.Name] = true
		s := b.list[k]
		field := fieldOf(s.Kind)
		if g.Kind != s.Kind {
			l.Add(here.Field(fieldOf(g.Kind)), fault.NotAllowed, "", s.Name+" is a "+field, "give "+field+" instead")
			continue
		}
		if g.Value < s.Least {
			l.Add(here.Field(field), fault.TooSmall, s.text(g.Value), s.What+" is at least "+s.text(s.Least), s.limits())
		}
		if g.Value > s.Most {
			l.Add(here.Field(field), fault.TooLarge, s.text(g.Value), s.What+" is at most "+s.text(s.Most), s.limits())
		}
	}
	return l
}

// fieldOf is the name of the wire field that holds a value of that kind.
func fieldOf(k Kind) string {
	switch k {
	case Number:
		return "number"
	case Count:
		return "count"
	}
	return "length"
}
