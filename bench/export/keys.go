package export

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// ErrNoKeying says that the job's points do not tell how poses are written.
var ErrNoKeying = errors.New("the job's points hold no pose, so the orientation convention of the controller is not known: give `points.orientation`, or key in the joint values of steps.csv")

// Digits of a controller's screen.
const (
	keyDigitsLength = 2 // of a millimetre
	keyDigitsTurn   = 2 // of a degree
	keyDigitsPure   = 6 // of a quaternion, a matrix or a radian
)

// Keys writes the steps as a table to key in by hand: in the frame, the unit
// and the orientation convention in which the job's points were read off the
// controller, with a line of sums at the end by which a slip of the finger
// shows. It returns ErrNoKeying where the convention is not known.
func Keys(w io.Writer, j *job.Job, p *plan.Plan) error {
	k := newKeys(j, p)
	if k.convention == (se3.Convention{}) {
		return ErrNoKeying
	}
	of := "wire tip"
	if j.Keying.Flange {
		of = "flange"
	}
	fmt.Fprintf(w, "Values to key in: the %s in the %s frame, %s; orientation: %s (%s)\n", of, j.Keying.Frame, j.Keying.Length, k.convention, k.convention.Describe())
	tab := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintf(tab, "step\tx\ty\tz\t%s\t  move\tspeed\tarc\t  label\n", strings.Join(k.convention.Names(), "\t"))
	sums := make([]float64, 3+k.convention.Len())
	for i := range p.Steps {
		numbers := k.numbers(p.Steps[i].Pose)
		cells := make([]string, len(numbers))
		for c, v := range numbers {
			cells[c] = k.print(c, v)
			sums[c] += k.rounded(c, v)
		}
		s := &p.Steps[i]
		fmt.Fprintf(tab, "%d\t%s\t  %s\t%s\t%s\t  %s\n", i+1, strings.Join(cells, "\t"), s.Move, speedText(s, j.Keying.Speed), arcText(s), s.Label)
	}
	cells := make([]string, len(sums))
	for c, v := range sums {
		cells[c] = k.print(c, v)
	}
	fmt.Fprintf(tab, "sum\t%s\t\t\t\t\n", strings.Join(cells, "\t"))
	return tab.Flush()
}

type keys struct {
	convention              se3.Convention
	keyFromBase, tipFromKey se3.Pose // the frame and the body that the controller shows
	length                  float64  // m in one unit of length
	lengthDigits            int
	units                   []string
}

func newKeys(j *job.Job, p *plan.Plan) keys {
	k := keys{convention: j.Keying.Orientation, keyFromBase: se3.Identity(), tipFromKey: se3.Identity(), units: j.Keying.Orientation.Units()}
	switch j.Keying.Frame {
	case job.FrameWorld:
		k.keyFromBase = p.Cell.WorldFromBase(&kinematics.Q{})
	case job.FramePart:
		k.keyFromBase = p.Cell.BaseFromPart.Inv()
	}
	if j.Keying.Flange {
		k.tipFromKey = p.Cell.FlangeFromTip.Inv()
	}
	switch j.Keying.Length {
	case "m":
		k.length, k.lengthDigits = 1, keyDigitsLength+3
	case "in":
		k.length, k.lengthDigits = unit.Inch, keyDigitsLength+1
	default:
		k.length, k.lengthDigits = unit.MM, keyDigitsLength
	}
	return k
}

// numbers are the place and the orientation of a tip pose as the controller
// shows them.
func (k keys) numbers(baseFromTip se3.Pose) []float64 {
	pose := k.keyFromBase.Mul(baseFromTip).Mul(k.tipFromKey)
	turn := make([]float64, k.convention.Len())
	k.convention.Encode(pose.R, turn)
	return append([]float64{pose.P.X / k.length, pose.P.Y / k.length, pose.P.Z / k.length}, turn...)
}

func (k keys) digits(column int) int {
	switch {
	case column < 3:
		return k.lengthDigits
	case k.units[column-3] == "deg":
		return keyDigitsTurn
	}
	return keyDigitsPure
}

func (k keys) print(column int, v float64) string { return fixed(v, k.digits(column)) }

// rounded is the value as printed, so that the sums are those of the sheet.
func (k keys) rounded(column int, v float64) float64 {
	scale := math.Pow(10, float64(k.digits(column)))
	return math.Round(v*scale) / scale
}

func speedText(s *plan.Step, u unit.Unit) string {
	if s.Move == plan.MoveJoint {
		return fmt.Sprintf("%.0f percent", s.Percent)
	}
	if s.Turn > 0 {
		return unit.Format(s.Turn, unit.DegreesPerSecond, 0)
	}
	return unit.Format(s.Speed, u, 2)
}

func arcText(s *plan.Step) string {
	if s.Arc == "on" {
		return "on, set " + s.Settings
	}
	return s.Arc
}
