// Package buying makes the order list of any number of answers, puts prices to it
// and to the work, and lays the work out over days.
package buying
