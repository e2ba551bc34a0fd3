package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/robot/kinematics"
	"seamwright/unit"
	"seamwright/weld"
)

// How far a joint beyond the arm's six may be off before a finding says so:
// what a table or a track is set to by hand. Common practice, no source.
const (
	axisTurnMost  = 1 * unit.Deg // rad
	axisSlideMost = 1 * unit.MM  // m
)

// axisOff reports whether two values of a joint, rad or m, differ by more than
// that.
func axisOff(j kinematics.Joint, a, b float64) bool {
	if j.Kind == kinematics.Prismatic {
		return math.Abs(a-b) > axisSlideMost
	}
	return math.Abs(a-b) > axisTurnMost
}

// axes says which of the joints beyond six the plan has put elsewhere than they
// stood when the seam was taught, and which move along the weld.
func (c *seamCheck) axes(m *maker) {
	mo := c.pass.Motion
	if mo == nil {
		return
	}
	start, end := &mo.Stations[mo.First].Q, &mo.Stations[mo.Last].Q
	if m.plan.Cell.Table != nil && len(c.doc.Points) > 0 {
		c.table(m, start)
	}
	for _, f := range m.plan.Cell.Solver.Free() {
		j := m.plan.Cell.Chain.Joint(f.Joint)
		low, high := math.Inf(1), math.Inf(-1)
		for i := mo.First; i <= mo.Last; i++ {
			low, high = min(low, mo.Stations[i].Q[f.Joint]), max(high, mo.Stations[i].Q[f.Joint])
		}
		if axisOff(j, low, high) {
			g := c.newf(finding.AxisMoves, "%s: %s moves along the weld, from %s to %s", c.name, j.Name, c.jointValue(j, start[f.Joint]), c.jointValue(j, end[f.Joint]))
			c.add(g.Values(c.pair(jointKind(j), high-low, 0)))
		}
	}
}

// table holds the turning table at the weld start against how it stood at the
// seam's first point.
func (c *seamCheck) table(m *maker, q *kinematics.Q) {
	taught := m.tips[c.doc.Points[0]].stood()
	var stands []string
	worst, most := 0, 0.0
	for i := range m.plan.Cell.TableJoints() {
		j := m.plan.Cell.Chain.Joint(i)
		if !axisOff(j, q[i], taught[i]) {
			continue
		}
		stands = append(stands, fmt.Sprintf("%s at %s, taught at %s", j.Name, c.jointValue(j, q[i]), c.jointValue(j, taught[i])))
		if d := math.Abs(q[i] - taught[i]); d > most {
			worst, most = i, d
		}
	}
	if len(stands) == 0 {
		return
	}
	text := fmt.Sprintf("%s: the table stands otherwise: %s", c.name, strings.Join(stands, "; "))
	start := c.seam.Geometry.At(0)
	was, err := weld.Classify(weldKind(c.doc.Joint), start.T, start.Bisector, m.tips.up(m.plan.Cell, c.doc))
	is, before := c.seam.Position.Name(c.job.Code), was.Name(c.job.Code)
	if err == nil && before != is {
		text += fmt.Sprintf("; the weld then lies in %v, as taught in %v", is, before)
	}
	f := finding.New(finding.TableMoved, finding.AtSeam(c.doc.Name), text)
	c.add(f.Values(c.pair(jointKind(m.plan.Cell.Chain.Joint(worst)), q[worst], taught[worst])))
}
