package prove

import (
	"fmt"
	"math"

	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// arm is the arm with its torch as the job has them. Base is what carries the part:
// the arm's foot, or the top of a turning table.
type arm struct {
	chain, table  *kinematics.Chain // table is nil where the part stands still
	flangeFromTip se3.Pose
	worldFromFoot se3.Pose
	limits        []jointLimit
}

// jointLimit is what a joint may do, rad or m, per s, per s2.
type jointLimit struct {
	name         string
	slides       bool
	lower, upper float64
	speed, accel float64
}

func newArm(j *job.Job) (*arm, error) {
	a := &arm{worldFromFoot: j.Cell.WorldFromBase, flangeFromTip: j.Torch.FlangeFromTip}
	base := j.Arm.BaseLink
	var err error
	if j.Arm.PartLink != "" {
		base = j.Arm.PartLink
		if a.table, err = kinematics.NewChain(j.Arm.Robot, j.Arm.PartLink, j.Arm.BaseLink); err != nil {
			return nil, fmt.Errorf("the turning table of %s: %w", j.Arm.URDF, err)
		}
	}
	if a.chain, err = kinematics.NewChain(j.Arm.Robot, base, j.Arm.FlangeLink); err != nil {
		return nil, fmt.Errorf("the arm of %s: %w", j.Arm.URDF, err)
	}
	if j.Torch.Measured {
		a.flangeFromTip = measuredTorch(&j.Torch)
	}
	for i := range a.chain.N() {
		joint := a.chain.Joint(i)
		l := jointLimit{name: joint.Name, slides: joint.Kind == kinematics.Prismatic, lower: joint.Lower, upper: joint.Upper, speed: joint.Velocity}
		l.accel = j.Arm.JointAcceleration(i)
		if i == a.chain.N()-1 && j.Arm.Cable != nil {
			l.lower, l.upper = max(l.lower, j.Arm.Cable.Lower), min(l.upper, j.Arm.Cable.Upper)
		}
		if !(l.speed > 0) || !(l.accel > 0) {
			return nil, fmt.Errorf("joint %s of %s has no limit of its speed or its acceleration: nothing can be held against it", l.name, j.Arm.URDF)
		}
		a.limits = append(a.limits, l)
	}
	return a, nil
}

// measuredTorch returns flange from tip by the torch's measurements: along the
// flange's axis to the bend, from there along the wire, which the neck leans by its
// angle towards the flange's x, turned about its axis.
func measuredTorch(t *job.Torch) se3.Pose {
	sinN, cosN := math.Sincos(t.NeckAngle)
	sinT, cosT := math.Sincos(t.Turn)
	lean := r3.Vec{X: cosT, Y: sinT} // to which side the neck leans
	side := r3.Vec{X: -sinT, Y: cosT}
	along := r3.Vec{Z: 1}
	wire := along.Scale(cosN).AddScaled(sinN, lean)
	x := lean.Scale(cosN).AddScaled(-sinN, along)
	bend := r3.Vec{X: t.Sideways[0], Y: t.Sideways[1], Z: t.Body}
	return se3.Pose{R: se3.RotColumns(x, side, wire), P: bend.AddScaled(t.Neck+t.StickOut, wire)}
}

// tip returns base from tip at joint values.
func (a *arm) tip(q *kinematics.Q) se3.Pose {
	var baseFromFlange se3.Pose
	a.chain.Forward(q, &baseFromFlange)
	return baseFromFlange.Mul(a.flangeFromTip)
}

// worldFromBase returns the base in the world at joint values, of which the table's
// are read.
func (a *arm) worldFromBase(q *kinematics.Q) se3.Pose {
	if a.table == nil {
		return a.worldFromFoot
	}
	var baseFromFoot se3.Pose
	a.table.Forward(q, &baseFromFoot)
	return a.worldFromFoot.Mul(baseFromFoot.Inv())
}
