package motion_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

func near(t rapid.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, got, want, tol)
	}
}

// law is what all time laws have: place, speed and acceleration at a time, rest to rest.
type law interface {
	Duration() float64
	At(t float64) (s, v, a float64)
}

// checkLaw tests any law by finite differences: it starts and ends at rest,
// never runs back, and position, speed and acceleration belong together.
func checkLaw(t rapid.TB, l law, distance float64, limits motion.LawLimits) {
	t.Helper()
	const n = 2000
	d := l.Duration()
	h := d / n
	s0, v0, _ := l.At(0)
	s1, v1, _ := l.At(d)
	near(t, "start", math.Abs(s0)+math.Abs(v0), 0, 0)
	near(t, "end", s1, distance, 1e-12*max(1, distance))
	near(t, "end speed", v1, 0, 1e-12)
	for i := range n {
		a, va, acc := l.At(h * float64(i))
		b, vb, _ := l.At(h * float64(i+1))
		if va > limits.Speed*(1+1e-12) || math.Abs(acc) > limits.Accel*(1+1e-12) {
			t.Fatalf("sample %d: speed %g, acceleration %g beyond %+v", i, va, acc, limits)
		}
		if b < a || (b-a)/h > limits.Speed*(1+1e-9) || math.Abs(vb-va)/h > limits.Accel*(1+1e-9) {
			t.Fatalf("sample %d: difference speed %g, acceleration %g beyond %+v", i, (b-a)/h, (vb-va)/h, limits)
		}
		if mean := (va + vb) / 2; math.Abs((b-a)/h-mean) > limits.Accel*h/2 {
			t.Fatalf("sample %d: moves at %g, says %g", i, (b-a)/h, mean)
		}
	}
}

func TestJointMove(t *testing.T) {
	from, to := kinematics.Q{0.1, -1, 2}, kinematics.Q{1.1, -1, 1.5}
	limits := []motion.LawLimits{{Speed: 2, Accel: 5}, {Speed: 1, Accel: 1}, {Speed: 0.5, Accel: 10}}
	m, err := motion.NewJointMove(motion.MoveRequest{From: from, To: to, Limits: limits, SpeedPercent: 50})
	if err != nil {
		t.Fatal(err)
	}
	// joint 3 at 0.25 rad/s over 0.5 rad sets the speed 0.5 /s, joint 1 the acceleration 5 /s2: 2 s + 0.1 s
	near(t, "duration", m.Duration(), 2.1, 1e-12)
	q, v, a := m.At(0)
	if q != from || v != (kinematics.Q{}) || a != (kinematics.Q{}) {
		t.Errorf("start: %v %v %v", q, v, a)
	}
	if q, v, _ := m.At(m.Duration()); q != to || v != (kinematics.Q{}) {
		t.Errorf("end: %v %v", q, v)
	}
	q, v, _ = m.At(1.05)
	near(t, "half way joint 1", q[0], 0.6, 1e-12)
	near(t, "half way joint 3", q[2], 1.75, 1e-12)
	near(t, "speed joint 3", v[2], -0.25, 1e-12)
	near(t, "joint 2 stays", q[1], -1, 0)
}

func TestJointMoveStartIsGoal(t *testing.T) {
	q := kinematics.Q{1, 2}
	m, err := motion.NewJointMove(motion.MoveRequest{From: q, To: q, Limits: []motion.LawLimits{{Speed: 1, Accel: 1}, {Speed: 1, Accel: 1}}})
	if err != nil {
		t.Fatal(err)
	}
	if at, v, _ := m.At(0.5); m.Duration() != 0 || at != q || v != (kinematics.Q{}) {
		t.Errorf("got duration %g, %v, %v", m.Duration(), at, v)
	}
}

func TestJointMoveRefuses(t *testing.T) {
	ok := motion.MoveRequest{To: kinematics.Q{1}, Limits: []motion.LawLimits{{Speed: 1, Accel: 1}}}
	for name, change := range map[string]func(*motion.MoveRequest){
		"no joints": func(r *motion.MoveRequest) { r.Limits = nil },
		"speed":     func(r *motion.MoveRequest) { r.Limits = []motion.LawLimits{{Speed: 0, Accel: 1}} },
		"percent":   func(r *motion.MoveRequest) { r.SpeedPercent = 101 },
		"accel":     func(r *motion.MoveRequest) { r.AccelPercent = -1 },
		"goal":      func(r *motion.MoveRequest) { r.To[0] = math.NaN() },
	} {
		req := ok
		change(&req)
		if _, err := motion.NewJointMove(req); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

func TestJointMoveLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var req motion.MoveRequest
		req.SpeedPercent = rapid.Float64Range(1, 100).Draw(t, "percent")
		for j := range 6 {
			req.From[j] = rapid.Float64Range(-3, 3).Draw(t, "from")
			req.To[j] = rapid.Float64Range(-3, 3).Draw(t, "to")
			req.Limits = append(req.Limits, motion.LawLimits{Speed: rapid.Float64Range(0.5, 6).Draw(t, "speed"), Accel: rapid.Float64Range(2, 30).Draw(t, "accel")})
		}
		m, err := motion.NewJointMove(req)
		if err != nil {
			t.Fatal(err)
		}
		times := motion.Times(m.Duration(), m.Duration()/500)
		for i := 1; i < len(times); i++ {
			h := times[i] - times[i-1]
			a, va, _ := m.At(times[i-1])
			b, vb, _ := m.At(times[i])
			for j, l := range req.Limits {
				if v := math.Abs(b[j]-a[j]) / h; v > l.Speed*req.SpeedPercent/100*(1+1e-6) {
					t.Fatalf("joint %d at %g s: %g rad/s over %g", j+1, times[i], v, l.Speed*req.SpeedPercent/100)
				}
				if acc := math.Abs(vb[j]-va[j]) / h; acc > l.Accel*(1+1e-6) {
					t.Fatalf("joint %d at %g s: %g rad/s2 over %g", j+1, times[i], acc, l.Accel)
				}
			}
		}
	})
}

func TestTimes(t *testing.T) {
	got := motion.Times(1, 0.3)
	if len(got) != 5 || got[0] != 0 || got[4] != 1 {
		t.Errorf("got %v", got)
	}
	if got := motion.Times(0, 0.1); len(got) != 1 || got[0] != 0 {
		t.Errorf("no duration: got %v", got)
	}
	if got := motion.Times(1, 0.1); len(got) != 11 {
		t.Errorf("ten steps: got %d times", len(got))
	}
}
