package fire

import "testing"

func TestRulesAreRight(t *testing.T) {
	s, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Rules) < 80 || len(s.Tests) < 30 {
		t.Errorf("%d rules and %d tests", len(s.Rules), len(s.Tests))
	}
}
