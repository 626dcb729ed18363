// Package calc is the root of the calculations: it has no code, only the packages
// below it. They are a library, and other programs may import them.
//
//   - length, geom, fault, note: lengths and their rounding, points and arcs, what is
//     wrong with a request, and what an answer says in words.
//   - cloth, panel, layout: the words for a job and for a plan.
//   - plan finds a plan, verify proves that a plan is right, whoever made it.
//   - buttoning, piping, repeat, pleat, relief: the work on the cover.
//   - foam, wadding, foundation, sheet: what lies beneath it.
//   - furniture, practice: what to measure, and the constants of the trade.
//   - costing, money, calendar, fire: what it costs and whether it may be used.
//
// The package example plans, verifies and buttons an inside back.
//
// # What every package keeps
//
// Functions return what follows from their arguments alone: no input or output, no
// clock, no state, no goroutine. They may be called from any number of goroutines.
// The same arguments give the same result on every machine. Lengths are exact, in
// nanometres; what must be enough is rounded up.
//
// The Faults of a job say what is wrong with it, as a fault.List, which is an error;
// only a job without faults may be worked out.
//
// # What may change
//
// Until version 1.0 a minor version may change names and signatures, in every
// package. A patch version changes neither. A result may become better with any
// version, such as a shorter plan, and with it the plan itself: who needs the same
// plan again keeps the plan, which verify can prove at any time, or the version.
// length, cloth, panel, layout and verify are meant to stay as they are.
package calc
