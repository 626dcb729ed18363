// Package piping works out covered cord for seams: how wide the strips are cut,
// how many lie in a rectangle of cloth at an angle, which strip covers which run
// and where the joins fall, and what cloth each way of cutting takes.
//
// # Terms
//
// A run is one length of piping on the piece: an edge, the seam round a cushion.
// A strip is cut in one go; a piece is what one run takes of a strip. Across is
// from selvedge to selvedge, along is the way of the roll. The angle of a bias
// strip is the one between it and the selvedge; 45 degrees is the true bias.
//
// # Ends and joins
//
// Bias strips are sewn end to end on a slant of 45 degrees to their edges, which
// on the true bias is a thread of the cloth. All ends slant the same way, so that
// any two strips fit together. The length of a bias strip is that of the largest
// parallelogram with such ends; a join of two takes 2*sqrt(2) of the seam allowance
// of joins from the sum of their lengths, and the outer ends of a run are squared
// off, which takes half the strip's width each.
//
// Straight strips have square ends and are joined on the diagonal of the square
// in which two cross, which takes the strip's width (derived here).
//
// # Exactness
//
// Lengths are whole nanometres. Sines are a table and products are rounded
// before they are added, so that every machine gives the same strips. The length
// of a bias strip is rounded down to the micrometre, the cloth for it up.
package piping
