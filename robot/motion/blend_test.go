package motion_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// TestViaMoveOneLine: without a via point it is the joint move.
func TestViaMoveOneLine(t *testing.T) {
	req := motion.ViaRequest{Q: []kinematics.Q{{0.1, -1, 2}, {1.1, -1, 1.5}}, Limits: limitsWith(3, 2, 5, 50), Deviation: 0.1, SpeedPercent: 40}
	m, err := motion.NewViaMove(req)
	if err != nil {
		t.Fatal(err)
	}
	want, err := motion.NewJointMove(motion.MoveRequest{From: req.Q[0], To: req.Q[1], Limits: req.Limits, SpeedPercent: 40})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "duration", m.Duration(), want.Duration(), 1e-9)
	for i := range 11 {
		at := want.Duration() * float64(i) / 10
		a, _, _ := m.At(at)
		b, _, _ := want.At(at)
		for j := range 3 {
			near(t, "joint", a[j], b[j], 1e-9)
		}
	}
}

func TestViaMoveTrivial(t *testing.T) {
	q := kinematics.Q{1, 2}
	for _, list := range [][]kinematics.Q{{q}, {q, q}, {q, q, q}} {
		m, err := motion.NewViaMove(motion.ViaRequest{Q: list, Limits: limitsWith(2, 1, 1, 10), Deviation: 0.1})
		if err != nil {
			t.Fatal(err)
		}
		if at, v, _ := m.At(1); m.Duration() != 0 || m.Length() != 0 || at != q || v != (kinematics.Q{}) || m.Posture(3) != q || len(m.Blends()) != 0 {
			t.Errorf("%d postures: %g s, %v, %v", len(list), m.Duration(), at, v)
		}
	}
}

func TestViaMoveRefuses(t *testing.T) {
	ok := motion.ViaRequest{Q: []kinematics.Q{{}, {1}, {0}}, Limits: limitsWith(1, 1, 1, 10), Deviation: 0.1}
	for name, change := range map[string]func(*motion.ViaRequest){
		"no postures": func(r *motion.ViaRequest) { r.Q = nil },
		"no joints":   func(r *motion.ViaRequest) { r.Limits = nil },
		"deviation":   func(r *motion.ViaRequest) { r.Deviation = 0 },
		"tip":         func(r *motion.ViaRequest) { r.Reach = []float64{1} },
		"reach":       func(r *motion.ViaRequest) { r.Reach, r.TipDeviation = []float64{1, 2}, 0.1 },
		"speed":       func(r *motion.ViaRequest) { r.Limits = limitsWith(1, math.Inf(1), 1, 10) },
		"percent":     func(r *motion.ViaRequest) { r.SpeedPercent = -1 },
		"value":       func(r *motion.ViaRequest) { r.Q = []kinematics.Q{{}, {math.NaN()}} },
	} {
		req := ok
		change(&req)
		if _, err := motion.NewViaMove(req); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// viaCase draws a way past one to four via points.
func viaCase(t *rapid.T) motion.ViaRequest {
	req := motion.ViaRequest{
		Deviation: rapid.Float64Range(0.01, 0.3).Draw(t, "deviation"), SpeedPercent: rapid.SampledFrom([]float64{0, 25}).Draw(t, "percent"),
	}
	for range rapid.IntRange(3, 6).Draw(t, "postures") {
		var q kinematics.Q
		for j := range 3 {
			q[j] = rapid.Float64Range(-2, 2).Draw(t, "joint")
		}
		req.Q = append(req.Q, q)
	}
	for range 3 {
		req.Limits = append(req.Limits, motion.LawLimits{
			Speed: rapid.Float64Range(1, 4).Draw(t, "speed"), Accel: rapid.Float64Range(2, 10).Draw(t, "accel"), Jerk: rapid.Float64Range(20, 200).Draw(t, "jerk"),
		})
	}
	if rapid.Bool().Draw(t, "tip") {
		req.Reach, req.TipDeviation = []float64{1.5, 1, 0.3}, rapid.Float64Range(0.01, 0.2).Draw(t, "tip deviation")
	}
	return req
}

// fromLines is how far a posture is from the polyline through others, for the lines'
// places s that are looked at: the least over them of the largest joint's share of off.
func fromLines(q *kinematics.Q, a, b *kinematics.Q, off *kinematics.Q) float64 {
	least := math.Inf(1)
	for k := range 401 {
		f, most := float64(k)/400, 0.0
		for j := range 3 {
			if off[j] == 0 {
				continue
			}
			most = max(most, (math.Abs(q[j]-a[j]-f*(b[j]-a[j]))-0.006*math.Abs(b[j]-a[j]))/math.Abs(off[j]))
		}
		least = min(least, most)
	}
	return least
}

// TestViaMoveLimits: every joint keeps its limits, the way stays as near to the lines
// as is said and as was asked for, and stops at the via points would be no faster.
func TestViaMoveLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		req := viaCase(t)
		m, err := motion.NewViaMove(req)
		if err != nil {
			t.Fatal(err)
		}
		if q, v, _ := m.At(0); q != req.Q[0] || v != (kinematics.Q{}) {
			t.Fatalf("starts at %v with %v", q, v)
		}
		end, v, _ := m.At(m.Duration())
		for j := range 3 {
			near(t, "end", end[j], req.Q[len(req.Q)-1][j], 1e-9)
			near(t, "end speed", v[j], 0, 1e-12)
		}
		if n := len(m.Blends()); n != len(req.Q)-2 && n != 0 {
			t.Fatalf("%d blends for %d postures", n, len(req.Q))
		}
		for _, b := range m.Blends() {
			var tip float64
			for j := range 3 {
				if math.Abs(b.Off[j]) > req.Deviation*(1+1e-9) {
					t.Fatalf("joint %d is off by %g, allowed are %g", j+1, b.Off[j], req.Deviation)
				}
				middle := m.Posture((b.From + b.To) / 2)
				near(t, "passes by", middle[j]-req.Q[b.Via][j], b.Off[j], 1e-9)
				if req.Reach != nil {
					tip += math.Abs(b.Off[j]) * req.Reach[j]
				}
			}
			if near(t, "tip", b.Tip, tip, 1e-9); req.Reach != nil && tip > req.TipDeviation*(1+1e-9) {
				t.Fatalf("tip off by %g, allowed are %g", tip, req.TipDeviation)
			}
			for k := range 21 {
				q := m.Posture(b.From + (b.To-b.From)*float64(k)/20)
				via := &req.Q[b.Via]
				if off := min(fromLines(&q, &req.Q[b.Via-1], via, &b.Off), fromLines(&q, via, &req.Q[b.Via+1], &b.Off)); off > 1 {
					t.Fatalf("via point %d: %g of what is said", b.Via, off)
				}
			}
		}
		var stopping float64
		for i := 1; i < len(req.Q); i++ {
			one, err := motion.NewJointMove(motion.MoveRequest{From: req.Q[i-1], To: req.Q[i], Limits: req.Limits, SpeedPercent: req.SpeedPercent})
			if err != nil {
				t.Fatal(err)
			}
			stopping += one.Duration()
		}
		if m.Duration() > stopping*(1+1e-12) {
			t.Fatalf("%g s, with stops %g s", m.Duration(), stopping)
		}
		checkVia(t, m, req)
	})
}

