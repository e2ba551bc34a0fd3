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
	var axes [MaxJoints]line
	c.forward(q, baseFromFlange, &axes)
	for i := range c.n {
		h, o := &axes[i].dir, &axes[i].at
		if c.form.steps[i].turn == 0 {
			j[0][i], j[1][i], j[2][i] = h.X, h.Y, h.Z
			j[3][i], j[4][i], j[5][i] = 0, 0, 0
			continue
		}
		lx, ly, lz := baseFromFlange.P.X-o.X, baseFromFlange.P.Y-o.Y, baseFromFlange.P.Z-o.Z
		j[0][i], j[1][i], j[2][i] = h.Y*lz-h.Z*ly, h.Z*lx-h.X*lz, h.X*ly-h.Y*lx
		j[3][i], j[4][i], j[5][i] = h.X, h.Y, h.Z
	}
	for i := c.n; i < MaxJoints; i++ {
		j[0][i], j[1][i], j[2][i] = 0, 0, 0
		j[3][i], j[4][i], j[5][i] = 0, 0, 0
	}
}
