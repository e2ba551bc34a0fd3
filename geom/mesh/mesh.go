// Package mesh holds triangle meshes: the shapes of parts, torches and arms as
// files and primitives give them.
//
// A Mesh is a list of positions in metres and a list of triangles that index
// it, counter-clockwise seen from outside. Check says what is wrong with a
// mesh, Repair mends what can be mended and says what it did, and the
// sub-packages read one file format each:
//
//	m, notes, err := stl.Decode(data, mesh.Options{Unit: mesh.Millimetres})
//	report, err := mesh.Check(m, mesh.CheckOptions{})
//	mended, done, err := mesh.Repair(m, mesh.RepairOptions{})
//
// Units are declared by the caller, or carried by the file; they are never
// guessed. A shell is a set of triangles joined across edges that two triangles
// share; where bodies touch in an edge or a face, it is those of one body. A
// mesh may have any number of shells, which may overlap.
package mesh

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Mesh is an indexed triangle mesh. The zero value has no triangles.
type Mesh struct {
	Vertices  []r3.Vec   // positions, m
	Triangles [][3]int32 // indices into Vertices, counter-clockwise seen from outside
}

// maxCoordinate bounds every coordinate, in m. A million kilometres is beyond
// any part; below it squares and cubes of lengths stay finite by far.
const maxCoordinate = 1e9

// New returns the mesh of these vertices, in metres, and triangles, which it
// keeps. The error names the first vertex that is not finite or beyond a
// million kilometres, or the first triangle that points beyond the vertices.
func New(vertices []r3.Vec, triangles [][3]int32) (Mesh, error) {
	m := Mesh{vertices, triangles}
	return m, m.Validate()
}

// Validate returns the error that New would return.
func (m Mesh) Validate() error {
	if len(m.Vertices) > math.MaxInt32 || len(m.Triangles) > math.MaxInt32/3 {
		return fmt.Errorf("mesh: found %d vertices and %d triangles; allowed: at most %d and %d; to mend: split the mesh",
			len(m.Vertices), len(m.Triangles), math.MaxInt32, math.MaxInt32/3)
	}
	for i, v := range m.Vertices {
		if !usable(v) {
			return fmt.Errorf("mesh: vertex %d: found (%g, %g, %g) m; allowed: finite numbers up to %g m; to mend: export the mesh again",
				i, v.X, v.Y, v.Z, float64(maxCoordinate))
		}
	}
	for i, t := range m.Triangles {
		for _, v := range t {
			if v < 0 || int(v) >= len(m.Vertices) {
				return fmt.Errorf("mesh: triangle %d: found vertex %d; allowed: 0 to %d; to mend: export the mesh again",
					i, v, len(m.Vertices)-1)
			}
		}
	}
	return nil
}

// usable reports whether every coordinate is finite and within maxCoordinate.
func usable(v r3.Vec) bool {
	return math.Abs(v.X) <= maxCoordinate && math.Abs(v.Y) <= maxCoordinate && math.Abs(v.Z) <= maxCoordinate
}

// Corners returns the positions of triangle i, in its order.
func (m Mesh) Corners(i int) (a, b, c r3.Vec) {
	t := m.Triangles[i]
	return m.Vertices[t[0]], m.Vertices[t[1]], m.Vertices[t[2]]
}

// Clone returns a copy that shares nothing with m.
func (m Mesh) Clone() Mesh {
	return Mesh{append([]r3.Vec(nil), m.Vertices...), append([][3]int32(nil), m.Triangles...)}
}

// Reversed returns a copy of m with every triangle turned over.
func (m Mesh) Reversed() Mesh {
	out := m.Clone()
	for i := range out.Triangles {
		turnOver(&out.Triangles[i])
	}
	return out
}

// turnOver reverses the winding of a triangle; its first corner stays first.
func turnOver(t *[3]int32) { t[1], t[2] = t[2], t[1] }

// Join returns one mesh of all triangles of the given ones, in their order.
func Join(meshes ...Mesh) Mesh {
	var out Mesh
	for _, m := range meshes {
		first := int32(len(out.Vertices))
		out.Vertices = append(out.Vertices, m.Vertices...)
		for _, t := range m.Triangles {
			out.Triangles = append(out.Triangles, [3]int32{t[0] + first, t[1] + first, t[2] + first})
		}
	}
	return out
}
