package mesh

import (
	"errors"
	"math"

	"seamwright/geom/r3"
)

// errCrossed is what Triangulate says of a polygon that crosses itself.
var errCrossed = errors.New("a polygon that crosses itself")

// Triangulate cuts a polygon, given by its corners in metres, into triangles
// that index the corners and are wound as it is: by clipping ears in the plane
// of its area. Corners in a straight line are kept, every one of them. The
// polygon need not be flat; offFlat is how far its corners lie from their
// middle plane, m. A polygon without area is cut as a fan. The error says
// that fewer than three corners were given, or that the polygon crosses itself.
func Triangulate(polygon []r3.Vec) (triangles [][3]int32, offFlat float64, err error) {
	n := len(polygon)
	if n < 3 {
		return nil, 0, errors.New("a polygon of fewer than three corners")
	}
	normal, middle, size := newell(polygon)
	if normal == (r3.Vec{}) {
		if !straight(polygon, size) {
			return nil, 0, errCrossed
		}
		for i := 2; i < n; i++ {
			triangles = append(triangles, [3]int32{0, int32(i - 1), int32(i)})
		}
		return triangles, 0, nil
	}
	for _, v := range polygon {
		offFlat = math.Max(offFlat, math.Abs(v.Sub(middle).Dot(normal)))
	}
	if n == 3 {
		return [][3]int32{{0, 1, 2}}, offFlat, nil
	}
	x := normal.Orthogonal()
	y := normal.Cross(x)
	flat := make([]point, n)
	for i, v := range polygon {
		d := v.Sub(middle).Scale(1 / size)
		flat[i] = point{d.Dot(x), d.Dot(y)}
	}
	if crosses(flat) {
		return nil, offFlat, errCrossed
	}
	triangles, err = clipEars(flat)
	return triangles, offFlat, err
}

// newell returns the unit normal of a polygon by Newell's sum over its edges,
// zero for a polygon without area, the mean of its corners and the distance of
// the furthest corner from there. The sum is the one of Graphics Gems III,
// chapter V.5 (from memory).
func newell(polygon []r3.Vec) (normal, middle r3.Vec, size float64) {
	for _, v := range polygon {
		middle = middle.AddScaled(1/float64(len(polygon)), v)
	}
	for i, v := range polygon {
		p, q := v.Sub(middle), polygon[(i+1)%len(polygon)].Sub(middle)
		normal = normal.Add(p.Cross(q))
		size = math.Max(size, p.Norm())
	}
	if normal.Norm() <= flatShare*size*size {
		return r3.Vec{}, middle, size
	}
	return normal.Unit(), middle, size
}

// straight reports whether all corners lie on one line, to a millionth of the
// polygon's size.
func straight(polygon []r3.Vec, size float64) bool {
	var along r3.Vec
	for _, v := range polygon {
		if d := v.Sub(polygon[0]); d.Norm() > along.Norm() {
			along = d
		}
	}
	along = along.Unit()
	for _, v := range polygon {
		if v.Sub(polygon[0]).Reject(along).Norm() > 1e-6*size {
			return false
		}
	}
	return true
}

// flatShare is the share of the square over its size (dimensionless) below
// which a polygon has no area but rounding.
const flatShare = 1e-12

// point is a corner in the polygon's plane, in units of the polygon's size.
type point struct{ x, y float64 }

// turn returns twice the signed area of a, b, c: positive to the left. Both
// products are rounded by themselves, so that machines with fused
// multiply-add decide alike.
func turn(a, b, c point) float64 {
	return float64((b.x-a.x)*(c.y-a.y)) - float64((b.y-a.y)*(c.x-a.x))
}

// crosses reports whether two edges of a polygon cut each other inside both.
func crosses(flat []point) bool {
	n := len(flat)
	for i := range n {
		a, b := flat[i], flat[(i+1)%n]
		for j := i + 2; j < n; j++ {
			c, d := flat[j], flat[(j+1)%n]
			if turn(a, b, c)*turn(a, b, d) < 0 && turn(c, d, a)*turn(c, d, b) < 0 {
				return true
			}
		}
	}
	return false
}

// clipEars cuts a polygon that runs counter-clockwise. An ear is a corner that
// turns left and whose triangle holds no other corner, borders included.
func clipEars(flat []point) ([][3]int32, error) {
	n := len(flat)
	left := make([]int32, n)
	for i := range left {
		left[i] = int32(i)
	}
	out := make([][3]int32, 0, n-2)
	tried := 0
	for i := 0; len(left) > 3; {
		k := len(left)
		if tried == k {
			return nil, errCrossed
		}
		i %= k
		a, b, c := left[(i+k-1)%k], left[i], left[(i+1)%k]
		if !isEar(flat, left, a, b, c) {
			i++
			tried++
			continue
		}
		out = append(out, [3]int32{a, b, c})
		left = append(left[:i], left[i+1:]...)
		tried = 0
	}
	if turn(flat[left[0]], flat[left[1]], flat[left[2]]) < -flatShare {
		return nil, errCrossed
	}
	return append(out, [3]int32{left[0], left[1], left[2]}), nil
}

func isEar(flat []point, left []int32, a, b, c int32) bool {
	p, q, r := flat[a], flat[b], flat[c]
	if turn(p, q, r) <= 0 {
		return false
	}
	for _, i := range left {
		v := flat[i]
		if i == a || i == b || i == c || v == p || v == q || v == r {
			continue
		}
		if turn(p, q, v) >= 0 && turn(q, r, v) >= 0 && turn(r, p, v) >= 0 {
			return false
		}
	}
	return true
}
