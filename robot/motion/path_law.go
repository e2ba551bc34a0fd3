package motion

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"seamwright/robot/kinematics"
)

// PathRequest describes a joint path to be timed, such as a seam or a linear or
// arc move whose postures are known.
type PathRequest struct {
	// At holds the path positions of the samples, rising, in m along the tip's path
	// (rad where the tip only turns; then read m as rad below). Two or more.
	At []float64
	// Q holds the joint values at each position, rad (m), unwrapped. The path must
	// be smooth: a cubic spline is laid through it, so split it at corners.
	Q []kinematics.Q
	// Limits holds each joint's speed (rad/s) and acceleration (rad/s2) limit, m in
	// place of rad for a sliding joint; its length is the number of joints.
	Limits []LawLimits
	// Wanted is the wanted speed along the path, m/s, and Accel the acceleration
	// limit along it, m/s2, both more than 0.
	Wanted, Accel float64
	// Caps, where set, holds lower speeds for single positions, m/s, more than 0;
	// +Inf for none. Between positions the cap runs straight.
	Caps []float64
}

// minIntervals is the least number of grid intervals of a path law: on a straight
// path the one interval in which acceleration turns into deceleration then costs
// at most 1/200 of the time.
const minIntervals = 200

// minParts is the least number of grid intervals from one sample to the next:
// between grid points v^2 runs straight, which cuts the corners of a limit curve
// by an amount that falls with the square of this.
const minParts = 4

// PathLaw is the fastest motion along a sampled joint path, from rest to rest,
// that keeps the wanted speed and all limits. It is a Law over the path position
// measured from its first sample.
type PathLaw struct {
	spline  jointSpline
	start   float64   // position of the first sample
	at      []float64 // grid positions
	speed   []float64 // at the grid points, before the stretch
	time    []float64 // at the grid points, s, before the stretch
	stretch float64
	slow    []Slow
}

// NewPathLaw times the path. It computes the law on a grid of the samples, each
// interval divided evenly where there are few, then checks speeds and
// accelerations of all joints on a grid eight times as fine and, should one be
// over by the grid's coarseness, slows the whole motion by the factor that mends
// it (Stretch). Errors name what is wrong with the request.
func NewPathLaw(req PathRequest) (*PathLaw, error) {
	if err := req.check(); err != nil {
		return nil, err
	}
	l := &PathLaw{spline: newJointSpline(req.At, req.Q), start: req.At[0]}
	l.at = grid(req.At, req.Wanted*req.Wanted/(2*req.Accel))
	n := len(l.at)
	p := phase{accel: req.Accel, step: make([]float64, n-1), top: make([]float64, n), rows: make([][]halfRow, n-1)}
	d, dd := make([]kinematics.Q, n), make([]kinematics.Q, n)
	for i, s := range l.at {
		_, d[i], dd[i] = l.spline.at(s)
		top := req.topSpeed(s, &d[i])
		p.top[i] = top * top
	}
	for i := range p.rows {
		p.step[i] = l.at[i+1] - l.at[i]
		p.rows[i] = req.accelRows(p.step[i], &d[i], &dd[i], &d[i+1], &dd[i+1])
	}
	x := p.solve()
	l.speed, l.time = make([]float64, n), make([]float64, n)
	for i := range x {
		l.speed[i] = math.Sqrt(x[i])
		if i > 0 {
			l.time[i] = l.time[i-1] + 2*p.step[i-1]/(l.speed[i-1]+l.speed[i])
		}
	}
	if total := l.time[n-1]; math.IsInf(total, 1) || math.IsNaN(total) {
		return nil, fmt.Errorf("motion: path law: no speed above 0 keeps the joints within their acceleration limits everywhere: the joint path has a corner or a jump; split it there")
	}
	l.stretch = max(1, l.worst(&req)*(1+stretchMargin))
	l.slow = l.slowPlaces(&req)
	return l, nil
}

