package scene

import (
	"seamwright/geom/mesh"
	"seamwright/geom/r3"
)

// cutAcross cuts a mesh by the plane z = at (m) into what lies below and above.
// Triangles that the plane crosses are divided; the cut faces stay open.
func cutAcross(m mesh.Mesh, at float64) (below, above mesh.Mesh) {
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		fan(&below, keepSide(a, b, c, at, -1))
		fan(&above, keepSide(a, b, c, at, 1))
	}
	return below, above
}

// keepSide returns the part of a triangle on one side of the plane z = at: above
// for a sign of 1, below for -1. It has no corners where only an edge or a corner
// touches the plane; a triangle in the plane counts as below.
func keepSide(a, b, c r3.Vec, at, sign float64) []r3.Vec {
	corners := [3]r3.Vec{a, b, c}
	if sign < 0 && a.Z == at && b.Z == at && c.Z == at {
		return corners[:]
	}
	var out []r3.Vec
	inside := false
	for i, p := range corners {
		q := corners[(i+1)%3]
		dp, dq := sign*(p.Z-at), sign*(q.Z-at)
		if dp >= 0 {
			out = append(out, p)
			inside = inside || dp > 0
		}
		if dp > 0 && dq < 0 || dp < 0 && dq > 0 {
			out = append(out, p.Lerp(q, dp/(dp-dq)))
		}
	}
	if !inside {
		return nil
	}
	return out
}

// fan adds a convex polygon as triangles.
func fan(m *mesh.Mesh, polygon []r3.Vec) {
	first := int32(len(m.Vertices))
	for i := 2; i < len(polygon); i++ {
		m.Triangles = append(m.Triangles, [3]int32{first, first + int32(i-1), first + int32(i)})
	}
	if len(polygon) > 2 {
		m.Vertices = append(m.Vertices, polygon...)
	}
}
