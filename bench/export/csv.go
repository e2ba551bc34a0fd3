package export

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"seamwright/bench/plan"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// Digits of the CSV files: enough to find the pose again to 1 um and 1e-6 rad
// from the joints of its row.
const (
	digitsMM    = 5
	digitsQuat  = 9
	digitsDeg   = 7
	digitsSpeed = 4
	digitsTime  = 6
)

func fixed(x float64, digits int) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return ""
	}
	text := strconv.FormatFloat(x, 'f', digits, 64)
	if z, err := strconv.ParseFloat(text, 64); err == nil && z == 0 {
		return strconv.FormatFloat(0, 'f', digits, 64) // no minus before zero
	}
	return text
}

func poseCells(p se3.Pose) []string {
	q := p.R.Quat()
	return []string{
		fixed(p.P.X*mm, digitsMM), fixed(p.P.Y*mm, digitsMM), fixed(p.P.Z*mm, digitsMM),
		fixed(q.W, digitsQuat), fixed(q.X, digitsQuat), fixed(q.Y, digitsQuat), fixed(q.Z, digitsQuat),
	}
}

var poseHeads = []string{"x_mm", "y_mm", "z_mm", "qw", "qx", "qy", "qz"}

// jointHeads names the joint columns: j1_deg, or j1_mm for a sliding joint.
func jointHeads(c *kinematics.Chain) []string {
	heads := make([]string, c.N())
	for i := range heads {
		unit := "deg"
		if c.Joint(i).Kind == kinematics.Prismatic {
			unit = "mm"
		}
		heads[i] = fmt.Sprintf("j%d_%s", i+1, unit)
	}
	return heads
}

func jointCells(c *kinematics.Chain, q *kinematics.Q) []string {
	cells := make([]string, c.N())
	for i := range cells {
		scale := deg
		if c.Joint(i).Kind == kinematics.Prismatic {
			scale = mm
		}
		cells[i] = fixed(q[i]*scale, digitsDeg)
	}
	return cells
}

// Steps writes steps.csv: one row a commanded move.
func Steps(w io.Writer, p *plan.Plan) error {
	out := csv.NewWriter(w)
	head := []string{"step", "label", "seam", "pass", "move", "speed_mm_s", "joint_speed_pct", "arc", "settings"}
	head = append(append(head, poseHeads...), jointHeads(p.Cell.Chain)...)
	out.Write(append(head, "work_deg", "travel_deg"))
	for i := range p.Steps {
		s := &p.Steps[i]
		speed, percent := fixed(s.Speed*mm, digitsSpeed), ""
		if s.Move == plan.MoveJoint {
			speed, percent = "", fixed(s.Percent, 1)
		}
		if s.Turn > 0 {
			speed = ""
		}
		row := []string{strconv.Itoa(i + 1), text(s.Label), text(s.Seam), passCell(s.Pass), string(s.Move), speed, percent, s.Arc, text(s.Settings)}
		row = append(append(row, poseCells(s.Pose)...), jointCells(p.Cell.Chain, &s.Q)...)
		out.Write(append(row, fixed(s.Work*deg, 4), fixed(s.Travel*deg, 4)))
	}
	out.Flush()
	return out.Error()
}

// Trace writes trace.csv: the run in time.
func Trace(w io.Writer, p *plan.Plan) error {
	out := csv.NewWriter(w)
	head := append([]string{"t_s", "seam", "pass", "s_mm", "arc"}, poseHeads...)
	head = append(head, jointHeads(p.Cell.Chain)...)
	out.Write(append(head, "speed_mm_s", "clearance_mm"))
	for i := range p.Trace {
		s := &p.Trace[i]
		arc := "0"
		if s.Arc {
			arc = "1"
		}
		row := []string{fixed(s.T, digitsTime), text(s.Seam), passCell(s.Pass), fixed(s.Along*mm, 4), arc}
		row = append(append(row, poseCells(s.Pose)...), jointCells(p.Cell.Chain, &s.Q)...)
		out.Write(append(row, fixed(s.Speed*mm, digitsSpeed), fixed(s.Clearance*mm, digitsSpeed)))
	}
	out.Flush()
	return out.Error()
}

func passCell(pass int) string {
	if pass == 0 {
		return ""
	}
	return strconv.Itoa(pass)
}

// text keeps a spreadsheet from taking a name for a formula: a leading =, +,
// -, @, tab or line end gets an apostrophe before it (OWASP, CSV injection;
// from memory).
func text(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) {
		return "'" + s
	}
	return s
}
