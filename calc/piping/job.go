package piping

import "github.com/bridletie/bridletie/calc/length"

// The limits within which a job is answered.
const (
	MaxRuns   = 10_000
	MaxStrips = 20_000 // of one way of cutting
	MaxRects  = 200
)

// Job is what is to be piped, and from what. Its fields must be within the
// limits that the service holds requests against; Solve does not look again.
type Job struct {
	Shape
	JoinSeam length.Length // allowance of joins between bias strips
	Overlap  length.Length // of closed runs
	Ends     length.Length // beyond each end of open runs
	Margin   length.Length // kept free of joins on each side of a corner
	OneLean  bool          // all strips lean the same way
	Runs     []Run         // each with a place for its closing, see KeepClear
	Rects    []Rect        // in hand
	Cloth    length.Length // width of new cloth; 0 when there is none

	// The tightest curve that the piping takes, by the cut.
	RadiusBias, RadiusStraight length.Length
}

// Way is a way of getting the strips.
type Way uint8

// The ways.
const (
	FromRects    Way = iota // cut from the rectangles in hand, and what is missing from new cloth
	FullBias                // bias strips from selvedge to selvedge
	BiasPiece               // bias strips of all lengths, from a piece of new cloth cut straight across
	Continuous              // bias, from a rectangle sewn to a tube and cut round and round
	StraightCuts            // straight strips, from selvedge to selvedge
	LongCuts                // straight strips along the selvedge
)

// Piece is what one run takes of a strip.
type Piece struct {
	Strip int
	From  length.Length // on the strip
	Long  length.Length
}

// Laid is how one run is made up. A run without pieces is not covered.
type Laid struct {
	Pieces []Piece
	Joins  []length.Length // where each join lies on the run, in the order of the pieces
	Closes length.Length   // where a closed run is closed
}

// Plan is one way, worked out.
type Plan struct {
	Way      Way
	Possible bool // strips can be cut in this way at all
	Shape    Shape
	Strips   []Strip       // those that are used, in the order in which they are cut
	Runs     []Laid        // by run; nil when not possible
	Cloth    length.Length // new cloth that it takes, off the roll
	Missing  int           // runs that are not covered
	Short    length.Length // what the rectangles in hand alone do not cover, end to end with the allowances
	Joins    int           // of all runs; of the continuous way the most that there can be
	Tube     *Tube         // of the continuous way

	Curves int // runs with a curve that is too tight for the cut
	Strays int // runs whose joins cannot be kept from forbidden places, or may be too many
}

// Keeps reports whether all runs are covered as wished for, joins and curves
// included.
func (p *Plan) Keeps() bool {
	return p.Possible && p.Missing == 0 && p.Curves == 0 && p.Strays == 0
}

// Need is what a run takes of strips, apart from what its joins take: its length,
// the overlap or the two ends, and on the bias the squaring of the outer ends.
func (j *Job) Need(r Run, cut Cut) length.Length {
	return r.Length + j.spare(r) + j.squaring(cut)
}

func (j *Job) spare(r Run) length.Length {
	if r.Closed {
		return j.Overlap
	}
	return 2 * j.Ends
}

func (j *Job) squaring(cut Cut) length.Length {
	if cut == Bias {
		return j.Width
	}
	return 0
}

// JoinTakes is what one join takes from the lengths of two strips together: on
// the bias 2*sqrt(2) times the seam allowance, rounded up to the micrometre; on
// the straight the strip's width.
func (j *Job) JoinTakes(cut Cut) length.Length {
	if cut != Bias {
		return j.Width
	}
	sin, _ := sinCos(TrueBias)
	return up(scaled(j.JoinSeam, 4*sin))
}

// CordLength is the cord for all runs, overlaps and ends included.
func (j *Job) CordLength() (sum length.Length) {
	for _, r := range j.Runs {
		sum += r.Length + j.spare(r)
	}
	return sum
}
