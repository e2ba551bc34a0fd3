package plan

import (
	"context"
	"math"
	"slices"

	"seamwright/geom/r3"
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
	// freeWeight makes a degree of a free joint as dear as fifty degrees of
	// another: a track, a lift or a table moves along a seam only as far as it
	// must, since that takes a controller that moves it together with the arm.
	freeWeight = 50
	// lieWeight is the cost of a radian by which the part lies otherwise to
	// gravity than when it was taught: its position was chosen by hand.
	lieWeight = 0.5
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
	// axes are the arm's free joints, none for six; rest holds the values that
	// are wanted for them (rad or m), in their places, and up is the direction
	// against gravity in the base when the seam was taught.
	axes []kinematics.FreeJoint
	rest kinematics.Q
	up   r3.Vec

	// clear keeps the postures clear of the job's bodies; nil: of nothing.
	clear *clearing

	// brief asks whether there is a way, and not why there is none; suspects are
	// places (m of the way) that are likely to stand in it.
	brief    bool
	suspects []float64

	// spread is by how much more than jointStep a joint may move between two
	// stations; below 1 it is 1.
	spread float64
	// axisStep is the largest change of a free joint between stations, rad or m,
	// where it is not that of any joint; 0 where it is.
	axisStep    kinematics.Q
	along       []float64
	first, last int

	branches branchLadders
	search   motion.LadderSearch
	trails   []kinematics.Trail // of the stands, where postures are had from those near by
	pooled   []stand            // see pool; nil before it is gathered
	// best is the cheapest way of the last attempt and its branch; nil where it
	// found none, and stop then says what stood in the way.
	best   *motion.LadderAnswer
	branch int
	stop   stop
	spare  motion.LadderAnswer
	tried  attempt // the last one
	step   float64 // m, largest distance between stations on the seam

	shortened string // what of approach and retreat was, in words
}

// attempt is one try at the search: with which spins and margins, and what the
// free joints may do.
type attempt struct {
	spins        []float64
	limit, wrist float64
	axes         axesMay
	last         bool // of all, so that it should know for certain
}

// axesMay says what the free joints may do in an attempt.
type axesMay uint8

const (
	rest       axesMay = iota // stand where they are wanted
	standStill                // stand anywhere
	move
)

// run tries the wanted spin alone, then every spin, each first with the full
// margins and then with tight ones, and every spin with the free joints moved.
// Where the arm cannot follow the way found between two stations of the weld, it
// looks again with closer stations. It returns the motion, or nil with what stood
// in the way of the widest attempt in s.stop.
func (s *postureSearch) run(ctx context.Context) (*Motion, error) {
	for s.step = stationStep; ; s.step /= 2 {
		s.along, s.first, s.last = s.track.stations(s.step)
		m, err := s.attempt(ctx)
		if err != nil || m == nil {
			return nil, err
		}
		gaps := s.gaps(m)
		if len(gaps) == 0 {
			return m, nil
		}
		closer := slices.ContainsFunc(gaps, func(r int) bool { return r > s.first && r <= s.last })
		if !closer || s.step < finestStep {
			s.best, s.stop = nil, stopAt(gaps, len(s.along))
			return nil, nil
		}
	}
}

// stopAt is what stands in the way of a motion over n rungs that the arm cannot
// follow into some of them.
func stopAt(gaps []int, n int) stop {
	s := stop{furthest: gaps[0] - 1, fromEnd: gaps[len(gaps)-1], longest: motion.Window{From: 0, To: -1}}
	from := 0
	for _, r := range append(gaps, n) {
		if r-from > s.longest.To-s.longest.From+1 {
			s.longest = motion.Window{From: from, To: r - 1}
		}
		from = r
	}
	return s
}

// attempt goes through the attempts and returns the motion of the first that
// finds a way. Where a station has no posture at all only the last is of use.
func (s *postureSearch) attempt(ctx context.Context) (*Motion, error) {
	list := s.attempts()
	if slowSearch(s.cell.Solver) && !s.possible(list[len(list)-1]) {
		if s.brief {
			return nil, nil
		}
		list = list[len(list)-1:]
	}
	for _, a := range list {
		s.tried = a
		if err := s.solve(ctx, a); err != nil {
			return nil, err
		}
		if m, err := s.clearMotion(ctx, a); err != nil || m != nil {
			return m, err
		}
	}
	return nil, nil
}

// solve makes one attempt.
func (s *postureSearch) solve(ctx context.Context, a attempt) error {
	switch a.axes {
	case standStill:
		return s.solveStill(ctx, a)
	case move:
		return s.solveMoving(ctx, a)
	}
	return s.solveAtRest(ctx, a, s.rest)
}

// solveAtRest finds the cheapest way with the free joints standing at held.
func (s *postureSearch) solveAtRest(ctx context.Context, a attempt, held kinematics.Q) error {
	list := standsAt(a.spins, held)
	s.fill(a, func(int) []stand { return list })
	return s.sweep(ctx, a)
}

// attempts lists the attempts in order: nothing that is wanted is given up
// before it has to be, and the spin before the free joints' rest, that before
// their standing still, and that before the margins.
func (s *postureSearch) attempts() []attempt {
	alone, all := []float64{s.wish}, s.grid()
	full, tight := attempt{limit: s.limitMargin, wrist: s.wristMargin}, s.tight()
	with := func(a attempt, spins []float64, may axesMay) attempt { a.spins, a.axes = spins, may; return a }
	widest := all
	if s.fixed {
		widest = alone
	}
	var list []attempt
	if !s.fixed && !s.free {
		list = append(list, with(full, alone, rest))
	}
	for _, a := range []attempt{full, tight} {
		list = append(list, with(a, widest, rest))
		if len(s.axes) > 0 {
			list = append(list, with(a, widest, standStill), with(a, widest, move))
		}
	}
	list[len(list)-1].last = true
	return list
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
			Turning: true, Weight: 1, Velocity: j.Velocity, MaxStep: jointStep * max(1, s.spread),
		}
		if j.Kind == kinematics.Prismatic { // the margin is an angle
			l := &joints[i]
			l.Lower, l.Upper, l.Turning = j.Lower, j.Upper, false
			l.Weight, l.MaxStep = 1/slideRadian, l.MaxStep*slideRadian
		}
	}
	for _, f := range s.axes {
		l := &joints[f.Joint]
		l.Weight *= freeWeight
		if most := s.axisStep[f.Joint]; most > 0 {
			l.MaxStep = most
		}
	}
	return joints
}
