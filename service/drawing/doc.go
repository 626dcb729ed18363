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
//
// # Pages
//
// A page ends where nothing is cut and nothing in Picture.Whole is taken apart:
// keep on the sheet puts a drawing and its heading there. A [Strip] that no page
// holds is broken where the fewest panels are, each page with a part of the last,
// behind the key of pdf_key.go. A picture is printed at its own Scale, so that
// what it says of that is true.
//
// # Letters
//
// SVG is read with whatever font there is, so a text is taken for as broad as the
// broadest of the common ones. PDF embeds the Go fonts; TestFontHasEverySign
// holds every sign in the package's texts against them.
//
// # Tests
//
// Goldens of SVG are compared by bytes, pages as pixels (TestGoldenPages, by
// pdftoppm). What needs qpdf or poppler is skipped, and says so, where they are
// not installed.
package drawing
