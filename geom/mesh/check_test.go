package mesh_test

import (
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

func moved(m mesh.Mesh, x, y, z float64) mesh.Mesh {
	f := mesh.NoTransform()
	f.T = r3.Vec{X: x, Y: y, Z: z}
	return m.Transformed(f)
}

// cube is a cube of edge length 1 m with a corner in the origin.
func cube(t testing.TB) mesh.Mesh { return must(t)(mesh.NewPlate(1, 1, 1)) }

// without returns m without some triangles.
func without(m mesh.Mesh, gone ...int) mesh.Mesh {
	out := mesh.Mesh{Vertices: m.Vertices}
	for i, v := range m.Triangles {
		keep := true
		for _, g := range gone {
			keep = keep && i != g
		}
		if keep {
			out.Triangles = append(out.Triangles, v)
		}
	}
	return out
}

func with(m mesh.Mesh, more ...[3]int32) mesh.Mesh {
	out := m.Clone()
	out.Triangles = append(out.Triangles, more...)
	return out
}

// moebius is a band of six quads with half a turn in it.
func moebius() mesh.Mesh {
	var m mesh.Mesh
	for i := range 6 {
		a := 2 * math.Pi * float64(i) / 6
		r := r3.Vec{X: math.Cos(a), Y: math.Sin(a)}
		w := r.Scale(math.Cos(a / 2)).Add(r3.Vec{Z: math.Sin(a / 2)}).Scale(0.3)
		m.Vertices = append(m.Vertices, r.Add(w), r.Sub(w))
	}
	for i := range int32(6) {
		a, b, c, d := 2*i, 2*i+1, 2*i+2, 2*i+3
		if i == 5 {
			c, d = 1, 0 // turned over
		}
		m.Triangles = append(m.Triangles, [3]int32{a, b, d}, [3]int32{a, d, c})
	}
	return m
}

// needled is a cube whose edge from vertex 0 to 1 has a vertex in its middle on
// one face only; a triangle without area closes the gap.
func needled(t testing.TB) mesh.Mesh {
	m := cube(t)
	m.Vertices = append(m.Vertices, r3.Vec{X: 0.5})
	// {0, 3, 1} becomes {0, 3, 8}, {8, 3, 1}; {0, 1, 5} stays; {0, 8, 1} lies between.
	out := without(m, 1)
	return with(out, [3]int32{0, 3, 8}, [3]int32{8, 3, 1}, [3]int32{0, 8, 1})
}

func TestCheckFindsEachFault(t *testing.T) {
	type facts struct {
		shells, open, flipped, insideOut, twisted, cavities, holes, collapsed, zero, slivers, doubled, backToBack, many, touching, crossings int
	}
	inner := func(scale float64) mesh.Mesh {
		f := mesh.NoTransform()
		f.X, f.Y, f.Z = f.X.Scale(scale), f.Y.Scale(scale), f.Z.Scale(scale)
		half := (1 - scale) / 2
		f.T = r3.Vec{X: half, Y: half, Z: half}
		return cube(t).Transformed(f)
	}
	for _, row := range []struct {
		name string
		mesh mesh.Mesh
		want facts
	}{
		{"cube", cube(t), facts{shells: 1}},
		{"nothing", mesh.Mesh{}, facts{}},
		{"a triangle missing", without(cube(t), 3), facts{shells: 1, open: 1, holes: 1}},
		{"a face and a triangle missing", without(cube(t), 0, 1, 2), facts{shells: 1, open: 1, holes: 2}},
		{"one triangle over", with(without(cube(t), 0), [3]int32{0, 3, 2}), facts{shells: 1, flipped: 1}},
		{"inside out", cube(t).Reversed(), facts{shells: 1, flipped: 12, insideOut: 1}},
		{"cavity", mesh.Join(cube(t), inner(0.5).Reversed()), facts{shells: 2, cavities: 1}},
		{"body in a body", mesh.Join(cube(t), inner(0.5)), facts{shells: 2}},
		{"body in a cavity", mesh.Join(cube(t), inner(0.5).Reversed(), inner(0.2)), facts{shells: 3, cavities: 1}},
		{"cavity in a body in a cavity, inside out", mesh.Join(cube(t), inner(0.5).Reversed(), inner(0.2).Reversed()), facts{shells: 3, cavities: 1, flipped: 12, insideOut: 1}},
		{"moebius band", moebius(), facts{shells: 1, open: 1, twisted: 1, holes: 1}},
		{"collapsed", with(cube(t), [3]int32{0, 0, 1}, [3]int32{2, 2, 2}), facts{shells: 1, collapsed: 2}},
		{"needle", needled(t), facts{shells: 1, zero: 1}},
		{"sliver", mesh.Mesh{Vertices: []r3.Vec{{}, {X: 1}, {X: 0.5, Y: 1e-4}}, Triangles: [][3]int32{{0, 1, 2}}}, facts{shells: 1, open: 1, slivers: 1, holes: 1}},
		{"triangle twice", with(cube(t), [3]int32{2, 3, 0}), facts{shells: 1, doubled: 1}},
		{"face twice, once over", with(cube(t), [3]int32{2, 0, 3}, [3]int32{3, 0, 1}), facts{shells: 1, doubled: 2}},
		{"triangle twice, once over", with(cube(t), [3]int32{2, 0, 3}), facts{shells: 1, doubled: 1}},
		{"body twice", mesh.Join(cube(t), cube(t)), facts{shells: 1, doubled: 12}},
		{"body twice, once inside out", mesh.Join(cube(t), cube(t).Reversed()), facts{shells: 2, backToBack: 12, touching: 18}},
		{"bodies that touch in a face", mesh.Join(cube(t), moved(cube(t), 1, 0, 0)), facts{shells: 2, backToBack: 2, touching: 5}},
		{"three bodies around an edge", mesh.Join(cube(t), moved(cube(t), 1, 0, 0), moved(cube(t), 1, 1, 0)), facts{shells: 3, backToBack: 4, touching: 9}},
		{"bodies that touch in an edge", mesh.Join(cube(t), moved(cube(t), 1, 1, 0)), facts{shells: 2, touching: 1}},
		{"bodies that touch in a point", mesh.Join(cube(t), moved(cube(t), 1, 1, 1)), facts{shells: 2}},
		{"fin", with(mesh.Mesh{Vertices: append(cube(t).Vertices, r3.Vec{X: 2}, r3.Vec{X: 2, Y: 1}), Triangles: cube(t).Triangles}, [3]int32{1, 8, 3}), facts{shells: 2, open: 1, many: 1, holes: 1}},
		{"bodies that cut each other", mesh.Join(cube(t), moved(cube(t), 0.5, 0.4, 0.3)), facts{shells: 2, crossings: -1}},
		{"flush bodies", mesh.Join(cube(t), moved(cube(t), 1, 0.4, 0.3)), facts{shells: 2}},
		{"bodies flush to rounding", mesh.Join(cube(t), moved(cube(t), 1-5e-7, 0.4, 0.3)), facts{shells: 2}},
	} {
		t.Run(row.name, func(t *testing.T) {
			r, err := mesh.Check(row.mesh, mesh.CheckOptions{})
			if err != nil {
				t.Fatal(err)
			}
			got := facts{r.Shells, r.Open, r.Flipped, r.InsideOut, r.Twisted, r.Cavities, r.HoleCount, r.Collapsed, r.ZeroArea, r.Slivers, r.Doubled, r.BackToBack, r.ManyEdges, r.Touching, r.Crossings.Pairs}
			for _, x := range []struct{ got, want *int }{{&got.shells, &row.want.shells}, {&got.backToBack, &row.want.backToBack}, {&got.crossings, &row.want.crossings}, {&got.flipped, &row.want.flipped}} {
				if *x.want == -1 && *x.got > 0 { // some, how many is not said
					*x.got = -1
				}
			}
			if got != row.want {
				t.Errorf("got  %+v\nwant %+v", got, row.want)
			}
			if sound := row.name == "cube" || row.name == "cavity" || strings.HasPrefix(row.name, "body in a") || strings.HasPrefix(row.name, "bodies that touch") || row.name == "three bodies around an edge" || strings.HasPrefix(row.name, "flush") || strings.HasSuffix(row.name, "rounding"); r.Sound() != sound {
				t.Errorf("sound: got %t; %v", r.Sound(), r.Lines())
			}
		})
	}
}

func TestCheckMeasuresHoles(t *testing.T) {
	r, err := mesh.Check(without(cube(t), 0, 1, 5), mesh.CheckOptions{})
	if err != nil || len(r.Holes) != 2 || r.HoleCount != 2 {
		t.Fatalf("error %v, holes %+v", err, r.Holes)
	}
	// The bottom is a square of 4 m; the triangle in front has sides of 1, 1 and sqrt 2.
	square, triangle := r.Holes[0], r.Holes[1]
	near(t, "square", square.Length, 4, 1e-12)
	near(t, "square's middle", square.Centre.Dist(r3.Vec{X: 0.5, Y: 0.5}), 0, 1e-12)
	near(t, "triangle", triangle.Length, 2+math.Sqrt2, 1e-12)
	near(t, "together", r.HoleLength, 6+math.Sqrt2, 1e-12)
	if square.Edges != 4 || triangle.Edges != 3 || !square.Loop || !triangle.Loop {
		t.Errorf("got %+v", r.Holes)
	}
}

func TestCheckBoundsItsSearch(t *testing.T) {
	var all []mesh.Mesh
	for range 40 {
		all = append(all, must(t)(mesh.NewCylinder(1, 1, 0.1)))
	}
	for i := range all { // all around one place, each a little further
		all[i] = moved(all[i], float64(i)*1e-3, 0, float64(i)*1e-3)
	}
	m := mesh.Join(all...)
	r, err := mesh.Check(m, mesh.CheckOptions{Pairs: 1000})
	if err != nil || !r.Crossings.Bounded || r.Crossings.Tested != 1000 || r.Sound() {
		t.Errorf("error %v, %+v", err, r.Crossings)
	}
	if lines := strings.Join(r.Lines(), "\n"); !strings.Contains(lines, "stopped after 1000 pairs") {
		t.Errorf("the bound is not told: %s", lines)
	}
	full, err := mesh.Check(m, mesh.CheckOptions{})
	if err != nil || full.Crossings.Bounded || full.Crossings.Pairs < r.Crossings.Pairs || full.Crossings.Pairs == 0 {
		t.Errorf("error %v, %+v", err, full.Crossings)
	}
}

func TestCheckDoubtsUnits(t *testing.T) {
	for _, row := range []struct {
		size float64
		want string
	}{
		{300, "300 m, over 100 m"}, {100, ""}, {0.3, ""}, {0.001, ""}, {0.0003, "0.3 mm, under 1 mm"},
	} {
		r, err := mesh.Check(must(t)(mesh.NewBox(r3.Vec{X: row.size, Y: row.size / 2, Z: row.size / 4})), mesh.CheckOptions{})
		if err != nil || (r.UnitsSuspect == "") != (row.want == "") || !strings.Contains(r.UnitsSuspect, row.want) {
			t.Errorf("%g m: error %v, got %q, want %q", row.size, err, r.UnitsSuspect, row.want)
		}
	}
}

func TestWhatIsNoMeshIsRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(-1)
	for _, row := range []struct {
		name      string
		vertices  []r3.Vec
		triangles [][3]int32
		want      string
	}{
		{"NaN", []r3.Vec{{}, {Y: nan}}, nil, "mesh: vertex 1: found (0, NaN, 0) m"},
		{"infinite", []r3.Vec{{Z: inf}}, nil, "mesh: vertex 0: found (0, 0, -Inf) m"},
		{"far away", []r3.Vec{{X: 2e9}}, nil, "mesh: vertex 0: found (2e+09, 0, 0) m"},
		{"index too high", []r3.Vec{{}, {}}, [][3]int32{{0, 1, 0}, {0, 1, 2}}, "mesh: triangle 1: found vertex 2; allowed: 0 to 1"},
		{"index below zero", []r3.Vec{{}, {}}, [][3]int32{{0, -1, 0}}, "mesh: triangle 0: found vertex -1; allowed: 0 to 1"},
	} {
		t.Run(row.name, func(t *testing.T) {
			m, err := mesh.New(row.vertices, row.triangles)
			_, checked := mesh.Check(m, mesh.CheckOptions{})
			_, _, repaired := mesh.Repair(m, mesh.RepairOptions{})
			_, _, welded := mesh.Weld(m, 0)
			for _, err := range []error{err, checked, repaired, welded} {
				if err == nil || !strings.HasPrefix(err.Error(), row.want) {
					t.Errorf("got %v, want %q", err, row.want)
				}
			}
		})
	}
	for _, tolerance := range []float64{-1, nan, math.Inf(1), 1e-300} {
		if _, _, err := mesh.Weld(cube(t), tolerance); err == nil {
			t.Errorf("a weld tolerance of %g is accepted", tolerance)
		}
	}
	for _, fill := range []float64{-1, nan} {
		if _, _, err := mesh.Repair(cube(t), mesh.RepairOptions{FillPerimeter: fill}); err == nil {
			t.Errorf("a perimeter of %g is accepted", fill)
		}
	}
}
