package collision_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// Every pair is listed once, in order, with its reason; those kept are Pairs.
func TestChoices(t *testing.T) {
	chain := cross(t)
	body := func(name string, g collision.Group, link int, at r3.Vec, size float64) collision.Body {
		return collision.Body{Name: name, Group: g, Link: link, LinkFromBody: se3.Translation(at), Shape: solidBox(t, size, size, size)}
	}
	bodies := []collision.Body{
		body("bed", collision.ArmLink, 0, r3.Vec{Z: -0.1}, 0.15),
		body("carriage", collision.ArmLink, 1, r3.Vec{}, 0.1),
		body("slide", collision.ArmLink, 2, r3.Vec{}, 0.1),
		body("turret", collision.ArmLink, 3, r3.Vec{}, 0.05),
		body("torch", collision.TorchBody, 3, r3.Vec{X: 0.1}, 0.05),
		body("hose", collision.Cable, 3, r3.Vec{}, 0.06),
		body("post", collision.Fixture, 0, r3.Vec{Z: 0.5}, 0.1),
		body("rail", collision.Floor, 0, r3.Vec{}, 3),
	}
	options := collision.PairOptions{
		LeaveOut: [][2]string{{"torch", "post"}},
		Keep:     [][2]string{{"carriage", "bed"}, {"post", "rail"}},
	}
	m, choices, err := collision.NewModel(chain, bodies, options)
	if err != nil {
		t.Fatal(err)
	}
	if n := len(bodies) * (len(bodies) - 1) / 2; len(choices) != n {
		t.Fatalf("%d choices, want %d", len(choices), n)
	}
	for i, want := range []struct {
		a, b   string
		reason collision.Reason
	}{
		{"bed", "carriage", collision.AskedToKeep},
		{"bed", "slide", collision.Apart},
		{"bed", "turret", collision.Apart},
		{"bed", "torch", collision.Apart},
		{"bed", "hose", collision.Apart},
		{"bed", "post", collision.FixedTogether},
		{"bed", "rail", collision.FixedTogether},
		{"carriage", "slide", collision.NeighbourLinks},
		{"carriage", "turret", collision.Apart},
		{"carriage", "torch", collision.Apart},
		{"carriage", "hose", collision.Apart},
		{"carriage", "post", collision.Apart},
		{"carriage", "rail", collision.AlwaysTouching},
		{"slide", "turret", collision.NeighbourLinks},
		{"slide", "torch", collision.Apart}, // apart by more than the joint needs
		{"slide", "hose", collision.AlwaysTouching},
		{"slide", "post", collision.Apart},
		{"slide", "rail", collision.AlwaysTouching},
		{"turret", "torch", collision.FixedTogether},
		{"turret", "hose", collision.FixedTogether},
		{"turret", "post", collision.Apart},
		{"turret", "rail", collision.AlwaysTouching},
		{"torch", "hose", collision.FixedTogether},
		{"torch", "post", collision.AskedToLeave},
		{"torch", "rail", collision.AlwaysTouching},
		{"hose", "post", collision.Apart},
		{"hose", "rail", collision.AlwaysTouching},
		{"post", "rail", collision.AskedToKeep},
	} {
		c := choices[i]
		if c.A != want.a || c.B != want.b || c.Reason != want.reason {
			t.Errorf("choice %d: %s and %s: %v; want %s and %s: %v", i, c.A, c.B, c.Reason, want.a, want.b, want.reason)
		}
		if bodies[c.Pair.A].Name != c.A || bodies[c.Pair.B].Name != c.B {
			t.Errorf("choice %d: pair %v is not %s and %s", i, c.Pair, c.A, c.B)
		}
	}
	var kept []collision.Pair
	for _, c := range choices {
		if c.Reason.Kept() {
			kept = append(kept, c.Pair)
		}
	}
	if !slices.Equal(kept, m.Pairs()) {
		t.Errorf("pairs %v, want those kept, %v", m.Pairs(), kept)
	}
	again, _, err := collision.NewModel(chain, bodies, options)
	if err != nil || !slices.Equal(again.Pairs(), m.Pairs()) {
		t.Errorf("the same again: %v, %v", again.Pairs(), err)
	}
}

// onTable puts a turning table beside an arm: its top, which carries the part,
// turns about z on a cradle that tilts about x. Invented.
func onTable(r *urdf.Robot) *urdf.Robot {
	out := &urdf.Robot{Name: r.Name, Joints: slices.Clone(r.Joints), Links: slices.Clone(r.Links)}
	out.Links = append(out.Links, urdf.Link{Name: "stand"}, urdf.Link{Name: "cradle"}, urdf.Link{Name: "top"})
	out.Joints = append(out.Joints,
		urdf.Joint{Name: "feet", Kind: urdf.Fixed, Parent: "link0", Child: "stand", Origin: se3.Translation(r3.Vec{X: 0.7, Z: -0.2}), Axis: r3.Vec{X: 1}},
		urdf.Joint{Name: "tilt", Kind: urdf.Revolute, Parent: "stand", Child: "cradle", Axis: r3.Vec{X: 1}, Origin: se3.Translation(r3.Vec{Z: 0.1}),
			Limit: urdf.Limit{Lower: -1, Upper: 1}},
		urdf.Joint{Name: "turn", Kind: urdf.Continuous, Parent: "cradle", Child: "top", Axis: r3.Vec{Z: 1}, Origin: se3.Translation(r3.Vec{Z: 0.1})})
	return out
}

