package collision_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// swing is a smooth path in joint space about a posture.
type swing struct{ mid, size, speed, phase kinematics.Q }

func newSwing(random *rand.Rand, mid kinematics.Q) swing {
	w := swing{mid: mid}
	for j := range 6 {
		w.size[j] = 0.1 * random.Float64()
		w.speed[j] = 1 + random.Float64()
		w.phase[j] = 2 * math.Pi * random.Float64()
	}
	return w
}

// at returns the posture at t, dimensionless.
func (w *swing) at(t float64) (q kinematics.Q) {
	for j := range 6 {
		q[j] = w.mid[j] + w.size[j]*math.Sin(w.speed[j]*t+w.phase[j])
	}
	return q
}

// The bound holds everywhere between the samples, and with the path given it
// settles what can be settled.
func TestBetweenAgainstTheWholePath(t *testing.T) {
	scenes, part := readScenes(t), packedPart(t)
	random := rand.New(rand.NewPCG(8, 1))
	states := readStates(t)
	loss, opened, settled := 0.0, 0, 0
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s, other := m.Scratch(), m.Scratch()
		for k := range 12 {
			const n = 7
			path := newSwing(random, states[name][random.IntN(120)].q())
			step := 3.0 / n
			var qs []kinematics.Q
			for i := range n + 1 {
				qs = append(qs, path.at(float64(i)*step))
			}
			r := m.Wanted([]float64{0, 0.003, 0.02}[k%3])
			samples, err := m.Between(s, qs, r, collision.PathOptions{})
			if err != nil {
				t.Fatal(err)
			}
			cut, err := m.Between(s, qs, r, collision.PathOptions{At: func(i int, share float64) kinematics.Q {
				return path.at((float64(i) + share) * step)
			}})
			if err != nil {
				t.Fatal(err)
			}
			for i := range samples {
				least := math.Inf(1)
				for f := range 50 {
					q := path.at((float64(i) + float64(f)/50) * step)
					if near, found := m.Least(other, &q, r, least); found {
						least = near.Slack()
					}
					if i == n {
						break
					}
				}
				for _, st := range []collision.Stretch{samples[i], cut[i]} {
					if st.Lower > least+1e-9 || st.Near.Pair >= 0 && st.Near.Slack() < least-1e-3 {
						t.Fatalf("%s path %d stretch %d: at least %g, found %g; sampled %g", name, k, i, st.Lower, st.Near.Slack(), least)
					}
				}
				if samples[i].Clear && least < -collision.Tolerance || cut[i].Clear && least < -collision.Tolerance {
					t.Fatalf("%s path %d stretch %d: clear, sampled %g", name, k, i, least)
				}
				loss = max(loss, min(least, 0.1)-samples[i].Lower)
				if least > 1e-3 {
					if !samples[i].Clear {
						opened++
					}
					if !cut[i].Clear {
						t.Errorf("%s path %d stretch %d: slack %g, and %g left open by cutting", name, k, i, least, cut[i].Lower)
					}
					settled++
				}
			}
		}
	}
	t.Logf("%d stretches clear, %d of them left open by the samples alone; loss at most %.1f mm", settled, opened, loss*1e3)
	if settled < 120 || opened < 5 {
		t.Errorf("%d stretches clear, %d left open: the test is too easy", settled, opened)
	}
}

func TestBetweenRefuses(t *testing.T) {
	sc := readScenes(t)["sphw6_boxes"]
	m := sc.model(t, nil)
	s, r := m.Scratch(), m.Wanted(0)
	good := []kinematics.Q{{}, {0.01}, {0.02}}
	var far []kinematics.Q // clear samples with all the arm's reach between them
	for _, st := range readStates(t)["sphw6_boxes"] {
		if st.Valid {
			far = append(far, st.q())
		}
	}
	for _, row := range []struct {
		name string
		qs   []kinematics.Q
		o    collision.PathOptions
		want string
	}{
		{"empty", nil, collision.PathOptions{}, "a path without samples"},
		{"not finite", []kinematics.Q{{}, {math.NaN()}}, collision.PathOptions{}, "sample 1: found joint values [NaN"},
		{"limit", good, collision.PathOptions{Limit: -1}, "a limit of -1 m"},
		{"factor", good, collision.PathOptions{Factor: 0.5}, "a factor of 0.5"},
		{"between", far, collision.PathOptions{At: func(int, float64) kinematics.Q { return kinematics.Q{math.Inf(1)} }}, "between sample 0 and the next, at share 0.5"},
	} {
		t.Run(row.name, func(t *testing.T) {
			_, err := m.Between(s, row.qs, r, row.o)
			if err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want %q in it", err, row.want)
			}
		})
	}
	one, err := m.Between(s, good[:1], r, collision.PathOptions{})
	if err != nil || len(one) != 1 || one[0].Lower != one[0].Near.Slack() && one[0].Near.Pair >= 0 || one[0].Clear != one[0].Near.Clear() {
		t.Errorf("one sample: %+v, %v", one, err)
	}
}
