package kinematics_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// branched is a robot with two branches on one root. A chain leads from the
// end of the first, up to the root, down to the end of the second.
type branched struct {
	robot      *urdf.Robot
	base, tip  string
	up, down   *urdf.Robot // each branch alone, root first
	ups, downs int         // moving joints of each
}

// drawBranched draws one with 1 to 9 moving joints in all, up to nine of them
// on the way up, and a stem below the root that no chain uses.
func drawBranched(t *rapid.T) branched {
	n := rapid.IntRange(1, kinematics.MaxJoints).Draw(t, "joints")
	b := branched{robot: &urdf.Robot{Name: "branched", Links: []urdf.Link{{Name: "l0"}}}}
	b.ups = rapid.IntRange(0, n).Draw(t, "joints on the way up")
	b.downs = n - b.ups
	root := drawBranch(t, b.robot, "l0", 1)
	stem := len(b.robot.Joints)
	b.base = drawBranch(t, b.robot, root, b.ups)
	mid := len(b.robot.Joints)
	b.tip = drawBranch(t, b.robot, root, b.downs)
	b.up, b.down = &urdf.Robot{Joints: b.robot.Joints[stem:mid]}, &urdf.Robot{Joints: b.robot.Joints[mid:]}
	return b
}

// split returns the values of each branch in its own order, root first.
func (b *branched) split(q *kinematics.Q) (up, down kinematics.Q) {
	for i := range b.ups {
		up[i] = q[b.ups-1-i]
	}
	copy(down[:b.downs], q[b.ups:])
	return up, down
}

// From one end to the other is the one branch undone and the other gone.
func TestForwardThroughATree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBranched(t)
		c, err := kinematics.NewChain(b.robot, b.base, b.tip)
		if err != nil {
			t.Fatal(err)
		}
		if c.N() != b.ups+b.downs {
			t.Fatalf("%d joints, want %d", c.N(), b.ups+b.downs)
		}
		q := drawQ(t, c.N())
		up, down := b.split(&q)
		want := product(b.up, &up).Inv().Mul(product(b.down, &down))
		var got se3.Pose
		if c.Forward(&q, &got); largest(got, want) > 1e-12 {
			t.Fatalf("pose %v, want %v, off by %.3g", got, want, largest(got, want))
		}
		back, err := kinematics.NewChain(b.robot, b.tip, b.base)
		if err != nil {
			t.Fatal(err)
		}
		slices.Reverse(q[:c.N()])
		var inverse se3.Pose
		if back.Forward(&q, &inverse); largest(inverse.Mul(got), se3.Identity()) > 1e-12 {
			t.Fatalf("the other way round %v, want the inverse of %v", inverse, got)
		}
	})
}

func TestJacobianThroughATree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBranched(t)
		c, err := kinematics.NewChain(b.robot, b.base, b.tip)
		if err != nil {
			t.Fatal(err)
		}
		checkJacobian(t, c, drawQ(t, c.N()))
	})
}

// Every link of the tree that hangs on the common link is listed, once, where
// the joints put it.
func TestLinksThroughATree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBranched(t)
		c, err := kinematics.NewChain(b.robot, b.base, b.tip)
		if err != nil {
			t.Fatal(err)
		}
		q := drawQ(t, c.N())
		links := c.Links(&q, nil)
		seen := map[string]se3.Pose{}
		for _, l := range links {
			seen[l.Link] = l.BaseFromLink
		}
		if len(seen) != len(links) {
			t.Fatalf("a link twice in %v", links)
		}
		up, down := b.split(&q)
		rootFromBase := product(b.up, &up)
		for branch, values := range map[*urdf.Robot]*kinematics.Q{b.up: &up, b.down: &down} {
			for i := range branch.Joints {
				part := &urdf.Robot{Joints: branch.Joints[:i+1]}
				name := branch.Joints[i].Child
				got, listed := seen[name]
				if want := rootFromBase.Inv().Mul(product(part, values)); !listed || largest(got, want) > 1e-12 {
					t.Fatalf("link %s listed %v at %v, want %v", name, listed, got, want)
				}
			}
		}
	})
}