// TestViaMoveGains: round a right angle in joint space the arm saves most of the stop.
func TestViaMoveGains(t *testing.T) {
	req := motion.ViaRequest{Q: []kinematics.Q{{}, {1}, {1, 1}}, Limits: limitsWith(2, 3, 5, 50), Deviation: 0.1}
	m, err := motion.NewViaMove(req)
	if err != nil {
		t.Fatal(err)
	}
	one, err := motion.NewSevenPhase(1, req.Limits[0])
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.3f s, with a stop %.3f s", m.Duration(), 2*one.Duration())
	if m.Duration() > 0.85*2*one.Duration() {
		t.Errorf("%g s, with a stop %g s", m.Duration(), 2*one.Duration())
	}
}

// checkVia tests speed, acceleration and jerk by differences in time.
func checkVia(t *rapid.T, m *motion.ViaMove, req motion.ViaRequest) {
	share := 1.0
	if req.SpeedPercent > 0 {
		share = req.SpeedPercent / 100
	}
	times := motion.Times(m.Duration(), m.Duration()/2000)
	for i := 1; i < len(times); i++ {
		h := times[i] - times[i-1]
		q0, v0, a0 := m.At(times[i-1])
		q1, v1, a1 := m.At(times[i])
		for j, l := range req.Limits {
			v, a, jerk := math.Abs(q1[j]-q0[j])/h, math.Abs(v1[j]-v0[j])/h, math.Abs(a1[j]-a0[j])/h
			if v > share*l.Speed*(1+1e-6) || a > l.Accel*(1+1e-3) || jerk > l.Jerk*(1+2e-3) {
				t.Fatalf("at %g of %g s: joint %d: %g, %g, %g beyond %+v", times[i], m.Duration(), j+1, v, a, jerk, l)
			}
		}
	}
}

func BenchmarkViaMove(b *testing.B) {
	req := motion.ViaRequest{Q: []kinematics.Q{{0, 0, 0, 0, 0, 0}, {1, 0.5, -0.3, 0, 1, 0}, {1.2, -0.5, 0.4, 1, 0, 0}, {2, 0, 0, 0, 0, 1}}, Limits: limitsWith(6, 3, 5, 50), Deviation: 0.1}
	for b.Loop() {
		if _, err := motion.NewViaMove(req); err != nil {
			b.Fatal(err)
		}
	}
}
