package kinematics

import (
	"math"
	"math/rand/v2"

	"seamwright/geom/se3"
)

// leverLength returns the length (m) that weighs the flange's shift against its
// turn: the root mean square lever of the turning joints over postures spread
// evenly, so that both halves of the Jacobian are of one size.
func (c *Chain) leverLength() float64 {
	const postures = 64
	rng := rand.New(rand.NewPCG(3, 9))
	var sum, n float64
	for range postures {
		var q Q
		for i := range c.n {
			if c.joints[i].Kind != Prismatic {
				q[i] = (2*rng.Float64() - 1) * math.Pi
			}
		}
		var jac Jacobian
		var pose se3.Pose
		c.Jacobian(&q, &pose, &jac)
		for i := range c.n {
			if c.joints[i].Kind != Prismatic {
				sum += jac[0][i]*jac[0][i] + jac[1][i]*jac[1][i] + jac[2][i]*jac[2][i]
				n++
			}
		}
	}
	if sum == 0 {
		return 1
	}
	return math.Sqrt(sum / n)
}

// leastGain returns the smallest singular value (dimensionless) of the Jacobian
// at q with shifts in units of length (m): the least motion of the flange for
// one unit of joint motion.
func (c *Chain) leastGain(q *Q, length float64) float64 {
	var jac Jacobian
	var pose se3.Pose
	c.Jacobian(q, &pose, &jac)
	var a [6][6]float64
	for r := range 6 {
		for i := range 6 {
			v := jac[r][i]
			if r < 3 && c.joints[i].Kind != Prismatic {
				v /= length
			}
			a[i][r] = v // rows are joints
		}
	}
	return leastSingular(&a)
}

// gainAtLeast returns a value that leastGain is not below, in a fraction of its
// time: the determinant is the product of all singular values, and five of them
// multiply to no more than if they were equal, their squares adding up to the
// squares of all entries.
func (c *Chain) gainAtLeast(q *Q, length float64) float64 {
	var jac Jacobian
	var pose se3.Pose
	c.Jacobian(q, &pose, &jac)
	squares, scale := 0.0, 1/(length*length*length)
	for i := range 6 {
		shift, turn := 0.0, 0.0
		for r := range 3 {
			shift, turn = shift+jac[r][i]*jac[r][i], turn+jac[3+r][i]*jac[3+r][i]
		}
		if c.joints[i].Kind == Prismatic {
			scale *= length
		} else {
			shift /= length * length
		}
		squares += shift + turn
	}
	mean := squares / 5
	return math.Abs(determinantOf(&jac)) * scale / (mean * mean * math.Sqrt(mean))
}

// leastSingular returns the smallest singular value of a, which it overwrites:
// one-sided rotations make the rows square to each other (M. R. Hestenes, J.
// SIAM 6, 1958; from memory).
func leastSingular(a *[6][6]float64) float64 {
	const sweeps, enough = 12, 1e-15
	for range sweeps {
		off := 0.0
		for p := range 5 {
			for q := p + 1; q < 6; q++ {
				off = max(off, rotateRows(&a[p], &a[q]))
			}
		}
		if off < enough {
			break
		}
	}
	least := math.Inf(1)
	for i := range a {
		sum := 0.0
		for _, v := range a[i] {
			sum += v * v
		}
		least = min(least, sum)
	}
	return math.Sqrt(least)
}

// rotateRows turns x and y in their plane until they are square to each other
// and returns the cosine of their angle before.
func rotateRows(x, y *[6]float64) float64 {
	var xx, yy, xy float64
	for i := range x {
		xx, yy, xy = xx+x[i]*x[i], yy+y[i]*y[i], xy+x[i]*y[i]
	}
	if xy == 0 {
		return 0
	}
	zeta := (yy - xx) / (2 * xy)
	t := math.Copysign(1, zeta) / (math.Abs(zeta) + math.Sqrt(1+zeta*zeta))
	c := 1 / math.Sqrt(1+t*t)
	s := c * t
	for i := range x {
		x[i], y[i] = c*x[i]-s*y[i], s*x[i]+c*y[i]
	}
	return math.Abs(xy) / math.Sqrt(xx*yy)
}

// determinant returns the determinant of the Jacobian at q, in m3 for six
// turning joints.
func (c *Chain) determinant(q *Q) float64 {
	var jac Jacobian
	var pose se3.Pose
	c.Jacobian(q, &pose, &jac)
	return determinantOf(&jac)
}

// determinantOf returns the determinant of the first six columns of jac, which
// it overwrites, by Gauss's elimination.
func determinantOf(jac *Jacobian) float64 {
	det := 1.0
	for k := range 6 {
		at := k
		for i := k + 1; i < 6; i++ {
			if math.Abs(jac[i][k]) > math.Abs(jac[at][k]) {
				at = i
			}
		}
		if jac[at][k] == 0 {
			return 0
		}
		if at != k {
			jac[k], jac[at] = jac[at], jac[k]
			det = -det
		}
		det *= jac[k][k]
		for i := k + 1; i < 6; i++ {
			f := jac[i][k] / jac[k][k]
			for j := k + 1; j < 6; j++ {
				jac[i][j] -= f * jac[k][j]
			}
		}
	}
	return det
}
