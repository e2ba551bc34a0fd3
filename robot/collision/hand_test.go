package collision_test

import (
	"math"
	"strings"
	"testing"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/robot/urdf"
)

// cross is a robot whose carriage slides along x and y, 1 m either way, and
// then turns about z.
func cross(tb testing.TB) *kinematics.Chain {
	tb.Helper()
	slide := urdf.Limit{Lower: -1, Upper: 1}
	r := &urdf.Robot{Name: "cross", Links: []urdf.Link{{Name: "bed"}, {Name: "x"}, {Name: "y"}, {Name: "turret"}}}
	add := func(name, parent string, kind urdf.JointKind, axis r3.Vec, limit urdf.Limit) {
		r.Joints = append(r.Joints, urdf.Joint{Name: name, Kind: kind, Parent: parent, Child: name, Axis: axis, Origin: se3.Identity(), Limit: limit})
	}
	add("x", "bed", urdf.Prismatic, r3.Vec{X: 1}, slide)
	add("y", "x", urdf.Prismatic, r3.Vec{Y: 1}, slide)
	add("turret", "y", urdf.Revolute, r3.Vec{Z: 1}, urdf.Limit{Lower: -3, Upper: 3})
	return newChain(tb, r, "bed", "turret")
}

func solidBox(tb testing.TB, x, y, z float64) collision.Shape {
	tb.Helper()
	s, err := convex.NewBox(r3.Vec{X: x, Y: y, Z: z})
	if err != nil {
		tb.Fatal(err)
	}
	return collision.OfSolid(s)
}

// crossModel has a post of 200 mm about the bed's origin and a block of 100 mm
// on the turret, each a mesh or a solid.
func crossModel(tb testing.TB, postMesh, blockMesh bool) *collision.Model {
	tb.Helper()
	post, block := solidBox(tb, 0.2, 0.2, 0.2), solidBox(tb, 0.1, 0.1, 0.1)
	if postMesh {
		post = box(tb, 0.2, 0.2, 0.2)
	}
	if blockMesh {
		block = box(tb, 0.1, 0.1, 0.1)
	}
	m, _, err := collision.NewModel(cross(tb), []collision.Body{
		{Name: "post", Group: collision.Fixture, LinkFromBody: se3.Identity(), Shape: post},
		{Name: "block", Group: collision.TorchBody, Link: 3, LinkFromBody: se3.Identity(), Shape: block},
	}, collision.PairOptions{Keep: [][2]string{{"block", "post"}}})
	if err != nil {
		tb.Fatal(err)
	}
	return m
}

// kinds runs a test for solids and meshes in every combination.
func kinds(t *testing.T, f func(t *testing.T, postMesh, blockMesh bool)) {
	for _, k := range []struct {
		name        string
		post, block bool
	}{{"solids", false, false}, {"mesh post", true, false}, {"mesh block", false, true}, {"meshes", true, true}} {
		t.Run(k.name, func(t *testing.T) { f(t, k.post, k.block) })
	}
}

func TestDistanceByHand(t *testing.T) {
	kinds(t, func(t *testing.T, post, block bool) {
		m := crossModel(t, post, block)
		s, r := m.Scratch(), m.Wanted(0.05)
		for _, row := range []struct {
			q    kinematics.Q
			want float64
		}{
			{kinematics.Q{0.5}, 0.35},
			{kinematics.Q{0.5, 0.5}, 0.35 * math.Sqrt2},
			{kinematics.Q{0, -0.4, 0.3}, 0.4 - 0.1 - 0.05*(math.Cos(0.3)+math.Sin(0.3))},
			{kinematics.Q{0.14}, 0},
		} {
			near, found := m.Least(s, &row.q, r, math.Inf(1))
			if !found || math.Abs(near.Distance-row.want) > 1e-12 || near.Wanted != 0.05 {
				t.Errorf("at %v: %+v, want %g", row.q, near, row.want)
			}
			if clear := m.Clear(s, &row.q, r); clear != (row.want >= 0.05) {
				t.Errorf("at %v: clear %v at %g", row.q, clear, row.want)
			}
		}
		// The points are on A and B in this order, in the base.
		near, _ := m.Least(s, &kinematics.Q{0.5}, r, 1)
		if math.Abs(near.A.X-0.1) > 1e-12 || math.Abs(near.B.X-0.45) > 1e-12 {
			t.Errorf("points %+v", near)
		}
		if _, found := m.Least(s, &kinematics.Q{0.5}, r, 0.3); found {
			t.Error("slack 0.3 is not under 0.3")
		}
	})
}

