package plan

import (
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/geom/r3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// checkHome says what home stands in, how deep, and which small move would free it.
func (m *maker) checkHome() []finding.Finding {
	if !m.homeOK {
		return nil
	}
	model, wanted := m.scene.Model, apart(m.scene.Air())
	pose := m.plan.Cell.BaseFromTip(&m.home)
	ways := []r3.Vec{pose.R.Z().Scale(-1), m.plan.Cell.Up(&m.home)}
	e := model.Escape(model.Scratch(), &m.home, wanted, collision.EscapeOptions{Tip: ways, Shift: func(q kinematics.Q, by r3.Vec) (kinematics.Q, bool) {
		to := m.plan.Cell.BaseFromTip(&q)
		to.P = to.P.Add(by)
		ok := m.plan.Cell.SolveNear(to, &q)
		return q, ok
	}})
	var found []finding.Finding
	where := finding.AtPoint("", m.job.Home)
	bodies, pairs := model.Bodies(), model.Pairs()
	mend := m.waysOut(&e)
	for _, h := range e.Hits {
		of, to := moves(bodies, pairs[h.Near.Pair])
		f := finding.Newf(finding.HomeInCollision, where, "home %q: %s is %s deep in %s", m.job.Home, called(of), m.say(asSize, h.Depth), called(to))
		found = append(found, f.Values(m.pair(unit.Length, h.Depth, 0)).Mend("%s", mend))
	}
	for _, in := range e.Inside {
		found = append(found, finding.Newf(finding.HomeInCollision, where, "home %q: %s is wholly inside %s", m.job.Home, called(bodies[in.Inner]), called(bodies[in.Outer])).Mend("%s", mend))
	}
	return found
}

// waysOut says which small moves free the arm.
func (m *maker) waysOut(e *collision.Escape) string {
	var ways []string
	if e.Joint.Found {
		j := m.plan.Cell.Chain.Joint(e.Joint.Joint)
		ways = append(ways, fmt.Sprintf("%s turned by %+.1f deg", j.Name, e.Joint.By*deg))
		if j.Kind == kinematics.Prismatic {
			ways[0] = fmt.Sprintf("%s moved by %s", j.Name, m.say(asPlace, e.Joint.By))
		}
	}
	if e.Tip.Found {
		ways = append(ways, fmt.Sprintf("the tip drawn %s %s", m.say(asPlace, math.Abs(e.Tip.By)), [...]string{"back along the wire", "up"}[e.Tip.Tip]))
	}
	if len(ways) == 0 {
		return "teach home again, away from it; no small move was found that frees the arm"
	}
	return "teach home again: " + strings.Join(ways, ", or ") + " would be free; by hand, slowly, looking"
}

// moves names the bodies of a pair, that which moves first.
func moves(bodies []collision.Body, p collision.Pair) (of, to collision.Body) {
	if stands(bodies[p.A].Group) {
		return bodies[p.B], bodies[p.A]
	}
	return bodies[p.A], bodies[p.B]
}
