package motion

import (
	"errors"
	"fmt"
	"math"
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
	// Limits holds each joint's speed (rad/s), acceleration (rad/s2) and jerk (rad/s3; 0
	// for unlimited) limit, m in place of rad for a sliding joint; its length is the
	// number of joints.
	Limits []LawLimits
	// Wanted is the wanted speed along the path, m/s, and Accel the acceleration
	// limit along it, m/s2, both more than 0.
	Wanted, Accel float64
	// Jerk is the limit of the jerk along the path, m/s3; 0 and +Inf mean unlimited.
	Jerk float64
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
// that keeps the wanted speed and all limits, a law over the path position measured
// from its first sample.
type PathLaw struct {
	curve   curve
	at      []float64 // grid positions
	timing  timing    // before the stretch
	stretch float64
	slow    []Slow
	first   float64 // s; see Ramps
	last    float64 // s
}

// timing is a motion from rest to rest over positions of a path; speeds are per s.
type timing interface {
	duration() float64 // s
	peak() float64
	// after returns position, speed and acceleration at a time (s) of the motion.
	after(t float64) (s, v, a float64)
	// timeAt returns when a position of the path is passed, s.
	timeAt(s float64) float64
	// speedAt returns speed, acceleration and jerk at a position of the path.
	speedAt(s float64) (v, a, j float64)
}

// NewPathLaw times the path. Without a limit of jerk it computes the law on a grid of
// the samples, each interval divided evenly where there are few. With one, it takes
// the seven-phase law of the tip's limits where that is within the joints' limits all
// along, which is proven from their bounds between samples: no motion is faster.
// Elsewhere jerkPhase finds a law. Then it checks the limits of all joints on a grid
// 24 times as fine and, should one be over by the grid's coarseness, slows the
// whole motion by the factor that mends it (Stretch). Errors name what is wrong with
// the request.
func NewPathLaw(req PathRequest) (*PathLaw, error) {
	if err := req.check(); err != nil {
		return nil, err
	}
	spline := newJointSpline(req.At, req.Q)
	return timed(&spline, &req)
}

// timed times a curve; of the request, limits, speeds and caps count.
func timed(c curve, req *PathRequest) (*PathLaw, error) {
	knots := c.knots()
	if err := apart(knots); err != nil {
		return nil, err
	}
	limited := req.jerkLimited()
	if limited && req.Caps == nil {
		if plain, ok := req.plain(c); ok {
			l := &PathLaw{curve: c, at: grid(knots, req.Wanted*req.Wanted/(2*req.Accel)), timing: plain, stretch: 1}
			l.slow = l.slowPlaces(req)
			l.setRamps(req.Wanted)
			return l, nil
		}
	}
	l := &PathLaw{curve: c, at: grid(knots, req.Wanted*req.Wanted/(2*req.Accel))}
	if limited {
		l.at = coarseGrid(knots)
	}
	g := newGridPath(c, l.at)
	p := req.phase(&g)
	pr := p.profile(l.at, p.solve())
	if total := pr.duration(); math.IsInf(total, 1) || math.IsNaN(total) {
		return nil, errNoSpeed
	}
	if limited {
		l.at = req.jerkGrid(c, pr)
		g = newGridPath(c, l.at)
		var err error
		if pr, err = req.jerkPhase(&g, pr).solve(); err != nil {
			return nil, err
		}
	}
	l.timing = pr
	l.stretch = max(1, worst(&g, pr, req.Limits)*(1+stretchMargin))
	if total := l.Duration(); !(total <= math.MaxFloat64) {
		return nil, fmt.Errorf("motion: path law: the time of the path comes to %g s: its limits lie too far apart to be computed with", total)
	}
	l.slow = l.slowPlaces(req)
	l.setRamps(req.Wanted)
	return l, nil
}

// apart refuses a path whose ends are not finite or whose positions lie too close
// together to be divided.
func apart(knots []float64) error {
	path := span{knots[0], knots[len(knots)-1]}
	if size := path.size(); !(path.to-path.from <= math.MaxFloat64) || size < math.SmallestNonzeroFloat64/finest {
		return fmt.Errorf("motion: path law: a path from %g to %g m cannot be timed", path.from, path.to)
	}
	for i := 1; i < len(knots); i++ {
		if least := coarsest * path.size(); knots[i]-knots[i-1] < least {
			return fmt.Errorf("motion: path law: %g m follows on %g m: positions must be at least %.2g m apart on this path; leave one of the two out", knots[i], knots[i-1], least)
		}
	}
	return nil
}

var errNoSpeed = errors.New("motion: path law: no speed above 0 keeps the joints within their acceleration limits everywhere: the joint path has a corner or a jump; split it there")

// phase sets up the fastest profile without a limit of jerk.
func (r *PathRequest) phase(g *gridPath) *phase {
	n := len(g.at)
	p := &phase{accel: r.Accel, step: make([]float64, n-1), top: make([]float64, n), rows: make([][]halfRow, n-1)}
	for i := range p.rows {
		from, to := g.start(i), g.end(i)
		p.step[i] = g.at[i+1] - g.at[i]
		p.rows[i] = r.accelRows(p.step[i], &from.d, &from.dd, &to.d, &to.dd)
		top := r.topSpeed(g.at[i], &from.d)
		p.top[i] = top * top
		if i == n-2 {
			top = r.topSpeed(g.at[n-1], &to.d)
			p.top[n-1] = top * top
		}
	}
	return p
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
		if err := l.check(); err != nil {
			return fmt.Errorf("motion: path law: joint %d: %w", j+1, err)
		}
	}
	if !(r.Jerk >= 0) {
		return fmt.Errorf("motion: path law: jerk %g m/s3: it must be more than 0; 0 means unlimited", r.Jerk)
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
	checks        = 24
	stretchMargin = 2e-5
)

// worst returns the factor by which the motion must be slowed for the joints to
// keep their limits at the grid points and at the places between them.
func worst(g *gridPath, p *profile, limits []LawLimits) float64 {
	factor := 0.0
	for i := range p.piece {
		for k := 0; k <= checks; k++ {
			x := p.piece[i].length * float64(k) / checks
			v, a, jerk := p.piece[i].speedAt(x)
			d, dd, ddd := g.curve.jet(g.on[i], g.at[i]+x)
			for j, l := range limits {
				speed, accel, rate := jointRates(d[j], dd[j], ddd[j], v, a, jerk)
				factor = max(factor, speed/l.Speed, math.Sqrt(accel/l.Accel), math.Cbrt(rate/l.jerk()))
			}
		}
	}
	return factor
}

// jointRates returns the sizes of speed, acceleration and jerk of a joint with path
// derivatives d, dd and ddd where the motion along the path has speed v, acceleration
// a and jerk j.
func jointRates(d, dd, ddd, v, a, j float64) (speed, accel, jerk float64) {
	return math.Abs(d * v), math.Abs(d*a + dd*v*v), math.Abs(d*j + v*(3*dd*a+ddd*v*v))
}

// Stretch returns the factor, at least 1 and dimensionless, by which the motion
// was slowed to keep the joint limits between the grid points too.
func (l *PathLaw) Stretch() float64 { return l.stretch }

// Duration returns the time from rest to rest, s.
func (l *PathLaw) Duration() float64 { return l.timing.duration() * l.stretch }

// Peak returns the highest speed, m/s.
func (l *PathLaw) Peak() float64 { return l.timing.peak() / l.stretch }

// Slow lists the places where the motion is slower than wanted, in path order.
func (l *PathLaw) Slow() []Slow { return l.slow }

// start and end are the path's ends.
func (l *PathLaw) start() float64 { return l.at[0] }
func (l *PathLaw) end() float64   { return l.at[len(l.at)-1] }

// At returns the distance from the first sample (m), speed (m/s) and acceleration
// (m/s2) along the path at time t (s) after the start.
func (l *PathLaw) At(t float64) (s, v, a float64) {
	if t <= 0 {
		return 0, 0, 0
	}
	if t >= l.Duration() {
		return l.end() - l.start(), 0, 0
	}
	s, v, a = l.timing.after(t / l.stretch)
	return s - l.start(), v / l.stretch, a / (l.stretch * l.stretch)
}

// TimeAt returns when the motion passes the path position s, s after the start;
// s is in m, on the scale of PathRequest.At and held to its range.
func (l *PathLaw) TimeAt(s float64) float64 {
	if s <= l.start() {
		return 0
	}
	if s >= l.end() {
		return l.Duration()
	}
	return l.timing.timeAt(s) * l.stretch
}

// SpeedAt returns the speed (m/s) with which the motion passes the path position
// s; s is in m, on the scale of PathRequest.At. Outside its range it is 0.
func (l *PathLaw) SpeedAt(s float64) float64 {
	if s <= l.start() || s >= l.end() {
		return 0
	}
	v, _, _ := l.timing.speedAt(s)
	return v / l.stretch
}

// Joints returns joint values (rad, m), speeds (rad/s, m/s) and accelerations
// (rad/s2, m/s2) at time t (s) after the start, on the spline through the samples.
func (l *PathLaw) Joints(t float64) (q, speed, accel kinematics.Q) {
	s, v, a := l.At(t)
	s += l.start()
	d, dd, _ := l.curve.jet(holding(l.curve.knots(), s), s)
	for j := range d {
		speed[j] = d[j] * v
		accel[j] = d[j]*a + dd[j]*v*v
	}
	return l.curve.at(s), speed, accel
}

// holding returns which interval of rising positions s lies in.
func holding(at []float64, s float64) int {
	return min(max(sort.SearchFloat64s(at, s), 1), len(at)-1) - 1
}