// What a Scratch remembers of a pair that was apart does not outlive a move, or a
// turn in place, that brings it near.
func TestLeastAfterAMoveByHand(t *testing.T) {
	kinds(t, func(t *testing.T, post, block bool) {
		m := crossModel(t, post, block)
		r := m.Wanted(0)
		for _, row := range []struct {
			name        string
			was, is     kinematics.Q
			limit, want float64
		}{
			{"moved", kinematics.Q{0.5}, kinematics.Q{0.2}, 0.1, 0.05},
			{"turned", kinematics.Q{0.18}, kinematics.Q{0.18, 0, math.Pi / 4}, 0.01, 0.08 - 0.05*math.Sqrt2},
		} {
			s := m.Scratch()
			if _, found := m.Least(s, &row.was, r, 1); !found {
				t.Errorf("%s: nothing found before", row.name)
			}
			if near, found := m.Least(s, &row.is, r, row.limit); !found || math.Abs(near.Distance-row.want) > 1e-12 {
				t.Errorf("%s: %v %+v, want %g", row.name, found, near, row.want)
			}
		}
	})
}

// Between two samples the block may go through the post, past it, or turn into it:
// the samples alone do not tell, the path does.
func TestBetweenByHand(t *testing.T) {
	kinds(t, func(t *testing.T, post, block bool) {
		m := crossModel(t, post, block)
		s, r := m.Scratch(), m.Wanted(0)
		for _, row := range []struct {
			name         string
			from, to     kinematics.Q
			alone, given bool    // clear by the samples alone, with the path given
			least        float64 // m
		}{
			{"through it", kinematics.Q{-0.9}, kinematics.Q{0.9}, false, false, 0},
			{"past it", kinematics.Q{-0.9, 0.3}, kinematics.Q{0.9, 0.3}, false, true, 0.15},
			{"to it and no farther", kinematics.Q{0.25}, kinematics.Q{0.2}, true, true, 0.05},
			{"turning beside it", kinematics.Q{0.16}, kinematics.Q{0.16, 0, math.Pi / 2}, false, false, 0},
		} {
			qs := []kinematics.Q{row.from, row.to}
			path := func(_ int, share float64) kinematics.Q { return between(&row.from, &row.to, share) }
			for _, limit := range []float64{0.1, 1} {
				alone, err := m.Between(s, qs, r, collision.PathOptions{Limit: limit})
				if err != nil {
					t.Fatal(err)
				}
				given, err := m.Between(s, qs, r, collision.PathOptions{Limit: limit, At: path})
				if err != nil {
					t.Fatal(err)
				}
				if st := alone[0]; st.Clear != row.alone || st.Lower > row.least+1e-12 {
					t.Errorf("%s, under %g: %+v, want clear %v and a slack of %g", row.name, limit, st, row.alone, row.least)
				}
				if st := given[0]; st.Clear != row.given || st.Lower > row.least+1e-12 {
					t.Errorf("%s, under %g with the path: %+v, want clear %v and a slack of %g", row.name, limit, st, row.given, row.least)
				}
			}
		}
	})
}

