package collision_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// between returns the posture at a share of a straight move.
func between(from, to *kinematics.Q, share float64) (q kinematics.Q) {
	for j := range q {
		q[j] = from[j] + share*(to[j]-from[j])
	}
	return q
}

// dense returns the least slack at postures 0.001 rad apart on a move, m, and
// whether all of them are clear.
func dense(m *collision.Model, s *collision.Scratch, from, to *kinematics.Q, r collision.Regime) (least float64, clear bool) {
	var most float64
	for j := range from {
		most = max(most, math.Abs(to[j]-from[j]))
	}
	n := int(math.Ceil(most/0.001)) + 1
	least, clear = math.Inf(1), true
	for i := range n + 1 {
		q := between(from, to, float64(i)/float64(n))
		if near, found := m.Least(s, &q, r, least); found {
			least = near.Slack()
			clear = clear && near.Clear()
		}
	}
	return least, clear
}

// sceneMove returns a move between two postures within limits, of a length
// drawn from long and short ones.
func sceneMove(random *rand.Rand, states []state) (from, to kinematics.Q) {
	from = states[random.IntN(len(states))].q()
	to = states[random.IntN(len(states))].q()
	share := math.Pow(10, -2*random.Float64())
	return from, between(&from, &to, share)
}

// A move that is called clear has no posture that is not, and the least slack
// is that of close sampling.
func TestMovesAgainstDenseSampling(t *testing.T) {
	scenes, part := readScenes(t), packedPart(t)
	random := rand.New(rand.NewPCG(3, 1))
	states := readStates(t)
	clears, blocked := 0, 0
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s, other := m.Scratch(), m.Scratch()
		for k := range 12 {
			from, to := sceneMove(random, states[name])
			r := m.Wanted([]float64{0, 0.0002, 0.005, 0.03}[k%4])
			want, clear := dense(m, other, &from, &to, r)
			got := m.LeastMove(s, &from, &to, r, math.Inf(1))
			quick := m.ClearMove(s, &from, &to, r)
			if got.Clear != quick {
				t.Errorf("%s move %d: clear %v, and %v in short", name, k, got.Clear, quick)
			}
			if got.Clear && (want < -collision.Tolerance || !clear && r[0] < collision.Tolerance) || !got.Clear && want > 1e-5 {
				t.Errorf("%s move %d: clear %v, sampled least slack %g", name, k, got.Clear, want)
			}
			if got.Lower > want || got.Near.Slack() < got.Lower || got.Near.Slack() > want+collision.Resolution+max(0, collision.Share*want)/(1-collision.Share) {
				t.Errorf("%s move %d: least slack %g, nowhere less than %g, sampled %g", name, k, got.Near.Slack(), got.Lower, want)
			}
			if got.Clear && got.Lower < -collision.Tolerance {
				t.Errorf("%s move %d: clear, but %g is proven only", name, k, got.Lower)
			}
			q := between(&from, &to, got.At)
			if at, _ := m.Least(other, &q, r, math.Inf(1)); math.Abs(at.Slack()-got.Near.Slack()) > 1e-9 {
				t.Errorf("%s move %d: least slack %g reported at %g, where it is %g", name, k, got.Near.Slack(), got.At, at.Slack())
			}
			if got.Clear {
				clears++
			} else {
				blocked++
			}
		}
	}
	t.Logf("%d moves clear, %d blocked", clears, blocked)
	if clears < 8 || blocked < 8 {
		t.Errorf("%d moves clear, %d blocked: too few of one kind", clears, blocked)
	}
}
