package kinematics

import "math"

// bends is the middle turn of the wrist: joint 5 brings axis 6 to the right
// angle with axis 4. Joint 5 has the angle +q or -q.
type bends struct {
	c, s float64 // cosine and sine (not negative) of joint 5's angle
	ny   float64 // see middle
	inv  float64 // 1 / length of (sin5 sin(alpha5), ny)
	err  float64 // closing error, rad
	near SingularSet
	ways uint8 // 1 where both are the same, else 2
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
	if over := b.c*b.c - 1; over > 0 {
		over = math.Abs(b.c) - 1
		lo, hi := math.Acos(clamp(p+m)), math.Acos(clamp(p-m)) // least and greatest angle of axes 4 and 6
		is := math.Acos(clamp(gz))
		lack := max(lo-is, is-hi)
		if over > attitudeSlack && lack > attitudeDoubt {
			se.wrongAttitude(lack)
			return b, false
		}
		b.c = math.Copysign(1, b.c)
	}
	// Not sqrt(1 - c^2), which loses half the digits where axes 4 and 6 are
	// nearly in line and gxy is small.
	h := math.Sqrt(gxy)
	b.inv = 1 / h
	if a.skew() {
		b.ny = -(a.ca4*a.sa5*b.c + a.sa4*a.ca5)
		h = math.Sqrt(max(gxy-b.ny*b.ny, 0))
	}
	b.s = h * a.per.sa5
	b.err = math.Abs(b.c*b.c + b.s*b.s - 1)
	b.ways = 2
	// Joints 4 and 6 take their directions from two vectors of length s, each
	// with the rounding of the pose.
	if b.s < poseRounding/closing {
		b.err += poseRounding / (b.s + poseRounding)
		if b.s < NearSingular {
			b.near = AtWrist
		}
		if b.s < undetermined {
			b.ways = 1
		}
	}
	return b, true
}

// skew reports whether the wrist is not the usual one, with axis 5 square to
// axes 4 and 6.
func (a *arm) skew() bool { return a.ca4 != 0 || a.ca5 != 0 }

// behind is bends.ny seen from the other end: axis 4 before joint 6 turns it
// back is (sin5 sin(alpha4), behind), for the given cosine of joint 5.
func (a *arm) behind(c5 float64) float64 { return a.ca5*a.sa4*c5 + a.sa5*a.ca4 }

func clamp(x float64) float64 { return max(-1, min(1, x)) }