// An arm beside a turning table, its chain from the table's top: bodies on the
// top stand still in the base and those on the foot and the floor move in it, and
// all distances are those of the same bodies seen from the foot.
func TestTurningTable(t *testing.T) {
	robot := onTable(readRobot(t, "sphw6"))
	fromTop, fromFoot := newChain(t, robot, "top", "flange"), newChain(t, robot, "link0", "flange")
	table := newChain(t, robot, "link0", "top")
	part, err := bvh.NewBox(r3.Vec{X: 0.3, Y: 0.1, Z: 0.15})
	if err != nil {
		t.Fatal(err)
	}
	bodies := func(c *kinematics.Chain, footFromTop *se3.Pose) (list []collision.Body) {
		list = armBodies(t, robot, c)
		on := func(name, link string, group collision.Group, pose se3.Pose, shape collision.Shape) {
			i, err := collision.LinkNamed(c, link)
			if err != nil {
				t.Fatal(err)
			}
			list = append(list, collision.Body{Name: name, Group: group, Link: i, LinkFromBody: pose, Shape: shape})
		}
		on("floor", "link0", collision.Floor, se3.Translation(r3.Vec{Z: -0.7}), solidBox(t, 4, 4, 0.1))
		at := se3.Translation(r3.Vec{X: 0.05, Z: 0.08})
		if footFromTop != nil { // seen from the foot with the table as it stands
			on("part", "link0", collision.Part, footFromTop.Mul(at), collision.OfTree(part))
		} else {
			on("part", "top", collision.Part, at, collision.OfTree(part))
		}
		return list
	}
	m, choices, err := collision.NewModel(fromTop, bodies(fromTop, nil), collision.PairOptions{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range choices {
		if c.A == "floor" && c.B == "part" && c.Reason != collision.Apart {
			t.Errorf("part on the table and floor: %v", c.Reason)
		}
		if c.A == "link0 0" && c.B == "floor" && c.Reason != collision.FixedTogether {
			t.Errorf("foot and floor: %v", c.Reason)
		}
	}
	random := rand.New(rand.NewPCG(4, 1))
	s := m.Scratch()
	for range 50 {
		var q, arm, stand kinematics.Q // turn, tilt, six of the arm
		for j := range 8 {
			q[j] = 2*random.Float64() - 1
		}
		copy(arm[:6], q[2:])
		stand[0], stand[1] = q[1], q[0]
		var footFromTop se3.Pose
		table.Forward(&stand, &footFromTop)
		other, _, err := collision.NewModel(fromFoot, bodies(fromFoot, &footFromTop), collision.PairOptions{})
		if err != nil {
			t.Fatal(err)
		}
		want := map[[2]string]float64{}
		for i, p := range other.Pairs() {
			want[[2]string{other.Bodies()[p.A].Name, other.Bodies()[p.B].Name}] = onePair(other, &arm, i)
		}
		compared := 0
		for i, p := range m.Pairs() {
			names := [2]string{m.Bodies()[p.A].Name, m.Bodies()[p.B].Name}
			if d, known := want[names]; known {
				compared++
				if got := onePair(m, &q, i); math.Abs(got-d) > 1e-9 {
					t.Fatalf("%v at %v: %g apart, from the foot %g", names, q, got, d)
				}
			}
		}
		if compared < 20 {
			t.Fatalf("%d pairs compared", compared)
		}
	}
	// A move of the table alone brings the part to the arm as dense sampling has it.
	r := m.Wanted(0.01)
	for range 10 {
		var from kinematics.Q
		for j := range 8 {
			from[j] = 2*random.Float64() - 1
		}
		to := from
		to[0] += 1
		to[1] = -from[1]
		want, _ := dense(m, s, &from, &to, r)
		got := m.LeastMove(s, &from, &to, r, math.Inf(1))
		if got.Lower > want || got.Near.Slack() > want+collision.Resolution+collision.Share*max(0, want)*1.1 || got.Clear != (want >= 0) {
			t.Errorf("table's move from %v: %+v, sampled %g", from, got, want)
		}
	}
}

// onePair returns the distance of one pair.
func onePair(m *collision.Model, q *kinematics.Q, pair int) float64 {
	r := m.Wanted(-1)
	r[pair] = 0
	near, _ := m.Least(m.Scratch(), q, r, math.Inf(1))
	return near.Distance
}
