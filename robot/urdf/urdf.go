// Package urdf reads a robot description in the Unified Robot Description
// Format (URDF), the open XML format in which most arms are published.
//
// Parse gives plain data in SI units: links with the shapes that are drawn and
// the shapes that are kept clear of things, and the joints between them. It
// either understands the whole file or names every problem of it, each with
// its line and column; nothing that is missing turns into a zero in silence.
// What the file says and this package does not read (inertia, transmissions,
// simulator settings) is listed in Robot.Notes.
//
//	robot, err := urdf.Parse(file, "arm.urdf")
//	chain, err := kinematics.NewChain(robot, "base_link", "flange")
//
// Meaning of the elements: the URDF XML specification, wiki.ros.org/urdf/XML
// (joint, link, visual, collision, material). From memory: joint axis default
// 1 0 0, rpy as rotations about the fixed X, Y, Z axes in that order, shapes
// centred on their origin, cylinders along z.
package urdf

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Robot is one parsed file: a tree of links with joints as its edges, both in
// the order of the file.
type Robot struct {
	Name      string
	Links     []Link
	Joints    []Joint
	Materials []Material
	// Notes lists what does not stop the file from being used but should be
	// seen by a person: a velocity limit that is absent, an element that is
	// not read.
	Notes []Problem
}

// Link is one rigid body.
type Link struct {
	Name       string
	Visuals    []Visual
	Collisions []Collision
}

// Visual is a shape to draw. Origin is linkFromShape. Material is a name in
// Robot.Materials, or empty.
type Visual struct {
	Name     string
	Origin   se3.Pose
	Geometry Geometry
	Material string
}

// Collision is a shape to keep clear of other things. Origin is linkFromShape.
type Collision struct {
	Name     string
	Origin   se3.Pose
	Geometry Geometry
}

// GeometryKind says which shape a Geometry is.
type GeometryKind uint8

// The shapes of URDF.
const (
	Box      GeometryKind = iota + 1 // Size
	Cylinder                         // Radius, Length; axis z, centred
	Sphere                           // Radius
	MeshFile                         // Mesh
)

// Geometry is one shape, centred on its origin. Fields of other kinds are zero.
type Geometry struct {
	Kind   GeometryKind
	Size   r3.Vec  // full edge lengths along x, y, z, m
	Radius float64 // m
	Length float64 // m
	Mesh   Mesh
}

// Mesh is a reference to a file with triangles. File is the text of the URDF,
// unchanged; see Resolve. Scale is dimensionless, per axis, and mirrors where
// it is negative.
type Mesh struct {
	File  string
	Scale r3.Vec
}

// Material is a colour: red, green, blue and opacity, each 0 to 1,
// dimensionless. HasColor is false where only a texture or a name was given.
// Texture is the text of the file, unchanged.
type Material struct {
	Name     string
	RGBA     [4]float64 // dimensionless
	HasColor bool
	Texture  string
}

// JointKind is the motion that a joint allows.
type JointKind uint8

// The joints this package accepts; floating and planar joints are refused.
const (
	Revolute   JointKind = iota + 1 // turns between two limits
	Continuous                      // turns without end
	Prismatic                       // slides between two limits
	Fixed                           // does not move
)

// String returns the URDF word for k.
func (k JointKind) String() string {
	switch k {
	case Revolute:
		return "revolute"
	case Continuous:
		return "continuous"
	case Prismatic:
		return "prismatic"
	case Fixed:
		return "fixed"
	}
	return "unknown"
}

// Joint connects the link Parent to the link Child. Origin is parentFromChild
// with the joint at zero; the joint turns the child about, or slides it along,
// Axis, a unit direction in the child's frame (1 0 0 where the file has none).
type Joint struct {
	Name          string
	Kind          JointKind
	Parent, Child string
	Origin        se3.Pose
	Axis          r3.Vec
	Limit         Limit
}

// Limit bounds a joint. Lower and Upper are rad for revolute joints, m for
// prismatic ones, and zero without meaning for the others. Velocity (rad/s or
// m/s) and Effort (N m or N) are zero where the file does not state them, and
// Robot.Notes then says so.
type Limit struct {
	Lower, Upper float64 // rad or m
	Velocity     float64 // rad/s or m/s; 0: not stated
	Effort       float64 // N m or N; 0: not stated
}

// Link returns the link of that name, or nil.
func (r *Robot) Link(name string) *Link {
	for i := range r.Links {
		if r.Links[i].Name == name {
			return &r.Links[i]
		}
	}
	return nil
}

// ParentJoint returns the joint whose child is the named link, or nil for the
// root and for names that are not links.
func (r *Robot) ParentJoint(link string) *Joint {
	for i := range r.Joints {
		if r.Joints[i].Child == link {
			return &r.Joints[i]
		}
	}
	return nil
}

// Root returns the name of the one link that has no parent.
func (r *Robot) Root() string {
	for i := range r.Links {
		if r.ParentJoint(r.Links[i].Name) == nil {
			return r.Links[i].Name
		}
	}
	return ""
}
