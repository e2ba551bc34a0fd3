package kinematics_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// The same arm at shown = sign * value + offset stands the same: poses, links
// and limits.
func TestWithZerosIsTheSameArm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, flange := drawChain(t)
		c, err := kinematics.NewChain(r, "l0", flange)
		if err != nil {
			t.Fatal(err)
		}
		var offsets []float64
		var signs []int
		for range c.N() {
			offsets = append(offsets, drawAngle(t, "offset"))
			signs = append(signs, rapid.SampledFrom([]int{-1, 1}).Draw(t, "sign"))
		}
		shown, err := c.WithZeros(offsets, signs)
		if err != nil {
			t.Fatal(err)
		}
		q := drawQ(t, c.N())
		var v kinematics.Q
		for j := range c.N() {
			v[j] = float64(signs[j])*q[j] + offsets[j]
		}
		var a, b se3.Pose
		c.Forward(&q, &a)
		shown.Forward(&v, &b)
		if d := largest(a, b); d > 1e-12 {
			t.Fatalf("off by %.3g", d)
		}
		ours, theirs := c.Links(&q, nil), shown.Links(&v, nil)
		for i := range ours {
			if ours[i].Link != theirs[i].Link || largest(ours[i].BaseFromLink, theirs[i].BaseFromLink) > 1e-12 {
				t.Fatalf("link %v, want %v", theirs[i], ours[i])
			}
		}
		for j := range c.N() {
			if k := c.Joint(j); k.Kind == kinematics.Prismatic {
				lo, hi := float64(signs[j])*k.Lower+offsets[j], float64(signs[j])*k.Upper+offsets[j]
				if got := shown.Joint(j); got.Lower != min(lo, hi) || got.Upper != max(lo, hi) {
					t.Fatalf("limits %v to %v, want %v, %v", got.Lower, got.Upper, lo, hi)
				}
			}
		}
	})
}

// Inverse kinematics speaks in shown values too.
func TestWithZerosSolves(t *testing.T) {
	c := readChain(t, "offw6")
	offsets, signs := []float64{0.1, -math.Pi / 2, 0, math.Pi / 2, 3, -0.4}, []int{1, -1, 1, -1, -1, 1}
	shown, err := c.WithZeros(offsets, signs)
	if err != nil {
		t.Fatal(err)
	}
	plain, s := newSolver(t, c), newSolver(t, shown)
	if s.Family() != plain.Family() || !s.Exact() {
		t.Fatalf("family %v, exact %v", s.Family(), s.Exact())
	}
	for _, q := range randomPostures(300) {
		pose := forward(c, q)
		a, b := solve(plain, pose, nil), solve(s, pose, nil)
		if a.Geometric != b.Geometric || a.N != b.N {
			t.Fatalf("%d of %d postures, want %d of %d", b.N, b.Geometric, a.N, a.Geometric)
		}
		checkPostures(t, s, pose, &b)
		list := postures(&b)
		for _, p := range postures(&a) {
			for j := range p {
				p[j] = float64(signs[j])*p[j] + offsets[j]
			}
			if d := nearestTo(p, list); d > 1e-7 {
				t.Errorf("shown posture %v is missing by %.3g", p, d)
			}
		}
	}
}

func TestWithZerosRefuses(t *testing.T) {
	c := newChain(t, armOf([]r3.Vec{{Z: 1}, {Y: 1}}, make([]r3.Vec, 3)), "l0", "l3")
	rows := []struct {
		name    string
		offsets []float64
		signs   []int
		want    string
	}{
		{"one offset", []float64{0}, []int{1, 1}, "joint zeros: found 1 offsets and 2 signs; allowed: 2 of each, one for each moving joint; complete the lists"},
		{"no number", []float64{0, math.NaN()}, []int{1, 1}, `joint zeros: found offset NaN for joint 2 ("j2"); allowed: a finite number of rad or m; correct it`},
		{"no sign", []float64{0, 0}, []int{0, 1}, `joint zeros: found sign 0 for joint 1 ("j1"); allowed: 1 or -1; correct it`},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			if _, err := c.WithZeros(row.offsets, row.signs); err == nil || err.Error() != row.want {
				t.Errorf("got  %v\nwant %s", err, row.want)
			}
		})
	}
}

