// Package wire turns requests as the contract has them into those of the service,
// and answers of the service into those of the contract: one file an operation, and
// files of words that several of them share. It translates and decides nothing. What
// cannot be said in the types of the service is recorded as a fault.
package wire
