package motion_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// sampled samples a joint path of length (m) at n + 1 even positions.
func sampled(n int, length float64, q func(s float64) kinematics.Q) (at []float64, qs []kinematics.Q) {
	for i := 0; i <= n; i++ {
		s := length * float64(i) / float64(n)
		at, qs = append(at, s), append(qs, q(s))
	}
	return at, qs
}

func limitsOf(joints int, speed, accel float64) []motion.LawLimits {
	l := make([]motion.LawLimits, joints)
	for j := range l {
		l[j] = motion.LawLimits{Speed: speed, Accel: accel}
	}
	return l
}

func newPathLaw(t testing.TB, req motion.PathRequest) *motion.PathLaw {
	t.Helper()
	l, err := motion.NewPathLaw(req)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// TestPathLawStraight: on a straight joint path the law is a trapezoid whose
// limits follow from the tip's and the joints' by the fixed ratio; its duration
// is known in closed form.
func TestPathLawStraight(t *testing.T) {
	line := func(s float64) kinematics.Q { return kinematics.Q{0.5 + 2*s, -3 * s} }
	for _, c := range []struct {
		name                 string
		samples              int
		length               float64
		wanted, accel        float64
		limits               []motion.LawLimits
		speedMade, accelMade float64
		causes               []motion.SlowCause
	}{
		{"tip limits", 91, 0.45, 0.1, 0.5, limitsOf(2, 10, 100), 0.1, 0.5, []motion.SlowCause{motion.SlowRamp, motion.SlowRamp}},
		{"two samples", 1, 0.45, 0.1, 0.5, limitsOf(2, 10, 100), 0.1, 0.5, []motion.SlowCause{motion.SlowRamp, motion.SlowRamp}},
		{"joint speed", 30, 0.45, 0.1, 0.5, limitsOf(2, 0.15, 100), 0.05, 0.5, []motion.SlowCause{motion.SlowJointSpeed}},
		{"joint acceleration", 30, 0.45, 0.1, 0.5, limitsOf(2, 10, 0.3), 0.1, 0.1, []motion.SlowCause{motion.SlowRamp, motion.SlowRamp}},
		{"triangle", 30, 0.01, 0.1, 0.5, limitsOf(2, 10, 100), math.Sqrt(0.01 * 0.5), 0.5, []motion.SlowCause{motion.SlowRamp}},
	} {
		t.Run(c.name, func(t *testing.T) {
			at, q := sampled(c.samples, c.length, line)
			l := newPathLaw(t, motion.PathRequest{At: at, Q: q, Limits: c.limits, Wanted: c.wanted, Accel: c.accel})
			want := c.length/c.speedMade + c.speedMade/c.accelMade
			if got := l.Duration(); got < want*(1-1e-9) || got > want*1.006 {
				t.Errorf("duration %g s, want %g s to 0.6 %% more", got, want)
			}
			checkLaw(t, l, c.length, motion.LawLimits{Speed: c.speedMade, Accel: c.accelMade})
			var causes []motion.SlowCause
			for _, s := range l.Slow() {
				causes = append(causes, s.Cause)
			}
			if len(causes) != len(c.causes) || causes[0] != c.causes[0] {
				t.Errorf("slow for %v, want %v", causes, c.causes)
			}
		})
	}
}

// TestPathLawSlow: a motion whose ramps are shorter than a grid interval takes
// d/v + v/a all the same (the trapezoid's time), here and where a joint asks for
// longer ramps than the tip; with ramps of 0.018 mm on 0.1 m.
func TestPathLawSlow(t *testing.T) {
	line := func(s float64) kinematics.Q { return kinematics.Q{2 * s} }
	for name, c := range map[string]struct {
		joint float64 // rad/s2
		accel float64 // m/s2 that is made
	}{"tip": {100, 1}, "joint": {0.5, 0.25}} {
		t.Run(name, func(t *testing.T) {
			const length, speed = 0.1, 6e-3
			at, q := sampled(50, length, line)
			l := newPathLaw(t, motion.PathRequest{At: at, Q: q, Limits: limitsOf(1, 10, c.joint), Wanted: speed, Accel: 1})
			want := length/speed + speed/c.accel
			if off := l.Duration() - want; off < -1e-9 || off > speed/c.accel/2 {
				t.Errorf("%.6f s, want %.6f", l.Duration(), want)
			}
		})
	}
}

// TestPathLawNamesJoint: one joint swings in the middle of the path as a wrist
// does near its singularity.
func TestPathLawNamesJoint(t *testing.T) {
	swing := func(s float64) kinematics.Q { return kinematics.Q{s, math.Atan((s - 0.25) / 0.005), -s} }
	at, q := sampled(500, 0.5, swing)
	l := newPathLaw(t, motion.PathRequest{At: at, Q: q, Limits: limitsOf(3, 1, 1000), Wanted: 0.01, Accel: 1})
	var found bool
	for _, s := range l.Slow() {
		if s.Cause != motion.SlowJointSpeed {
			continue
		}
		found = true
		near(t, "place", s.Where, 0.25, 1e-6)
		near(t, "demand", s.Demand, 0.01/0.005, 1e-3) // d atan(u)/du is 1 at 0
		near(t, "speed", s.Speed, 0.005, 1e-5)
		if s.Joint != 1 || s.Limit != 1 {
			t.Errorf("got joint %d, limit %g; want joint number 1, 1 rad/s", s.Joint, s.Limit)
		}
		// over 1 rad/s where 1/(1+u^2) > 1/2: u from -1 to 1
		near(t, "from", s.From, 0.245, 1.1e-3)
		near(t, "to", s.To, 0.255, 1.1e-3)
	}
	if !found {
		t.Errorf("no joint named: %+v", l.Slow())
	}
}

func TestPathLawCaps(t *testing.T) {
	at, q := sampled(10, 1, func(s float64) kinematics.Q { return kinematics.Q{s} })
	caps := make([]float64, len(at))
	for i := range caps {
		caps[i] = math.Inf(1)
	}
	caps[5] = 0.05
	l := newPathLaw(t, motion.PathRequest{At: at, Q: q, Limits: limitsOf(1, 10, 10), Wanted: 0.2, Accel: 1, Caps: caps})
	for _, s := range []float64{0.41, 0.5, 0.59} {
		_, v, _ := l.At(l.TimeAt(s))
		near(t, "capped speed", v, 0.05, 1e-9)
	}
	_, v, _ := l.At(l.TimeAt(0.2))
	near(t, "speed before", v, 0.2, 1e-9)
}

// checkPath tests a path law by finite differences of position in time against
// every limit, at every sample.
func checkPath(t rapid.TB, l *motion.PathLaw, req motion.PathRequest) {
	t.Helper()
	times := motion.Times(l.Duration(), l.Duration()/3000)
	const slack = 1e-6
	for i := 1; i < len(times); i++ {
		h := times[i] - times[i-1]
		q0, v0, _ := l.Joints(times[i-1])
		q1, v1, _ := l.Joints(times[i])
		s0, tip0, _ := l.At(times[i-1])
		s1, tip1, _ := l.At(times[i])
		if s1 < s0 || (s1-s0)/h > req.Wanted*(1+slack) || math.Abs(tip1-tip0)/h > req.Accel*(1+slack) {
			t.Fatalf("at %g s: tip speed %g, acceleration %g", times[i], (s1-s0)/h, (tip1-tip0)/h)
		}
		for j, limits := range req.Limits {
			if v := math.Abs(q1[j]-q0[j]) / h; v > limits.Speed*(1+slack) {
				t.Fatalf("at %g s: joint %d turns at %g rad/s, limit %g", times[i], j+1, v, limits.Speed)
			}
			if a := math.Abs(v1[j]-v0[j]) / h; a > limits.Accel*(1+1e-3) {
				t.Fatalf("at %g s: joint %d accelerates at %g rad/s2, limit %g", times[i], j+1, a, limits.Accel)
			}
		}
	}
	s, v, _ := l.At(l.Duration())
	if length := req.At[len(req.At)-1] - req.At[0]; math.Abs(s-length) > 1e-9 || v != 0 {
		t.Fatalf("ends at %g m with %g m/s", s, v)
	}
}

// wavy draws a path of three joints that sway along it, with speeds and accelerations.
func wavy(t *rapid.T) motion.PathRequest {
	req := motion.PathRequest{
		Wanted: rapid.Float64Range(0.005, 1).Draw(t, "wanted"),
		Accel:  rapid.Float64Range(0.1, 5).Draw(t, "accel"),
		Limits: limitsOf(3, rapid.Float64Range(0.5, 5).Draw(t, "joint speed"), rapid.Float64Range(1, 20).Draw(t, "joint accel")),
	}
	var w, a, f [3]float64
	for j := range w {
		w[j] = rapid.Float64Range(0.5, 15).Draw(t, "waves")
		a[j] = rapid.Float64Range(0, 1).Draw(t, "size")
		f[j] = rapid.Float64Range(0, 6).Draw(t, "phase")
	}
	length := rapid.Float64Range(0.05, 1).Draw(t, "length")
	req.At, req.Q = sampled(rapid.IntRange(20, 120).Draw(t, "samples"), length, func(s float64) (q kinematics.Q) {
		for j := range w {
			q[j] = a[j]*math.Sin(w[j]*s+f[j]) + s
		}
		return q
	})
	return req
}

// timedFinely times a path whose grid must be fine enough for it to be stretched by most
// at most.
func timedFinely(t *rapid.T, req motion.PathRequest, most float64) *motion.PathLaw {
	l, err := motion.NewPathLaw(req)
	if err != nil {
		t.Fatal(err)
	}
	if l.Stretch() > most {
		t.Fatalf("stretched by %g: the grid is far too coarse", l.Stretch())
	}
	return l
}

func TestPathLawLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := wavy(t)
		checkPath(t, timedFinely(t, req, 1.05), req)
	})
}

