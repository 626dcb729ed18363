// Package buttoning works out deep buttoning in diamonds: where the buttons
// stand on the work and on the cloth, how much cloth the wells take, where the
// pleats lie, what becomes of every motif of the pattern, and what the buttons
// themselves need.
//
// Places are measured from the two centre lines of the field of buttons, x to
// the right and y downwards, as the panel is worn. In a row the buttons stand a
// diamond's width apart; the rows are half a diamond's height apart, and each
// is moved by half a width against its neighbours. The field is therefore a
// mesh of half diamonds: place k across counts half widths from the upright
// centre line, row r counts from the top, and a button stands where k and r
// agree.
//
// Lengths are exact but for arcs, which are rounded once to the nearest
// micrometre, so that the last bits of a logarithm never show.
package buttoning
