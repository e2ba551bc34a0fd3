package plan

import (
	"math"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// fill puts the postures of each station's stands on the branches' ladders. The
// lists of neighbouring stations should have like stands in like places.
func (s *postureSearch) fill(a attempt, stands func(rung int) []stand) {
	var found kinematics.Solutions
	s.branches.reset()
	s.trails = s.trails[:0]
	for i, along := range s.along {
		s.branches.addRung()
		list := stands(i)
		for k := range list {
			s.solveAt(along, &list[k], k, &found)
			s.addNodes(i, &list[k], a, &found)
		}
	}
}

// solveAt finds the postures of a stand at a place of the track, m. Stands that
// come again and again along the way share a trail by its number.
func (s *postureSearch) solveAt(along float64, at *stand, trail int, found *kinematics.Solutions) {
	for len(s.trails) <= trail && !s.cell.Solver.Family().ClosedForm() {
		s.trails = append(s.trails, kinematics.Trail{})
	}
	var near *kinematics.Trail
	if trail < len(s.trails) {
		near = &s.trails[trail]
	}
	s.cell.SolveAlong(near, &at.held, s.track.pose(along, at.spin), &s.home, found)
}

// addNodes puts the postures found at a rung on their ladders, with what it
// costs to stand there.
func (s *postureSearch) addNodes(rung int, at *stand, a attempt, found *kinematics.Solutions) {
	share := s.share(rung)
	room, looked := 0.0, false
	for k := range found.N {
		cost, ok := s.nodeCost(&found.Q[k], at.spin, a)
		if !ok {
			continue
		}
		if !looked {
			if room, ok = s.torchRoom(rung, at, &found.Q[k]); !ok {
				return
			}
			looked = true
		}
		cost = (cost + room) * share
		if rung == 0 || rung == len(s.along)-1 {
			cost += homeWeight * s.fromHome(&found.Q[k])
		}
		s.branches[found.Branch[k]].AddNode(motion.Node{Q: found.Q[k], Spin: at.spin, Cost: cost})
	}
}

// share is how much of a stationStep station i stands for, dimensionless.
func (s *postureSearch) share(i int) float64 {
	before, after := s.along[max(0, i-1)], s.along[min(len(s.along)-1, i+1)]
	return (after - before) / 2 / stationStep
}

// nodeCost is the cost of standing at q, or false where a margin is not kept.
// Limits of joints that can turn more than once are left to the ladder: which
// turn they stand at is decided there.
func (s *postureSearch) nodeCost(q *kinematics.Q, spin float64, a attempt) (float64, bool) {
	away := s.singularAway(q)
	if away < a.wrist {
		return 0, false
	}
	cost := wristWeight * fade(away, wristFade)
	for i := range s.cell.Chain.N() {
		j := s.cell.Chain.Joint(i)
		if j.Kind == kinematics.Prismatic || j.Upper-j.Lower >= 2*math.Pi {
			continue
		}
		room := min(q[i]-j.Lower, j.Upper-q[i])
		if room < a.limit {
			return 0, false
		}
		cost += limitWeight * fade(room, limitFade)
	}
	if !s.free {
		cost += spinWishWeight * math.Abs(math.Remainder(spin-s.wish, 2*math.Pi))
	}
	if len(s.axes) > 0 {
		cost += s.restCost(q)
	}
	return cost, true
}

// restCost is the cost of standing where the free joints are not wanted, and of
// welding a part that lies otherwise to gravity than when it was taught.
func (s *postureSearch) restCost(q *kinematics.Q) float64 {
	var sum float64
	for _, f := range s.axes {
		j := s.cell.Chain.Joint(f.Joint)
		d := q[f.Joint] - s.rest[f.Joint]
		if s.turnsTwice(f) {
			d = math.Remainder(d, 2*math.Pi)
		}
		sum += spinWishWeight * math.Abs(radians(j, d))
	}
	if s.cell.Table != nil {
		sum += lieWeight * s.cell.Up(q).Angle(s.up)
	}
	return sum
}

// singularAway is the angle of a posture from its nearest singularity, rad;
// elbow and shoulder count by armShare.
func (s *postureSearch) singularAway(q *kinematics.Q) float64 {
	g := s.cell.Solver.Singularity(q)
	return min(g.Wrist, g.Elbow/armShare, g.Shoulder/armShare)
}

// fade falls from 1 at x = 0 to 0 at x = end, smoothly.
func fade(x, end float64) float64 {
	if x >= end {
		return 0
	}
	f := 1 - max(0, x)/end
	return f * f
}

func (s *postureSearch) fromHome(q *kinematics.Q) float64 {
	var sum float64
	for i := range s.cell.Chain.N() {
		j, d := s.cell.Chain.Joint(i), q[i]-s.home[i]
		if j.Kind != kinematics.Prismatic {
			d = math.Remainder(d, 2*math.Pi)
		}
		sum += math.Abs(radians(j, d))
	}
	return sum
}
