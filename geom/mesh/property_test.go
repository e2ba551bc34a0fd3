package mesh_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

func vector(lo, hi float64) *rapid.Generator[r3.Vec] {
	return rapid.Custom(func(t *rapid.T) r3.Vec {
		x := rapid.Float64Range(lo, hi)
		return r3.Vec{X: x.Draw(t, "x"), Y: x.Draw(t, "y"), Z: x.Draw(t, "z")}
	})
}

// rigid draws a rotation and a displacement of up to 2 m.
func rigid() *rapid.Generator[mesh.Affine] {
	return rapid.Custom(func(t *rapid.T) mesh.Affine {
		r := se3.Exp(vector(-3, 3).Draw(t, "rotation"))
		return mesh.Affine{X: r.X(), Y: r.Y(), Z: r.Z(), T: vector(-2, 2).Draw(t, "displacement")}
	})
}

// primitive draws a closed body between 5 mm and 0.5 m.
func primitive() *rapid.Generator[mesh.Mesh] {
	return rapid.Custom(func(t *rapid.T) mesh.Mesh {
		l := rapid.Float64Range(0.005, 0.5)
		a, b, c := l.Draw(t, "a"), l.Draw(t, "b"), l.Draw(t, "c")
		chord := a * rapid.Float64Range(1e-3, 0.2).Draw(t, "chord")
		var m mesh.Mesh
		var err error
		switch rapid.IntRange(0, 5).Draw(t, "kind") {
		case 0:
			m, err = mesh.NewBox(r3.Vec{X: a, Y: b, Z: c})
		case 1:
			m, err = mesh.NewPlate(a, b, c)
		case 2:
			m, err = mesh.NewCylinder(a, b, chord)
		case 3:
			m, err = mesh.NewTube(a, a*rapid.Float64Range(0.1, 0.9).Draw(t, "wall"), b, chord)
		case 4:
			m, err = mesh.NewCone(a, a*rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(0.01, 1)).Draw(t, "top"), b, chord)
		default:
			m, err = mesh.NewCapsule(a, b, chord)
		}
		if err != nil {
			t.Fatal(err)
		}
		return m
	})
}

// bodies draws one to four closed bodies, moved apart so that none meets another.
func bodies() *rapid.Generator[mesh.Mesh] {
	return rapid.Custom(func(t *rapid.T) mesh.Mesh {
		var all []mesh.Mesh
		for i := range rapid.IntRange(1, 4).Draw(t, "bodies") {
			m := primitive().Draw(t, "body")
			all = append(all, m.Transformed(rigid().Draw(t, "pose")).Transformed(
				mesh.Affine{X: r3.Vec{X: 1}, Y: r3.Vec{Y: 1}, Z: r3.Vec{Z: 1}, T: r3.Vec{X: 10 * float64(i)}}))
		}
		return mesh.Join(all...)
	})
}

func TestVolumeAndAreaSurviveRigidMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := primitive().Draw(t, "body")
		moved := m.Transformed(rigid().Draw(t, "pose"))
		near(t, "volume over volume", moved.Volume()/m.Volume(), 1, 1e-9)
		near(t, "area over area", moved.Area()/m.Area(), 1, 1e-9)
	})
}

func TestCentroidMovesWithTheBody(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := primitive().Draw(t, "body")
		f := rigid().Draw(t, "pose")
		before, known := m.Centroid()
		after, knownToo := m.Transformed(f).Centroid()
		if !known || !knownToo {
			t.Fatal("a closed body has a centre of volume")
		}
		near(t, "distance", after.Dist(f.Apply(before)), 0, 1e-9)
	})
}

func TestVolumeGrowsWithTheDeterminant(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := primitive().Draw(t, "body")
		f := mesh.Affine{X: vector(-1, 1).Draw(t, "X"), Y: vector(-1, 1).Draw(t, "Y"), Z: vector(-1, 1).Draw(t, "Z"), T: vector(-1, 1).Draw(t, "T")}
		if math.Abs(f.Det()) < 1e-3 {
			t.Skip("flattens the body")
		}
		near(t, "volume over |det| volume", m.Transformed(f).Volume()/(math.Abs(f.Det())*m.Volume()), 1, 1e-9)
	})
}

