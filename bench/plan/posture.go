package plan

import (
	"context"
	"math"

	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// Weights of the posture choice. The unit of its cost is radians of joint
// travel; costs of standing somewhere are per stationStep, so that finer
// stations do not change the choice. Own judgement: what a hand would trade.
const (
	// spinSteps divides the turn about the wire: every 10 deg.
	spinSteps = 36
	// spinTurnWeight makes a degree of spin as dear as five degrees of joint:
	// a torch that does not turn keeps its cable calm and needs no via points.
	spinTurnWeight = 5
	// spinWishWeight is the cost of standing one radian away from the spin
	// that was taught.
	spinWishWeight = 0.05
	// limitWeight and wristWeight are the costs of standing at a joint limit or
	// at a singularity; they fade to nothing at limitFade and wristFade.
	limitWeight = 0.10
	wristWeight = 0.10
	limitFade   = 30 * math.Pi / 180
	wristFade   = 25 * math.Pi / 180
	// homeWeight is the cost per radian by which the posture at approach and
	// retreat differs from home: of two equal ways the one nearer home.
	homeWeight = 0.1
	// jointStep is the largest change of a joint between stations, rad
	// (25 deg): beyond it the posture between them is not the one meant.
	jointStep = 25 * math.Pi / 180
	// finestStep is the step between stations below which a way that the arm
	// cannot follow between them is given up, m.
	finestStep = 2e-3
	// tightLimit and tightWrist are the margins of a last attempt, rad: half a
	// degree from a limit, two degrees from a singularity of the wrist.
	tightLimit = 0.5 * math.Pi / 180
	tightWrist = 2 * math.Pi / 180
	// armShare is the share of the wrist's margin that elbow and shoulder keep
	// from their singularities: a stretched arm is stiffer to read than a
	// straight wrist, but does not spin.
	armShare = 0.5
)

// postureSearch chooses a posture and a spin at every station of a track.
type postureSearch struct {
	words
	cell  *cell.Cell
	track *track
	home  kinematics.Q
	// wish is the spin that is wanted, rad; free: none is.
	wish float64
	free bool
	// fixed allows no other spin than wish.
	fixed bool
	// limitMargin and wristMargin are kept if they can be, rad.
	limitMargin, wristMargin float64

	along       []float64
	first, last int

	branches branchLadders
	search   motion.LadderSearch
	// best is the cheapest way of the last attempt and its branch; nil where it
	// found none, and stop then says what stood in the way.
	best   *motion.LadderAnswer
	branch int
	stop   stop
	spare  motion.LadderAnswer
	tried  attempt // the last one
	step   float64 // m, largest distance between stations on the seam
}

// attempt is one try at the search: with which spins and margins.
type attempt struct {
	spins        []float64
	limit, wrist float64
}

// run tries the wanted spin alone, then every spin, each first with the full
// margins and then with tight ones. Where the arm cannot follow the way found
// between two stations, it looks again with closer stations. It returns the
// motion, or nil with what stood in the way of the widest attempt in s.stop.
func (s *postureSearch) run(ctx context.Context) (*Motion, error) {
	for s.step = stationStep; ; s.step /= 2 {
		s.along, s.first, s.last = s.track.stations(s.step)
		m, err := s.attempt(ctx)
		if err != nil || m == nil {
			return nil, err
		}
		gap, open := s.gap(m)
		if !open {
			return m, nil
		}
		if s.step < finestStep {
			s.best, s.stop = nil, stop{furthest: gap - 1, fromEnd: gap, longest: motion.Window{From: 0, To: gap - 1}}
			return nil, nil
		}
	}
}

// attempt goes through the attempts and returns the motion of the first that
// finds a way.
func (s *postureSearch) attempt(ctx context.Context) (*Motion, error) {
	for _, a := range s.attempts() {
		s.tried = a
		if err := s.solve(ctx, a); err != nil {
			return nil, err
		}
		if s.best != nil {
			return s.motion()
		}
	}
	return nil, nil
}

func (s *postureSearch) attempts() []attempt {
	alone, all := []float64{s.wish}, s.grid()
	full, tight := attempt{limit: s.limitMargin, wrist: s.wristMargin}, s.tight()
	with := func(a attempt, spins []float64) attempt { a.spins = spins; return a }
	switch {
	case s.fixed:
		return []attempt{with(full, alone), with(tight, alone)}
	case s.free:
		return []attempt{with(full, all), with(tight, all)}
	}
	return []attempt{with(full, alone), with(full, all), with(tight, all)}
}

// tight returns the margins of a last attempt.
func (s *postureSearch) tight() attempt {
	return attempt{limit: min(tightLimit, s.limitMargin), wrist: min(tightWrist, s.wristMargin)}
}

// grid returns every spin that is tried, the wanted one first.
func (s *postureSearch) grid() []float64 {
	spins := make([]float64, spinSteps)
	for i := range spins {
		spins[i] = math.Remainder(s.wish+float64(i)*spinGrid, 2*math.Pi)
	}
	return spins
}

func (s *postureSearch) request(a attempt, branch int) *motion.LadderRequest {
	return &motion.LadderRequest{
		Ladder: &s.branches[branch], Joints: s.ladderJoints(a.limit), Metric: motion.Travel, SpinWeight: spinTurnWeight,
	}
}

func (s *postureSearch) ladderJoints(margin float64) []motion.LadderJoint {
	joints := make([]motion.LadderJoint, s.cell.Chain.N())
	for i := range joints {
		j := s.cell.Chain.Joint(i)
		joints[i] = motion.LadderJoint{
			Lower: j.Lower + margin, Upper: j.Upper - margin,
			Turning: j.Kind != kinematics.Prismatic, Weight: 1, Velocity: j.Velocity, MaxStep: jointStep,
		}
	}
	return joints
}

func (s *postureSearch) fill(a attempt) {
	var found kinematics.Solutions
	s.branches.reset()
	for i, along := range s.along {
		s.branches.addRung()
		share := s.share(i)
		for _, spin := range a.spins {
			s.cell.Solve(s.track.pose(along, spin), &s.home, &found)
			for k := range found.N {
				cost, ok := s.nodeCost(&found.Q[k], spin, a)
				if !ok {
					continue
				}
				cost *= share
				if i == 0 || i == len(s.along)-1 {
					cost += homeWeight * s.fromHome(&found.Q[k])
				}
				s.branches[found.Branch[k]].AddNode(motion.Node{Q: found.Q[k], Spin: spin, Cost: cost})
			}
		}
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
	return cost, true
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
		d := q[i] - s.home[i]
		if s.cell.Chain.Joint(i).Kind != kinematics.Prismatic {
			d = math.Remainder(d, 2*math.Pi)
		}
		sum += math.Abs(d)
	}
	return sum
}
