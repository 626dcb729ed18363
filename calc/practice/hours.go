package practice

import "strings"

// Hours is the hours of the work. They are examples: every shop has hours of its
// own.
const Hours Subject = "hours"

// Operation is the hours of one operation: so many for a piece, and so many more
// for each panel, cushion, frame and button and each metre of piping. A key is
// nil where it takes none.
type Operation struct {
	Name                                        string
	Piece, Panel, Cushion, Frame, Button, Metre NumberKey
}

// per is what hours are for.
type per struct {
	hundredths int64
	of         string
	key        func(*Operation) *NumberKey
}

func perPiece(h int64) per { return per{h, "piece", func(o *Operation) *NumberKey { return &o.Piece }} }
func perPanel(h int64) per { return per{h, "panel", func(o *Operation) *NumberKey { return &o.Panel }} }
func perCushion(h int64) per {
	return per{h, "cushion", func(o *Operation) *NumberKey { return &o.Cushion }}
}
func perFrame(h int64) per { return per{h, "frame", func(o *Operation) *NumberKey { return &o.Frame }} }
func perButton(h int64) per {
	return per{h, "button", func(o *Operation) *NumberKey { return &o.Button }}
}
func perMetre(h int64) per { return per{h, "metre", func(o *Operation) *NumberKey { return &o.Metre }} }

// hours is an operation of a preset, in hundredths of an hour.
func hours(preset, operation string, all ...per) Operation {
	o := Operation{Name: operation}
	for _, p := range all {
		*p.key(&o) = Hours.number(preset+"-"+strings.ReplaceAll(operation, " ", "-")+"-"+p.of, operation+", for each "+p.of, "hours", 10*p.hundredths, 0, 200_000, Common)
	}
	return o
}

// The presets: an old cover off and a new one on; down to the frame and up
// again; a new frame upholstered for the first time.
var (
	Recover = []Operation{
		hours("re-cover", "strip", perPiece(25), perPanel(8)),
		hours("re-cover", "stuffing", perFrame(40)),
		hours("re-cover", "cutting", perPiece(30), perPanel(7)),
		hours("re-cover", "machining", perCushion(60), perPanel(4), perMetre(8)),
		hours("re-cover", "covering", perPanel(30)),
		hours("re-cover", "buttoning", perButton(9)),
		hours("re-cover", "trimming", perPiece(25), perPanel(3)),
		hours("re-cover", "collection", perPiece(50)),
	}
	Rebuild = []Operation{
		hours("rebuild", "strip", perPiece(50), perPanel(12)),
		hours("rebuild", "frame repair", perPiece(75)),
		hours("rebuild", "foundation", perFrame(220)),
		hours("rebuild", "stuffing", perFrame(260)),
		hours("rebuild", "cutting", perPiece(30), perPanel(7)),
		hours("rebuild", "machining", perCushion(60), perPanel(4), perMetre(8)),
		hours("rebuild", "covering", perPanel(35)),
		hours("rebuild", "buttoning", perButton(9)),
		hours("rebuild", "trimming", perPiece(25), perPanel(3)),
		hours("rebuild", "collection", perPiece(50)),
	}
	NewWork = []Operation{
		hours("new-work", "foundation", perFrame(200)),
		hours("new-work", "stuffing", perFrame(240)),
		hours("new-work", "cutting", perPiece(30), perPanel(7)),
		hours("new-work", "machining", perCushion(60), perPanel(4), perMetre(8)),
		hours("new-work", "covering", perPanel(32)),
		hours("new-work", "buttoning", perButton(9)),
		hours("new-work", "trimming", perPiece(25), perPanel(3)),
		hours("new-work", "collection", perPiece(50)),
	}
)
