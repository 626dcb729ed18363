// Package drawing makes the drawings and the printed pages of answers.
//
// A [Picture] is a list of shapes in millimetres and knows nothing of cloth; a
// writer turns it into a file, [Picture.SVG] into SVG. What is drawn for an
// answer is decided once, in a function that returns a Picture, so that every
// kind of file shows the same.
//
// The functions are pure: the same answer gives the same bytes. All text that
// came with a request is cleaned of control characters and escaped, whatever
// it holds, and the size of a drawing is bounded by the number of placements.
package drawing
