// Package plan lays panels on a patterned cloth: strip packing on a pattern
// lattice. Solve finds a plan and a bound below which no plan can go. What a job
// and a plan are is said in calc/layout; calc/verify proves that a plan is right,
// without this package.
//
// All arithmetic is in integers. The same job and effort give the same plan on
// every machine.
package plan
