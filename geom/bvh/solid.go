package bvh

import "seamwright/geom/r3"

// NewBox builds the tree of a box about the origin with sides along the axes,
// of the given size in metres: 12 triangles, normals outwards. It refuses a
// size that is not finite or beyond Reach; a side of 0 makes a plate without
// thickness.
func NewBox(size r3.Vec) (*Tree, error) {
	var corners []r3.Vec
	for i := range 8 {
		side := func(bit int) float64 { return float64(i>>bit&1) - 0.5 }
		corners = append(corners, r3.Vec{X: side(0) * size.X, Y: side(1) * size.Y, Z: side(2) * size.Z})
	}
	faces := [6][4]int32{{0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}}
	var triangles [][3]int32
	for _, f := range faces {
		triangles = append(triangles, [3]int32{f[0], f[1], f[2]}, [3]int32{f[0], f[2], f[3]})
	}
	return New(corners, triangles)
}