func TestPathLawInverse(t *testing.T) {
	at, q := sampled(40, 0.4, func(s float64) kinematics.Q { return kinematics.Q{math.Sin(8 * s), s * s} })
	for i := range at {
		at[i] += 2 // positions may begin anywhere
	}
	l := newPathLaw(t, motion.PathRequest{At: at, Q: q, Limits: limitsOf(2, 0.3, 2), Wanted: 0.1, Accel: 1})
	for _, s := range []float64{2, 2.001, 2.1, 2.2345, 2.4} {
		got, _, _ := l.At(l.TimeAt(s))
		near(t, "place at its time", got+2, s, 1e-9)
	}
	for i, s := range at {
		got, _, _ := l.Joints(l.TimeAt(s))
		near(t, "joint 1 at its sample", got[0], q[i][0], 1e-7)
	}
}

// TestPathLawParabola: three samples and more of a parabola give the parabola.
func TestPathLawParabola(t *testing.T) {
	for _, n := range []int{2, 3, 7} {
		at, q := sampled(n, 1, func(s float64) kinematics.Q { return kinematics.Q{s*s - s, 1 - 2*s*s} })
		l := newPathLaw(t, motion.PathRequest{At: at, Q: q, Limits: limitsOf(2, 10, 100), Wanted: 0.5, Accel: 2})
		for _, s := range []float64{0, 0.1, 0.37, 0.5, 0.93} {
			got, speed, _ := l.Joints(l.TimeAt(s))
			_, v, _ := l.At(l.TimeAt(s))
			near(t, "joint 1", got[0], s*s-s, 1e-12)
			near(t, "joint 2", got[1], 1-2*s*s, 1e-12)
			near(t, "speed of joint 2", speed[1], -4*s*v, 1e-9)
		}
	}
}