// Every side of every triangle is listed once, at the edge between its
// vertices, and a closed body has exactly two at each, in opposite directions;
// Euler's V - E + F = 2 - 2g holds for every shell: g is 1 for a tube, else 0.
func TestAdjacencyIsConsistent(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := bodies().Draw(t, "bodies")
		a := m.Adjacency()
		seen := make([]int, 3*len(m.Triangles))
		for e, edge := range a.Edges {
			if edge.A >= edge.B || e > 0 && (a.Edges[e-1].A > edge.A || a.Edges[e-1].A == edge.A && a.Edges[e-1].B >= edge.B) {
				t.Fatalf("edge %d is %v after %v", e, edge, a.Edges[max(e-1, 0)])
			}
			sides := a.Sides(int32(e))
			if len(sides) != 2 || !slices.IsSorted(sides) {
				t.Fatalf("edge %v has sides %v", edge, sides)
			}
			forward := 0
			for _, s := range sides {
				seen[s]++
				from, to := m.Triangles[s/3][s%3], m.Triangles[s/3][(s%3+1)%3]
				if min(from, to) != edge.A || max(from, to) != edge.B || a.EdgeOf[s] != int32(e) {
					t.Fatalf("side %d runs %d to %d, listed at %v", s, from, to, edge)
				}
				if from < to {
					forward++
				}
			}
			if forward != 1 {
				t.Fatalf("edge %v is not wound both ways", edge)
			}
		}
		for s, n := range seen {
			if n != 1 {
				t.Fatalf("side %d is listed %d times", s, n)
			}
		}
		if chi := len(m.Vertices) - len(a.Edges) + len(m.Triangles); chi%2 != 0 || chi < 0 || chi > 8 {
			t.Fatalf("V - E + F = %d", chi)
		}
	})
}

func TestFlippedTrianglesOfClosedBodiesArePutRight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := bodies().Draw(t, "bodies")
		bad := m.Clone()
		flips := rapid.SliceOfN(rapid.Bool(), len(m.Triangles), len(m.Triangles)).Draw(t, "flips")
		n := 0
		for i, f := range flips {
			if f {
				v := &bad.Triangles[i]
				v[1], v[2] = v[2], v[1]
				n++
			}
		}
		report, err := mesh.Check(bad, mesh.CheckOptions{Pairs: -1})
		if err != nil || report.Flipped != n || !report.Closed() {
			t.Fatalf("error %v; %d flipped, want %d; closed %t", err, report.Flipped, n, report.Closed())
		}
		mended, done, err := mesh.Repair(bad, mesh.RepairOptions{})
		if err != nil || done.Turned != n {
			t.Fatalf("error %v, turned %d of %d", err, done.Turned, n)
		}
		if !slices.Equal(mended.Triangles, m.Triangles) || !slices.Equal(mended.Vertices, m.Vertices) {
			t.Fatal("the mended mesh is not the one before")
		}
	})
}

// soup draws a mesh with every fault: random triangles over few vertices, so
// that collapsed, doubled, flat and non-manifold ones come up all the time.
func soup() *rapid.Generator[mesh.Mesh] {
	return rapid.Custom(func(t *rapid.T) mesh.Mesh {
		coordinate := rapid.SampledFrom([]float64{0, 0.1, 0.2, 0.2000004, 0.2000008, 0.3})
		vertex := rapid.Custom(func(t *rapid.T) r3.Vec {
			return r3.Vec{X: coordinate.Draw(t, "x"), Y: coordinate.Draw(t, "y"), Z: rapid.SampledFrom([]float64{0, 0.1}).Draw(t, "z")}
		})
		m := mesh.Mesh{Vertices: rapid.SliceOfN(vertex, 3, 20).Draw(t, "vertices")}
		index := rapid.Int32Range(0, int32(len(m.Vertices))-1)
		m.Triangles = rapid.SliceOfN(rapid.Custom(func(t *rapid.T) [3]int32 {
			return [3]int32{index.Draw(t, "i"), index.Draw(t, "j"), index.Draw(t, "k")}
		}), 0, 40).Draw(t, "triangles")
		return m
	})
}

