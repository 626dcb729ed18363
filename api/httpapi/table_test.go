package httpapi

import (
	"slices"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/api/contract"
)

func loaded(t *testing.T) (*contract.Contract, contract.Limits) {
	t.Helper()
	l := DefaultLimits()
	c, err := contract.Load(l.Limits, int(l.SolveTime.Seconds()))
	if err != nil {
		t.Fatal(err)
	}
	return c, l.Limits
}

// The table and the contract say the same, and a table that does not keeps the
// service from starting.
func TestTableIsTheContract(t *testing.T) {
	c, limits := loaded(t)
	if _, err := newTable(operations(), c, limits); err != nil {
		t.Fatal(err)
	}
	find := func(rows []row, id string) *row {
		return &rows[slices.IndexFunc(rows, func(r row) bool { return r.id == id })]
	}
	for _, tc := range []struct {
		name  string
		spoil func([]row) []row
		want  string
	}{
		{"a row is missing", func(r []row) []row { return slices.DeleteFunc(r, func(r row) bool { return r.id == "pleats" }) }, "the operation pleats of the contract has no row"},
		{"a row too many", func(r []row) []row { return append(r, row{id: "hems"}) }, "hems: the contract has none of this id, or the table has two"},
		{"a row twice", func(r []row) []row { return append(r, *find(r, "foam")) }, "foam: the contract has none of this id, or the table has two"},
		{"another path", func(r []row) []row { find(r, "foam").path = "/v1/foams"; return r }, "foam: method and path"},
		{"another method", func(r []row) []row { find(r, "livez").method = "POST"; return r }, "livez: method and path"},
		{"more bytes", func(r []row) []row { find(r, "job").size.bytes++; return r }, "job: the limits of the body"},
		{"fewer values", func(r []row) []row { find(r, "job").size.values--; return r }, "job: the limits of the body"},
		{"no page of text", func(r []row) []row { f := find(r, "job"); f.forms = f.forms[:3]; return r }, "job: the forms"},
		{"a form that is not in the contract", func(r []row) []row { f := find(r, "estimate"); f.forms = append(f.forms, "text/csv"); return r }, "estimate: the forms"},
		{"a body that nothing reads", func(r []row) []row { find(r, "repeat").read = nil; return r }, "repeat: body and lines"},
		{"lines that are not read as they come", func(r []row) []row { find(r, "batch").stream = nil; return r }, "batch: body and lines"},
	} {
		_, err := newTable(tc.spoil(operations()), c, limits)
		if err == nil || !strings.Contains(err.Error(), tc.want) {
			t.Errorf("%s: %v, want %q", tc.name, err, tc.want)
		}
	}
}

// Limits that an operator makes smaller are those of the table too.
func TestTableWithSmallerLimits(t *testing.T) {
	l := DefaultLimits()
	l.BodyBytes, l.Values = 100_000, 30_000
	c, err := contract.Load(l.Limits, 10)
	if err != nil {
		t.Fatal(err)
	}
	all, err := newTable(operations(), c, l.Limits)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range all {
		if r.read != nil && (r.says.BodyBytes > l.BodyBytes || r.says.Values > l.Values) {
			t.Errorf("%s reads %d bytes and %d values", r.id, r.says.BodyBytes, r.says.Values)
		}
	}
}

// Every row answers in some way, and the command line has a name for each that reads
// JSON, and the page of text that it prints.
func TestRowsAreWhole(t *testing.T) {
	names := make(map[string]bool)
	for _, r := range operations() {
		ways := 0
		for _, has := range []bool{r.read != nil, r.reply != nil, r.stream != nil} {
			if has {
				ways++
			}
		}
		if ways != 1 {
			t.Errorf("%s answers in %d ways", r.id, ways)
		}
		if r.read == nil {
			continue
		}
		if r.command == "" || names[r.command] || !slices.Contains(r.forms, contract.Text) {
			t.Errorf("%s: the command is %q, the forms are %q", r.id, r.command, r.forms)
		}
		names[r.command] = true
	}
	if len(names) < 15 {
		t.Errorf("only %d operations are asked", len(names))
	}
}
