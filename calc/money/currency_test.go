package money_test

import (
	"encoding/csv"
	"os"
	"testing"

	"github.com/bridletie/bridletie/calc/money"
)

// later is what has changed since the list in testdata was published, and what is
// left out of it or kept besides: the decimals, or refused. The amendments are those
// that the Interinstitutional Style Guide of the European Union's Publications Office
// lists as changes of currencies.
var later = map[string]string{
	"XCG": "2",                                     // amendment 176, of 2025-03-31: the Caribbean guilder, for ANG
	"CUC": "refused",                               // amendment 178: withdrawn; it was never taken
	"UYW": "refused",                               // an index of wages, in which nothing is paid
	"GWP": "2", "HRK": "2", "SLL": "2", "ZWL": "2", // List Three: withdrawn, and still taken as they were
}

// Of all codes there could be, those of ISO 4217's List One that are currencies with
// a smallest unit are taken, with its decimals. testdata/list-one.csv has the codes,
// decimals and kinds of the list of 2024-06-25, by its maintenance agency, SIX.
func TestCurrenciesAreThoseOfTheList(t *testing.T) {
	f, err := os.Open("testdata/list-one.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := make(map[string]string)
	for _, row := range rows[1:] {
		if row[2] == "currency" && row[1] != "N.A." {
			want[row[0]] = row[1]
		}
	}
	for code, now := range later {
		want[code] = now
	}
	taken := 0
	for n := range 26 * 26 * 26 {
		code := string([]byte{'A' + byte(n/676), 'A' + byte(n/26%26), 'A' + byte(n%26)})
		got := "refused"
		if c, err := money.ParseCurrency(code); err == nil {
			got = string('0' + money.Scale(c))
			taken++
			if c.Code() != code {
				t.Errorf("%s is read as %s", code, c.Code())
			}
		}
		if expected, ok := want[code]; got != expected && (ok || got != "refused") {
			t.Errorf("%s: %s, the list says %q", code, got, expected)
		}
	}
	if taken < 150 {
		t.Errorf("only %d currencies", taken)
	}
}
