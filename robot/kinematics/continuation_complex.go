package kinematics

import "math"

// The same chain at complex joint values: forward kinematics and the Jacobian
// are made of sines, cosines and products, and hold for them unchanged.

// cxQ is one complex value for each of six joints, rad or m.
type cxQ [6]complex128

// cxTwist is a displacement or its rate: vx, vy, vz (m), wx, wy, wz (rad), in
// the base's axes.
type cxTwist [6]complex128

// cxPose is a pose whose numbers may be complex: rows of R, then the position.
type cxPose struct {
	r [9]complex128
	p [3]complex128 // m
}

// cxMotion is motion at complex joint values.
type cxMotion struct{ u, v, w, c, s [6]complex128 }

// times scales z by the real number r.
func times(r float64, z complex128) complex128 { return complex(r*real(z), r*imag(z)) }

// moveComplex fills m from joint values q (rad or m).
func (c *Chain) moveComplex(q *cxQ, m *cxMotion) {
	var re, im, sr, cr [6]float64
	var sum complex128
	for i := range 6 {
		s := &c.form.steps[i]
		if s.fresh {
			sum = 0
		}
		sum += complex(s.off, 0) + times(s.turn, q[i])
		re[i], im[i] = real(sum), imag(sum)
	}
	sincosAll(re[:], sr[:], cr[:])
	var u, v, w complex128
	for i := range 6 {
		s := &c.form.steps[i]
		if s.fresh {
			u, v, w = 0, 0, 0
		}
		e := math.Exp(im[i])
		ch, sh := 0.5*(e+1/e), 0.5*(e-1/e)
		m.s[i] = complex(sr[i]*ch, cr[i]*sh)
		m.c[i] = complex(cr[i]*ch, -sr[i]*sh)
		u += times(s.a, m.c[i])
		v += times(s.a, m.s[i])
		w += complex(s.d, 0) + times(s.slide, q[i])
		m.u[i], m.v[i], m.w[i] = u, v, w
	}
}

// cxJacobian is Jacobian at complex joint values, [row][joint].
type cxJacobian [6][6]complex128

// jacobianComplex writes the flange's pose and its Jacobian; see Jacobian.
func (c *Chain) jacobianComplex(q *cxQ, pose *cxPose, j *cxJacobian) {
	var m cxMotion
	c.moveComplex(q, &m)
	b := &c.form.base
	at := [3]float64{b.P.X, b.P.Y, b.P.Z}
	for r := range 3 {
		c.rowComplex(&m, &j[r], &j[3+r], pose, r, at[r])
	}
	px, py, pz := pose.p[0], pose.p[1], pose.p[2]
	for i := range 6 {
		hx, hy, hz := j[3][i], j[4][i], j[5][i]
		if c.form.steps[i].turn == 0 {
			j[0][i], j[1][i], j[2][i] = hx, hy, hz
			j[3][i], j[4][i], j[5][i] = 0, 0, 0
			continue
		}
		lx, ly, lz := px-j[0][i], py-j[1][i], pz-j[2][i]
		j[0][i], j[1][i], j[2][i] = hy*lz-hz*ly, hz*lx-hx*lz, hx*ly-hy*lx
	}
}

// rowComplex carries row r of the base frame, whose origin has the coordinate
// start (m), through the chain; see rowAxes.
func (c *Chain) rowComplex(m *cxMotion, at, dir *[6]complex128, pose *cxPose, r int, start float64) {
	b := &c.form.base.R
	x, y, z, p := complex(b[3*r], 0), complex(b[3*r+1], 0), complex(b[3*r+2], 0), complex(start, 0)
	here := p
	for i := range 6 {
		s := &c.form.steps[i]
		at[i], dir[i] = here, z
		here = p + (m.u[i]*x + m.v[i]*y)
		if s.kind == parallel {
			continue
		}
		p = here + m.w[i]*z
		co, si := m.c[i], m.s[i]
		x, y = co*x+si*y, co*y-si*x
		switch s.kind {
		case square:
			y, z = z, -y
		case skew:
			y, z = times(s.ca, y)+times(s.sa, z), times(s.ca, z)-times(s.sa, y)
		case general:
			o, t := &s.onwards.R, &s.onwards.P
			p += times(t.X, x) + times(t.Y, y) + times(t.Z, z)
			x, y, z = times(o[0], x)+times(o[3], y)+times(o[6], z),
				times(o[1], x)+times(o[4], y)+times(o[7], z),
				times(o[2], x)+times(o[5], y)+times(o[8], z)
		}
		here = p
	}
	if t := &c.form.tail; t.used {
		p += times(t.e, z)
		x, y = times(t.c, x)+times(t.s, y), times(t.c, y)-times(t.s, x)
	}
	pose.r[3*r], pose.r[3*r+1], pose.r[3*r+2], pose.p[r] = x, y, z, p
}

// twistTo returns the displacement from p to t for orientations that are near
// to each other; see smallTwist.
func (p *cxPose) twistTo(t *cxPose) cxTwist {
	var e cxTwist
	for k := range 3 {
		e[k] = t.p[k] - p.p[k]
	}
	for k := range 3 { // columns
		ax, ay, az := p.r[k], p.r[3+k], p.r[6+k]
		bx, by, bz := t.r[k], t.r[3+k], t.r[6+k]
		e[3] += ay*bz - az*by
		e[4] += az*bx - ax*bz
		e[5] += ax*by - ay*bx
	}
	e[3], e[4], e[5] = times(0.5, e[3]), times(0.5, e[4]), times(0.5, e[5])
	return e
}

// cxFactors is a 6 x 6 matrix factored as L U with its rows exchanged.
type cxFactors struct {
	a   cxJacobian
	inv [6]complex128 // 1 / diagonal of U
	row [6]uint8
}

// factor overwrites f.a by its factors and reports whether it could.
func (f *cxFactors) factor() bool {
	a := &f.a
	for k := range 6 {
		best, at := 0.0, k
		for i := k; i < 6; i++ {
			if m := square2(a[i][k]); m > best {
				best, at = m, i
			}
		}
		if !(best > 1e-60) {
			return false
		}
		f.row[k] = uint8(at)
		if at != k {
			a[k], a[at] = a[at], a[k]
		}
		d := a[k][k]
		f.inv[k] = complex(real(d)/best, -imag(d)/best)
		for i := k + 1; i < 6; i++ {
			l := a[i][k] * f.inv[k]
			a[i][k] = l
			if l == 0 {
				continue
			}
			for j := k + 1; j < 6; j++ {
				a[i][j] -= l * a[k][j]
			}
		}
	}
	return true
}

// square2 returns the square of the magnitude of z.
func square2(z complex128) float64 { return real(z)*real(z) + imag(z)*imag(z) }

// solve returns the x for which the factored matrix times x is b.
func (f *cxFactors) solve(b *cxTwist) (x cxQ) {
	x = cxQ(*b)
	a := &f.a
	for k := range 6 {
		at := f.row[k] % 6
		x[k], x[at] = x[at], x[k]
	}
	for k := range 6 {
		for i := k + 1; i < 6; i++ {
			x[i] -= a[i][k] * x[k]
		}
	}
	for k := 5; k >= 0; k-- {
		for j := k + 1; j < 6; j++ {
			x[k] -= a[k][j] * x[j]
		}
		x[k] *= f.inv[k]
	}
	return x
}