func (r *PathRequest) check() error {
	n := len(r.At)
	if n < 2 || len(r.Q) != n || (r.Caps != nil && len(r.Caps) != n) {
		return fmt.Errorf("motion: path law: %d positions, %d joint samples, %d caps: two positions or more are needed, a joint sample for each, caps for all or none", n, len(r.Q), len(r.Caps))
	}
	if k := len(r.Limits); k < 1 || k > kinematics.MaxJoints {
		return fmt.Errorf("motion: path law: limits of %d joints: 1 to %d are allowed", k, kinematics.MaxJoints)
	}
	for j, l := range r.Limits {
		if !(l.Speed > 0) || !(l.Accel > 0) {
			return fmt.Errorf("motion: path law: joint %d: top speed %g and acceleration %g: both must be more than 0", j+1, l.Speed, l.Accel)
		}
	}
	if !(r.Wanted > 0) || math.IsInf(r.Wanted, 1) || !(r.Accel > 0) || math.IsInf(r.Accel, 1) {
		return fmt.Errorf("motion: path law: wanted speed %g m/s and acceleration %g m/s2: both must be finite and more than 0", r.Wanted, r.Accel)
	}
	for i := range r.At {
		if i > 0 && !(r.At[i] > r.At[i-1]) || math.IsInf(r.At[i], 0) {
			return fmt.Errorf("motion: path law: position %d is %g m after %g m: positions must rise", i, r.At[i], r.At[max(0, i-1)])
		}
		if r.Caps != nil && !(r.Caps[i] > 0) {
			return fmt.Errorf("motion: path law: speed cap %g m/s at position %d: it must be more than 0", r.Caps[i], i)
		}
		for j := range r.Limits {
			if q := r.Q[i][j]; math.IsNaN(q) || math.IsInf(q, 0) {
				return fmt.Errorf("motion: path law: joint %d at position %d is %g: it must be finite", j+1, i, q)
			}
		}
	}
	return nil
}

// grid divides the intervals between the positions evenly, so that there are at
// least minIntervals in all and minParts from one to the next. The first and the
// last interval are divided further where the wanted speed is reached in a ramp
// that is shorter: v^2 runs straight over an interval, so a slow motion would
// otherwise take twice the time over the whole of it.
func grid(at []float64, ramp float64) []float64 {
	parts := max(minParts, (minIntervals+len(at)-2)/(len(at)-1))
	g := make([]float64, 0, parts*(len(at)-1)+1)
	for i := 1; i < len(at); i++ {
		for k := range parts {
			f := float64(k) / float64(parts)
			g = append(g, at[i-1]*(1-f)+at[i]*f)
		}
	}
	g = append(g, at[len(at)-1])
	first, last := ramps(g[1]-g[0], ramp), ramps(g[len(g)-1]-g[len(g)-2], ramp)
	fine := make([]float64, 0, len(g)+len(first)+len(last))
	fine = append(fine, g[0])
	for _, d := range first {
		fine = append(fine, g[0]+d)
	}
	fine = append(fine, g[1:len(g)-1]...)
	for i := range last {
		fine = append(fine, g[len(g)-1]-last[len(last)-1-i])
	}
	return append(fine, g[len(g)-1])
}

// rampGrowth is the factor from one grid point of a ramp to the next: where a
// joint asks for a longer ramp than the tip, it ends within that factor.
const rampGrowth = 2

// ramps returns the distances from an end of the path at which the first grid
// interval is divided: the length of the ramp, and multiples of it.
func ramps(interval, ramp float64) []float64 {
	var d []float64
	for x := max(ramp, interval*1e-3); x < interval/rampGrowth; x *= rampGrowth {
		d = append(d, x)
	}
	return d
}

// accelRows returns the acceleration bounds of an interval of length step with
// path derivatives d0, dd0 at its start and d1, dd1 at its end.
func (r *PathRequest) accelRows(step float64, d0, dd0, d1, dd1 *kinematics.Q) []halfRow {
	rows := make([]halfRow, 0, 4*len(r.Limits)+2)
	rows = append(rows, halfRow{a: 1, c: r.Accel}, halfRow{a: -1, c: r.Accel})
	for j, l := range r.Limits {
		end := d1[j] + 2*step*dd1[j] // since x at the end is x + 2 step u
		rows = append(rows,
			halfRow{d0[j], dd0[j], l.Accel}, halfRow{-d0[j], -dd0[j], l.Accel},
			halfRow{end, dd1[j], l.Accel}, halfRow{-end, -dd1[j], l.Accel})
	}
	return rows
}

// checks is the number of places per grid interval at which limits are checked,
// and stretchMargin, relative, covers what a joint can do between two of them:
// with it ten thousand random paths kept their limits within 1e-6 everywhere.
const (
	checks        = 8
	stretchMargin = 2e-5
)

