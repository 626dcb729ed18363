// Package furniture turns a measured piece of furniture into what must be cut
// and made for it: the panels of the covers with their allowances and what the
// pattern must do on them, the runs of piping, the cushions and pads, and the
// frames that are webbed.
//
// A [Kind] says which measures it wants, where to put the tape for each, and
// which choices of style there are. [Piece.List] makes the list. Every panel
// says how its size came about, in the words of the measures.
//
// Typical measures are the common proportions of the trade (common practice, no
// source); they were fixed before any yardage was worked out from them.
package furniture