// Past the post at 0.3 m the block comes as near as 150 mm; turning as it goes,
// its corner comes nearer.
func TestMoveByHand(t *testing.T) {
	kinds(t, func(t *testing.T, post, block bool) {
		m := crossModel(t, post, block)
		s := m.Scratch()
		corner := 0.2 - 0.05*math.Sqrt2
		for _, row := range []struct {
			name     string
			from, to kinematics.Q
			wanted   float64
			least    float64
			clear    bool
		}{
			{"past it", kinematics.Q{-0.9, 0.3}, kinematics.Q{0.9, 0.3}, 0.1, 0.15, true},
			{"past it, too near", kinematics.Q{-0.9, 0.3}, kinematics.Q{0.9, 0.3}, 0.151, 0.15, false},
			{"past it, exactly", kinematics.Q{-0.9, 0.3}, kinematics.Q{0.9, 0.3}, 0.15 - 1e-9, 0.15, true},
			{"turning", kinematics.Q{-0.9, 0.3, -math.Pi / 4}, kinematics.Q{0.9, 0.3, 3 * math.Pi / 4}, 0.1, corner, true},
			{"through it", kinematics.Q{-0.9, 0.01}, kinematics.Q{0.9, 0.02}, 0, 0, false},
			{"no way", kinematics.Q{0.4}, kinematics.Q{0.4}, 0.1, 0.25, true},
			{"touching on the way out", kinematics.Q{0.15}, kinematics.Q{0.5}, 0, 0, false},
			{"just off on the way out", kinematics.Q{0.15 + 1e-9}, kinematics.Q{0.5}, 0, 1e-9, true},
		} {
			got := m.LeastMove(s, &row.from, &row.to, m.Wanted(row.wanted), math.Inf(1))
			quick := m.ClearMove(s, &row.from, &row.to, m.Wanted(row.wanted))
			give := collision.Resolution + collision.Share*max(0, row.least-row.wanted)
			if got.Clear != row.clear || quick != row.clear {
				t.Errorf("%s: clear %v and %v, want %v: %+v", row.name, got.Clear, quick, row.clear, got)
			}
			if got.Near.Distance < row.least-1e-12 || got.Near.Distance > row.least+give || got.Lower > row.least-row.wanted+1e-12 {
				t.Errorf("%s: %+v, want a distance of %g", row.name, got, row.least)
			}
		}
		far := m.LeastMove(s, &kinematics.Q{-0.9, 0.9}, &kinematics.Q{0.9, 0.9}, m.Wanted(0), 0.2)
		if !far.Clear || far.Near.Pair != -1 || far.Lower < 0.2-collision.Resolution-0.2*collision.Share {
			t.Errorf("far from it: %+v", far)
		}
	})
}

func TestEscapeByHand(t *testing.T) {
	kinds(t, func(t *testing.T, post, block bool) {
		m := crossModel(t, post, block)
		s, r := m.Scratch(), m.Wanted(0.01)
		q := kinematics.Q{0.13, 0.02}
		e := m.Escape(s, &q, r, collision.EscapeOptions{
			Tip: []r3.Vec{{Y: 1}, {X: 2}},
			Shift: func(q kinematics.Q, by r3.Vec) (kinematics.Q, bool) {
				return kinematics.Q{q[0] + by.X, q[1] + by.Y, q[2]}, true
			},
		})
		if len(e.Hits) != 1 || e.Hits[0].Near.Distance != 0 || math.Abs(e.Hits[0].Depth-0.02) > 0.11e-3 || e.Hits[0].Way.X < 0.999 {
			t.Fatalf("hits %+v, want the block 20 mm deep and out along x", e.Hits)
		}
		// 20 mm to be free, 10 mm for what is wanted, and the search's step.
		if f := e.Joint; !f.Found || f.Joint != 0 || f.By < 0.03-1e-9 || f.By > 0.03+1e-4 || math.Abs(f.Moves-f.By) > 1e-9 || f.Near.Slack() < 0 {
			t.Errorf("joint %+v, want x by 30 mm", f)
		}
		if f := e.Tip; !f.Found || f.Tip != 1 || f.By < 0.03-1e-9 || f.By > 0.03+1e-4 || !m.Clear(s, &f.Q, r) {
			t.Errorf("tip %+v, want the second direction by 30 mm", f)
		}
		if e := m.Escape(s, &kinematics.Q{0.5}, r, collision.EscapeOptions{}); len(e.Hits)+len(e.Inside) != 0 || e.Joint.Found || e.Tip.Found {
			t.Errorf("clear of everything, but %+v", e)
		}
		near := m.Escape(s, &kinematics.Q{0.155}, r, collision.EscapeOptions{})
		if len(near.Hits) != 1 || near.Hits[0].Depth != 0 || math.Abs(near.Hits[0].Near.Slack()+0.005) > 1e-9 || !near.Joint.Found {
			t.Errorf("5 mm too near: %+v", near)
		}
	})
}

