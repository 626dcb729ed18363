// Package verify proves that a plan is right: every panel laid once, on the
// cloth, apart from the others, the way it may lie, with the pattern where it was
// wished. It knows the job and the layouts and nothing of how a plan is found, so
// that it can be trusted against the engine in calc/plan and against a plan made
// by hand.
//
// All arithmetic is in integers. The same job and layouts give the same flaws, in
// the same order, on every machine. Any input is answered; none panics.
package verify