func TestPathLawRefuses(t *testing.T) {
	at, q := sampled(4, 1, func(s float64) kinematics.Q { return kinematics.Q{s} })
	ok := motion.PathRequest{At: at, Q: q, Limits: limitsOf(1, 1, 1), Wanted: 0.1, Accel: 1}
	for name, change := range map[string]func(*motion.PathRequest){
		"one sample": func(r *motion.PathRequest) { r.At, r.Q = at[:1], q[:1] },
		"samples":    func(r *motion.PathRequest) { r.Q = q[:3] },
		"falling":    func(r *motion.PathRequest) { r.At = []float64{0, 1, 1, 2, 3} },
		"wanted":     func(r *motion.PathRequest) { r.Wanted = 0 },
		"accel":      func(r *motion.PathRequest) { r.Accel = math.NaN() },
		"limits":     func(r *motion.PathRequest) { r.Limits = nil },
		"joint":      func(r *motion.PathRequest) { r.Limits = limitsOf(1, 0, 1) },
		"caps":       func(r *motion.PathRequest) { r.Caps = make([]float64, 5) },
		"value":      func(r *motion.PathRequest) { r.Q = []kinematics.Q{{}, {math.NaN()}, {}, {}, {}} },
	} {
		req := ok
		change(&req)
		if _, err := motion.NewPathLaw(req); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func BenchmarkPathLaw(b *testing.B) {
	at, q := sampled(90, 0.45, func(s float64) kinematics.Q {
		return kinematics.Q{math.Sin(3 * s), s, math.Cos(2 * s), s * s, math.Sin(8 * s), -2 * s}
	})
	req := motion.PathRequest{At: at, Q: q, Limits: limitsOf(6, 2, 10), Wanted: 0.5, Accel: 2}
	for b.Loop() {
		if _, err := motion.NewPathLaw(req); err != nil {
			b.Fatal(err)
		}
	}
}

// TestPathLawIsFastest: in a fastest motion some limit is always met (Pontryagin:
// the control is on its bound almost everywhere), so a motion that leaves slack
// over some length could be faster there. (Within a grid interval the acceleration
// along the path is constant, so a joint's meets its limit at one end only.)
func TestPathLawIsFastest(t *testing.T) {
	at, q := sampled(100, 0.5, func(s float64) kinematics.Q {
		return kinematics.Q{math.Sin(9 * s), 0.6 * math.Cos(14*s), s * s}
	})
	req := motion.PathRequest{At: at, Q: q, Limits: limitsOf(3, 1.5, 6), Wanted: 0.4, Accel: 2}
	l := newPathLaw(t, req)
	times := motion.Times(l.Duration(), l.Duration()/5000)
	slack := 0
	for _, at := range times[1 : len(times)-1] {
		_, v, a := l.At(at)
		_, speed, accel := l.Joints(at)
		used := max(v/req.Wanted, math.Abs(a)/req.Accel)
		for j, limits := range req.Limits {
			used = max(used, math.Abs(speed[j])/limits.Speed, math.Abs(accel[j])/limits.Accel)
		}
		if used < 0.9 {
			slack++
		}
	}
	if share := float64(slack) / float64(len(times)); share > 0.01 {
		t.Errorf("%.1f %% of the time no limit is met within 10 %%", 100*share)
	}
	var joints int
	for _, s := range l.Slow() {
		if s.Joint >= 0 {
			joints++
		}
	}
	if joints == 0 {
		t.Errorf("the case should be bound by joints in places: %+v", l.Slow())
	}
}
