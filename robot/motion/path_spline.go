package motion

import "seamwright/robot/kinematics"

// jointSpline is the cubic spline through joint values q[i] at path positions
// s[i] that is a parabola from the first sample to the second and from the last
// but one to the last: twice continuously differentiable, exact for parabolas.
// (The natural spline's straight ends would bend away from a curved path there.)
// Method: C. de Boor, A Practical Guide to Splines (1978), chapter IV (from memory).
type jointSpline struct {
	s  []float64
	q  []kinematics.Q
	dd []kinematics.Q // second derivatives at s, by the path's unit squared
}

// newJointSpline fits the spline to two points or more with rising s.
func newJointSpline(s []float64, q []kinematics.Q) jointSpline {
	n := len(s)
	p := jointSpline{s: s, q: q, dd: make([]kinematics.Q, n)}
	up := make([]float64, n) // the tridiagonal system's upper diagonal, eliminated
	for i := 1; i < n-1; i++ {
		left, right := s[i]-s[i-1], s[i+1]-s[i]
		pivot := 2*(left+right) - left*up[i-1]
		up[i] = right
		if i == 1 {
			pivot += left // dd[0] = dd[1]
		}
		if i == n-2 {
			pivot, up[i] = pivot+right, 0 // dd[n-1] = dd[n-2]
		}
		up[i] /= pivot
		for j := range q[i] {
			bend := (q[i+1][j]-q[i][j])/right - (q[i][j]-q[i-1][j])/left
			p.dd[i][j] = (6*bend - left*p.dd[i-1][j]) / pivot
		}
	}
	for i := n - 2; i > 0; i-- {
		for j := range q[i] {
			p.dd[i][j] -= up[i] * p.dd[i+1][j]
		}
	}
	if n > 2 {
		p.dd[0], p.dd[n-1] = p.dd[1], p.dd[n-2]
	}
	return p
}

// knots returns the sample positions.
func (p *jointSpline) knots() []float64 { return p.s }

// at returns the joint values at s.
func (p *jointSpline) at(s float64) (q kinematics.Q) {
	i := holding(p.s, s)
	h := p.s[i+1] - p.s[i]
	b := (s - p.s[i]) / h
	a := 1 - b
	for j := range q {
		q[j] = a*p.q[i][j] + b*p.q[i+1][j] + (a*(a*a-1)*p.dd[i][j]+b*(b*b-1)*p.dd[i+1][j])*h*h/6
	}
	return q
}

// jet returns the first three derivatives of the piece behind sample i at s.
func (p *jointSpline) jet(i int, s float64) (d, dd, ddd kinematics.Q) {
	h := p.s[i+1] - p.s[i]
	b := (s - p.s[i]) / h
	a := 1 - b
	for j := range d {
		m0, m1 := p.dd[i][j], p.dd[i+1][j]
		d[j] = (p.q[i+1][j]-p.q[i][j])/h + ((1-3*a*a)*m0+(3*b*b-1)*m1)*h/6
		dd[j] = a*m0 + b*m1
		ddd[j] = (m1 - m0) / h
	}
	return d, dd, ddd
}
