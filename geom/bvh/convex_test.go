package bvh_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/bvh"
	"seamwright/geom/convex"
	meshes "seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// anySolid draws a solid of any kind, its sizes from a coarse grid or free.
func anySolid(t *rapid.T) convex.Solid {
	grid := rapid.Bool().Draw(t, "sizes on grid")
	size := func(name string) float64 {
		if grid {
			return float64(rapid.IntRange(1, 4).Draw(t, name)) / 4
		}
		return rapid.Float64Range(0.01, 1).Draw(t, name)
	}
	var s convex.Solid
	var err error
	switch convex.Kind(rapid.IntRange(0, 4).Draw(t, "kind")) {
	case convex.Box:
		s, err = convex.NewBox(r3.Vec{X: size("x"), Y: size("y"), Z: size("z")})
	case convex.Cylinder:
		s, err = convex.NewCylinder(size("radius"), size("length"))
	case convex.Sphere:
		s, err = convex.NewSphere(size("radius"))
	case convex.Capsule:
		s, err = convex.NewCapsule(size("radius"), size("length"))
	case convex.Cone:
		s, err = convex.NewCone(size("foot"), size("top")-0.01, size("length"))
	}
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// solidAndMesh returns the least distance (m) of a solid to any triangle, each
// asked for itself.
func solidAndMesh(s *convex.Solid, m mesh, meshFromSolid se3.Pose) float64 {
	least := math.Inf(1)
	for i := range m.triangles {
		c := m.corners(i)
		for k := range c {
			c[k] = meshFromSolid.Inv().Apply(c[k])
		}
		if gap, near := convex.DistanceTriangleUnder(s, &convex.Triangle{A: c[0], B: c[1], C: c[2]}, least); near {
			least = gap.Distance
		}
	}
	return least
}

func TestSolidAgainstAllTriangles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, m, pose := anySolid(t), anyMesh(t, 20), anyPose(t)
		tree := m.tree(t)
		want := solidAndMesh(&s, m, pose)
		spot, near := tree.SolidUnder(&s, pose, math.Inf(1))
		if !near || math.Abs(spot.Distance-want) > blur {
			t.Fatalf("%v %.17g, all triangles %.17g", near, spot.Distance, want)
		}
		if d := off(tree, spot.Triangle, spot.At); d > 1e-9 {
			t.Fatalf("%g off triangle %d", d, spot.Triangle)
		}
		if d := spot.At.Dist(spot.On); math.Abs(d-spot.Distance) > 1e-9 {
			t.Fatalf("points are %.17g apart, distance %.17g", d, spot.Distance)
		}
		if d := beyondSolid(&s, pose.Inv().Apply(spot.On)); d > 1e-9 {
			t.Fatalf("point %v is %g off the solid", spot.On, d)
		}
		start := int32(rapid.IntRange(-1, tree.Len()).Draw(t, "start"))
		if warm, near := tree.SolidUnderFrom(&s, pose, math.Inf(1), start); !near || math.Abs(warm.Distance-want) > blur {
			t.Fatalf("from %d: %v %.17g, want %.17g", start, near, warm.Distance, want)
		}
		for _, limit := range []float64{0, 0.1, want * 0.999, want * 1.001, want + 0.2} {
			under, near := tree.SolidUnder(&s, pose, limit)
			switch {
			case near != (want < limit) && math.Abs(want-limit) > blur:
				t.Fatalf("under %g: %v at %.17g", limit, near, want)
			case near && math.Abs(under.Distance-want) > blur:
				t.Fatalf("under %g: %.17g, want %.17g", limit, under.Distance, want)
			case !near && under.Distance != limit:
				t.Fatalf("under %g: %.17g", limit, under.Distance)
			}
			if clear := tree.ClearsSolid(&s, pose, limit); clear != (want >= limit && want > bvh.Touch) && math.Abs(want-limit) > 1e-9 {
				t.Fatalf("clears %g: %v at %.17g", limit, clear, want)
			}
		}
	})
}

// beyondSolid returns how far a point of the solid's frame (m) lies outside it
// at least, m: 0 in it.
func beyondSolid(s *convex.Solid, p r3.Vec) float64 {
	across := math.Hypot(p.X, p.Y)
	switch s.Kind {
	case convex.Box:
		return max(0, math.Abs(p.X)-s.Size.X/2, math.Abs(p.Y)-s.Size.Y/2, math.Abs(p.Z)-s.Size.Z/2)
	case convex.Sphere:
		return max(0, p.Norm()-s.Radius)
	case convex.Capsule:
		return max(0, math.Hypot(across, max(0, math.Abs(p.Z)-s.Length/2))-s.Radius)
	case convex.Cone:
		wide := s.Radius + (s.TopRadius-s.Radius)*(p.Z/s.Length+0.5)
		return max(0, math.Abs(p.Z)-s.Length/2, (across-wide)*s.Length/math.Hypot(s.Length, s.Radius-s.TopRadius))
	}
	return max(0, math.Abs(p.Z)-s.Length/2, across-s.Radius)
}

