package mesh

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// NewBox returns a box of the given edge lengths, in metres, with its middle in
// the origin, as a box of a URDF file lies.
func NewBox(size r3.Vec) (Mesh, error) {
	if err := lengthsOf("box", named{"size along x", size.X}, named{"size along y", size.Y}, named{"size along z", size.Z}); err != nil {
		return Mesh{}, err
	}
	return block(size.Scale(-0.5), size.Scale(0.5)), nil
}

// NewPlate returns a plate of the given length along x, width along y and
// thickness along z, in metres, with a corner in the origin and the body at
// positive coordinates, as plates are typed from a drawing.
func NewPlate(length, width, thickness float64) (Mesh, error) {
	if err := lengthsOf("plate", named{"length", length}, named{"width", width}, named{"thickness", thickness}); err != nil {
		return Mesh{}, err
	}
	return block(r3.Vec{}, r3.Vec{X: length, Y: width, Z: thickness}), nil
}

// block returns the box between two corners. Vertex i has the high x, y or z
// where bit 0, 1 or 2 of i is set.
func block(low, high r3.Vec) Mesh {
	m := Mesh{Triangles: [][3]int32{
		{0, 2, 3}, {0, 3, 1}, {4, 5, 7}, {4, 7, 6}, // z low, high
		{0, 1, 5}, {0, 5, 4}, {2, 6, 7}, {2, 7, 3}, // y low, high
		{0, 4, 6}, {0, 6, 2}, {1, 3, 7}, {1, 7, 5}, // x low, high
	}}
	for i := range 8 {
		v := low
		if i&1 != 0 {
			v.X = high.X
		}
		if i&2 != 0 {
			v.Y = high.Y
		}
		if i&4 != 0 {
			v.Z = high.Z
		}
		m.Vertices = append(m.Vertices, v)
	}
	return m
}

// NewCylinder returns a cylinder along z of the given radius and length with
// its middle in the origin, as a cylinder of a URDF file lies. Round sides are
// cut into flats whose edges lie on the true surface, so that the mesh lies
// inside it by chord at most. All in metres; chord is at least a millionth of
// the radius.
func NewCylinder(radius, length, chord float64) (Mesh, error) {
	n, err := flats("cylinder", radius, chord, named{"radius", radius}, named{"length", length})
	if err != nil {
		return Mesh{}, err
	}
	return lathe(n, false, []ring{{radius, -length / 2}, {radius, length / 2}}), nil
}

// NewCone returns a cone or frustum along z that stands on z = 0 with the
// radius foot and ends at z = length with the radius top, one of which may be 0
// for a point. Flats lie inside the true surface by chord at most. All in
// metres; chord is at least a millionth of the larger radius.
func NewCone(foot, top, length, chord float64) (Mesh, error) {
	for _, r := range [...]float64{foot, top} {
		if !(r == 0 || r > degenerateHeight) {
			return Mesh{}, fmt.Errorf("cone: found a radius of %g m; allowed: 0 m, or more than %g m; to mend: use 0 for a point", r, degenerateHeight)
		}
	}
	n, err := flats("cone", math.Max(foot, top), chord, named{"larger radius", math.Max(foot, top)}, named{"length", length})
	if err != nil {
		return Mesh{}, err
	}
	return lathe(n, false, []ring{{foot, 0}, {top, length}}), nil
}

// NewTube returns a tube along z of the given outer radius, wall and length
// with its middle in the origin. Flats cut the outside by chord at most and
// reach into the bore by chord at most. All in metres; the wall is less than
// the radius, and chord at least a millionth of the radius.
func NewTube(radius, wall, length, chord float64) (Mesh, error) {
	n, err := flats("tube", radius, chord, named{"radius", radius}, named{"wall", wall}, named{"length", length})
	switch {
	case err != nil:
		return Mesh{}, err
	case wall >= radius:
		return Mesh{}, fmt.Errorf("tube: found a wall of %g m; allowed: less than the radius of %g m; to mend: use a cylinder for a solid bar", wall, radius)
	}
	inner, half := radius-wall, length/2
	return lathe(n, true, []ring{{radius, -half}, {radius, half}, {inner, half}, {inner, -half}}), nil
}