func TestRepairTwiceChangesNothing(t *testing.T) {
	options := rapid.Custom(func(t *rapid.T) mesh.RepairOptions {
		return mesh.RepairOptions{
			Tolerance:     rapid.SampledFrom([]float64{0, 1e-9, 5e-7, 1e-3}).Draw(t, "tolerance"),
			FillPerimeter: rapid.SampledFrom([]float64{0, 0.5, 10}).Draw(t, "fill"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.OneOf(soup(), bodies()).Draw(t, "mesh")
		o := options.Draw(t, "options")
		before := m.Clone()
		once, first, err := mesh.Repair(m, o)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(m.Vertices, before.Vertices) || !slices.Equal(m.Triangles, before.Triangles) {
			t.Fatal("repair changed what it was given")
		}
		twice, again, err := mesh.Repair(once, o)
		if err != nil || again.Any() {
			t.Fatalf("error %v; first %v, then %v", err, first.Lines(), again.Lines())
		}
		if !slices.Equal(once.Vertices, twice.Vertices) || !slices.Equal(once.Triangles, twice.Triangles) {
			t.Fatal("the second result differs")
		}
		if !first.Any() && (!slices.Equal(m.Vertices, once.Vertices) || !slices.Equal(m.Triangles, once.Triangles)) {
			t.Fatal("a change was not told")
		}
		report, err := mesh.Check(once, mesh.CheckOptions{Pairs: -1})
		if err != nil || report.Collapsed+report.Doubled+report.Flipped+report.Unused+report.Repeated != 0 || report.ZeroArea != first.NeedlesLeft {
			t.Fatalf("error %v; left after repair: %v", err, report.Lines())
		}
	})
}

func TestWeldKeepsItsWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tolerance := rapid.SampledFrom([]float64{0, 1e-6, 0.05, 0.3}).Draw(t, "tolerance")
		m := mesh.Mesh{Vertices: rapid.SliceOfN(vector(-1, 1), 1, 60).Draw(t, "vertices")}
		for i := range int32(len(m.Vertices)) { // copies of some, a little off others
			if i%3 == 0 {
				m.Vertices = append(m.Vertices, m.Vertices[i])
			} else {
				m.Vertices = append(m.Vertices, m.Vertices[i].AddScaled(tolerance*0.7, vector(-1, 1).Draw(t, "off").Unit()))
			}
		}
		for i := range int32(len(m.Vertices)) {
			m.Triangles = append(m.Triangles, [3]int32{i, i, i})
		}
		out, merged, err := mesh.Weld(m, tolerance)
		if err != nil || merged != len(m.Vertices)-len(out.Vertices) {
			t.Fatalf("error %v, merged %d from %d to %d", err, merged, len(m.Vertices), len(out.Vertices))
		}
		for i, v := range m.Vertices {
			if d := out.Vertices[out.Triangles[i][0]].Dist(v); d > tolerance {
				t.Fatalf("vertex %d moved by %g, more than %g", i, d, tolerance)
			}
		}
		for i, p := range out.Vertices {
			for _, q := range out.Vertices[:i] {
				if p.Dist(q) <= tolerance {
					t.Fatalf("%v and %v are left within %g", p, q, tolerance)
				}
			}
		}
		again, merged, err := mesh.Weld(out, tolerance)
		if err != nil || merged != 0 || !slices.Equal(again.Vertices, out.Vertices) {
			t.Fatalf("error %v, welding again merged %d", err, merged)
		}
	})
}

// Volumes and areas of triangulated polygons against the shoelace formula.
func TestTriangulateCoversThePolygon(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "corners")
		star := make([]r3.Vec, n) // star-shaped about the origin, concave as often as not
		for i := range star {
			r := rapid.Float64Range(0.1, 1).Draw(t, "radius")
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			star[i] = r3.Vec{X: r * cos, Y: r * sin}
		}
		want := 0.0
		for i, p := range star {
			q := star[(i+1)%n]
			want += (p.X*q.Y - q.X*p.Y) / 2
		}
		f := rigid().Draw(t, "pose")
		corners := make([]r3.Vec, n)
		for i := range star {
			corners[i] = f.Apply(star[i])
		}
		triangles, offFlat, err := mesh.Triangulate(corners)
		if err != nil || len(triangles) != n-2 || offFlat > 1e-12 {
			t.Fatalf("error %v, %d triangles of %d corners, off flat %g", err, len(triangles), n, offFlat)
		}
		got := 0.0
		for _, v := range triangles {
			a, b, c := corners[v[0]], corners[v[1]], corners[v[2]]
			got += b.Sub(a).Cross(c.Sub(a)).Dot(f.Z) / 2
		}
		near(t, "area", got, want, 1e-9)
	})
}