// A block inside a hollow post touches nothing, and counts as hit all the same;
// inside an open one it cannot be told.
func TestInside(t *testing.T) {
	solid := solidBox(t, 0.1, 0.1, 0.1)
	for _, row := range []struct {
		name            string
		post, block     collision.Shape
		inside, unknown int
	}{
		{"solid in a mesh", box(t, 0.2, 0.2, 0.2), solid, 1, 0},
		{"mesh in a mesh", box(t, 0.2, 0.2, 0.2), box(t, 0.1, 0.1, 0.1), 1, 0},
		{"mesh about a mesh", box(t, 0.05, 0.05, 0.05), box(t, 0.1, 0.1, 0.1), 1, 0},
		{"solid in an open mesh", openBox(t, 0.2), solid, 0, 1},
	} {
		t.Run(row.name, func(t *testing.T) {
			m, _, err := collision.NewModel(cross(t), []collision.Body{
				{Name: "post", LinkFromBody: se3.Identity(), Shape: row.post},
				{Name: "block", Link: 3, LinkFromBody: se3.Identity(), Shape: row.block},
			}, collision.PairOptions{})
			if err != nil {
				t.Fatal(err)
			}
			s, r := m.Scratch(), m.Wanted(0)
			inside, unknown := m.Inside(s, &kinematics.Q{}, r)
			if len(inside) != row.inside || len(unknown) != row.unknown {
				t.Errorf("inside %v, unknown %v", inside, unknown)
			}
			if inside, unknown := m.Inside(s, &kinematics.Q{0.5}, r); len(inside)+len(unknown) != 0 {
				t.Errorf("apart, but inside %v, unknown %v", inside, unknown)
			}
			if inside, unknown := m.Inside(s, &kinematics.Q{0.06}, r); len(inside)+len(unknown) != 0 {
				t.Errorf("skins cross, but inside %v, unknown %v", inside, unknown)
			}
			if row.inside == 0 {
				return
			}
			e := m.Escape(s, &kinematics.Q{}, r, collision.EscapeOptions{})
			if f := e.Joint; len(e.Inside) != 1 || !f.Found || !m.Clear(s, &f.Q, r) || f.By < 0.05 {
				t.Errorf("escape %+v", e)
			}
		})
	}
}

// openBox is a box without its top.
func openBox(tb testing.TB, size float64) collision.Shape {
	tb.Helper()
	whole, err := bvh.NewBox(r3.Vec{X: size, Y: size, Z: size})
	if err != nil {
		tb.Fatal(err)
	}
	var vertices []r3.Vec
	var triangles [][3]int32
	for i := range int32(whole.Len()) {
		a, b, c := whole.Triangle(i)
		if a.Z > 0 && b.Z > 0 && c.Z > 0 {
			continue
		}
		n := int32(len(vertices))
		vertices = append(vertices, a, b, c)
		triangles = append(triangles, [3]int32{n, n + 1, n + 2})
	}
	tree, err := bvh.New(vertices, triangles)
	if err != nil {
		tb.Fatal(err)
	}
	return collision.OfTree(tree)
}