// NewCapsule returns a cylinder along z of the given radius and length with a
// half ball at each end, its middle in the origin: length is that of the
// cylinder alone, and may be 0 for a ball. Flats lie inside the true surface by
// chord at most. All in metres; chord is at least a millionth of the radius.
func NewCapsule(radius, length, chord float64) (Mesh, error) {
	if !(length >= 0 && length <= maxCoordinate) {
		return Mesh{}, fmt.Errorf("capsule: found a length of %g m; allowed: 0 m or more; to mend: use 0 for a ball", length)
	}
	// A flat of the ball spans an angle both ways, and each takes half of chord.
	n, err := flats("capsule", radius, chord/2, named{"radius", radius})
	if err != nil {
		return Mesh{}, err
	}
	n = (n + 3) / 4 * 4
	half := length / 2
	rings := []ring{{0, -half - radius}}
	for i := 1; i <= n/4; i++ {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		rings = append(rings, ring{radius * sin, -half - radius*cos})
	}
	rings[len(rings)-1] = ring{radius, -half}
	for i := len(rings) - 1; i >= 0; i-- {
		if r := (ring{rings[i].radius, -rings[i].z}); r != rings[len(rings)-1] {
			rings = append(rings, r)
		}
	}
	return lathe(n, false, rings), nil
}

// ring is a circle of a body of revolution about z, m; radius 0 is a point.
type ring struct{ radius, z float64 }

// lathe turns a profile about z in n steps. The profile runs upwards on the
// outside. Around says that it is a ring itself; else the body is closed by a
// disc at each end that is no point.
func lathe(n int, around bool, profile []ring) Mesh {
	var m Mesh
	first := make([]int32, len(profile)) // first vertex of each ring
	for i, p := range profile {
		first[i] = int32(len(m.Vertices))
		if p.radius == 0 {
			m.Vertices = append(m.Vertices, r3.Vec{Z: p.z})
			continue
		}
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			m.Vertices = append(m.Vertices, r3.Vec{X: p.radius * cos, Y: p.radius * sin, Z: p.z})
		}
	}
	at := func(i, k int) int32 {
		if profile[i].radius == 0 {
			return first[i]
		}
		return first[i] + int32(k%n)
	}
	band := func(i, j int) {
		for k := range n {
			if profile[i].radius > 0 {
				m.Triangles = append(m.Triangles, [3]int32{at(i, k), at(i, k+1), at(j, k)})
			}
			if profile[j].radius > 0 {
				m.Triangles = append(m.Triangles, [3]int32{at(i, k+1), at(j, k+1), at(j, k)})
			}
		}
	}
	for i := 1; i < len(profile); i++ {
		band(i-1, i)
	}
	last := len(profile) - 1
	if around {
		band(last, 0)
		return m
	}
	for k := 1; k < n-1; k++ {
		if profile[0].radius > 0 {
			m.Triangles = append(m.Triangles, [3]int32{at(0, 0), at(0, k+1), at(0, k)})
		}
		if profile[last].radius > 0 {
			m.Triangles = append(m.Triangles, [3]int32{at(last, 0), at(last, k), at(last, k+1)})
		}
	}
	return m
}

// named is a measurement of a primitive, m, with its name for messages.
type named struct {
	name  string
	value float64
}

func lengthsOf(what string, all ...named) error {
	for _, l := range all {
		if !(l.value > 0 && l.value <= maxCoordinate) {
			return fmt.Errorf("%s: found a %s of %g m; allowed: more than 0 m, finite; to mend: give a positive length", what, l.name, l.value)
		}
	}
	return nil
}

const (
	// fewestFlats keeps a round body round even for a generous chord.
	fewestFlats = 8
	// finestChord is the smallest chord over radius (dimensionless): it asks
	// for 2,222 flats.
	finestChord = 1e-6
)

// flats returns how many flats cut a circle of the radius with a rise of chord
// at most, r (1 - cos(pi/n)) <= chord, both in m.
func flats(what string, radius, chord float64, all ...named) (int, error) {
	if err := lengthsOf(what, all...); err != nil {
		return 0, err
	}
	if err := lengthsOf(what, named{"chord tolerance", chord}); err != nil {
		return 0, err
	}
	if chord < finestChord/2*radius {
		return 0, fmt.Errorf("%s: found a chord tolerance of %g m for a radius of %g m; allowed: a millionth of the radius or more; to mend: 0.1 mm suits most shapes", what, chord, radius)
	}
	if chord >= radius {
		return fewestFlats, nil
	}
	return max(fewestFlats, int(math.Ceil(math.Pi/math.Acos(1-chord/radius)))), nil
}
