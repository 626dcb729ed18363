package service

import (
	"context"

	"github.com/bridletie/bridletie/calc/fault"
)

// Ready makes the answer to a request without faults, of what was worked out to see
// that it has none. It is called once. It returns the context's error when the
// context ends before the answer is complete.
type Ready[A any] func(context.Context) (*A, error)

// Faults are what is wrong with a request, by the function that prepares it.
func Faults[A any](_ Ready[A], wrong fault.List) fault.List { return wrong }

// unless is ready itself, or where something is wrong what returns that as an error.
func unless[A any](ready Ready[A], wrong fault.List) Ready[A] {
	if wrong.Len() == 0 {
		return ready
	}
	return func(context.Context) (*A, error) { return nil, wrong }
}