// worst returns the factor by which the motion must be slowed for the joints to
// keep their limits at the grid points and at the places between them.
func (l *PathLaw) worst(req *PathRequest) float64 {
	factor := 0.0
	for i := 1; i < len(l.at); i++ {
		step := l.at[i] - l.at[i-1]
		x0, x1 := l.speed[i-1]*l.speed[i-1], l.speed[i]*l.speed[i]
		u := (x1 - x0) / (2 * step)
		for k := 0; k <= checks; k++ {
			f := float64(k) / checks
			_, d, dd := l.spline.at(l.at[i-1] + f*step)
			x := x0 + f*(x1-x0)
			for j, limits := range req.Limits {
				v := math.Abs(d[j]) * math.Sqrt(x) / limits.Speed
				a := math.Abs(d[j]*u+dd[j]*x) / limits.Accel
				factor = max(factor, v, math.Sqrt(a))
			}
		}
	}
	return factor
}

// Stretch returns the factor, at least 1 and dimensionless, by which the motion
// was slowed to keep the joint limits between the grid points too.
func (l *PathLaw) Stretch() float64 { return l.stretch }

// Duration returns the time from rest to rest, s.
func (l *PathLaw) Duration() float64 { return l.time[len(l.time)-1] * l.stretch }

// Peak returns the highest speed, m/s.
func (l *PathLaw) Peak() float64 { return slices.Max(l.speed) / l.stretch }

// Slow lists the places where the motion is slower than wanted, in path order.
func (l *PathLaw) Slow() []Slow { return l.slow }

// At returns the distance from the first sample (m), speed (m/s) and acceleration
// (m/s2) along the path at time t (s) after the start.
func (l *PathLaw) At(t float64) (s, v, a float64) {
	last := len(l.at) - 1
	if t <= 0 {
		return 0, 0, 0
	}
	if t >= l.Duration() {
		return l.at[last] - l.start, 0, 0
	}
	t /= l.stretch
	i := min(max(sort.SearchFloat64s(l.time, t), 1), last)
	step, v0, v1 := l.at[i]-l.at[i-1], l.speed[i-1], l.speed[i]
	a = (v1 - v0) * (v1 + v0) / (2 * step)
	dt := t - l.time[i-1]
	v = v0 + a*dt
	s = min(l.at[i-1]+(v0+v)/2*dt, l.at[i]) - l.start
	return s, v / l.stretch, a / (l.stretch * l.stretch)
}

// TimeAt returns when the motion passes the path position s, s after the start;
// s is in m, on the scale of PathRequest.At and held to its range.
func (l *PathLaw) TimeAt(s float64) float64 {
	last := len(l.at) - 1
	if s <= l.at[0] {
		return 0
	}
	if s >= l.at[last] {
		return l.Duration()
	}
	i, v := l.passing(s)
	return (l.time[i-1] + 2*(s-l.at[i-1])/(l.speed[i-1]+v)) * l.stretch
}

// SpeedAt returns the speed (m/s) with which the motion passes the path position
// s; s is in m, on the scale of PathRequest.At. Outside its range it is 0.
func (l *PathLaw) SpeedAt(s float64) float64 {
	if s <= l.at[0] || s >= l.at[len(l.at)-1] {
		return 0
	}
	_, v := l.passing(s)
	return v / l.stretch
}

// passing returns the grid point at or behind the path position s and the speed
// there, before the stretch: v^2 runs straight.
func (l *PathLaw) passing(s float64) (i int, v float64) {
	i = min(max(sort.SearchFloat64s(l.at, s), 1), len(l.at)-1)
	v0, v1 := l.speed[i-1], l.speed[i]
	f := (s - l.at[i-1]) / (l.at[i] - l.at[i-1])
	return i, math.Sqrt(v0*v0 + f*(v1-v0)*(v1+v0))
}

// Joints returns joint values (rad, m), speeds (rad/s, m/s) and accelerations
// (rad/s2, m/s2) at time t (s) after the start, on the spline through the samples.
func (l *PathLaw) Joints(t float64) (q, speed, accel kinematics.Q) {
	s, v, a := l.At(t)
	q, d, dd := l.spline.at(l.start + s)
	for j := range q {
		speed[j] = d[j] * v
		accel[j] = d[j]*a + dd[j]*v*v
	}
	return q, speed, accel
}
