// Package practice holds the trade constants: what a workroom does unless it is
// told otherwise. Each is one row of one table, a [Setting] with a name, what it
// is, a default, the range in which it is believed, and its source: a title,
// [Common] or [Memory]. The rows lie in files by [Subject].
//
// A formula asks a [Set] for the row, as in shop.Length(practice.CoverSeam). The
// zero Set holds the defaults; [Set.With] puts other figures in their place. A
// request has its set in the field Shop, with what it gives itself put in before
// the figures of the workroom. A way of cutting may have defaults of its own, see
// [For]. An answer that lists the settings it goes by asks a set that is
// [Set.Noted]. A sentence that states a figure takes it from the same set, and
// says where it is from by [Set.Source] or [Set.Basis].
//
// # Adding one
//
// Write the row into the file of its subject, and read it in the formula. Run the
// tests of this package with -update, and read the difference in
// testdata/table.txt. TestEverySettingChangesAnAnswer in service/job fails until
// an answer changes with it: add a bench there that reads the row. Where the
// contract states the figure, api/practice_test.go must name the place, so that
// the two stay equal; a text without figures needs nothing.
package practice
