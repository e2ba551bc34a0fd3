package prove

import (
	"fmt"
	"math"
	"slices"

	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// Below these a pose is the same: what the digits of the files keep, and far below
// what any arm repeats.
const (
	samePlace = 1e-6 // m
	sameTurn  = 1e-6 // rad
)

// frames holds the frames that the plan states against those of the job.
func (p *proof) frames() {
	place1, turn := atMost("frames: place", "um", 1e6), atMost("frames: turn", "urad", 1e6)
	names := atMost("frames: names", "", 1)
	var zero kinematics.Q
	p.frame(place1, turn, "flange_from_tip", p.plan.FlangeFromTip, p.arm.flangeFromTip)
	p.frame(place1, turn, "world_from_base", p.plan.WorldFromBase, p.arm.worldFromBase(&zero))
	base, foot := p.job.Arm.BaseLink, ""
	if p.arm.table != nil {
		base, foot = p.job.Arm.PartLink, p.job.Arm.BaseLink
		p.frame(place1, turn, "world_from_foot", p.plan.WorldFromFoot, p.arm.worldFromFoot)
	}
	said := func(what, found, want string) {
		if found != want {
			names.fail(place{what: what}, "%s is %q, the job has %q", what, cut(found), want)
			return
		}
		names.pass()
	}
	said("arm", p.plan.Arm, p.job.Arm.URDF)
	said("base_link", p.plan.BaseLink, base)
	said("flange_link", p.plan.FlangeLink, p.job.Arm.FlangeLink)
	said("foot_link", p.plan.FootLink, foot)
	said("code", p.plan.Job.Code, p.job.Code.String())
	for i, l := range p.arm.limits {
		said(fmt.Sprintf("joint %d", i+1), p.plan.Joints[i], l.name)
	}
	p.add(place1, turn, names)
}

func (p *proof) frame(place1, turn *meter, name string, found *poseFile, want se3.Pose) {
	at := place{what: name}
	pose, err := found.pose()
	if err != nil {
		place1.fail(at, "%s: %v", name, err)
		return
	}
	place1.hold(pose.P.Dist(want.P), samePlace, at)
	turn.hold(pose.R.AngleTo(want.R), sameTurn, at)
}

// kinematics holds every recorded pose against that of its joint values.
func (p *proof) kinematics() {
	off, turn := atMost("pose by the joints: place", "um", 1e6), atMost("pose by the joints: turn", "urad", 1e6)
	hold := func(recorded, tip *se3.Pose, at func(int) place, i int) {
		if d := recorded.P.Dist(tip.P); off.near(d, samePlace) {
			off.keep(d, samePlace, at(i))
		}
		if r := apart(recorded.R, tip.R); turn.near(r, sameTurn) {
			turn.keep(r, sameTurn, at(i))
		}
	}
	for i := range p.steps {
		hold(&p.steps[i].pose, &p.steps[i].tip, p.atStep, i)
	}
	for i := range p.trace {
		hold(&p.trace[i].pose, &p.trace[i].tip, p.atSample, i)
	}
	for i := range p.stations {
		s := &p.plan.Seams[i]
		for k, list := range p.stations[i] {
			at := func(n int) place { return place{s.Name, s.Passes[k].Number, fmt.Sprintf("station %d", n+1)} }
			for n := range list {
				hold(&list[n].pose, &list[n].tip, at, n)
			}
		}
	}
	p.add(off, turn)
}

// apart is the angle between two rotations, rad, for small angles the size of the
// difference of their matrices over the root of two.
func apart(a, b se3.Rot) float64 {
	sum := 0.0
	for i := range a {
		d := a[i] - b[i]
		sum += d * d
	}
	if sum < 0.01 {
		return math.Sqrt(sum / 2)
	}
	return a.AngleTo(b)
}

// table holds steps.csv against the steps of plan.json, cell by cell.
func (p *proof) table() {
	m := atMost("steps.csv says what plan.json says", "half digits", 1)
	defer p.add(m)
	t := &p.folder.steps
	heads, scale := p.arm.jointHeads()
	texts := []string{"step", "label", "seam", "pass", "move", "arc", "settings"}
	numbers := append(append([]string{"speed_mm_s", "joint_speed_pct", "work_deg", "travel_deg"}, poseHeads[:]...), heads...)
	textAt, err := t.columns(texts...)
	if err != nil {
		m.fail(place{what: stepsName}, "%v", err)
		return
	}
	numberAt, err := t.columns(numbers...)
	if err != nil {
		m.fail(place{what: stepsName}, "%v", err)
		return
	}
	if len(t.rows) != len(p.steps) {
		m.fail(place{what: stepsName}, "%d rows, plan.json has %d steps", len(t.rows), len(p.steps))
		return
	}
	for i, row := range t.rows {
		s := &p.steps[i]
		pass := ""
		if s.Pass > 0 {
			pass = fmt.Sprint(s.Pass)
		}
		want := []string{fmt.Sprint(s.Step), s.Label, s.Seam, pass, s.Move, s.Arc, s.Settings}
		for k, at := range textAt {
			if found := plainText(row[at]); found != want[k] {
				m.fail(p.atStep(i), "%s is %q in steps.csv, %q in plan.json", texts[k], cut(found), cut(want[k]))
			}
		}
		values := []float64{given(s.Speed), given(s.Percent), given(s.Work), given(s.Travel)}
		q := s.pose.R.Quat()
		if len(s.Pose.Quat) == 4 { // as written, not by way of a matrix
			q = se3.Quat{W: s.Pose.Quat[0], X: s.Pose.Quat[1], Y: s.Pose.Quat[2], Z: s.Pose.Quat[3]}
		}
		values = append(values, s.pose.P.X/unit.MM, s.pose.P.Y/unit.MM, s.pose.P.Z/unit.MM, q.W, q.X, q.Y, q.Z)
		for k := range scale {
			values = append(values, s.q[k]/scale[k])
		}
		for k, at := range numberAt {
			p.cell(m, i, numbers[k], row[at], values[k])
		}
	}
}

// cell holds a printed number against the value that it was printed from: half a
// unit of its last digit, and a little for the rounding of that half.
func (p *proof) cell(m *meter, i int, name, text string, value float64) {
	found, err := number(text)
	if err != nil || math.IsNaN(found) != math.IsNaN(value) {
		m.fail(p.atStep(i), "%s is %q in steps.csv and not what plan.json has", name, cut(text))
		return
	}
	if math.IsNaN(value) {
		m.pass()
		return
	}
	m.hold(math.Abs(found-value)/halfDigit(text), 1.001, p.atStep(i))
}

// halfDigit is half a unit of the last digit of a printed number.
func halfDigit(text string) float64 {
	half := 0.5
	if point := slices.Index([]byte(text), '.'); point >= 0 {
		for range len(text) - point - 1 {
			half /= 10
		}
	}
	return half
}

// given is a number that may be left out, NaN then.
func given(x *float64) float64 {
	if x == nil {
		return math.NaN()
	}
	return *x
}
