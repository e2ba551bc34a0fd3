package kinematics

import "seamwright/geom/se3"

// angles fills c and s with the cosine and sine of the angle through which
// each joint has turned since the start of its run of parallel axes.
func (c *Chain) angles(q *Q, cs, sn *[MaxJoints]float64) {
	var sum float64
	for i := range c.form.steps[:c.n] {
		s := &c.form.steps[i]
		if s.fresh {
			sum = 0
		}
		sum += s.off + s.turn*q[i]
		sn[i], cs[i] = sincos(sum)
	}
}

// Forward writes the pose of the flange in the base for joint values q (rad or
// m) to baseFromFlange: position in metres, axes as the columns of R. Values
// outside the joints' limits are computed all the same. The error is below
// 1e-14 rad and 1e-14 of the arm's length for |q| below 10 rad.
func (c *Chain) Forward(q *Q, baseFromFlange *se3.Pose) { c.forward(q, baseFromFlange, nil) }

// forward also writes each joint's axis in the base to axes, unless nil.
func (c *Chain) forward(q *Q, baseFromFlange *se3.Pose, axes *[MaxJoints]line) {
	var cs, sn [MaxJoints]float64
	c.angles(q, &cs, &sn)
	// The frame that the joints have carried so far: axes x, y, z and origin p
	// in locals, which the compiler keeps in registers; u, v, w is the way gone
	// inside a run of parallel axes, along x, y, z.
	b := &c.form.base
	x0, x1, x2 := b.R[0], b.R[3], b.R[6]
	y0, y1, y2 := b.R[1], b.R[4], b.R[7]
	z0, z1, z2 := b.R[2], b.R[5], b.R[8]
	p0, p1, p2 := b.P.X, b.P.Y, b.P.Z
	var u, v, w float64
	for i := range c.form.steps[:c.n] {
		s := &c.form.steps[i]
		co, si := cs[i], sn[i]
		if axes != nil {
			a := &axes[i]
			a.dir.X, a.dir.Y, a.dir.Z = z0, z1, z2
			a.at.X, a.at.Y, a.at.Z = p0+u*x0+v*y0, p1+u*x1+v*y1, p2+u*x2+v*y2
		}
		u += s.a * co
		v += s.a * si
		w += s.d + s.slide*q[i]
		if s.kind == parallel {
			continue
		}
		p0 += u*x0 + v*y0 + w*z0
		p1 += u*x1 + v*y1 + w*z1
		p2 += u*x2 + v*y2 + w*z2
		u, v, w = 0, 0, 0
		x0, y0 = co*x0+si*y0, co*y0-si*x0
		x1, y1 = co*x1+si*y1, co*y1-si*x1
		x2, y2 = co*x2+si*y2, co*y2-si*x2
		switch s.kind {
		case square:
			y0, y1, y2, z0, z1, z2 = z0, z1, z2, -y0, -y1, -y2
		case skew:
			ca, sa := s.ca, s.sa
			y0, z0 = ca*y0+sa*z0, ca*z0-sa*y0
			y1, z1 = ca*y1+sa*z1, ca*z1-sa*y1
			y2, z2 = ca*y2+sa*z2, ca*z2-sa*y2
		case general:
			k := &s.onwards
			kx, ky, kz := k.P.X, k.P.Y, k.P.Z
			p0 += kx*x0 + ky*y0 + kz*z0
			p1 += kx*x1 + ky*y1 + kz*z1
			p2 += kx*x2 + ky*y2 + kz*z2
			r := &k.R
			x0, y0, z0 = r[0]*x0+r[3]*y0+r[6]*z0, r[1]*x0+r[4]*y0+r[7]*z0, r[2]*x0+r[5]*y0+r[8]*z0
			x1, y1, z1 = r[0]*x1+r[3]*y1+r[6]*z1, r[1]*x1+r[4]*y1+r[7]*z1, r[2]*x1+r[5]*y1+r[8]*z1
			x2, y2, z2 = r[0]*x2+r[3]*y2+r[6]*z2, r[1]*x2+r[4]*y2+r[7]*z2, r[2]*x2+r[5]*y2+r[8]*z2
		}
	}
	if t := &c.form.tail; t.used {
		p0, p1, p2 = p0+t.e*z0, p1+t.e*z1, p2+t.e*z2
		x0, y0 = t.c*x0+t.s*y0, t.c*y0-t.s*x0
		x1, y1 = t.c*x1+t.s*y1, t.c*y1-t.s*x1
		x2, y2 = t.c*x2+t.s*y2, t.c*y2-t.s*x2
	}
	o := baseFromFlange
	o.R[0], o.R[1], o.R[2] = x0, y0, z0
	o.R[3], o.R[4], o.R[5] = x1, y1, z1
	o.R[6], o.R[7], o.R[8] = x2, y2, z2
	o.P.X, o.P.Y, o.P.Z = p0, p1, p2
}
