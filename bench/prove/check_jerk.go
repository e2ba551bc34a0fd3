package prove

import "math"

// jerk holds the joints' jerk in joint moves against the job's limit: the third
// difference over four samples is the jerk somewhere between them. What rounding can
// have added is taken off first.
func (p *proof) jerk() {
	m := atMost("joint jerk over its limit, in joint moves", "", 1)
	for k := 1; k < p.reached; k++ {
		if p.steps[k].Move != "joint" {
			continue
		}
		for i := p.steps[k-1].at + 3; i <= p.steps[k].at; i++ {
			for j := range p.arm.limits {
				limit := p.job.Arm.JointJerk(j)
				if over := p.thirdDifference(i, j) / limit; m.near(over, 1) {
					where := p.atSample(i)
					where.what += ", " + p.arm.limits[j].name
					m.keep(over, 1, where)
				}
			}
		}
	}
	m.pass()
	p.add(m)
}

// thirdDifference is the least size of the jerk of joint j somewhere between samples
// i-3 and i, rad/s3 or m/s3.
func (p *proof) thirdDifference(i, j int) float64 {
	// What a rounded time does to a value, by the most speed that the joint can have at
	// one of the samples: the fastest mean between two, and what it gathers in half that.
	speed := 0.0
	for k := i - 2; k <= i; k++ {
		dt := p.trace[k].t - p.trace[k-1].t
		speed = max(speed, math.Abs(p.trace[k].q[j]-p.trace[k-1].q[j])/dt+p.arm.limits[j].accel*dt/2)
	}
	var sum, rounded float64
	for k := i - 3; k <= i; k++ {
		weight := 6.0
		for l := i - 3; l <= i; l++ {
			if l != k {
				weight /= p.trace[k].t - p.trace[l].t
			}
		}
		sum += weight * p.trace[k].q[j]
		rounded += math.Abs(weight) * (roundJoint + speed*roundTime)
	}
	if math.IsNaN(sum) || math.IsInf(sum, 0) {
		return 0 // times that do not go on are told elsewhere
	}
	return max(0, math.Abs(sum)-rounded)
}
