package picture

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// rounds is the number of flats that stand for a cylinder of the arm.
const rounds = 24

// box returns the faces of a box with full edges size (m), centred on its pose.
func box(pose se3.Pose, size r3.Vec, p paint) []face {
	axes := [3]r3.Vec{pose.R.X(), pose.R.Y(), pose.R.Z()}
	half := [3]float64{size.X / 2, size.Y / 2, size.Z / 2}
	var faces []face
	for i := range 3 {
		u, v := axes[(i+1)%3].Scale(half[(i+1)%3]), axes[(i+2)%3].Scale(half[(i+2)%3])
		for _, sign := range []float64{1, -1} {
			c := pose.P.AddScaled(sign*half[i], axes[i])
			faces = append(faces, polygon(axes[i].Scale(sign), p, c.Add(u).Add(v), c.Sub(u).Add(v), c.Sub(u).Sub(v), c.Add(u).Sub(v)))
		}
	}
	return faces
}

// polygon returns a face with all its edges drawn.
func polygon(normal r3.Vec, p paint, points ...r3.Vec) face {
	edge := make([]bool, len(points))
	for i := range edge {
		edge[i] = true
	}
	return face{points: points, edge: edge, normal: normal, paint: p}
}

// stroke returns a line.
func stroke(class string, a, b r3.Vec) face {
	return face{points: []r3.Vec{a, b}, edge: []bool{true, false}, paint: paint{class: class}}
}

// round is a solid of revolution about the z axis of its pose: a cylinder, a
// cone or a tube. Lengths are metres.
type round struct {
	pose     se3.Pose // the middle of its axis
	length   float64
	low, top float64 // radii at both ends
	bore     float64 // radius of the hole, 0 for none
	flats    int
}

// faces returns what an eye in the direction eye sees of it: flats without the
// lines between them, the outline and the rims with lines.
func (r round) faces(eye r3.Vec, p paint) []face {
	wall := r.wall(r.low, r.top, 1, eye, p)
	if r.bore > 0 {
		wall = append(wall, r.wall(r.bore, r.bore, -1, eye, p)...)
	}
	return append(wall, r.ends(p)...)
}

// dir is the direction of flat i's first corner, out of the axis.
func (r round) dir(i int) r3.Vec {
	sin, cos := math.Sincos(2 * math.Pi * float64(i%r.flats) / float64(r.flats))
	return r.pose.R.X().Scale(cos).AddScaled(sin, r.pose.R.Y())
}

// at is the corner i at radius (m) and height z (m).
func (r round) at(i int, radius, z float64) r3.Vec {
	return r.pose.P.AddScaled(radius, r.dir(i)).AddScaled(z, r.pose.R.Z())
}

func (r round) wall(low, top, sign float64, eye r3.Vec, p paint) []face {
	h := r.length / 2
	normal := func(i int) r3.Vec {
		across := r.at(i+1, low, -h).Sub(r.at(i, low, -h))
		if low == 0 {
			across = r.at(i+1, top, h).Sub(r.at(i, top, h))
		}
		return across.Cross(r.at(i, top, h).Sub(r.at(i, low, -h))).Unit().Scale(sign)
	}
	seen := func(i int) bool { return normal((i+r.flats)%r.flats).Dot(eye) > 0 }
	var faces []face
	for i := range r.flats {
		outline := [2]bool{seen(i) != seen(i-1), seen(i) != seen(i+1)}
		f := face{normal: normal(i), paint: p}
		if low > 0 {
			f.push(r.at(i, low, -h), true)
		}
		f.push(r.at(i+1, low, -h), outline[1])
		f.push(r.at(i+1, top, h), true)
		f.push(r.at(i, top, h), outline[0])
		faces = append(faces, f)
	}
	return faces
}

func (r round) ends(p paint) []face {
	var faces []face
	for _, end := range []struct{ radius, z float64 }{{r.low, -r.length / 2}, {r.top, r.length / 2}} {
		if end.radius == 0 {
			continue
		}
		n := r.pose.R.Z().Scale(math.Copysign(1, end.z))
		if r.bore == 0 {
			f := face{normal: n, paint: p}
			for i := range r.flats {
				f.push(r.at(i, end.radius, end.z), true)
			}
			faces = append(faces, f)
			continue
		}
		for i := range r.flats {
			f := face{normal: n, paint: p}
			f.push(r.at(i, end.radius, end.z), true)
			f.push(r.at(i+1, end.radius, end.z), false)
			f.push(r.at(i+1, r.bore, end.z), true)
			f.push(r.at(i, r.bore, end.z), false)
			faces = append(faces, f)
		}
	}
	return faces
}

// along returns a round solid whose axis runs from a to b.
func along(a, b r3.Vec, low, top float64, flats int) round {
	d := b.Sub(a)
	return round{
		pose:   se3.Pose{R: se3.Between(r3.Vec{Z: 1}, d.Unit()), P: a.Lerp(b, 0.5)},
		length: d.Norm(), low: low, top: top, flats: flats,
	}
}
