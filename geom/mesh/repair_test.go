package mesh_test

import (
	"math"
	"strings"
	"testing"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// corners returns m with three vertices of its own for every triangle.
func loose(m mesh.Mesh) mesh.Mesh {
	var out mesh.Mesh
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		n := int32(len(out.Vertices))
		out.Vertices = append(out.Vertices, a, b, c)
		out.Triangles = append(out.Triangles, [3]int32{n, n + 1, n + 2})
	}
	return out
}

func TestRepairMendsEachFault(t *testing.T) {
	apart := loose(cube(t))
	for i := range apart.Vertices {
		apart.Vertices[i].X += 1e-7 * float64(i%5)
	}
	tubeWithoutEnd := mesh.Mesh{}
	tube := must(t)(mesh.NewTube(0.5, 0.1, 1, 0.01))
	tubeWithoutEnd.Vertices = tube.Vertices
	for i, v := range tube.Triangles {
		a, b, c := tube.Corners(i)
		if a.Z != 0.5 || b.Z != 0.5 || c.Z != 0.5 {
			tubeWithoutEnd.Triangles = append(tubeWithoutEnd.Triangles, v)
		}
	}
	plane := mesh.Mesh{Vertices: []r3.Vec{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}}, Triangles: [][3]int32{{0, 1, 2}, {0, 2, 3}}}
	for _, row := range []struct {
		name    string
		mesh    mesh.Mesh
		options mesh.RepairOptions
		want    mesh.Changes
		volume  float64 // of a result that is sound; 0 if it is not
	}{
		{"cube", cube(t), mesh.RepairOptions{}, mesh.Changes{}, 1},
		{"nothing", mesh.Mesh{}, mesh.RepairOptions{}, mesh.Changes{}, 0},
		{"loose corners", loose(cube(t)), mesh.RepairOptions{}, mesh.Changes{Merged: 28}, 1},
		{"corners a little apart", apart, mesh.RepairOptions{Tolerance: 1e-6}, mesh.Changes{Merged: 28}, 1},
		{"unused vertices", mesh.Mesh{Vertices: append(cube(t).Vertices, r3.Vec{X: 7}), Triangles: cube(t).Triangles}, mesh.RepairOptions{}, mesh.Changes{Unused: 1}, 1},
		{"collapsed", with(cube(t), [3]int32{0, 0, 1}), mesh.RepairOptions{}, mesh.Changes{Collapsed: 1}, 1},
		{"doubled", with(cube(t), [3]int32{2, 0, 3}), mesh.RepairOptions{}, mesh.Changes{Doubled: 1}, 1},
		{"body twice", mesh.Join(cube(t), cube(t)), mesh.RepairOptions{}, mesh.Changes{Merged: 8, Doubled: 12}, 1},
		{"needle", needled(t), mesh.RepairOptions{}, mesh.Changes{Needles: 1}, 1},
		{"lone needle", with(mesh.Mesh{Vertices: append(cube(t).Vertices, r3.Vec{X: 2}, r3.Vec{X: 3}, r3.Vec{X: 4}), Triangles: cube(t).Triangles}, [3]int32{8, 9, 10}),
			mesh.RepairOptions{}, mesh.Changes{Needles: 1, Unused: 3}, 1},
		{"inside out", cube(t).Reversed(), mesh.RepairOptions{}, mesh.Changes{Turned: 12, InsideOut: 1}, 1},
		{"hole left alone", without(cube(t), 3), mesh.RepairOptions{}, mesh.Changes{}, 0},
		{"hole too long", without(cube(t), 3), mesh.RepairOptions{FillPerimeter: 3.4}, mesh.Changes{}, 0},
		{"hole filled", without(cube(t), 3), mesh.RepairOptions{FillPerimeter: 3.5}, mesh.Changes{Filled: 1, FilledWith: 1}, 1},
		{"face filled", without(cube(t), 4, 5), mesh.RepairOptions{FillPerimeter: 4}, mesh.Changes{Filled: 1, FilledWith: 2}, 1},
		{"hole that is not flat", without(cube(t), 0, 5), mesh.RepairOptions{FillPerimeter: 9}, mesh.Changes{}, 0},
		{"flat sheet is no hole", plane, mesh.RepairOptions{FillPerimeter: 9}, mesh.Changes{}, 0},
		{"end of a tube is no hole", tubeWithoutEnd, mesh.RepairOptions{FillPerimeter: 9}, mesh.Changes{}, 0},
	} {
		t.Run(row.name, func(t *testing.T) {
			got, done, err := mesh.Repair(row.mesh, row.options)
			if err != nil || done != row.want {
				t.Fatalf("error %v\ngot  %+v\nwant %+v", err, done, row.want)
			}
			if done.Any() != (len(done.Lines()) > 0) {
				t.Errorf("changes %+v are told as %q", done, done.Lines())
			}
			r, err := mesh.Check(got, mesh.CheckOptions{})
			if err != nil || r.Sound() != (row.volume > 0) {
				t.Fatalf("error %v, sound %t: %s", err, r.Sound(), strings.Join(r.Lines(), "; "))
			}
			if r.Sound() {
				near(t, "volume", r.Volume, row.volume, 1e-5)
			}
		})
	}
}

