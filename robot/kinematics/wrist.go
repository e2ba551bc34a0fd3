package kinematics

import (
	"math"

	"seamwright/geom/se3"
)

// bends is the middle turn of the wrist: joint 5 brings axis 6 to the right
// angle with axis 4. Joint 5 has the angle +q or -q.
type bends struct {
	c, s   float64 // cosine and sine (not negative) of joint 5's angle
	ny     float64 // see middle
	near   SingularSet
	single bool    // both ways are the same
	err    float64 // closing error, rad
}

// middle solves for joint 5 from g, axis 6 in axes that have z along axis 4:
// its z part gz, and gxy, the square of the rest. Then
//
//	(sin5 sin(alpha5), ny) is the rest of g before joint 4 turns it,
//	ny = -(cos(alpha4) sin(alpha5) cos5 + sin(alpha4) cos(alpha5)).
//
// ok is false where no angle does it; then the lack is noted.
func (se *search) middle(gz, gxy float64) (b bends, ok bool) {
	a := se.arm
	p, m := a.ca4*a.ca5, a.sa4*a.sa5
	b.c = (p - gz) * a.per.bends
	if over := math.Abs(b.c) - 1; over > 0 {
		lo, hi := math.Acos(clamp(p+m)), math.Acos(clamp(p-m)) // least and greatest angle of axes 4 and 6
		is := math.Acos(clamp(gz))
		lack := max(lo-is, is-hi)
		if over > attitudeSlack && lack > attitudeSlack {
			se.wrongAttitude(lack)
			return b, false
		}
		b.c = math.Copysign(1, b.c)
	}
	b.ny = -(a.ca4*a.sa5*b.c + a.sa4*a.ca5)
	// Not sqrt(1 - c^2), which loses half the digits where axes 4 and 6 are
	// nearly in line and gxy is small.
	b.s = math.Sqrt(max(gxy-b.ny*b.ny, 0)) * a.per.sa5
	if b.s < NearSingular {
		b.near = AtWrist
	}
	b.single = b.s < undetermined
	b.err = math.Abs(b.c*b.c + b.s*b.s - 1)
	// Joints 4 and 6 take their directions from two vectors of length s, each
	// with the rounding of the pose.
	if b.s < poseRounding/closing {
		b.err += poseRounding / (b.s + poseRounding)
	}
	return b, true
}

func clamp(x float64) float64 { return max(-1, min(1, x)) }

// outer turns of the wrist for one middle turn: the angle of joint 4 (or 6)
// is base - lean for joint 5 at +q and base + lean - pi for -q.
func lean(ny, nx float64) float64 {
	if ny == 0 {
		return 0
	}
	return atan2(ny, nx)
}

// lastTurn returns joint 6's angle (rad) where joint 4 or 6 is free, from w,
// the axes before joint 4 seen from A, and the angles of joints 4 and 5 (rad).
func (se *search) lastTurn(w se3.Rot, t4, t5 float64) float64 {
	a := se.arm
	bend4 := se3.Rot{1, 0, 0, 0, a.ca4, -a.sa4, 0, a.sa4, a.ca4}
	bend5 := se3.Rot{1, 0, 0, 0, a.ca5, -a.sa5, 0, a.sa5, a.ca5}
	before := w.Mul(se3.RotZ(t4)).Mul(bend4).Mul(se3.RotZ(t5)).Mul(bend5)
	r := before.T().Mul(se.n)
	return math.Atan2(r[3]-r[1], r[0]+r[4])
}
