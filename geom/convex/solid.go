// Package convex answers how far simple solids are from each other: boxes,
// cylinders, balls, capsules and cones, as arms, torches, tables and fixtures
// are made of.
//
// A Solid lies in its own frame with its middle in the origin and its axis
// along z, as URDF has it. A query takes two solids and aFromB, the pose of b's
// frame in a's, and answers in a's frame. Solids are filled: one wholly inside
// another overlaps it. Queries change nothing, allocate nothing, and the same
// inputs give the same answer.
//
// The method is that of Gilbert, Johnson and Keerthi (1988; from memory): the
// point of the set of differences b - a that is nearest to the origin, found
// among its extreme points. Curved sides are exact: nothing is cut into flats.
// A ball is a point and a capsule a segment, with a radius that is taken off at
// the end. A search ends when its answer is proven, by points that realise it
// on one side and a plane that bounds it on the other, or when rounding leaves
// nothing to gain; never after some number of steps. Distances of boxes, balls
// and capsules are exact to 1e-12 of themselves and the rounding of sizes, those
// of cylinders and cones to 1e-10 m as a rule and 1e-8 m at the worst, where
// sides a metre long are all but parallel.
package convex

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Touch is the distance, in metres, at and below which solids count as
// touching: the rounding of coordinates at workshop size. A smaller distance is
// reported as 0.
const Touch = 1e-12

// Reach is the largest size, in metres, that a solid may have.
const Reach = 1e6

// Kind says which of its sizes a Solid uses, and how.
type Kind uint8

// The kinds of solids. Each lies about the origin, its axis along z.
const (
	Box      Kind = iota // Size
	Cylinder             // Radius, Length
	Sphere               // Radius
	Capsule              // Radius, Length: a cylinder of that length with half a ball at each end
	Cone                 // Radius at z = -Length/2, TopRadius at z = Length/2, one of which may be 0
)

// String returns the kind as a word.
func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return fmt.Sprintf("kind %d", uint8(k))
}

var kindNames = [...]string{"box", "cylinder", "sphere", "capsule", "cone"}

// Solid is a filled body in its own frame, its middle in the origin. Use a
// constructor, which checks the sizes; the zero value is a point, and queries
// take it as that.
type Solid struct {
	Kind      Kind
	Size      r3.Vec  // of a box: its edges along x, y and z, m
	Radius    float64 // of round kinds, m; of a cone that of its foot, at z = -Length/2
	TopRadius float64 // of a cone at z = Length/2, m
	Length    float64 // along z, m; of a capsule that between the centres of its ends
}

// NewBox returns a box of the given edges, in metres.
func NewBox(size r3.Vec) (Solid, error) {
	err := sizes("box", named{"size along x", size.X}, named{"size along y", size.Y}, named{"size along z", size.Z})
	return Solid{Kind: Box, Size: size}, err
}

// NewCylinder returns a cylinder along z, radius and length in metres.
func NewCylinder(radius, length float64) (Solid, error) {
	err := sizes("cylinder", named{"radius", radius}, named{"length", length})
	return Solid{Kind: Cylinder, Radius: radius, Length: length}, err
}

// NewSphere returns a ball, its radius in metres.
func NewSphere(radius float64) (Solid, error) {
	err := sizes("sphere", named{"radius", radius})
	return Solid{Kind: Sphere, Radius: radius}, err
}

// NewCapsule returns a capsule along z: all points within radius of a segment
// of the given length, both in metres. A length of 0 makes a ball.
func NewCapsule(radius, length float64) (Solid, error) {
	err := sizes("capsule", named{"radius", radius})
	if err == nil && !(length >= 0 && length <= Reach) {
		err = fmt.Errorf("capsule: found a length of %g m; allowed: 0 to %g m; to mend: use 0 for a ball", length, float64(Reach))
	}
	return Solid{Kind: Capsule, Radius: radius, Length: length}, err
}

