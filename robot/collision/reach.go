package collision

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// How far bodies travel on each other.
//
// Between a body of group g and another group k lie the joints from the one to
// the other. In the frame of k no point of the body moves faster than the sum
// over these joints of the joint's speed times the point's distance from its
// axis (for a sliding joint: times 1), since each joint turns all that hangs
// on it about its own axis. So the distance between the body and anything of
// group k changes by no more than that, integrated: the body's travel. Either
// body of a pair may be taken as the one that travels; the smaller holds.

// groupCount is the largest number of groups of a chain.
const groupCount = kinematics.MaxJoints + 1

// weights returns, for a body and each joint, the largest distance (m) of its
// points from the joint's axis at any values of the joints between, 1 for a
// sliding joint. Sliding joints stay within their limits.
func (f *frames) weights(p *placed) (w [kinematics.MaxJoints]float64) {
	ball := p.ball()
	for j := p.group - 1; j >= 0; j-- { // from the body to the base
		w[j] = f.weight(j, &ball)
		f.swing(j, &ball, 1)
		ball.at = f.steps[j].Apply(ball.at)
	}
	ball = p.ball()
	for j := p.group; j < f.n; j++ { // from the body to the flange
		ball.at = f.steps[j].Inv().Apply(ball.at)
		w[j] = f.weight(j, &ball)
		f.swing(j, &ball, -1)
	}
	return w
}

// ball is a ball in the frame of some group, m.
type ball struct {
	at     r3.Vec
	radius float64
}

func (p *placed) ball() ball {
	return ball{p.groupFromBody.Apply(p.hull.mid), p.hull.radius}
}

// weight returns the largest distance (m) from the axis of joint j of a ball in
// a frame whose z axis that is; 1 for a sliding joint.
func (f *frames) weight(j int, b *ball) float64 {
	if f.sliding[j] {
		return 1
	}
	return math.Hypot(b.at.X, b.at.Y) + b.radius
}

// swing widens a ball to one that holds it at all values of joint j (times
// sign), in a frame whose z axis is the joint's.
func (f *frames) swing(j int, b *ball, sign float64) {
	if f.sliding[j] {
		lower, upper := f.lower[j], f.upper[j]
		b.at.Z += sign * (lower + upper) / 2
		b.radius += (upper - lower) / 2
		return
	}
	b.radius += math.Hypot(b.at.X, b.at.Y)
	b.at.X, b.at.Y = 0, 0
}

// rates writes for each body and group how far (m) the body travels in the
// group's frame while the joints travel by turned (rad or m), whatever the
// posture.
func (m *Model) rates(turned *[kinematics.MaxJoints]float64, rate [][groupCount]float64) {
	for i := range m.placed {
		w, g := &m.placed[i].weights, m.placed[i].group
		to := &rate[i]
		*to = [groupCount]float64{}
		for j := g - 1; j >= 0; j-- {
			to[j] = to[j+1] + turned[j]*w[j]
		}
		for j := g; j < m.frames.n; j++ {
			to[j+1] = to[j] + turned[j]*w[j]
		}
	}
}

// inLimits reports whether the sliding joints are within their limits at q.
func (f *frames) inLimits(q *kinematics.Q) bool {
	for j := range f.n {
		if f.sliding[j] && !(q[j] >= f.lower[j] && q[j] <= f.upper[j]) {
			return false
		}
	}
	return true
}
