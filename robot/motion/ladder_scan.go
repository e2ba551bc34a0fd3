package motion

import (
	"math"

	"seamwright/robot/kinematics"
)

// halfTurnSlack lets a step of exactly half a turn of a laid-out joint pass
// whichever way its two ends were rounded, rad.
const halfTurnSlack = 1e-9

// rules are the constants of an edge, one entry a joint.
type rules struct {
	joints     int
	weight     [kinematics.MaxJoints]float64 // cost of a radian: Weight, or 1/Velocity for Time
	limit      [kinematics.MaxJoints]float64 // largest step, rad
	half       [kinematics.MaxJoints]float64 // pi where a step goes the short way round, else +Inf
	spinWeight float64
	metric     Metric
	plain      bool // see scanPlain
}

// newRules derives the rules from the request for ladders laid out as laid.
func newRules(req *LadderRequest, laid [kinematics.MaxJoints]bool) rules {
	r := rules{joints: len(req.Joints), spinWeight: req.SpinWeight, metric: req.Metric}
	r.plain = r.joints == 6 && req.Metric == Travel && req.SpinWeight == 0
	for j := range req.Joints {
		joint := &req.Joints[j]
		r.weight[j] = joint.Weight
		if req.Metric == Time {
			r.weight[j] = 1 / joint.Velocity
		}
		r.limit[j] = math.Inf(1)
		if joint.MaxStep > 0 {
			r.limit[j] = joint.MaxStep
		}
		r.half[j] = math.Inf(1)
		switch {
		case laid[j]:
			r.limit[j] = min(r.limit[j], math.Pi+halfTurnSlack)
		case joint.wide():
			r.half[j] = math.Pi
		}
		r.plain = r.plain && math.IsInf(r.limit[j], 1) && math.IsInf(r.half[j], 1)
	}
	return r
}

// free returns the same rules at no cost: what can be entered at all.
func (k rules) free() rules {
	k.metric, k.weight, k.spinWeight = Travel, [kinematics.MaxJoints]float64{}, 0
	return k
}

// edge returns the cost of the step from a to b, split into joints and spin, and
// the first joint whose step is too long, -1 if none.
func (k *rules) edge(a, b *row) (joints, spin float64, tooLong int) {
	for j := range k.joints {
		d := math.Abs(b.q[j] - a.q[j])
		if d > k.half[j] {
			d = turn - d
		}
		if d > k.limit[j] {
			return 0, 0, j
		}
		c := float64(k.weight[j] * d)
		if k.metric == Time {
			joints = max(joints, c)
		} else {
			joints += c
		}
	}
	return joints, float64(k.spinWeight * spinStep(a.spin, b.spin)), -1
}

// spinStep returns the size of the turn from one spin to another the short way
// round, rad, 0 to pi.
func spinStep(from, to float64) float64 {
	d := math.Abs(to - from)
	if d > math.Pi {
		d = math.Abs(math.Remainder(d, turn))
	}
	return d
}

// scan finds the cheapest way to enter b from before, which is sorted by cost:
// since an edge costs at least 0, it ends where the cost alone reaches the best
// sum. It returns the sum and the row's id, bound and -1 if no sum is below bound.
func (k *rules) scan(before []row, b *row, bound float64) (best float64, id int32) {
	switch {
	case k.plain:
		return k.scanPlain(before, b, bound)
	case k.metric == Time:
		return k.scanTime(before, b, bound)
	}
	return k.scanTravel(before, b, bound)
}

// scanPlain is scan for six joints that may step anywhere, Travel, spin free.
// Written out, with one test half way, it makes the search a quarter faster than
// the loop of scanTravel does.
func (k *rules) scanPlain(before []row, b *row, best float64) (float64, int32) {
	id := int32(-1)
	w, y := &k.weight, &b.q
	for i := range before {
		a := &before[i]
		if a.cost >= best {
			break
		}
		c := a.cost + (float64(w[3]*math.Abs(a.q[3]-y[3])) + float64(w[4]*math.Abs(a.q[4]-y[4])) + float64(w[5]*math.Abs(a.q[5]-y[5])))
		if c >= best {
			continue
		}
		c += float64(w[0]*math.Abs(a.q[0]-y[0])) + float64(w[1]*math.Abs(a.q[1]-y[1])) + float64(w[2]*math.Abs(a.q[2]-y[2]))
		if c < best {
			best, id = c, a.id
		}
	}
	return best, id
}

// scanTravel is scan for the metric Travel in general.
func (k *rules) scanTravel(before []row, b *row, best float64) (float64, int32) {
	id := int32(-1)
	n := k.joints
	w, limit, half, y := k.weight[:n], k.limit[:n], k.half[:n], b.q[:n]
next:
	for i := range before {
		a := &before[i]
		c := a.cost
		if c >= best {
			break
		}
		for j, x := range a.q[:n] {
			d := math.Abs(x - y[j])
			if d > half[j] {
				d = turn - d
			}
			if d > limit[j] {
				continue next
			}
			if c += float64(w[j] * d); c >= best {
				continue next
			}
		}
		if k.spinWeight > 0 {
			c += float64(k.spinWeight * spinStep(a.spin, b.spin))
		}
		if c < best {
			best, id = c, a.id
		}
	}
	return best, id
}

// scanTime is scan for the metric Time.
func (k *rules) scanTime(before []row, b *row, best float64) (float64, int32) {
	id := int32(-1)
	n := k.joints
	w, limit, half, y := k.weight[:n], k.limit[:n], k.half[:n], b.q[:n]
next:
	for i := range before {
		a := &before[i]
		if a.cost >= best {
			break
		}
		longest, room := 0.0, best-a.cost
		for j, x := range a.q[:n] {
			d := math.Abs(x - y[j])
			if d > half[j] {
				d = turn - d
			}
			t := float64(w[j] * d)
			if t > room || d > limit[j] {
				continue next
			}
			if t > longest {
				longest = t
			}
		}
		c := a.cost + longest
		if k.spinWeight > 0 {
			c += float64(k.spinWeight * spinStep(a.spin, b.spin))
		}
		if c < best {
			best, id = c, a.id
		}
	}
	return best, id
}