const chord = 1e-3 // by which the flats of the meshes below lie inside the true surface, m

// meshOf returns a mesh of the solid whose surface lies within it, by chord at
// most.
func meshOf(t failer, s *convex.Solid) meshes.Mesh {
	t.Helper()
	var m meshes.Mesh
	var err error
	switch s.Kind {
	case convex.Box:
		m, err = meshes.NewBox(s.Size)
	case convex.Cylinder:
		m, err = meshes.NewCylinder(s.Radius, s.Length, chord)
	case convex.Sphere:
		m, err = meshes.NewCapsule(s.Radius, 0, chord)
	case convex.Capsule:
		m, err = meshes.NewCapsule(s.Radius, s.Length, chord)
	case convex.Cone:
		m, err = meshes.NewCone(s.Radius, s.TopRadius, s.Length, chord)
		for i := range m.Vertices {
			m.Vertices[i].Z -= s.Length / 2 // the mesh stands on z = 0
		}
	}
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// A solid is as far from a mesh as its own mesh is, but for what the flats cut
// off.
func TestSolidAgainstItsMesh(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, m, pose := anySolid(t), anyMesh(t, 20), anyPose(t)
		tree := m.tree(t)
		own := meshOf(t, &s)
		flats := mesh{own.Vertices, own.Triangles}.tree(t)
		spot, _ := tree.SolidUnder(&s, pose, math.Inf(1))
		gap := tree.Distance(flats, pose)
		if gap.Distance == 0 && spot.Distance > 1e-9 {
			t.Fatalf("flats touch, the solid is %g away", spot.Distance)
		}

		if spot.Distance > 0 && !(gap.Distance > spot.Distance-blur && gap.Distance < spot.Distance+chord+1e-9) {
			t.Fatalf("solid %.17g, its flats %.17g", spot.Distance, gap.Distance)
		}
	})
}

// Inside a closed mesh is where the solid itself says so, but for the film
// between the flats and the true surface.
func TestContainsAgainstSolids(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, move := anySolid(t), anyPose(t)
		own := meshOf(t, &s)
		for i := range own.Vertices {
			own.Vertices[i] = move.Apply(own.Vertices[i])
		}
		tree := mesh{own.Vertices, own.Triangles}.tree(t)
		p := point(t, rapid.Bool().Draw(t, "point on grid"))
		inside, known := tree.Contains(move.Apply(p))
		surface := tree.Nearest(move.Apply(p)).Distance
		if !known {
			if surface > 1e-9 {
				t.Fatalf("not known at %g from the surface", surface)
			}
			return
		}
		if surface < 2*chord {
			return
		}
		if want := beyondSolid(&s, p) == 0; inside != want {
			t.Fatalf("%v at %v: inside %v, want %v", s, p, inside, want)
		}
	})
}