// An arm on a wall or under a ceiling is the same arm: the pose is taken into
// its base, and solved there.
func TestArmsHangAnywhere(t *testing.T) {
	s := newSolver(t, readFreeChain(t, "sphw6"))
	for name, worldFromBase := range map[string]se3.Pose{
		"ceiling": {R: se3.RotX(math.Pi), P: r3.Vec{X: 1, Z: 3}},
		"wall":    {R: se3.RotY(math.Pi / 2), P: r3.Vec{Y: -0.4, Z: 1.6}},
		"leaning": {R: se3.RotAxis(r3.Vec{X: 0.6, Y: 0.8}, 0.7), P: r3.Vec{Z: 0.2}},
	} {
		q := kinematics.Q{0.4, -1.2, 1.1, 0.7, 0.8, -0.3}
		worldFromFlange := worldFromBase.Mul(forward(s.Chain(), q))
		out := solve(s, worldFromBase.Inv().Mul(worldFromFlange), &q)
		if d := nearestTo(q[:6], postures(&out)); d > 1e-9 {
			t.Errorf("%s: the posture is missing by %.3g", name, d)
		}
		for i := range out.N {
			got := worldFromBase.Mul(forward(s.Chain(), out.Q[i]))
			if got.P.Dist(worldFromFlange.P) > 1e-9 || got.R.AngleTo(worldFromFlange.R) > 1e-9 {
				t.Errorf("%s: posture %d is elsewhere", name, i)
			}
		}
	}
}

// A turning table that carries the part is a chain of one or two joints from
// the world to the part.
func TestTurningTableIsAChain(t *testing.T) {
	r := &urdf.Robot{Name: "table", Links: []urdf.Link{{Name: "world"}, {Name: "yoke"}, {Name: "plate"}, {Name: "part"}},
		Joints: []urdf.Joint{
			{Name: "tilt", Kind: urdf.Revolute, Parent: "world", Child: "yoke", Axis: r3.Vec{Y: 1}, Origin: se3.Translation(r3.Vec{X: 1, Z: 0.8}), Limit: urdf.Limit{Lower: -1.6, Upper: 1.6}},
			{Name: "spin", Kind: urdf.Continuous, Parent: "yoke", Child: "plate", Axis: r3.Vec{Z: 1}, Origin: se3.Translation(r3.Vec{Z: 0.1})},
			{Name: "clamp", Kind: urdf.Fixed, Parent: "plate", Child: "part", Origin: se3.Translation(r3.Vec{X: 0.2, Z: 0.05})},
		}}
	two := newChain(t, r, "world", "part")
	// Tilted by 90 deg about y, z becomes x and x becomes -z; spun by 90 deg
	// about its own z before, the part's shift points along y.
	got := forward(two, kinematics.Q{math.Pi / 2, math.Pi / 2})
	if want := (r3.Vec{X: 1.15, Y: 0.2, Z: 0.8}); got.P.Dist(want) > 1e-15*10 {
		t.Errorf("part at %v, want %v", got.P, want)
	}
	if z := got.R.Z(); z.Dist(r3.Vec{X: 1}) > 1e-15 {
		t.Errorf("part's z points along %v, want x", z)
	}
	one := newChain(t, r, "yoke", "part")
	if one.N() != 1 || two.N() != 2 {
		t.Fatalf("%d and %d joints", one.N(), two.N())
	}
	if got := forward(one, kinematics.Q{math.Pi}); got.P.Dist(r3.Vec{X: -0.2, Z: 0.15}) > 1e-15 {
		t.Errorf("part in the yoke at %v", got.P)
	}
	if _, err := kinematics.NewSolver(two); err == nil {
		t.Error("two joints were taken for an arm")
	}
}
