package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// Solver inverts a chain. Its data do not change after NewSolver.
type Solver struct {
	chain     *Chain
	family    Family
	exact     bool
	back      *Chain // the chain seen from its flange, for families that are mirror images
	arm       arm    // SphericalWrist, ThreeParallel and their mirror images
	decoupled *decoupled
	general   *continuation
	redundant *redundancy // chains of more than six joints; then all below is empty
	slides    uint8       // bit j: joint j is prismatic
	lower     [6]float64  // rad or m
	upper     [6]float64  // rad or m
	middle    [6]float64  // of each joint's range, rad or m; 0 for a continuous joint
}

// Family returns the recognised family, for a chain of more than six joints
// that of the six that are solved for.
func (s *Solver) Family() Family { return s.family }

// Chain returns the chain that s inverts.
func (s *Solver) Chain() *Chain { return s.chain }

// Exact reports whether the arm is a member of its family to the last digits.
// Otherwise the file's numbers are rounded, each posture of the nearest true
// member is corrected on the arm as the file has it, and postures nearer to a
// singularity than the rounding may be missed. General is always exact.
func (s *Solver) Exact() bool { return s.exact }

// Accuracy of the postures that Solve returns, against Forward.
const (
	// reachSlack (m) and attitudeSlack (rad): a pose this little out of reach
	// is answered with the stretched, folded or aligned posture next to it.
	reachSlack    = 1e-9
	attitudeSlack = 1e-9
	// attitudeDoubt (rad): near a stretched arm the rounding of the pose moves
	// the links, and with them what is asked of the wrist, by far more. Up to
	// this lack the aligned wrist is tried; Newton's method then decides.
	attitudeDoubt = 1e-6
	// limitSlack (rad): a joint this little outside its limits, which is
	// rounding, is put on the limit.
	limitSlack = 1e-11
	// NearSingular is the sine of the angle (dimensionless) below which a
	// posture counts as singular: joints there turn a million times faster
	// than elsewhere for the same motion of the flange.
	NearSingular = 1e-6
	// undetermined is the sine (dimensionless) below which the rounding of a
	// pose leaves nothing of the direction that decides a joint's angle.
	undetermined = 1e-11
	// samePosture (rad): branches that meet come out this close together,
	// since a double root turns rounding into its square root.
	samePosture = 1e-7
	// poseRounding (dimensionless) is what rounding leaves of the axes of a pose
	// after the products that bring it here.
	poseRounding = 1e-15
	// closing (m or rad) is the error of the closed form above which it is
	// corrected by Newton's method.
	closing = 1e-12
)

// candidate is one posture before the limits: joint values (rad) at any turn.
type candidate struct {
	q      [6]float64
	near   SingularSet
	held   uint8
	branch Branch
	err    float64 // closing error, m or rad
}

// search is the state of one Solve on its stack.
type search struct {
	arm      *arm
	n        se3.Rot // axes of frame six in A
	x, y, z  float64 // wrist point in A, m
	hold     *[6]float64
	have     uint16 // bit b: candidate b is a posture
	cand     [closedMost]candidate
	slack    float64 // m, how little out of reach still counts as reached
	reach    Reach
	missing  float64 // m
	attitude float64 // rad
	lost     bool    // General: a posture may be missing
}

// Solve writes every posture inside the joint limits that puts the flange at
// baseFromFlange. Each joint is given at the turn nearest to the seed's value,
// without a seed (nil) nearest to the middle of its range, or to zero for a
// continuous joint. Forward of each posture is within 1e-9 m and 1e-9 rad of
// the pose: the closed form's own equations are evaluated for each, and where
// they do not close within 1e-12, near a singularity, for rounded files and
// for General the posture goes through Newton's method on Forward itself and
// is dropped if that does not bring it there. A posture that stands in two
// singularities at once, within some 1e-3 rad of both, may be dropped so: there
// the rounding of the pose alone moves joints by more than Newton's method can
// tell apart.
//
// A chain of more than six joints has more postures than can be listed; Solve
// then holds its free joints at the seed's values (see SolveHeld), without a
// seed at the choice nearest to the middle of their ranges.
//
// Method: subproblems of A. J. Elias and J. T. Wen, "IK-Geo: Unified robot
// inverse kinematics using subproblem decomposition", arXiv 2211.05737, for
// the closed forms, which for SphericalWrist and ThreeParallel are carried
// through as cosines and sines so that only the results take an arc tangent;
// homotopy continuation for General (see continuation).
func (s *Solver) Solve(baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	if s.redundant != nil {
		s.solveRedundant(baseFromFlange, seed, out)
		return
	}
	s.solve(nil, baseFromFlange, seed, out)
}

// solve is SolveAlong for six joints.
func (s *Solver) solve(trail *Trail, baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	out.N, out.Geometric, out.Singular, out.Uncertain = 0, 0, 0, false
	out.Reach, out.Missing = Reachable, 0
	if !properPose(baseFromFlange) || seed != nil && !finite(seed, 6) {
		out.Status = InvalidInput
		return
	}
	var se search
	se.hold = &s.middle
	var from [6]float64
	if seed != nil {
		copy(from[:], seed[:6])
		se.hold = &from
	}
	if s.general != nil {
		s.solveGeneral(trail, baseFromFlange, &se, out)
		return
	}
	if s.back == nil {
		s.find(baseFromFlange, &se)
	} else {
		flangeFromBase, hold, turned := baseFromFlange.Inv(), se.hold, backwards(*se.hold)
		se.hold = &turned
		s.find(&flangeFromBase, &se)
		se.hold = hold
		se.unmirror()
	}
	s.correct(baseFromFlange, &se, se.cand[:])
	s.choose(&se, se.cand[:], out)
}

// find writes the candidates for the flange at t, seen from the flange for a
// mirror image.
func (s *Solver) find(t *se3.Pose, se *search) {
	if s.decoupled != nil {
		s.decoupled.solve(se, t)
		return
	}
	se.arm, se.slack = &s.arm, reachSlack
	se.place(t)
	if s.family == SphericalWrist || s.family == SphericalShoulder {
		se.sphericalWrist()
	} else {
		se.threeParallel()
	}
}

// place takes the pose into frame A.
func (se *search) place(t *se3.Pose) {
	a := se.arm
	p := t.R.Apply(a.point).Add(t.P)
	p = a.aFromBase.Apply(p)
	se.x, se.y, se.z = p.X, p.Y, p.Z
	se.n = a.aFromBase.R.Mul(t.R).Mul(a.flangeFromSix)
}

// finite reports whether the first n joint values are.
func finite(q *Q, n int) bool {
	sum := 0.0
	for _, v := range q[:n] {
		sum += v - v
	}
	return sum == 0
}

// properPose reports whether t is finite and its axes are unit, square and
// right-handed, within 1e-9.
func properPose(t *se3.Pose) bool {
	const tol = 1e-9
	r := &t.R
	xx := r[0]*r[0] + r[3]*r[3] + r[6]*r[6] - 1
	yy := r[1]*r[1] + r[4]*r[4] + r[7]*r[7] - 1
	xy := r[0]*r[1] + r[3]*r[4] + r[6]*r[7]
	ex := r[3]*r[7] - r[6]*r[4] - r[2]
	ey := r[6]*r[1] - r[0]*r[7] - r[5]
	ez := r[0]*r[4] - r[3]*r[1] - r[8]
	off := math.Abs(xx) + math.Abs(yy) + math.Abs(xy) + math.Abs(ex) + math.Abs(ey) + math.Abs(ez)
	return off < tol && t.P.IsFinite()
}
