package kinematics

// MaxSolutions is the largest number of isolated postures that an arm of six
// joints has for one pose. The closed forms have at most 8.
const MaxSolutions = 16

// closedMost is the largest number of postures of a closed form.
const closedMost = 8

// Status says how a search for postures ended.
type Status uint8

// The ways a search can end.
const (
	Found         Status = iota + 1 // at least one posture, none of them singular
	FoundSingular                   // at least one posture, at least one of them singular: see Solutions.Singular
	OutOfReach                      // no posture puts the flange there, or none was found if Uncertain: see Solutions.Reach and Missing
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
// set are the flips. Solutions are in ascending order of their branch. Postures
// of two branches meet only in a singularity.
//
// General has the branches 0 and 1 only, by whether the determinant of the
// Jacobian is positive or negative; several postures may share one, in
// ascending order of their joint values (first joint first, each in -pi..pi).
type Branch uint8

// The choices. Each is between the two halves of the circle on which an angle
// of Singularity is counted; the zero branch has each of them in 0..pi. For
// SphericalWrist and ThreeParallel the zero branch has the wrist point on the
// positive side of the shoulder, the elbow angle in 0..pi and joint 5 in
// 0..pi, each counted from where its sine vanishes.
const (
	WristFlip Branch = 1 << iota
	ElbowFlip
	ShoulderFlip
)

// SingularSet names singularities as bits.
type SingularSet uint8

// The singularities; see Singularity. AtRankLoss is General's, whose
// singularities belong to no part of the arm.
const (
	AtWrist SingularSet = 1 << iota
	AtElbow
	AtShoulder
	AtRankLoss
)

// Reach says in which way a pose is out of reach.
type Reach uint8

// The ways of being out of reach.
const (
	Reachable     Reach = iota
	TooFar              // the wrist point lies beyond the stretched arm
	TooNear             // the wrist point lies inside the folded arm or too near axis 1
	WrongAttitude       // the wrist's angles cannot make the orientation
	NotKnown            // General, nearer than its stretched length: nothing says what is lacking; Missing is 0
)

// Miss is the posture that comes nearest to being inside the limits: Joint
// (0-based) is its worst one, outside by By (rad, m for a sliding joint); Q is
// the posture and Branch its branch.
type Miss struct {
	Joint  int
	By     float64 // rad or m, above 0
	Q      Q       // rad or m
	Branch Branch
}

// Solutions receives the postures of one pose. It is plain memory for reuse,
// one for each goroutine; Solve overwrites all of it that its Status makes
// meaningful.
type Solutions struct {
	Status Status
	// N postures inside the limits, in ascending order of Branch.
	N      int
	Q      [MaxSolutions]Q // rad or m
	Branch [MaxSolutions]Branch
	// Near names the singularities of each posture: those at which a joint is
	// free, or at which two branches meet, within NearSingular.
	Near [MaxSolutions]SingularSet
	// Held has bit i set where joint i of that posture is free at this pose
	// and therefore holds the seed's value (or the middle of its range). The
	// free joints of a chain of more than six (see Solver.Free) are always
	// held. General leaves it empty: at a singularity where its postures are
	// not isolated it gives some of them.
	Held [MaxSolutions]uint16
	// Uncertain is true where a posture may be missing from the list: General
	// could not account for every posture at this pose (see NewSolver). It is
	// false for the closed forms.
	Uncertain bool
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
	case NotKnown:
		return "not known"
	}
	return "unknown"
}
