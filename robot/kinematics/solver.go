package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// MaxSolutions is the largest number of isolated postures that a family has
// for one pose.
const MaxSolutions = 8

// Status says how a search for postures ended.
type Status uint8

// The ways a search can end.
const (
	Found         Status = iota + 1 // at least one posture, none of them singular
	FoundSingular                   // at least one posture, at least one of them singular: see Solutions.Singular
	OutOfReach                      // no posture puts the flange there: see Solutions.Reach and Missing
	OutsideLimits                   // postures exist, each with a joint outside its limits: see Solutions.Miss
	InvalidInput                    // the pose or the seed is not finite, or the pose's axes are not unit, square and right-handed within 1e-9
)

// String returns the status in words.
func (s Status) String() string {
	switch s {
	case Found:
		return "found"
	case FoundSingular:
		return "found at a singularity"
	case OutOfReach:
		return "out of reach"
	case OutsideLimits:
		return "outside joint limits"
	case InvalidInput:
		return "invalid pose or seed"
	}
	return "not solved"
}

// Branch says which of two ways each of three choices went; the bits that are
// set are the flips. Solutions are in ascending order of their branch.
type Branch uint8

// The choices. The zero branch has the wrist point on the positive side of the
// shoulder (see Singularity), the elbow angle in 0..pi and joint 5 in 0..pi,
// each counted from where its sine vanishes.
const (
	WristFlip Branch = 1 << iota
	ElbowFlip
	ShoulderFlip
)

// SingularSet names singularities as bits.
type SingularSet uint8

// The singularities of both families; see Singularity.
const (
	AtWrist SingularSet = 1 << iota
	AtElbow
	AtShoulder
)

// Reach says in which way a pose is out of reach.
type Reach uint8

// The ways of being out of reach.
const (
	Reachable     Reach = iota
	TooFar              // the wrist point lies beyond the stretched arm
	TooNear             // the wrist point lies inside the folded arm or too near axis 1
	WrongAttitude       // the wrist's angles cannot make the orientation
)

// Miss is the posture that comes nearest to being inside the limits: Joint
// (0-based) is its worst one, outside by By (rad); Q is the posture and Branch
// its branch.
type Miss struct {
	Joint  int
	By     float64 // rad, above 0
	Q      Q       // rad
	Branch Branch
}

// Solutions receives the postures of one pose. It is plain memory for reuse,
// one for each goroutine; Solve overwrites all of it that its Status makes
// meaningful.
type Solutions struct {
	Status Status
	// N postures inside the limits, in ascending order of Branch.
	N      int
	Q      [MaxSolutions]Q // rad
	Branch [MaxSolutions]Branch
	// Near names the singularities of each posture: those at which a joint is
	// free, or at which two branches meet, within NearSingular.
	Near [MaxSolutions]SingularSet
	// Held has bit i set where joint i of that posture is free at this pose
	// and therefore holds the seed's value (or the middle of its range).
	Held [MaxSolutions]uint8
	// Geometric is the number of postures before the limits were looked at.
	Geometric int
	// Singular is the union of Near.
	Singular SingularSet
	// Reach and Missing explain OutOfReach: how far, at least, the wrist point
	// would have to move (m), or for WrongAttitude how far the flange's z axis
	// would have to turn (rad).
	Reach   Reach
	Missing float64 // m, or rad for WrongAttitude
	// Miss explains OutsideLimits.
	Miss Miss
}

// String returns the way in words.
func (r Reach) String() string {
	switch r {
	case Reachable:
		return "reachable"
	case TooFar:
		return "too far"
	case TooNear:
		return "too near"
	case WrongAttitude:
		return "wrong attitude"
	}
	return "unknown"
}

// Solver inverts a chain of one of the two families.
type Solver struct {
	chain  *Chain
	family Family
	exact  bool
	arm    arm
	lower  [6]float64 // rad
	upper  [6]float64 // rad
	middle [6]float64 // of each joint's range, rad; 0 for a continuous joint
}

// Family returns the recognised family.
func (s *Solver) Family() Family { return s.family }

// Chain returns the chain that s inverts.
func (s *Solver) Chain() *Chain { return s.chain }

// Exact reports whether the arm is a member of its family to the last digits.
// Otherwise the file's numbers are rounded, each posture of the nearest true
// member is corrected on the arm as the file has it, and postures nearer to a
// singularity than the rounding may be missed.
func (s *Solver) Exact() bool { return s.exact }

// Accuracy of the postures that Solve returns, against Forward.
const (
	// reachSlack (m) and attitudeSlack (rad): a pose this little out of reach
	// is answered with the stretched, folded or aligned posture next to it.
	reachSlack    = 1e-9
	attitudeSlack = 1e-9
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
	q    [6]float64
	near SingularSet
	held uint8
	err  float64 // closing error, m or rad
}

// search is the state of one Solve on its stack.
type search struct {
	arm      *arm
	n        se3.Rot // axes of frame six in A
	x, y, z  float64 // wrist point in A, m
	hold     *[6]float64
	have     uint8 // bit b: cand[b] is a posture of branch b
	cand     [MaxSolutions]candidate
	slack    float64 // m, how little out of reach still counts as reached
	reach    Reach
	missing  float64 // m
	attitude float64 // rad
}

// Solve writes every posture inside the joint limits that puts the flange at
// baseFromFlange. Each joint is given at the turn nearest to the seed's value,
// without a seed (nil) nearest to the middle of its range, or to zero for a
// continuous joint. Forward of each posture is within 1e-9 m and 1e-9 rad of
// the pose: the closed form's own equations are evaluated for each, and where
// they do not close within 1e-12, near a singularity and for rounded files the
// posture goes through Newton's method on Forward itself and is dropped if that
// does not bring it there.
//
// Method: subproblems of A. J. Elias and J. T. Wen, "IK-Geo: Unified robot
// inverse kinematics using subproblem decomposition", arXiv 2211.05737, for
// the two families, carried through as cosines and sines so that only the
// results take an arc tangent.
func (s *Solver) Solve(baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	out.N, out.Geometric, out.Singular = 0, 0, 0
	out.Reach, out.Missing = Reachable, 0
	if !properPose(baseFromFlange) || seed != nil && !finite(seed) {
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
	se.arm, se.slack = &s.arm, reachSlack
	se.place(baseFromFlange)
	if s.family == SphericalWrist {
		se.sphericalWrist()
	} else {
		se.threeParallel()
	}
	s.correct(baseFromFlange, &se)
	s.choose(&se, out)
}

// place takes the pose into frame A.
func (se *search) place(t *se3.Pose) {
	a := se.arm
	p := t.R.Apply(a.point).Add(t.P)
	p = a.aFromBase.Apply(p)
	se.x, se.y, se.z = p.X, p.Y, p.Z
	se.n = a.aFromBase.R.Mul(t.R).Mul(a.flangeFromSix)
}

// finite reports whether the six joint values are.
func finite(q *Q) bool {
	sum := 0.0
	for _, v := range q[:6] {
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
