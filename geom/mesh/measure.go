package mesh

import (
	"math"

	"seamwright/geom/r3"
)

// Box is an axis-aligned box from Min to Max, in metres. EmptyBox holds
// nothing; the zero value is the origin alone.
type Box struct{ Min, Max r3.Vec }

// EmptyBox returns the box without points, which Include grows from.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{r3.Vec{X: inf, Y: inf, Z: inf}, r3.Vec{X: -inf, Y: -inf, Z: -inf}}
}

// Include returns the smallest box around b and the point v, in metres.
func (b Box) Include(v r3.Vec) Box {
	return Box{
		r3.Vec{X: min(b.Min.X, v.X), Y: min(b.Min.Y, v.Y), Z: min(b.Min.Z, v.Z)},
		r3.Vec{X: max(b.Max.X, v.X), Y: max(b.Max.Y, v.Y), Z: max(b.Max.Z, v.Z)},
	}
}

// Union returns the smallest box around both.
func (b Box) Union(c Box) Box { return b.Include(c.Min).Include(c.Max) }

// IsEmpty reports whether no point lies in b.
func (b Box) IsEmpty() bool { return !(b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y && b.Min.Z <= b.Max.Z) }

// Size returns the edge lengths, m; all are 0 for an empty box.
func (b Box) Size() r3.Vec {
	if b.IsEmpty() {
		return r3.Vec{}
	}
	return b.Max.Sub(b.Min)
}

// Centre returns the middle, m; the origin for an empty box.
func (b Box) Centre() r3.Vec {
	if b.IsEmpty() {
		return r3.Vec{}
	}
	return b.Min.Lerp(b.Max, 0.5)
}

// Meets reports whether the boxes share a point.
func (b Box) Meets(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X &&
		b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y &&
		b.Min.Z <= c.Max.Z && c.Min.Z <= b.Max.Z
}

// Contains reports whether c lies in b, borders included.
func (b Box) Contains(c Box) bool {
	return b.Min.X <= c.Min.X && c.Max.X <= b.Max.X &&
		b.Min.Y <= c.Min.Y && c.Max.Y <= b.Max.Y &&
		b.Min.Z <= c.Min.Z && c.Max.Z <= b.Max.Z
}

// Box returns the box around the corners of all triangles. Vertices that no
// triangle uses do not count.
func (m Mesh) Box() Box {
	b := EmptyBox()
	for i := range m.Triangles {
		b = b.Union(m.triangleBox(i))
	}
	return b
}

func (m Mesh) triangleBox(i int) Box {
	a, b, c := m.Corners(i)
	return Box{a, a}.Include(b).Include(c)
}

// Area returns the area of all triangles together, m2.
func (m Mesh) Area() float64 {
	var sum float64
	for i := range m.Triangles {
		sum += m.triangleArea(i)
	}
	return sum
}

func (m Mesh) triangleArea(i int) float64 {
	a, b, c := m.Corners(i)
	return b.Sub(a).Cross(c.Sub(a)).Norm() / 2
}

// Volume returns the enclosed volume, m3, as a sum of signed tetrahedra from
// the middle of the box: positive where triangles face outwards. It means
// something only for closed shells wound one way round; where shells overlap
// their common space counts once for each.
func (m Mesh) Volume() float64 {
	v, _ := m.moments(m.Box().Centre())
	return v
}

// Centroid returns the centre of volume, m, and true. Where the volume does
// not stand out from rounding, as for an open or flat mesh, it returns the
// centre of area and false; the origin for a mesh without area.
func (m Mesh) Centroid() (r3.Vec, bool) {
	box := m.Box()
	middle := box.Centre()
	volume, moment := m.moments(middle)
	if size := box.Size().Norm(); math.Abs(volume) > flatVolume*size*size*size {
		return middle.AddScaled(1/volume, moment), true
	}
	var area float64
	var sum r3.Vec
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		w := m.triangleArea(i)
		area += w
		sum = sum.AddScaled(w/3, a.Sub(middle).Add(b.Sub(middle)).Add(c.Sub(middle)))
	}
	if area == 0 {
		return middle, false
	}
	return middle.AddScaled(1/area, sum), false
}

// flatVolume is the share of the cube over a body's size (dimensionless) below
// which its volume is taken for rounding: sums of float64 over a million
// triangles keep about ten digits.
const flatVolume = 1e-10

// moments returns the signed volume and its first moment about the point o.
func (m Mesh) moments(o r3.Vec) (volume float64, moment r3.Vec) {
	for i := range m.Triangles {
		a, b, c := m.Corners(i)
		a, b, c = a.Sub(o), b.Sub(o), c.Sub(o)
		v := a.Dot(b.Cross(c)) / 6
		volume += v
		moment = moment.AddScaled(v/4, a.Add(b).Add(c))
	}
	return volume, moment
}