// NewCone returns a cone or frustum along z, with the radius foot at
// z = -length/2 and top at z = length/2, in metres. One of the radii may be 0
// for a point.
func NewCone(foot, top, length float64) (Solid, error) {
	err := sizes("cone", named{"larger radius", math.Max(foot, top)}, named{"length", length})
	if err == nil && !(math.Min(foot, top) >= 0) {
		err = fmt.Errorf("cone: found a radius of %g m; allowed: 0 m or more; to mend: use 0 for a point", math.Min(foot, top))
	}
	return Solid{Kind: Cone, Radius: foot, TopRadius: top, Length: length}, err
}

// named is a size, m, with its name for messages.
type named struct {
	name  string
	value float64
}

func sizes(what string, all ...named) error {
	for _, s := range all {
		if !(s.value > 0 && s.value <= Reach) {
			return fmt.Errorf("%s: found a %s of %g m; allowed: more than 0 m, at most %g m; to mend: give a positive length", what, s.name, s.value, float64(Reach))
		}
	}
	return nil
}

// Support returns the point of the solid, m in its frame, that is farthest along a
// direction of any length: one of them where several are, and the middle of a
// flat round end that is square to the direction. Along a direction of no
// length it is some point of the solid.
func (s *Solid) Support(direction r3.Vec) r3.Vec {
	p := s.core(direction)
	if r := s.round(); r > 0 {
		p = p.AddScaled(r, direction.Unit())
	}
	return p
}

// Bounds returns the lowest and the highest corner, in metres, of the smallest
// box along the axes of the solid's frame that holds it.
func (s *Solid) Bounds() (lo, hi r3.Vec) {
	h := s.half()
	return h.Neg(), h
}

// Outer returns the radius, in metres, of the smallest ball about the origin of
// the solid's frame that holds it.
func (s *Solid) Outer() float64 {
	switch s.Kind {
	case Box:
		return s.Size.Norm() / 2
	case Sphere:
		return s.Radius
	case Capsule:
		return s.Radius + s.Length/2
	case Cone:
		return math.Hypot(max(s.Radius, s.TopRadius), s.Length/2)
	}
	return math.Hypot(s.Radius, s.Length/2)
}

// half returns half the size of Bounds, m.
func (s *Solid) half() r3.Vec {
	switch s.Kind {
	case Box:
		return r3.Vec{X: s.Size.X / 2, Y: s.Size.Y / 2, Z: s.Size.Z / 2}
	case Sphere:
		return r3.Vec{X: s.Radius, Y: s.Radius, Z: s.Radius}
	case Capsule:
		return r3.Vec{X: s.Radius, Y: s.Radius, Z: s.Length/2 + s.Radius}
	case Cone:
		r := max(s.Radius, s.TopRadius)
		return r3.Vec{X: r, Y: r, Z: s.Length / 2}
	}
	return r3.Vec{X: s.Radius, Y: s.Radius, Z: s.Length / 2}
}

// round returns the radius (m) by which a solid is larger than its core.
func (s *Solid) round() float64 {
	if s.Kind == Sphere || s.Kind == Capsule {
		return s.Radius
	}
	return 0
}

// core is Support of the solid without its round: of a ball the middle, of a
// capsule its segment.
func (s *Solid) core(d r3.Vec) r3.Vec {
	switch s.Kind {
	case Box:
		return r3.Vec{X: math.Copysign(s.Size.X/2, d.X), Y: math.Copysign(s.Size.Y/2, d.Y), Z: math.Copysign(s.Size.Z/2, d.Z)}
	case Sphere:
		return r3.Vec{}
	case Capsule:
		return r3.Vec{Z: math.Copysign(s.Length/2, d.Z)}
	}
	across := math.Sqrt(d.X*d.X + d.Y*d.Y)
	r, z := s.Radius, s.Length/2
	if s.Kind == Cone {
		if s.TopRadius*across+z*d.Z > s.Radius*across-z*d.Z {
			r = s.TopRadius
		} else {
			z = -z
		}
	} else {
		z = math.Copysign(z, d.Z)
	}
	if across == 0 {
		return r3.Vec{Z: z}
	}
	f := r / across
	return r3.Vec{X: f * d.X, Y: f * d.Y, Z: z}
}
