package motion

import (
	"math"
	"sort"

	"seamwright/robot/kinematics"
)

// SlowCause says why a motion is slower than wanted.
type SlowCause int

const (
	// SlowRamp means getting up to speed and down from it: at the ends, or beside
	// a place that is slow for another cause.
	SlowRamp SlowCause = iota
	// SlowCap means that the request caps the speed there.
	SlowCap
	// SlowJointSpeed means that a joint would have to turn faster than it can.
	SlowJointSpeed
	// SlowJointAccel means that a joint would have to change its speed faster than
	// it can, even at constant speed along the path.
	SlowJointAccel
	// SlowJointJerk means that a joint would have to change its acceleration faster
	// than it can, even at constant speed along the path.
	SlowJointJerk
)

// Slow is a stretch of the path with one cause for being slower than wanted.
type Slow struct {
	// From and To bound the stretch, in m on the scale of PathRequest.At.
	From, To float64
	// Where is the place in it with the lowest bound on the speed, and Speed the
	// speed there, m/s; for SlowRamp the place with the lowest speed.
	Where, Speed float64
	Cause        SlowCause
	// Joint is the joint's number from 0, -1 where no joint is to blame.
	Joint int
	// Demand is what the joint would have to do at the wanted speed and Limit what
	// it can, rad/s for SlowJointSpeed, rad/s2 for SlowJointAccel and rad/s3 for
	// SlowJointJerk (m for a sliding joint); for SlowCap the wanted and the capped speed, m/s.
	Demand, Limit float64
}

// speedBound is the highest constant speed that the limits allow at one place.
type speedBound struct {
	speed         float64 // m/s
	cause         SlowCause
	joint         int
	demand, limit float64 // as in Slow
}

// topSpeed returns the highest speed, m/s, at path position s with derivative d
// at which no joint exceeds its speed limit.
func (r *PathRequest) topSpeed(s float64, d *kinematics.Q) float64 {
	top := min(r.Wanted, r.capAt(s))
	for j, l := range r.Limits {
		top = min(top, l.Speed/math.Abs(d[j]))
	}
	return top
}

// speedBound bounds the constant speed at path position s with the derivatives
// there. At a speed v that does not change, a joint turns at q' v, accelerates by
// q” v^2 and changes that by q”' v^3. (A changing speed can make up for the latter, so it names the cause of
// a slow place and does not bound the profile; that is done by accelRows and jerkPhase.)
func (r *PathRequest) speedBound(s float64, p *station) speedBound {
	b := speedBound{speed: r.Wanted, joint: -1}
	if v := r.capAt(s); v < b.speed {
		b = speedBound{speed: v, cause: SlowCap, joint: -1, demand: r.Wanted, limit: v}
	}
	for j, l := range r.Limits {
		turns, bends, twists := math.Abs(p.d[j]), math.Abs(p.dd[j]), math.Abs(p.ddd[j])
		if v := l.Speed / turns; v < b.speed {
			b = speedBound{speed: v, cause: SlowJointSpeed, joint: j, demand: turns * r.Wanted, limit: l.Speed}
		}
		if v := math.Sqrt(l.Accel / bends); v < b.speed {
			b = speedBound{speed: v, cause: SlowJointAccel, joint: j, demand: bends * r.Wanted * r.Wanted, limit: l.Accel}
		}
		if v := math.Cbrt(l.jerk() / twists); v < b.speed {
			b = speedBound{speed: v, cause: SlowJointJerk, joint: j, demand: twists * r.Wanted * r.Wanted * r.Wanted, limit: l.Jerk}
		}
	}
	return b
}

// slowSlack is the relative shortfall below which a speed counts as wanted, far
// below what shows in a weld and above stretchMargin.
const slowSlack = 1e-4

// Ramps returns when the motion first has the wanted speed and when it last has, both
// in s after the start; they are the start and the end where it never has.
func (l *PathLaw) Ramps() (first, last float64) { return l.first, l.last }

// setRamps finds the grid points of Ramps.
func (l *PathLaw) setRamps(wanted float64) {
	l.first, l.last = 0, l.Duration()
	n := len(l.at)
	reached := func(i int) bool { return l.SpeedAt(l.at[i]) >= wanted*(1-slowSlack) }
	for i := range n {
		if reached(i) {
			l.first = l.TimeAt(l.at[i])
			break
		}
	}
	for i := range n {
		if reached(n - 1 - i) {
			l.last = l.TimeAt(l.at[n-1-i])
			break
		}
	}
	if plain, ok := l.timing.(plainTiming); ok && plain.speed >= wanted {
		ends := plain.Ends()
		l.first, l.last = ends[2], ends[3]
	}
}

// slowPlaces groups the grid points that are slower than wanted by cause.
func (l *PathLaw) slowPlaces(req *PathRequest) []Slow {
	var places []Slow
	var lowest float64 // the bound at the last place's Where
	open := false
	g := newGridPath(l.curve, l.at)
	for i, s := range l.at {
		v := l.SpeedAt(s)
		if v >= req.Wanted*(1-slowSlack) {
			open = false
			continue
		}
		place := g.end(max(0, i-1))
		if i == 0 {
			place = g.start(0)
		}
		b := req.speedBound(s, &place)
		if b.cause == SlowRamp {
			b.speed = v
		}
		at := Slow{From: s, To: s, Where: s, Speed: v, Cause: b.cause, Joint: b.joint, Demand: b.demand, Limit: b.limit}
		last := len(places) - 1
		if !open || places[last].Cause != b.cause || places[last].Joint != b.joint {
			places, lowest, open = append(places, at), b.speed, true
			continue
		}
		if b.speed < lowest {
			at.From, lowest = places[last].From, b.speed
			places[last] = at
		}
		places[last].To = s
	}
	return places
}

// capAt returns the cap on the speed at path position s, m/s.
func (r *PathRequest) capAt(s float64) float64 {
	if r.Caps == nil {
		return math.Inf(1)
	}
	i := min(max(sort.SearchFloat64s(r.At, s), 1), len(r.At)-1)
	a, b := r.Caps[i-1], r.Caps[i]
	if math.IsInf(a, 1) || math.IsInf(b, 1) {
		return min(a, b) // the finite one holds up to the next position
	}
	f := (s - r.At[i-1]) / (r.At[i] - r.At[i-1])
	return a + f*(b-a)
}