func TestNewModelRefuses(t *testing.T) {
	chain := cross(t)
	good := collision.Body{Name: "block", Link: 3, LinkFromBody: se3.Identity(), Shape: solidBox(t, 1, 1, 1)}
	other := good
	other.Name, other.Link = "post", 0
	change := func(f func(b *collision.Body)) []collision.Body {
		b := good
		f(&b)
		return []collision.Body{other, b}
	}
	fine := []collision.Body{other, good}
	pair := func(a, b string) [][2]string { return [][2]string{{a, b}} }
	for _, row := range []struct {
		name   string
		chain  *kinematics.Chain
		bodies []collision.Body
		o      collision.PairOptions
		want   string
	}{
		{"no chain", nil, fine, collision.PairOptions{}, "found no chain"},
		{"no name", chain, change(func(b *collision.Body) { b.Name = "" }), collision.PairOptions{}, `body 1 "": found no name`},
		{"name twice", chain, change(func(b *collision.Body) { b.Name = "post" }), collision.PairOptions{}, `body 1 "post": found the name of body 0`},
		{"link", chain, change(func(b *collision.Body) { b.Link = 4 }), collision.PairOptions{}, "found link 4; allowed: 0 to 3"},
		{"no shape", chain, change(func(b *collision.Body) { b.Shape = collision.Shape{} }), collision.PairOptions{}, "found no shape"},
		{"pose", chain, change(func(b *collision.Body) { b.LinkFromBody.P.X = math.NaN() }), collision.PairOptions{}, "a pose that is not finite"},
		{"turn", chain, change(func(b *collision.Body) { b.LinkFromBody = se3.Pose{} }), collision.PairOptions{}, "no rotation"},
		{"samples", chain, fine, collision.PairOptions{Samples: -1}, "found -1 sampled postures"},
		{"unknown name", chain, fine, collision.PairOptions{Keep: pair("post", "torch")}, `found no body "torch"`},
		{"one body", chain, fine, collision.PairOptions{LeaveOut: pair("post", "post")}, "found one body twice"},
		{"both", chain, fine, collision.PairOptions{LeaveOut: pair("post", "block"), Keep: pair("block", "post")}, "both to keep and to leave out"},
	} {
		t.Run(row.name, func(t *testing.T) {
			if _, _, err := collision.NewModel(row.chain, row.bodies, row.o); err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want %q in it", err, row.want)
			}
		})
	}
}

// An angle of two plates about the corner of a block: the middle of the angle's
// box is inside the block, and the two are 10 mm apart.
func TestAngleAboutACorner(t *testing.T) {
	v := func(x, y float64) (low, high r3.Vec) {
		return r3.Vec{X: x, Y: y, Z: -0.05}, r3.Vec{X: x, Y: y, Z: 0.05}
	}
	a, b := v(-0.1, 0.1)
	c, d := v(0.1, 0.1)
	e, f := v(0.1, -0.1)
	tree, err := bvh.New([]r3.Vec{a, b, c, d, e, f}, [][3]int32{{0, 1, 2}, {1, 2, 3}, {2, 3, 4}, {3, 4, 5}})
	if err != nil {
		t.Fatal(err)
	}
	m, _, err := collision.NewModel(cross(t), []collision.Body{
		{Name: "block", LinkFromBody: se3.Translation(r3.Vec{X: -0.41, Y: -0.41}), Shape: solidBox(t, 1, 1, 1)},
		{Name: "angle", Link: 3, LinkFromBody: se3.Identity(), Shape: collision.OfTree(tree)},
	}, collision.PairOptions{})
	if err != nil {
		t.Fatal(err)
	}
	s := m.Scratch()
	near, _ := m.Least(s, &kinematics.Q{}, m.Wanted(0), 1)
	if math.Abs(near.Distance-0.01) > 1e-9 || !m.Clear(s, &kinematics.Q{}, m.Wanted(0.009)) || m.Clear(s, &kinematics.Q{}, m.Wanted(0.011)) {
		t.Errorf("%+v, want 10 mm", near)
	}
}