func TestContains(t *testing.T) {
	shell := func(half float64, at r3.Vec, flip bool) mesh {
		own, err := meshes.NewBox(r3.Vec{X: 2 * half, Y: 2 * half, Z: 2 * half})
		if err != nil {
			t.Fatal(err)
		}
		m := mesh{own.Vertices, own.Triangles}
		for i := range m.vertices {
			m.vertices[i] = m.vertices[i].Add(at)
		}
		for i := range m.triangles {
			if c := &m.triangles[i]; flip {
				c[1], c[2] = c[2], c[1]
			}
		}
		return m
	}
	join := func(all ...mesh) (sum mesh) {
		for _, m := range all {
			n := int32(len(sum.vertices))
			sum.vertices = append(sum.vertices, m.vertices...)
			for _, c := range m.triangles {
				sum.triangles = append(sum.triangles, [3]int32{c[0] + n, c[1] + n, c[2] + n})
			}
		}
		return sum
	}
	one := shell(1, r3.Vec{}, false)
	hole := one
	hole.triangles = hole.triangles[1:]
	mixed := shell(1, r3.Vec{}, false)
	mixed.triangles = append([][3]int32(nil), mixed.triangles...)
	mixed.triangles[0][1], mixed.triangles[0][2] = mixed.triangles[0][2], mixed.triangles[0][1]
	var sheets mesh // triangles with a back each: closed, and nothing in them
	for i := range int32(300) {
		x := float64(i) / 100
		sheets.vertices = append(sheets.vertices, r3.Vec{X: x, Y: 1}, r3.Vec{X: x, Y: -1, Z: 1}, r3.Vec{X: x, Y: -1, Z: -1})
		sheets.triangles = append(sheets.triangles, [3]int32{3 * i, 3*i + 1, 3*i + 2}, [3]int32{3 * i, 3*i + 2, 3*i + 1})
	}
	rows := []struct {
		name          string
		m             mesh
		at            r3.Vec
		inside, known bool
	}{
		{"middle", one, r3.Vec{}, true, true},
		{"beside", one, r3.Vec{X: 1.5}, false, true},
		{"far", one, r3.Vec{X: 1e4, Y: 3}, false, true},
		{"near a face, inside", one, r3.Vec{X: 1 - 1e-9}, true, true},
		{"near a face, outside", one, r3.Vec{X: 1 + 1e-9}, false, true},
		{"on a face", one, r3.Vec{X: 1}, false, false},
		{"on a corner", one, r3.Vec{X: 1, Y: 1, Z: 1}, false, false},
		{"level with a face", one, r3.Vec{X: 1, Y: 5}, false, true},
		{"inside out", shell(1, r3.Vec{}, true), r3.Vec{}, true, true},
		{"one triangle turned round", mixed, r3.Vec{}, true, true},
		{"one triangle turned round, beside", mixed, r3.Vec{Z: 2}, false, true},
		{"open", hole, r3.Vec{}, false, false},
		{"open, far", hole, r3.Vec{X: 99}, false, false},
		{"in a hollow", join(one, shell(0.5, r3.Vec{}, true)), r3.Vec{}, false, true},
		{"in the wall of a hollow", join(one, shell(0.5, r3.Vec{}, true)), r3.Vec{X: 0.75}, true, true},
		{"in two at a time", join(one, shell(1, r3.Vec{X: 0.5}, false)), r3.Vec{X: 0.1}, true, true},
		{"in one of two", join(one, shell(1, r3.Vec{X: 0.5}, false)), r3.Vec{X: 1.2}, true, true},
		{"among sheets", sheets, r3.Vec{X: 1.005, Y: 0.1}, false, true},
		{"no number", one, r3.Vec{X: math.NaN()}, false, false},
	}
	for _, row := range rows {
		if inside, known := row.m.tree(t).Contains(row.at); inside != row.inside || known != row.known {
			t.Errorf("%s: %v, known %v; want %v, %v", row.name, inside, known, row.inside, row.known)
		}
	}
}

func TestSolidsThatAreNoNumbers(t *testing.T) {
	tree := cube(1).tree(t)
	for _, s := range []convex.Solid{{Kind: convex.Box, Size: r3.Vec{X: 1, Y: 1, Z: 1}}, {Kind: convex.Sphere, Radius: 1}} {
		for _, x := range []float64{math.NaN(), math.Inf(1)} {
			pose := se3.Translation(r3.Vec{Y: x})
			if spot, near := tree.SolidUnder(&s, pose, math.Inf(1)); near || !math.IsNaN(spot.Distance) || tree.ClearsSolid(&s, pose, 0) {
				t.Errorf("%v at %v: %v, or reads as clear", s.Kind, x, spot)
			}
		}
		far := se3.Translation(r3.Vec{Y: 9})
		spoilt := s
		spoilt.Size.X, spoilt.Radius = math.NaN(), math.NaN()
		if spot, near := tree.SolidUnder(&spoilt, far, math.Inf(1)); near || !math.IsNaN(spot.Distance) || tree.ClearsSolid(&spoilt, far, 0) {
			t.Errorf("%v of no size: %v, or reads as clear", s.Kind, spot)
		}
		if spot, near := tree.SolidUnder(&s, far, math.NaN()); near || !math.IsNaN(spot.Distance) || tree.ClearsSolid(&s, far, math.NaN()) {
			t.Errorf("%v, limit NaN: %v, or reads as clear", s.Kind, spot)
		}
	}
}

func TestSolidQueriesDoNotAllocate(t *testing.T) {
	tree := cube(1).tree(t)
	tree.Contains(r3.Vec{}) // looks at the edges once
	pose := se3.Translation(r3.Vec{X: 3, Y: 0.3})
	for _, s := range []convex.Solid{{Kind: convex.Cylinder, Radius: 0.5, Length: 1}, {Kind: convex.Capsule, Radius: 0.5, Length: 1}} {
		wrong := 0
		if n := testing.AllocsPerRun(100, func() {
			spot, near := tree.SolidUnder(&s, pose, math.Inf(1))
			inside, known := tree.Contains(spot.On)
			if !near || !tree.ClearsSolid(&s, pose, 0.01) || inside || !known {
				wrong++
			}
		}); n != 0 || wrong > 0 {
			t.Errorf("%v: %v allocations, wrong %d", s.Kind, n, wrong)
		}
	}
}

// blur is how near an answer must be to that of trying every triangle, m, in meshes
// up to 20 m.
const blur = 1e-9 + 20*bvh.Blur