func TestWeldTakesTheNearest(t *testing.T) {
	m := mesh.Mesh{Vertices: []r3.Vec{{X: 0}, {X: 1.5}, {X: 0.8}, {X: 0.75}}, Triangles: [][3]int32{{0, 1, 2}, {0, 1, 3}}}
	got, merged, err := mesh.Weld(m, 1)
	want := [][3]int32{{0, 1, 1}, {0, 1, 0}} // 0.8 is nearer to 1.5; 0.75 is as near to both
	if err != nil || merged != 2 || len(got.Vertices) != 2 || got.Triangles[0] != want[0] || got.Triangles[1] != want[1] {
		t.Errorf("error %v, merged %d, got %v", err, merged, got)
	}
}

func TestNegativeZeroIsZero(t *testing.T) {
	m := mesh.Mesh{Vertices: []r3.Vec{{X: 0}, {X: math.Copysign(0, -1)}}, Triangles: [][3]int32{{0, 1, 1}}}
	if _, merged, err := mesh.Weld(m, 0); err != nil || merged != 1 {
		t.Errorf("error %v, merged %d", err, merged)
	}
}

func TestTriangulate(t *testing.T) {
	flat := func(xy ...float64) (out []r3.Vec) {
		for i := 0; i < len(xy); i += 2 {
			out = append(out, r3.Vec{X: xy[i], Y: xy[i+1]})
		}
		return out
	}
	for _, row := range []struct {
		name    string
		polygon []r3.Vec
		area    float64
		err     string
	}{
		{"triangle", flat(0, 0, 1, 0, 0, 1), 0.5, ""},
		{"clockwise square", flat(0, 0, 0, 1, 1, 1, 1, 0), 1, ""},
		{"arrowhead", flat(0, 0, 2, 1, 0, 2, 1, 1), 1, ""},
		{"corner in a side", flat(0, 0, 0.5, 0, 1, 0, 1, 1, 0, 1), 1, ""},
		{"u", flat(0, 0, 3, 0, 3, 3, 2, 3, 2, 1, 1, 1, 1, 3, 0, 3), 7, ""},
		{"square with a bridge to a hole", flat(0, 0, 4, 0, 4, 4, 0, 4, 0, 0, 1, 1, 1, 2, 2, 2, 2, 1, 1, 1), 15, ""},
		{"straight line", flat(0, 0, 1, 0, 2, 0, 3, 0), 0, ""},
		{"one point", flat(1, 1, 1, 1, 1, 1), 0, ""},
		{"bow tie", flat(0, 0, 1, 1, 1, 0, 0, 1), 0, "crosses itself"},
		{"uneven bow tie", flat(0, 0, 3, 3, 3, 0, 0, 1), 0, "crosses itself"},
		{"pentagram", flat(0, 1, 0.59, -0.81, -0.95, 0.31, 0.95, 0.31, -0.59, -0.81), 0, "crosses itself"},
		{"two corners", flat(0, 0, 1, 1), 0, "fewer than three"},
	} {
		t.Run(row.name, func(t *testing.T) {
			cut, _, err := mesh.Triangulate(row.polygon)
			if row.err != "" {
				if err == nil || !strings.Contains(err.Error(), row.err) {
					t.Errorf("got %v, want %q", err, row.err)
				}
				return
			}
			if err != nil || len(cut) != len(row.polygon)-2 {
				t.Fatalf("error %v, %d triangles", err, len(cut))
			}
			m := mesh.Mesh{Vertices: row.polygon, Triangles: cut}
			near(t, "area", m.Area(), row.area, 1e-12)
		})
	}
}

func TestParseUnit(t *testing.T) {
	for _, text := range []string{"mm", "in", "m", "cm", "ft", "um"} {
		if u, err := mesh.ParseUnit(text); err != nil || u.String() != text || u.Metres() <= 0 {
			t.Errorf("%q: got %v, %v", text, u, err)
		}
	}
	for _, text := range []string{"", "MM", "undeclared", "inch", "0"} {
		if u, err := mesh.ParseUnit(text); err == nil || u != mesh.Undeclared {
			t.Errorf("%q: got %v, %v", text, u, err)
		}
	}
}
