package plan

import (
	"math"
	"strings"

	"seamwright/robot/kinematics"
)

// diagnosis is what stands in the way at one station, over all spins and stands
// of the free joints.
type diagnosis struct {
	nodes     int // postures inside limits and margins
	geometric int // postures before the limits were looked at
	// missing is the least distance by which the wrist misses, m, and turn the
	// least angle that it lacks, rad; +Inf where no pose is out of reach so.
	missing, turn float64
	nearest       stand // has missing
	// notKnown says that a pose is out of reach and nobody knows by how much,
	// uncertain that a posture may have been missed.
	notKnown, uncertain bool
	miss                kinematics.Miss
	away                float64 // largest angle from a singularity of any posture, rad
	parts               [3]bool // at which of wrist, elbow and shoulder a posture is singular
	general             bool
	// tight is the posture clear of singularities that has the most room to a
	// joint limit, room that room, rad, and tightJoint the joint.
	tight      kinematics.Q
	room       float64
	tightJoint int
}

// diagnose looks at every stand of one station.
func (s *postureSearch) diagnose(rung int) diagnosis {
	d := diagnosis{missing: math.Inf(1), turn: math.Inf(1), room: math.Inf(-1)}
	d.general = !s.cell.Solver.Family().ClosedForm()
	tight := s.tight()
	tight.spins = s.spins()
	list := s.everywhere(tight)
	var found kinematics.Solutions
	s.trails = s.trails[:0]
	for k := range list {
		s.solveAt(s.along[rung], &list[k], 0, &found)
		d.add(s, &found, list[k], tight)
	}
	if len(s.axes) > 0 && d.geometric == 0 && !d.notKnown && !math.IsInf(d.missing, 1) {
		s.comeNearer(&d, s.along[rung])
	}
	return d
}

// add takes in what was found at one stand.
func (d *diagnosis) add(s *postureSearch, found *kinematics.Solutions, at stand, tight attempt) {
	d.geometric += found.Geometric
	d.uncertain = d.uncertain || found.Uncertain
	switch found.Status {
	case kinematics.OutOfReach:
		switch {
		case found.Reach == kinematics.NotKnown:
			d.notKnown = true
		case found.Reach == kinematics.WrongAttitude:
			d.turn = min(d.turn, found.Missing)
		case found.Missing < d.missing:
			d.missing, d.nearest = found.Missing, at
		}
	case kinematics.OutsideLimits:
		if d.miss.By == 0 || s.byRadians(&found.Miss) < s.byRadians(&d.miss)-angleSlack {
			d.miss = found.Miss
		}
	}
	for k := range found.N {
		q := &found.Q[k]
		away := s.singularAway(q)
		d.away = max(d.away, away)
		if away < tight.wrist {
			d.singular(s.cell.Solver.Singularity(q), tight.wrist)
		}
		if room, joint := limitMargin(s.cell.Chain, q); away >= tight.wrist && room > d.room+angleSlack {
			d.tight, d.room, d.tightJoint = *q, room, joint
		}
		if _, ok := s.nodeCost(q, at.spin, tight); ok {
			d.nodes++
		}
	}
}

// byRadians is by how much a joint is outside its limits, rad.
func (s *postureSearch) byRadians(m *kinematics.Miss) float64 {
	return radians(s.cell.Chain.Joint(m.Joint), m.By)
}

// singular notes at which parts a posture is within so much (rad) of a
// singularity.
func (d *diagnosis) singular(g kinematics.Singularity, within float64) {
	for i, away := range []float64{g.Wrist, g.Elbow / armShare, g.Shoulder / armShare} {
		d.parts[i] = d.parts[i] || away < within
	}
}

// of names the parts of the arm that are singular: " of the wrist or elbow". A
// singularity of a general arm belongs to no part.
func (d *diagnosis) of() string {
	var names []string
	for i, name := range []string{"wrist", "elbow", "shoulder"} {
		if d.parts[i] {
			names = append(names, name)
		}
	}
	if d.general || len(names) == 0 {
		return ""
	}
	return " of the " + strings.Join(names, " or ")
}

// comeNearer turns the spin and moves the free joints from the grid's nearest
// stand towards the pose, by steps that halve, as long as that takes from what is
// missing.
func (s *postureSearch) comeNearer(d *diagnosis, along float64) {
	const halvings = 8
	var found kinematics.Solutions
	try := func(at stand) {
		s.solveAt(along, &at, 0, &found)
		if found.Status == kinematics.OutOfReach && found.Missing < d.missing && found.Reach != kinematics.WrongAttitude && found.Reach != kinematics.NotKnown {
			d.missing, d.nearest = found.Missing, at
		}
	}
	for share := 0.5; share > 1.0/(1<<halvings); share /= 2 {
		for _, sign := range []float64{-1, 1} {
			if at := d.nearest; !s.fixed {
				at.spin += sign * share * 2 * spinGrid
				try(at)
			}
			for _, f := range s.axes {
				at, j := d.nearest, s.cell.Chain.Joint(f.Joint)
				at.held[f.Joint] = min(max(at.held[f.Joint]+sign*share*f.Step, j.Lower), j.Upper)
				try(at)
			}
		}
	}
}
