package collision

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// drawModel returns boxes on a chain of turning and sliding joints.
func drawModel(t *rapid.T) (*Model, []kinematics.Joint) {
	r := &urdf.Robot{Links: []urdf.Link{{Name: "l0"}}}
	n := rapid.IntRange(2, 5).Draw(t, "joints")
	number := func() float64 { return rapid.Float64Range(-1, 1).Draw(t, "number") }
	vec := func() r3.Vec { return r3.Vec{X: number(), Y: number(), Z: number()} }
	turn := func() se3.Rot { return se3.RotX(3 * number()).Mul(se3.RotZ(3 * number())) }
	for i := range n {
		j := urdf.Joint{Name: fmt.Sprint("j", i), Kind: urdf.Revolute, Parent: fmt.Sprint("l", i), Child: fmt.Sprint("l", i+1),
			Origin: se3.Pose{R: turn(), P: vec()}, Axis: turn().X(), Limit: urdf.Limit{Lower: -1, Upper: 1.5}}
		if rapid.IntRange(0, 3).Draw(t, "slides") == 0 {
			j.Kind = urdf.Prismatic
		}
		r.Joints, r.Links = append(r.Joints, j), append(r.Links, urdf.Link{Name: j.Child})
	}
	c, err := kinematics.NewChain(r, "l0", fmt.Sprint("l", n))
	if err != nil {
		t.Fatal(err)
	}
	var bodies []Body
	for i := range n + 1 {
		solid, err := convex.NewBox(r3.Vec{X: 1.1 + number(), Y: 1.1 + number(), Z: 1.1 + number()})
		if err != nil {
			t.Fatal(err)
		}
		bodies = append(bodies, Body{Name: fmt.Sprint("b", i), Link: i, LinkFromBody: se3.Pose{R: turn(), P: vec()}, Shape: OfSolid(solid)})
	}
	var keep [][2]string
	for i := range bodies {
		for k := range i {
			keep = append(keep, [2]string{bodies[k].Name, bodies[i].Name})
		}
	}
	m, _, err := NewModel(c, bodies, PairOptions{Keep: keep})
	if err != nil {
		t.Fatal(err)
	}
	var joints []kinematics.Joint
	for j := range n {
		joints = append(joints, c.Joint(j))
	}
	return m, joints
}

// No corner of a box goes farther, in the frame of another body, than the
// bounds for one of the two say; half the move has bounds at most half as long.
func TestTravelHoldsEveryCorner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, joints := drawModel(t)
		s := m.Scratch()
		var q, step kinematics.Q
		var turned, half [kinematics.MaxJoints]float64
		for j := range joints {
			q[j] = rapid.Float64Range(-1, 1.5).Draw(t, "q")
			step[j] = rapid.Float64Range(-0.4, 0.4).Draw(t, "step")
			step[j] = math.Copysign(min(math.Abs(step[j]), q[j]+1, 1.5-q[j]), step[j]) // both ways within limits
			turned[j], half[j] = math.Abs(step[j]), step[j]/2
		}
		s.within = true
		m.rates(&turned, s.rate)
		m.place(s, &q)
		share := rapid.Float64Range(-1, 1).Draw(t, "share")
		at := q
		for j := range joints {
			at[j] += share * step[j]
		}
		placed, moved := m.Poses(&q, nil), m.Poses(&at, nil)
		for i := range m.pairings {
			k := &m.pairings[i]
			for _, ab := range [2][2]int{{k.a, k.b}, {k.b, k.a}} {
				s.bout.set(m, s, (*[kinematics.MaxJoints]float64)(&step))
				fast, slow := m.travelOf(s, ab[0], ab[1]), s.rate[ab[0]][m.placed[ab[1]].group]
				s.bout.set(m, s, &half)
				if less := m.travelOf(s, ab[0], ab[1]); less > fast/2*(1+1e-9)+1e-12 {
					t.Fatalf("half a move travels %g, the whole %g", less, fast)
				}
				before := placed[ab[1]].Inv().Mul(placed[ab[0]])
				after := moved[ab[1]].Inv().Mul(moved[ab[0]])
				size := m.bodies[ab[0]].Shape.solid.Size
				for c := range 8 {
					p := r3.Vec{X: size.X * (float64(c&1) - 0.5), Y: size.Y * (float64(c>>1&1) - 0.5), Z: size.Z * (float64(c>>2&1) - 0.5)}
					if d := after.Apply(p).Dist(before.Apply(p)); d > math.Abs(share)*fast+1e-9 || d > math.Abs(share)*slow+1e-9 {
						t.Fatalf("a corner of %d goes %g on %d, the bounds are %g and %g of which a share of %g", ab[0], d, ab[1], fast, slow, share)
					}
				}
			}
		}
	})
}

// The bounds by balls and boxes are never more than the distance.
func TestApartIsALowerBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, joints := drawModel(t)
		s := m.Scratch()
		var q kinematics.Q
		for j := range joints {
			q[j] = rapid.Float64Range(-3, 3).Draw(t, "q")
		}
		m.place(s, &q)
		for i := range m.pairings {
			near, _ := m.gap(s, i, math.Inf(1))
			for _, enough := range []float64{0, 0.1, math.Inf(1)} {
				if d := m.apart(s, &m.pairings[i], enough); d > near.Distance {
					t.Fatalf("pair %d: at least %g apart, distance %g", i, d, near.Distance)
				}
			}
		}
	})
}