// A joint on the way up keeps its name, limits and speed.
func TestJointsOnTheWayUpAreTheFiles(t *testing.T) {
	r := tableBeside(readRobot(t, "sphw6"), 2)
	c := newChain(t, r, "top", "flange")
	var names []string
	for i := range c.N() {
		names = append(names, c.Joint(i).Name)
	}
	if want := []string{"turn", "tilt", "j1", "j2", "j3", "j4", "j5", "j6"}; !slices.Equal(names, want) {
		t.Fatalf("joints %v, want %v", names, want)
	}
	want := kinematics.Joint{Name: "tilt", Kind: kinematics.Revolute, Lower: -0.3, Upper: 1.6, Velocity: 0.5, Effort: 400}
	if got := c.Joint(1); got != want {
		t.Errorf("joint tilt is %+v, want %+v", got, want)
	}
	// The table's top at +90 deg about z: what lay along x in the room lies
	// along -y in the top's frame.
	at := forward(c, kinematics.Q{math.Pi / 2})
	still := forward(c, kinematics.Q{})
	if turned := (r3.Vec{X: still.P.Y, Y: -still.P.X, Z: still.P.Z}); at.P.Dist(turned) > 1e-12 {
		t.Errorf("flange at %v, want %v", at.P, turned)
	}
}

// tableBeside puts a turning table beside an arm on link0: its top turns about
// z, above it for two axes a tilt about x. Invented.
func tableBeside(r *urdf.Robot, axes int) *urdf.Robot {
	out := &urdf.Robot{Name: r.Name + " with a table", Joints: slices.Clone(r.Joints)}
	out.Links = append(slices.Clone(r.Links), urdf.Link{Name: "cradle"}, urdf.Link{Name: "top"})
	tilt := urdf.Joint{Name: "tilt", Kind: urdf.Revolute, Parent: "link0", Child: "cradle", Axis: r3.Vec{X: 1},
		Origin: se3.Translation(r3.Vec{X: 0.5, Y: -0.4, Z: 0.1}), Limit: urdf.Limit{Lower: -0.3, Upper: 1.6, Velocity: 0.5, Effort: 400}}
	if axes == 1 {
		tilt.Kind = urdf.Fixed
	}
	turn := urdf.Joint{Name: "turn", Kind: urdf.Continuous, Parent: "cradle", Child: "top", Axis: r3.Vec{Z: 1},
		Origin: se3.Translation(r3.Vec{Z: 0.15})}
	out.Joints = append(out.Joints, tilt, turn)
	return out
}

// The table is taken as free, and with it held the arm keeps its closed form:
// the answers are those of the arm alone, carried over.
func TestSolveWithATurningTable(t *testing.T) {
	for _, arm := range arms {
		for axes := 1; axes <= 2; axes++ {
			r := chainOnlyLimits(readRobot(t, arm))
			alone := newSolver(t, newChain(t, r, "link0", "flange"))
			s := newSolver(t, newChain(t, tableBeside(r, axes), "top", "flange"))
			var free []int
			for _, f := range s.Free() {
				free = append(free, f.Joint)
			}
			if want := []int{0, 1}[:axes]; !slices.Equal(free, want) || s.Family() != alone.Family() || !s.Exact() {
				t.Fatalf("%s: free joints %v, %v, exact %v; want %v, %v", arm, free, s.Family(), s.Exact(), want, alone.Family())
			}
			table := newChain(t, tableBeside(r, axes), "top", "link0")
			for k, q := range randomPostures9(60, 6+axes, 4) {
				if axes == 2 {
					q[1] = -0.3 + (q[1]/math.Pi+1)/2*1.9
				}
				var inner, seed kinematics.Q
				copy(inner[:6], q[axes:])
				seed = q
				topFromFlange := forward(s.Chain(), q)
				baseFromFlange := forward(table, q).Inv().Mul(topFromFlange)
				if d := largest(baseFromFlange, forward(alone.Chain(), inner)); d > 1e-12 {
					t.Fatalf("%s: the table shifts the arm by %.3g", arm, d)
				}
				want := solve(alone, baseFromFlange, &inner)
				var got, chosen kinematics.Solutions
				s.SolveHeld(&q, &topFromFlange, &seed, &got)
				checkLong(t, s, topFromFlange, &got, q)
				if got.N != want.N || got.Status != want.Status || got.Branch != want.Branch {
					t.Fatalf("%s, posture %d: %d postures (%v), the arm alone has %d (%v)", arm, k, got.N, got.Status, want.N, want.Status)
				}
				for i := range got.N {
					if d := apart(got.Q[i][axes:axes+6], want.Q[i][:6]); d > 1e-6 {
						t.Errorf("%s, posture %d: %.3g rad from that of the arm alone", arm, k, d)
					}
				}
				at := k % s.Choices()
				v := s.ChoiceValue(at)
				s.SolveChoice(at, &topFromFlange, &seed, &chosen)
				checkLong(t, s, topFromFlange, &chosen, v)
			}
		}
	}
}

