// Package glance plans at a glance: which of many cloths suits a cutting list, and
// about what a piece takes and costs before it is measured and its cloth is chosen.
package glance
