package motion

import (
	"fmt"
	"math"

	"seamwright/robot/kinematics"
)

// ViaRequest describes a move of all joints past via points, such as a way round an
// obstacle, on which the arm need not stop.
type ViaRequest struct {
	// Q holds the postures, rad (m for a sliding joint): start, via points, goal. The
	// way runs straight in joint space from one to the next, but for the blends.
	Q []kinematics.Q
	// Limits holds the limits of each joint, as in MoveRequest; all finite but jerk.
	Limits []LawLimits
	// SpeedPercent scales the speeds, more than 0 to 100, dimensionless; 0 means 100.
	SpeedPercent float64
	// Deviation is how far any joint may leave the straight lines at a via point, rad
	// (m for a sliding joint), more than 0.
	Deviation float64
	// Reach and TipDeviation, where set, bound besides how far the tip, or any other
	// point, may leave its way without blends, m: Reach is the most that the point moves
	// for a turn of each joint alone, m/rad (dimensionless for a sliding one).
	Reach        []float64
	TipDeviation float64
}

// ViaBlend is what a blend does at one via point.
type ViaBlend struct {
	// Via is the via point's place in ViaRequest.Q.
	Via int
	// From and To bound the blend on the way, as ViaMove.At counts it (s at full speed).
	From, To float64
	// Off is how far each joint passes the via point by, rad (m for a sliding joint):
	// nowhere in the blend is the joint farther than that from the straight lines.
	Off kinematics.Q
	// Tip bounds how far the point of ViaRequest.Reach is from its way without blends,
	// m; 0 where no reach was given.
	Tip float64
}

// ViaMove moves all joints past via points without a stop: along the straight lines
// and, beside each via point, along a blend that stays within the triangle of the via
// point and the ends of the blend. What is driven is Posture, and that is what must be
// clear. Speed, acceleration and jerk of every joint keep their limits. Where stops at
// all via points are faster, as where a way turns back on itself and little deviation is
// allowed, the arm stops and there are no blends.
type ViaMove struct {
	way    viaWay
	blends []ViaBlend
	law    *PathLaw    // nil where the arm stops, or stays where it is
	stops  []JointMove // one for each line, where it stops
}

// NewViaMove times the fastest such move that PathLaw finds. Postures equal to the one
// before are passed over. Errors name what is wrong with the request.
func NewViaMove(req ViaRequest) (*ViaMove, error) {
	share, err := req.check()
	if err != nil {
		return nil, err
	}
	m := &ViaMove{}
	lines := req.lines()
	m.way, m.blends = req.lay(lines)
	if len(m.way.pieces) == 0 {
		return m, nil
	}
	path := PathRequest{Limits: req.Limits, Wanted: share}
	for i := range m.way.pieces {
		p := &m.way.pieces[i]
		accel, jerk := math.Inf(1), math.Inf(1)
		for j, l := range req.Limits {
			accel, jerk = min(accel, l.Accel/math.Abs(p.d0[j])), min(jerk, l.jerk()/math.Abs(p.d0[j]))
		}
		path.Accel, path.Jerk = max(path.Accel, accel), max(path.Jerk, jerk)
	}
	if len(m.way.pieces) > 1 { // where joints turn round, the way may bend faster than it runs
		path.Accel, path.Jerk = viaLoose*path.Accel, 0
	}
	if m.law, err = timed(&m.way, &path); err != nil || len(lines) == 1 {
		return m, err
	}
	return m.orStops(&req, lines)
}

// orStops is the move, or one with stops where that is faster.
func (m *ViaMove) orStops(req *ViaRequest, lines []viaLine) (*ViaMove, error) {
	s := &ViaMove{way: viaWay{q: req.Q[0]}}
	total := 0.0
	for i := range lines {
		l := &lines[i]
		one, err := NewJointMove(MoveRequest{From: l.from, To: req.Q[l.to], Limits: req.Limits, SpeedPercent: req.SpeedPercent})
		if err != nil {
			return nil, err
		}
		s.stops = append(s.stops, one)
		s.way.addLine(l, s.way.length(), 0, 0)
		total += one.Duration()
	}
	if total < m.Duration() {
		return s, nil
	}
	return m, nil
}

// viaLoose is by how much the acceleration along a way may exceed what its straight
// parts allow, dimensionless: far more than is of use, because the search needs some
// bound.
const viaLoose = 10

