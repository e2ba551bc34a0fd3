package kinematics

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// form is a chain written as the fewest products: a frame on each joint axis
// with x along the common normal to the next (Denavit and Hartenberg, J. Appl.
// Mech. 22, 1955; from memory), so that
//
//	baseFromFlange = base * product over joints of
//	                 [Rz(q+off) Tz(d) Tx(a) Rx(alpha)] * Rz(tail) Tz(tail)
//
// Runs of parallel axes share one rotation by the sum of their angles.
type form struct {
	base se3.Pose // baseFromFrame0
	// upright: base is a shift only and the second axis square to the first,
	// which saves the first step's products.
	upright bool
	steps   [MaxJoints]step
	tail    tail
}

// stepKind says how a joint's frame leads to the next.
type stepKind uint8

const (
	parallel stepKind = iota // alpha = 0: the next joint turns about the same direction
	square                   // alpha = +90 degrees
	straight                 // alpha = 0 behind the last joint
	skew                     // any other alpha
	general                  // axes so nearly parallel that their normal is far away: a full pose
)

type step struct {
	kind    stepKind
	fresh   bool    // starts a run of parallel axes
	turn    float64 // factor of q in the angle: 1 turning, 0 sliding
	slide   float64 // factor of q along the axis: 0 turning, 1 sliding
	off     float64 // rad
	a, d    float64 // m
	ca, sa  float64
	onwards se3.Pose // general only: this joint's frame to the next
}

// tail carries the last frame to the flange: a turn about z and a shift along it.
type tail struct {
	used    bool
	c, s, e float64 // cosine, sine, m
}

const (
	// sameDirection is the sine below which two axes count as parallel, and
	// the cosine below which they count as square. It covers the rounding of
	// rpy angles and of their products; on an arm of 3 m it moves the flange
	// by 3e-14 m at most.
	sameDirection = 1e-14
	// farNormal is the sine below which the common normal of two axes lies so
	// far out that its coordinates lose digits; such a step is kept as a pose.
	farNormal = 0.05
	// sameLine is the distance (m) below which parallel axes are one line.
	sameLine = 1e-14
)

// compile writes a chain as a form. lines are the axes in the base frame and
// zero is baseFromFlange, both with every joint at zero.
func compile(lines []line, joints []Joint, zero se3.Pose) form {
	n := len(lines)
	var f form
	at := se3.Pose{R: firstAxes(lines, zero), P: lines[0].at}
	f.base = at
	for i := range lines {
		end := line{dir: zero.R.Z(), at: zero.P}
		last := i == n-1
		if !last {
			end = lines[i+1]
		}
		s := &f.steps[i]
		s.fresh = i == 0 || f.steps[i-1].kind != parallel
		if s.turn = 1; joints[i].Kind == Prismatic {
			s.turn, s.slide = 0, 1
		}
		at = s.lead(at, end, last, zero)
	}
	if s := &f.steps[n-1]; s.kind == parallel {
		s.kind = straight // the run ends here
	}
	f.tail = tailOf(at, zero)
	f.standUp()
	return f
}

// standUp moves a turn of the base about the first axis into that joint's
// offset, where it is no more than that.
func (f *form) standUp() {
	r := &f.base.R
	if math.Abs(r[2])+math.Abs(r[5]) > sameDirection || r[8] < 0 || f.steps[0].kind != square || f.steps[0].turn == 0 {
		return
	}
	f.steps[0].off += math.Atan2(r[3], r[0])
	f.base.R, f.upright = se3.Identity().R, true
}

// firstAxes returns axes with z along the first joint and x along the normal
// to whatever follows it, so that the first offset is zero.
func firstAxes(lines []line, zero se3.Pose) se3.Rot {
	z := lines[0].dir
	next := line{dir: zero.R.Z(), at: zero.P}
	if len(lines) > 1 {
		next = lines[1]
	}
	x := z.Cross(next.dir)
	if x.Norm() < farNormal {
		x = next.at.Sub(lines[0].at).Reject(z)
	}
	if x.Norm() < sameLine {
		x = z.Orthogonal()
	}
	x = squareTo(x, z)
	return se3.RotColumns(x, z.Cross(x), z)
}

// lead fills s with the way from frame at, on this joint's axis, to the axis
// end, and returns the frame there. The last step goes to the flange itself
// where its axis allows that.
func (s *step) lead(at se3.Pose, end line, last bool, zero se3.Pose) se3.Pose {
	z := at.R.Z()
	normal := z.Cross(end.dir)
	sine, cosine := normal.Norm(), z.Dot(end.dir)
	apart := end.at.Sub(at.P).Reject(z)
	var x, origin r3.Vec
	switch {
	case sine < sameDirection:
		x, origin = at.R.X(), at.P.Add(apart)
		if apart.Norm() >= sameLine {
			x = squareTo(apart, z)
		} else if last {
			x = zero.R.X().Reject(z).Unit()
		}
		if last {
			origin = end.at
		}
		s.kind, s.ca = parallel, 1
		if cosine < 0 {
			s.kind, s.ca = skew, -1
		}
	case sine < farNormal:
		origin = end.at.AddScaled(at.P.Sub(end.at).Dot(end.dir), end.dir)
		next := se3.Pose{R: se3.RotColumns(perpendicular(end.dir, at.R.X())), P: origin}
		if last {
			next = zero
		}
		s.kind, s.onwards = general, at.Inv().Mul(next)
		return next
	default:
		x = normal.Scale(1 / sine)
		t := end.at.Sub(at.P).Cross(z).Dot(normal) / float64(sine*sine)
		origin = end.at.AddScaled(t, end.dir)
		s.kind, s.ca, s.sa = skew, cosine, sine
		if math.Abs(cosine) < sameDirection {
			s.kind, s.ca, s.sa = square, 0, 1
		}
	}
	local := at.R.T().Apply(x)
	s.off = math.Atan2(local.Y, local.X)
	d := origin.Sub(at.P)
	s.d, s.a = d.Dot(z), d.Dot(x)
	// Axes rebuilt from the numbers that Forward will use, so that snapped
	// angles cost nothing further along.
	turned := at.R.Mul(se3.RotZ(s.off))
	r := turned.Mul(se3.Rot{1, 0, 0, 0, s.ca, -s.sa, 0, s.sa, s.ca})
	p := at.P.AddScaled(s.d, z).AddScaled(s.a, turned.X())
	return se3.Pose{R: r, P: p}
}

// squareTo returns the unit direction of v's part square to the unit direction
// z. Each round leaves the rounding of the one before in proportion to what
// was cut away; the third has nothing left to cut.
func squareTo(v, z r3.Vec) r3.Vec {
	for range 3 {
		v = v.Reject(z).Unit()
	}
	return v
}

// perpendicular returns axes with the given z and x as near to like as it can be.
func perpendicular(z, like r3.Vec) (x, y, zz r3.Vec) {
	x = like.Reject(z).Unit()
	return x, z.Cross(x), z
}

// tailOf returns the turn and shift left between the last frame and the flange.
func tailOf(at, zero se3.Pose) tail {
	rest := at.Inv().Mul(zero)
	t := tail{c: rest.R[0], s: rest.R[3], e: rest.P.Z}
	if n := math.Hypot(t.c, t.s); n > 0 {
		t.c, t.s = t.c/n, t.s/n
	}
	t.used = math.Abs(t.s) > sameDirection || t.c < 0 || math.Abs(t.e) > sameLine
	return t
}
