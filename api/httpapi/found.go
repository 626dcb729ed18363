package httpapi

import (
	"context"
)

// found is the context of a request with what the pipeline found out about it: one
// for all, since a context for each thing costs more than the thing.
type found struct {
	context.Context //nolint:containedctx // it is one

	media     string
	condition string
	encoding  string
	caller    caller
	input     any
	turn      *turn
	prefer    prefers
}

// Value is what was found, by this package's keys, or a value of the context.
func (f *found) Value(key any) any {
	name, ours := key.(contextKey)
	if !ours {
		return f.Context.Value(key)
	}
	switch name {
	case mediaKey:
		return f.media
	case conditionKey:
		return f.condition
	case encodingKey:
		return f.encoding
	case inputKey:
		return f.input
	case turnKey:
		return f.turn
	case preferKey:
		return f.prefer
	case callerKey:
		return f.caller
	case accountKey:
		return f.caller.account
	}
	return f.Context.Value(key)
}
