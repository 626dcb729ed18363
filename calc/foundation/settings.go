package foundation

import (
	"github.com/bridletie/bridletie/calc/length"
	"github.com/bridletie/bridletie/calc/practice"
)

const (
	mm = length.Millimetre
	cm = length.Centimetre
	in = length.Inch
)

// Book is the settings that a job may give.
func Book() *practice.Book { return book }

var book = practice.BookOf(practice.Foundation)

// Practice is what the job goes by: its own settings before those of the
// workroom.
func (job Job) Practice() practice.Set { return job.Shop.With(job.Given...) }

// clothKeys are the settings of a cloth and of what holds it.
type clothKeys struct{ width, turn, tack, spacing practice.LengthKey }

// keys are those of a cloth.
func (c Use) keys() clothKeys {
	return [uses]clothKeys{
		Hessian:   {practice.HessianWidth, practice.HessianTurn, practice.HessianTack, practice.HessianSpacing},
		Scrim:     {practice.ScrimWidth, practice.ScrimTurn, practice.ScrimTack, practice.ScrimSpacing},
		Calico:    {practice.CalicoWidth, practice.CalicoTurn, practice.CalicoTack, practice.CalicoSpacing},
		Bottoming: {practice.BottomingWidth, practice.BottomingTurn, practice.BottomingTack, practice.BottomingSpacing},
	}[c]
}

// Width is the setting that says how wide the cloth is.
func (c Use) Width() practice.LengthKey { return c.keys().width }

// partKeys are the settings of a part's stuffing.
type partKeys struct {
	first, second practice.LengthKey
	edgeRows      practice.CountKey
}

func (p Part) keys() partKeys {
	return [...]partKeys{
		Seat: {practice.SeatFirstDepth, practice.SeatSecondDepth, practice.EdgeRowsSeat},
		Back: {practice.BackFirstDepth, practice.BackSecondDepth, practice.EdgeRowsBack},
		Arm:  {practice.ArmFirstDepth, practice.ArmSecondDepth, practice.EdgeRowsArm},
	}[p]
}
