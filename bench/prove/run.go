package prove

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// sample is a row of trace.csv, SI.
type sample struct {
	t     float64
	seam  string
	pass  int
	along float64 // NaN off the seams
	arc   bool
	pose  se3.Pose // base from tip, as written
	q     kinematics.Q
	speed float64
	tip   se3.Pose // base from tip, by the joints
}

// step is a commanded move, SI.
type step struct {
	*stepFile
	pose se3.Pose // as written
	q    kinematics.Q
	tip  se3.Pose // by the joints
	at   int      // sample of the trace that reaches it, or the last before it
}

// station is a place of a pass, SI.
type station struct {
	pose se3.Pose
	q    kinematics.Q
	tip  se3.Pose
}

// jointHeads are the columns of joint values and their units.
func (a *arm) jointHeads() (heads []string, scale []float64) {
	for i, l := range a.limits {
		if l.slides {
			heads, scale = append(heads, fmt.Sprintf("j%d_mm", i+1)), append(scale, unit.MM)
		} else {
			heads, scale = append(heads, fmt.Sprintf("j%d_deg", i+1)), append(scale, unit.Deg)
		}
	}
	return heads, scale
}

// poseHeads are the columns of a pose.
var poseHeads = [...]string{"x_mm", "y_mm", "z_mm", "qw", "qx", "qy", "qz"}

// rowReader reads numbers of the rows of a table.
type rowReader struct {
	row []string
	err error
}

func (r *rowReader) number(at int) float64 {
	x, err := number(r.row[at])
	if err != nil && r.err == nil {
		r.err = err
	}
	return x
}

// known reads a number that must be there.
func (r *rowReader) known(at int) float64 {
	x := r.number(at)
	if math.IsNaN(x) && r.err == nil {
		r.err = fmt.Errorf("an empty cell in column %d, where a number belongs", at+1)
	}
	return x
}

func (r *rowReader) pose(at []int) se3.Pose {
	q := se3.Quat{W: r.known(at[3]), X: r.known(at[4]), Y: r.known(at[5]), Z: r.known(at[6])}
	if !(math.Abs(q.Norm()-1) <= unitQuat) && r.err == nil {
		r.err = fmt.Errorf("a quaternion of length %.9g, not 1", q.Norm())
	}
	return se3.Pose{R: q.Rot(), P: r3.Vec{X: r.known(at[0]), Y: r.known(at[1]), Z: r.known(at[2])}.Scale(unit.MM)}
}

func (r *rowReader) joints(at []int, scale []float64) (q kinematics.Q) {
	for i, c := range at {
		q[i] = r.known(c) * scale[i]
	}
	return q
}

// pass reads the number of a pass, 0 for none.
func (r *rowReader) pass(at int) int {
	if r.row[at] == "" {
		return 0
	}
	n, err := strconv.Atoi(r.row[at])
	if (err != nil || n < 1) && r.err == nil {
		r.err = fmt.Errorf("pass %q", cut(r.row[at]))
	}
	return n
}

// readTrace reads the samples of trace.csv.
func (a *arm) readTrace(t *table) ([]sample, error) {
	heads, scale := a.jointHeads()
	poses, err := t.columns(poseHeads[:]...)
	if err != nil {
		return nil, err
	}
	joints, err := t.columns(heads...)
	if err != nil {
		return nil, err
	}
	at, err := t.columns("t_s", "seam", "pass", "s_mm", "arc", "speed_mm_s")
	if err != nil {
		return nil, err
	}
	list := make([]sample, len(t.rows))
	for i, row := range t.rows {
		r := rowReader{row: row}
		s := &list[i]
		*s = sample{t: r.known(at[0]), seam: plainText(row[at[1]]), pass: r.pass(at[2]), along: r.number(at[3]) * unit.MM, arc: row[at[4]] == "1",
			pose: r.pose(poses), q: r.joints(joints, scale), speed: r.number(at[5]) * unit.MMPerS}
		if r.err == nil && row[at[4]] != "0" && row[at[4]] != "1" {
			r.err = fmt.Errorf("arc %q, not 0 or 1", cut(row[at[4]]))
		}
		if r.err != nil {
			return nil, fmt.Errorf("row %d: %w", i+2, r.err)
		}
		if i > 0 && s.q == list[i-1].q {
			s.tip = list[i-1].tip
		} else {
			s.tip = a.tip(&s.q)
		}
	}
	return list, nil
}

// plainText takes away the apostrophe that keeps a spreadsheet from taking a name
// for a formula.
func plainText(s string) string {
	if len(s) > 1 && s[0] == '\'' {
		switch s[1] {
		case '=', '+', '-', '@', '\t', '\r', '\n':
			return s[1:]
		}
	}
	return s
}

// readSteps reads the steps of plan.json.
func (a *arm) readSteps(list []stepFile) ([]step, error) {
	steps := make([]step, len(list))
	for i := range list {
		s := &steps[i]
		s.stepFile = &list[i]
		var err error
		if s.q, err = jointValues(list[i].Q, len(a.limits)); err == nil {
			s.pose, err = list[i].Pose.pose()
		}
		if err != nil {
			return nil, fmt.Errorf("step %d: %w", i+1, err)
		}
		s.tip = a.tip(&s.q)
	}
	return steps, nil
}

// readStations reads the stations of a pass.
func (a *arm) readStations(list []stationFile) ([]station, error) {
	out := make([]station, len(list))
	for i := range list {
		var err error
		s := &out[i]
		if s.q, err = jointValues(list[i].Q, len(a.limits)); err == nil {
			s.pose, err = list[i].Pose.pose()
		}
		if err != nil {
			return nil, fmt.Errorf("station %d: %w", i+1, err)
		}
		s.tip = a.tip(&s.q)
	}
	return out, nil
}