// chainOnlyLimits is chainOnly that keeps the arm's limits.
func chainOnlyLimits(r *urdf.Robot) *urdf.Robot {
	out := &urdf.Robot{Name: r.Name, Links: r.Links}
	for _, j := range r.Joints {
		if j.Child != "tcp" {
			out.Joints = append(out.Joints, j)
		}
	}
	return out
}

// The library goes up a tree in the same way (its function getChain of base and
// tip), with the same joint values.
func TestTreesAgreeWithLibraryLive(t *testing.T) {
	var list []branched
	var ask []peerChain
	for seed := range 150 {
		b := rapid.Custom(drawBranched).Example(seed)
		p := peerOf(b.robot)
		p.Root, p.Base, p.Tip = "l0", b.base, b.tip
		for _, q := range randomPostures9(5, b.ups+b.downs, uint64(seed)) {
			p.Q = append(p.Q, append([]float64(nil), q[:b.ups+b.downs]...))
		}
		list, ask = append(list, b), append(ask, p)
	}
	compareForward(t, ask, func(i int) *kinematics.Chain { return newChain(t, list[i].robot, list[i].base, list[i].tip) })
}

// Beside an arm without a closed form, too, it is the table that is chosen, and
// of a table before five joints as much of it as is left over.
func TestNewTableSolverTakesTheTable(t *testing.T) {
	arm := armOfFamily(5, kinematics.General)
	arm.Links[0].Name, arm.Joints[0].Parent = "link0", "link0"
	tip := arm.Joints[len(arm.Joints)-1].Child
	for _, row := range []struct {
		name     string
		base, to string
		axes     int
		free     []int
	}{
		{"one axis", "top", tip, 1, []int{0}},
		{"two axes", "top", tip, 2, []int{0, 1}},
		{"two axes before five", "top", arm.Joints[4].Child, 2, []int{0}},
	} {
		t.Run(row.name, func(t *testing.T) {
			c := newChain(t, tableBeside(arm, row.axes), row.base, row.to)
			s, err := kinematics.NewTableSolver(c, row.axes)
			if err != nil {
				t.Fatal(err)
			}
			var free []int
			for _, f := range s.Free() {
				free = append(free, f.Joint)
			}
			if !slices.Equal(free, row.free) {
				t.Fatalf("free joints %v, want %v", free, row.free)
			}
			for _, q := range randomPostures9(5, c.N(), 1) {
				if row.axes == 2 {
					q[1] = -0.3 + (q[1]/math.Pi+1)/2*1.9
				}
				pose := forward(c, q)
				var out kinematics.Solutions
				s.SolveHeld(&q, &pose, &q, &out)
				checkLong(t, s, pose, &out, q)
				if d := nearestLong(q, &out, c.N()); d > 1e-6 {
					t.Errorf("posture %v is %.3g off the nearest of %d", q, d, out.N)
				}
			}
		})
	}
}