func (r *ViaRequest) check() (share float64, err error) {
	if n := len(r.Limits); n < 1 || n > kinematics.MaxJoints || r.Reach != nil && len(r.Reach) != n {
		return 0, fmt.Errorf("motion: via move: limits of %d joints, reach of %d: 1 to %d are allowed, reach for all or none", n, len(r.Reach), kinematics.MaxJoints)
	}
	if len(r.Q) < 1 {
		return 0, fmt.Errorf("motion: via move: no postures: a start is needed")
	}
	if !(r.Deviation > 0) || r.Reach != nil && !(r.TipDeviation > 0) {
		return 0, fmt.Errorf("motion: via move: deviation %g rad, of the tip %g m: both must be more than 0; to stop at a via point make two moves", r.Deviation, r.TipDeviation)
	}
	for j, l := range r.Limits {
		if err := l.check(); err != nil {
			return 0, fmt.Errorf("motion: via move: joint %d: %w", j+1, err)
		}
		if math.IsInf(l.Speed, 1) || r.Reach != nil && !(r.Reach[j] >= 0) {
			return 0, fmt.Errorf("motion: via move: joint %d: top speed %g must be finite, and its reach 0 or more", j+1, l.Speed)
		}
		for i := range r.Q {
			if q := r.Q[i][j]; math.IsNaN(q) || math.IsInf(q, 0) {
				return 0, fmt.Errorf("motion: via move: joint %d at posture %d is %g: it must be finite", j+1, i+1, q)
			}
		}
	}
	return percent("speed", r.SpeedPercent)
}

// lines are the straight lines that have a length.
func (r *ViaRequest) lines() []viaLine {
	var lines []viaLine
	for i := 1; i < len(r.Q); i++ {
		l := viaLine{to: i, from: r.Q[i-1]}
		for j, limits := range r.Limits {
			l.length = max(l.length, math.Abs(r.Q[i][j]-r.Q[i-1][j])/limits.Speed)
		}
		for j := range r.Limits {
			if l.length > 0 {
				l.d[j] = (r.Q[i][j] - r.Q[i-1][j]) / l.length
			}
		}
		if l.length > 0 {
			lines = append(lines, l)
		}
	}
	return lines
}

// lay lays straight lines and blends.
func (r *ViaRequest) lay(lines []viaLine) (viaWay, []ViaBlend) {
	w := viaWay{q: r.Q[0]}
	var blends []ViaBlend
	at, cut := 0.0, 0.0 // of the line's start, and how much of it the blend there takes
	for i := range lines {
		l := &lines[i]
		half, blend := 0.0, ViaBlend{}
		if i+1 < len(lines) {
			half, blend = r.blend(l, &lines[i+1])
		}
		if l.length-cut-half > 1e-9*l.length {
			w.addLine(l, at, cut, half)
		}
		at += l.length
		if half > 0 {
			w.add(viaPiece{from: at - half, length: 2 * half, q: l.after(l.length - half), d0: l.d, d1: lines[i+1].d})
			blend.From, blend.To = at-half, at+half
			blends = append(blends, blend)
		}
		cut = half
	}
	return w, blends
}

// viaLine is the straight line to posture to: length in s at full speed, d by s.
type viaLine struct {
	to     int
	from   kinematics.Q
	length float64
	d      kinematics.Q
}

func (l *viaLine) after(s float64) kinematics.Q {
	q := l.from
	for j := range q {
		q[j] += l.d[j] * s
	}
	return q
}

// blend returns half the length of the blend between two lines: as long as half of
// either line, shorter where a joint or the tip would leave the lines by too much.
func (r *ViaRequest) blend(a, b *viaLine) (float64, ViaBlend) {
	half := min(a.length, b.length) / 2
	var turn float64
	for j := range r.Limits {
		bends := math.Abs(b.d[j] - a.d[j])
		half = min(half, r.Deviation/(viaOff*bends))
		if r.Reach != nil {
			turn += bends * r.Reach[j]
		}
	}
	if r.Reach != nil {
		half = min(half, r.TipDeviation/(viaOff*turn))
	}
	blend := ViaBlend{Via: a.to, Tip: viaOff * half * turn}
	for j := range r.Limits {
		blend.Off[j] = viaOff * half * (b.d[j] - a.d[j])
	}
	return half, blend
}

// viaOff is how far a blend passes the via point by, as a share of half its length
// times the change of direction: 2 (u^3 - u^4/2) at u = 1/2.
const viaOff = 3.0 / 16

// Blends lists the blends, in the order of the via points.
func (m *ViaMove) Blends() []ViaBlend { return m.blends }

// Length returns the length of the way, in s at full speed.
func (m *ViaMove) Length() float64 { return m.way.length() }

// Posture returns the joint values, rad (m), at a place s of the way (s at full speed),
// which is held to the way.
func (m *ViaMove) Posture(s float64) kinematics.Q {
	return m.way.at(min(max(s, 0), m.Length()))
}

// Duration returns the time of the move, s.
func (m *ViaMove) Duration() float64 {
	if m.law != nil {
		return m.law.Duration()
	}
	total := 0.0
	for i := range m.stops {
		total += m.stops[i].Duration()
	}
	return total
}

// At returns joint values (rad, m), speeds (rad/s, m/s) and accelerations
// (rad/s2, m/s2) at time t (s) after the start; before and after, the arm rests.
func (m *ViaMove) At(t float64) (q, speed, accel kinematics.Q) {
	if m.law != nil {
		return m.law.Joints(t)
	}
	q = m.way.q
	for i := range m.stops {
		q, speed, accel = m.stops[i].At(t)
		if t -= m.stops[i].Duration(); t <= 0 {
			break
		}
	}
	return q, speed, accel
}
