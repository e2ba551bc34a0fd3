package export

import (
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// Digits of a controller's screen.
const (
	keyDigitsLength = 2 // of a millimetre
	keyDigitsTurn   = 2 // of a degree
	keyDigitsPure   = 6 // of a quaternion, a matrix or a radian
)

// Keys writes the steps as a table to key in by hand, with a line of sums at
// the end by which a slip of the finger shows: poses in the frame, the unit and
// the orientation convention in which the job's points were read off the
// controller, and joint values as the controller shows them where a pose does
// not say how the arm stands (more than six joints), where the controller
// counts joints otherwise than the arm's file, or where the points tell no
// convention.
func Keys(w io.Writer, j *job.Job, p *plan.Plan) error {
	k := newKeys(j, p)
	fmt.Fprintf(w, "Values to key in: %s\n", strings.Join(k.says(j), "; "))
	tab := tabwriter.NewWriter(w, 0, 0, 2, ' ', tabwriter.AlignRight)
	heads := make([]string, len(k.columns))
	for c := range k.columns {
		heads[c] = k.columns[c].head
	}
	fmt.Fprintf(tab, "step\t%s\t  move\tspeed\tarc\t  label\n", strings.Join(heads, "\t"))
	sums, cells := make([]float64, len(heads)), make([]string, len(heads))
	for i := range p.Steps {
		s := &p.Steps[i]
		for c, v := range k.numbers(s) {
			cells[c] = fixed(v, k.columns[c].digits)
			sums[c] += rounded(v, k.columns[c].digits)
		}
		fmt.Fprintf(tab, "%d\t%s\t  %s\t%s\t%s\t  %s\n", i+1, strings.Join(cells, "\t"), s.Move, speedText(s, j.Keying.Speed), arcText(s), s.Label)
	}
	for c, v := range sums {
		cells[c] = fixed(v, k.columns[c].digits)
	}
	fmt.Fprintf(tab, "sum\t%s\t\t\t\t\n", strings.Join(cells, "\t"))
	return tab.Flush()
}

// keys is how a controller shows places of the arm.
type keys struct {
	cell       *cell.Cell
	frame      job.FrameName
	convention se3.Convention // zero: no poses are shown
	tipFromKey se3.Pose       // the body that the controller shows
	length     float64        // m in one unit of length
	turn       float64        // rad in one unit of joint values
	shown      []job.Shown    // by joint; empty: no joint values are shown
	columns    []keyColumn
}

type keyColumn struct {
	head   string
	digits int
}

func newKeys(j *job.Job, p *plan.Plan) keys {
	k := keys{cell: p.Cell, frame: j.Keying.Frame, convention: j.Keying.Orientation, tipFromKey: se3.Identity(), length: unit.MM, turn: unit.Deg}
	if j.Keying.Flange {
		k.tipFromKey = p.Cell.FlangeFromTip.Inv()
	}
	lengthDigits, turnDigits := keyDigitsLength, keyDigitsTurn
	switch j.Keying.Length {
	case "m":
		k.length, lengthDigits = 1, keyDigitsLength+3
	case "in":
		k.length, lengthDigits = unit.Inch, keyDigitsLength+1
	}
	if j.Keying.Joints == "rad" {
		k.turn, turnDigits = 1, keyDigitsPure
	}
	posed := k.convention != se3.Convention{}
	if posed {
		k.columns = []keyColumn{{"x", lengthDigits}, {"y", lengthDigits}, {"z", lengthDigits}}
		units := k.convention.Units()
		for i, name := range k.convention.Names() {
			c := keyColumn{name, keyDigitsPure}
			if units[i] == "deg" {
				c.digits = keyDigitsTurn
			}
			k.columns = append(k.columns, c)
		}
	}
	const six = 6 // joints that a pose settles but for the posture
	n := p.Cell.Chain.N()
	if posed && n <= six && j.Arm.Shown == nil {
		return k
	}
	for i := range n {
		shown, c := job.Shown{Sign: 1}, keyColumn{p.Cell.Chain.Joint(i).Name, turnDigits}
		if j.Arm.Shown != nil {
			shown = j.Arm.Shown[i]
		}
		if k.slides(i) {
			c.digits = lengthDigits
		}
		k.shown, k.columns = append(k.shown, shown), append(k.columns, c)
	}
	return k
}

func (k *keys) slides(joint int) bool {
	return k.cell.Chain.Joint(joint).Kind == kinematics.Prismatic
}

// says names what the columns hold.
func (k *keys) says(j *job.Job) []string {
	of, length := "wire tip", orElse(j.Keying.Length, "mm")
	if j.Keying.Flange {
		of = "flange"
	}
	var words []string
	if k.convention != (se3.Convention{}) {
		words = append(words, fmt.Sprintf("the %s in the %s frame, %s", of, k.frame, length), fmt.Sprintf("orientation: %s (%s)", k.convention, k.convention.Describe()))
	}
	if len(k.shown) > 0 {
		joints := "joints as the controller shows them, " + orElse(j.Keying.Joints, "deg")
		for i := range k.shown {
			if k.slides(i) {
				joints += ", sliding ones in " + length
				break
			}
		}
		words = append(words, joints)
	}
	return words
}

func orElse(text, otherwise string) string {
	if text == "" {
		return otherwise
	}
	return text
}

// keyFromBase returns the base in the frame that the controller shows poses in,
// with the arm at joint values q (rad or m).
func (k *keys) keyFromBase(q *kinematics.Q) se3.Pose {
	switch k.frame {
	case job.FrameWorld:
		return k.cell.WorldFromBase(q)
	case job.FramePart:
		return k.cell.BaseFromPart.Inv()
	}
	return k.cell.BaseFromFoot(q).Inv()
}

// numbers are the place, the orientation and the joint values of a step as the
// controller shows them.
func (k *keys) numbers(s *plan.Step) (list []float64) {
	if k.convention != (se3.Convention{}) {
		pose := k.keyFromBase(&s.Q).Mul(s.Pose).Mul(k.tipFromKey)
		turn := make([]float64, k.convention.Len())
		k.convention.Encode(pose.R, turn)
		list = append(list, pose.P.X/k.length, pose.P.Y/k.length, pose.P.Z/k.length)
		list = append(list, turn...)
	}
	for i, shown := range k.shown {
		per := k.turn
		if k.slides(i) {
			per = k.length
		}
		list = append(list, shown.Of(s.Q[i])/per)
	}
	return list
}

// rounded is a value as printed, so that the sums are those of the table.
func rounded(v float64, digits int) float64 {
	scale := math.Pow(10, float64(digits))
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
