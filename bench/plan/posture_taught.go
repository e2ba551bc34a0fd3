package plan

import (
	"math"

	"seamwright/robot/kinematics"
)

// homePosture is home as joint values: as taught, or the posture nearest the
// middle of the joints' ranges that has the taught pose.
func (p *Plan) homePosture(t tip) (kinematics.Q, bool) {
	if t.point == nil {
		return kinematics.Q{}, false
	}
	if !t.point.HasPose {
		q := jointValues(t.point)
		return q, insideLimits(p.Cell.Chain, &q)
	}
	var s kinematics.Solutions
	p.Cell.Solve(t.baseFromTip, nil, &s)
	best, room := -1, 0.0
	for i := range s.N {
		if m, _ := limitMargin(p.Cell.Chain, &s.Q[i]); best < 0 || m > room {
			best, room = i, m
		}
	}
	if best < 0 {
		return kinematics.Q{}, false
	}
	return s.Q[best], true
}

func insideLimits(c *kinematics.Chain, q *kinematics.Q) bool {
	for i := range c.N() {
		if j := c.Joint(i); q[i] < j.Lower || q[i] > j.Upper {
			return false
		}
	}
	return true
}

// postureNear is the posture at a taught point: as taught in joint values, or
// of all that have the taught pose the one with the least largest joint move
// from the joint values from.
func (p *Plan) postureNear(t tip, from *kinematics.Q) (kinematics.Q, bool) {
	if !t.point.HasPose {
		return jointValues(t.point), true
	}
	var s kinematics.Solutions
	p.Cell.Solve(t.baseFromTip, from, &s)
	q, _ := nearestPosture(&s, p.Cell.Chain.N(), from)
	return q, s.N > 0
}

// nearestPosture returns the posture whose worst of n joints is nearest to the
// joint values from, and how far (rad) that joint is; +Inf where there is none.
func nearestPosture(found *kinematics.Solutions, n int, from *kinematics.Q) (q kinematics.Q, off float64) {
	off = math.Inf(1)
	for k := range found.N {
		var worst float64
		for j := range n {
			worst = max(worst, math.Abs(found.Q[k][j]-from[j]))
		}
		if worst < off {
			q, off = found.Q[k], worst
		}
	}
	return q, off
}
