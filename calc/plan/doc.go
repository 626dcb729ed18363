// Package plan lays panels on a patterned cloth: strip packing on a pattern
// lattice. Solve finds a plan and a bound below which no plan can go; Check is
// an independent verifier of any plan, found here or made by hand.
//
// All arithmetic is in integers. The same job and effort give the same plan on
// every machine.
package plan
