package kinematics

import (
	"errors"

	"seamwright/geom/se3"
)

// Family is a class of six-joint arms whose inverse has a closed form.
type Family uint8

// The families that NewSolver recognises.
const (
	SphericalWrist Family = iota + 1 // axes 4, 5, 6 meet in a point, axes 2 and 3 parallel
	ThreeParallel                    // axes 2, 3, 4 parallel, axes 5 and 6 meet in a point
)

// String returns the family in words.
func (f Family) String() string {
	switch f {
	case SphericalWrist:
		return "spherical wrist, axes 2 and 3 parallel"
	case ThreeParallel:
		return "axes 2, 3 and 4 parallel, axes 5 and 6 intersecting"
	}
	return "unknown"
}

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
	InvalidPose                     // the pose is not finite or its axes are not unit, square and right-handed
)

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

// Solver inverts a chain of one of the two families.
type Solver struct {
	chain  *Chain
	family Family
}

// NewSolver recognises the family of c from its axes alone. Any other arm is an
// error that names the geometric conditions that fail and by how much.
func NewSolver(c *Chain) (*Solver, error) {
	return nil, errors.New("solver: not available in this revision")
}

// Family returns the recognised family.
func (s *Solver) Family() Family { return s.family }

// Chain returns the chain that s inverts.
func (s *Solver) Chain() *Chain { return s.chain }

// Solve writes every posture inside the joint limits that puts the flange at
// baseFromFlange. Each joint is given at the turn nearest to the seed's value,
// without a seed (nil) nearest to the middle of its range, or to zero for a
// continuous joint.
func (s *Solver) Solve(baseFromFlange *se3.Pose, seed *Q, out *Solutions) {
	*out = Solutions{Status: InvalidPose}
}

// Singularity says how far a posture is from each of the family's
// singularities, in radians; 0 is singular.
type Singularity struct {
	Shoulder float64 // rad
	Elbow    float64 // rad
	Wrist    float64 // rad
}

// Singularity returns how far posture q (rad) is from each singularity.
func (s *Solver) Singularity(q *Q) Singularity { return Singularity{} }
