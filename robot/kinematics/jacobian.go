package kinematics

import "seamwright/geom/se3"

// Jacobian is the flange's velocity for each joint's unit speed. Rows are vx,
// vy, vz (m/s) and wx, wy, wz (rad/s), expressed in the base's axes, of the
// point at the flange's origin; columns are joints, per rad/s or m/s. Columns
// past the chain's N are zero.
type Jacobian [6][MaxJoints]float64

// Jacobian writes the flange's pose and its Jacobian for joint values q (rad or
// m). The column of a turning joint is (axis x lever, axis), that of a sliding
// one (axis, 0).
func (c *Chain) Jacobian(q *Q, baseFromFlange *se3.Pose, j *Jacobian) {
	var m motion
	c.move(q, &m)
	b, o := &c.form.base, baseFromFlange
	// First the axes: a point on each in rows 0 to 2, its direction in 3 to 5.
	if c.form.upright {
		co, si := m.c[0], m.s[0]
		j[0][0], j[1][0], j[2][0], j[3][0], j[4][0], j[5][0] = b.P.X, b.P.Y, b.P.Z, 0, 0, 1
		o.R[0], o.R[1], o.R[2], o.P.X = c.rowAxes(1, &m, &j[0], &j[3], co, 0, si, b.P.X+m.u[0])
		o.R[3], o.R[4], o.R[5], o.P.Y = c.rowAxes(1, &m, &j[1], &j[4], si, 0, -co, b.P.Y+m.v[0])
		o.R[6], o.R[7], o.R[8], o.P.Z = c.rowAxes(1, &m, &j[2], &j[5], 0, 1, 0, b.P.Z+m.w[0])
	} else {
		o.R[0], o.R[1], o.R[2], o.P.X = c.rowAxes(0, &m, &j[0], &j[3], b.R[0], b.R[1], b.R[2], b.P.X)
		o.R[3], o.R[4], o.R[5], o.P.Y = c.rowAxes(0, &m, &j[1], &j[4], b.R[3], b.R[4], b.R[5], b.P.Y)
		o.R[6], o.R[7], o.R[8], o.P.Z = c.rowAxes(0, &m, &j[2], &j[5], b.R[6], b.R[7], b.R[8], b.P.Z)
	}
	px, py, pz := o.P.X, o.P.Y, o.P.Z
	steps := c.form.steps[:c.n]
	for i := range steps {
		hx, hy, hz := j[3][i], j[4][i], j[5][i]
		if steps[i].turn == 0 {
			j[0][i], j[1][i], j[2][i] = hx, hy, hz
			j[3][i], j[4][i], j[5][i] = 0, 0, 0
			continue
		}
		lx, ly, lz := px-j[0][i], py-j[1][i], pz-j[2][i]
		j[0][i], j[1][i], j[2][i] = hy*lz-hz*ly, hz*lx-hx*lz, hx*ly-hy*lx
	}
	for i := len(steps); i < MaxJoints; i++ {
		j[0][i], j[1][i], j[2][i] = 0, 0, 0
		j[3][i], j[4][i], j[5][i] = 0, 0, 0
	}
}

// rowAxes is row that also writes its coordinate of the joints' axes: a point
// (m) and the direction.
func (c *Chain) rowAxes(from int, m *motion, at, dir *[MaxJoints]float64, x, y, z, p float64) (float64, float64, float64, float64) {
	steps := c.form.steps[:c.n]
	here := p
	for i := from; i < len(steps); i++ {
		s := &steps[i]
		at[i], dir[i] = here, z
		here = p + (m.u[i]*x + m.v[i]*y)
		if s.kind == parallel {
			continue
		}
		p = here + m.w[i]*z
		co, si := m.c[i], m.s[i]
		if s.kind == square {
			x, y, z, here = co*x+si*y, z, si*x-co*y, p
			continue
		}
		x, y = co*x+si*y, co*y-si*x
		switch s.kind {
		case skew:
			y, z = s.ca*y+s.sa*z, s.ca*z-s.sa*y
		case general:
			x, y, z, p = s.pass(x, y, z, p)
		}
		here = p
	}
	return c.form.tail.pass(x, y, z, p)
}
