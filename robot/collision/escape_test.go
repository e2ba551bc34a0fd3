package collision_test

import (
	"testing"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// intoTouch returns the first posture on the way from a clear state to another
// that is not clear, in steps of a hundredth.
func intoTouch(m *collision.Model, from, to kinematics.Q, r collision.Regime) kinematics.Q {
	s := m.Scratch()
	for share := 0.01; ; share += 0.01 {
		if q := between(&from, &to, share); !m.Clear(s, &q, r) {
			return q
		}
	}
}

// Out of postures that have just run into something: what is found is clear,
// nothing else is met on the way, and the tip goes where it was asked to.
func TestEscapeFromStates(t *testing.T) {
	scenes, part, states := readScenes(t), packedPart(t), readStates(t)
	for _, name := range sceneNames(scenes) {
		sc := scenes[name]
		m := sc.model(t, part)
		s, other := m.Scratch(), m.Scratch()
		r := m.Wanted(0.002)
		robot := readRobot(t, sc.Arm)
		chain := newChain(t, robot, "link0", "flange")
		solver, err := kinematics.NewSolver(chain)
		if err != nil {
			t.Fatal(err)
		}
		joints, tips, count := 0, 0, 0
		var clear kinematics.Q
		for _, st := range states[name] {
			if p := st.q(); st.Valid && m.Clear(s, &p, r) {
				clear = p
			}
			if st.Valid || clear == (kinematics.Q{}) || count == 16 {
				continue
			}
			count++
			q := intoTouch(m, clear, st.q(), r)
			var flange se3.Pose
			chain.Forward(&q, &flange)
			back := flange.R.Z().Neg()
			e := m.Escape(s, &q, r, collision.EscapeOptions{
				Tip: []r3.Vec{back, {Z: 1}},
				Shift: func(q kinematics.Q, by r3.Vec) (kinematics.Q, bool) {
					to := flange
					to.P = to.P.Add(by)
					ok := solver.SolveNear(&to, &q)
					return q, ok
				},
			})
			if len(e.Hits) == 0 {
				t.Fatalf("%s state %d: no hits", name, st.ID)
			}
			way := append(collision.Regime(nil), r...)
			for _, h := range e.Hits {
				way[h.Near.Pair] = -1
				if h.Near.Clear() || (h.Near.Distance == 0) != (h.Depth > 0) {
					t.Errorf("%s state %d: hit %+v", name, st.ID, h)
				}
			}
			for _, f := range []collision.Free{e.Joint, e.Tip} {
				if !f.Found {
					continue
				}
				if near, found := m.Least(other, &f.Q, r, 0.1); !m.Clear(other, &f.Q, r) || found && near.Slack() < 0 {
					t.Errorf("%s state %d: %+v is not clear: %+v", name, st.ID, f, near)
				}
				if least, _ := dense(m, other, &q, &f.Q, way); least < -collision.Tolerance {
					t.Errorf("%s state %d: on the way of %+v something else has slack %g", name, st.ID, f, least)
				}
			}
			if e.Joint.Found {
				joints++
			}
			if f := e.Tip; f.Found {
				tips++
				var at se3.Pose
				chain.Forward(&f.Q, &at)
				if d := at.P.Dist(flange.P); d < f.By-1e-6 || d > f.By+1e-6 {
					t.Errorf("%s state %d: the tip moved by %g, not %g", name, st.ID, d, f.By)
				}
			}
		}
		t.Logf("%s: of %d states %d freed by a joint, %d by the tip", name, count, joints, tips)
		if joints < 10 || tips < 4 {
			t.Errorf("%s: of %d states only %d freed by a joint, %d by the tip", name, count, joints, tips)
		}
	}
}
