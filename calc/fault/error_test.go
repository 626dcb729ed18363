package fault_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/bridletie/bridletie/calc/fault"
)

func TestListIsAnError(t *testing.T) {
	var l fault.List
	if err := l.Err(); err != nil {
		t.Errorf("nothing is wrong, and the error is %v", err)
	}
	l.Add(fault.At("count"), fault.TooSmall, "0", "a panel is cut at least once", "1 or more")
	if got, want := l.Err().Error(), "#/count: a panel is cut at least once (1 or more)"; got != want {
		t.Errorf("the error says %q, want %q", got, want)
	}
	for i := range 10 {
		l.Add(fault.Path{}.Index(i), fault.Missing, "", "it is missing", "")
	}
	wrapped := fmt.Errorf("not planned: %w", l.Err())
	var back fault.List
	if !errors.As(wrapped, &back) || back.Len() != 11 {
		t.Errorf("of 11 faults %d come back", back.Len())
	}
	if text := wrapped.Error(); strings.Count(text, ";") != 4 || !strings.HasSuffix(text, "; and more") || errors.Is(wrapped, errors.ErrUnsupported) {
		t.Errorf("the error says %q", text)
	}
}
