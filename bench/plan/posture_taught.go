package plan

import (
	"math"

	"seamwright/robot/kinematics"
)

// homePosture is home as joint values: as taught, or the posture that has the
// taught pose and the most room to its limits.
func (p *Plan) homePosture(t tip) (kinematics.Q, bool) {
	if t.point == nil {
		return kinematics.Q{}, false
	}
	if !t.point.HasPose {
		q := jointValues(t.point)
		return q, insideLimits(p.Cell.Chain, &q)
	}
	best, room, ok := kinematics.Q{}, 0.0, false
	p.eachPosture(t, nil, func(q *kinematics.Q) {
		if m, _ := limitMargin(p.Cell.Chain, q); !ok || m > room {
			best, room, ok = *q, m, true
		}
	})
	return best, ok
}

// eachPosture calls f with every posture that has the taught pose, a table as it
// stood and other free joints at every choice; a nil seed puts turns nearest to
// the middle.
func (p *Plan) eachPosture(t tip, seed *kinematics.Q, f func(q *kinematics.Q)) {
	var s kinematics.Solutions
	var trail kinematics.Trail
	stood := t.stood()
	for held := range p.Cell.Choices(&stood) {
		p.Cell.SolveAlong(&trail, &held, t.baseFromTip, seed, &s)
		for k := range s.N {
			f(&s.Q[k])
		}
	}
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
// from the joint values from. A table stands as it stood when the point was
// taught, which makes it the place in the room that was shown; other free joints
// stay where they are if the point can be had so.
func (p *Plan) postureNear(t tip, from *kinematics.Q) (kinematics.Q, bool) {
	if !t.point.HasPose {
		return jointValues(t.point), true
	}
	n := p.Cell.Chain.N()
	var s kinematics.Solutions
	seed, stood := *from, t.stood()
	copy(seed[:p.Cell.TableJoints()], stood[:])
	p.Cell.Solve(t.baseFromTip, &seed, &s)
	best, off := nearestPosture(&s, n, from)
	if s.N == 0 && n > 6 {
		p.eachPosture(t, from, func(q *kinematics.Q) {
			if d := farthest(q, from, n); d < off {
				best, off = *q, d
			}
		})
	}
	return best, !math.IsInf(off, 1)
}

// restOf is where the free joints are wanted for a seam: where they stood when
// its first point was taught, or else where home has them.
func (m *maker) restOf(shape *seamShape) (rest kinematics.Q) {
	free := m.plan.Cell.Solver.Free()
	var t tip
	if len(free) > 0 && len(shape.doc.Points) > 0 {
		t = m.tips[shape.doc.Points[0]]
	}
	stood, known := t.stood(), m.plan.Cell.TableJoints()
	if t.point != nil && len(t.point.Joints) > 0 {
		stood, known = jointValues(t.point), len(t.point.Joints)
	}
	for _, f := range free {
		rest[f.Joint] = min(max(m.home[f.Joint], f.Lower), f.Upper)
		if f.Joint < known {
			rest[f.Joint] = stood[f.Joint]
		}
	}
	return rest
}

// nearestPosture returns the posture whose worst of n joints is nearest to the
// joint values from, and how far (rad) that joint is; +Inf where there is none.
func nearestPosture(found *kinematics.Solutions, n int, from *kinematics.Q) (q kinematics.Q, off float64) {
	off = math.Inf(1)
	for k := range found.N {
		if worst := farthest(&found.Q[k], from, n); worst < off {
			q, off = found.Q[k], worst
		}
	}
	return q, off
}

// farthest returns the largest difference of n joint values, rad (m).
func farthest(a, b *kinematics.Q, n int) (worst float64) {
	for j := range n {
		worst = max(worst, math.Abs(a[j]-b[j]))
	}
	return worst
}
