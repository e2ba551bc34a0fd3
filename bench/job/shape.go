package job

import (
	"crypto/sha256"

	"seamwright/geom/mesh"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Shape is a body of the part, or a fixture, from which arm and torch stay
// clear: a mesh from a file, or a simple form typed from its sizes.
type Shape struct {
	Name string
	Kind ShapeKind
	// Part: it belongs to the part; otherwise it is a fixture.
	Part bool
	// OnPart: it stands still on the part, and so turns with a turning table;
	// otherwise it stands still with the arm's foot. LinkFromShape is its pose in
	// the link that carries it: arm.part_link, or arm.base_link where OnPart is
	// false or no table carries the part.
	OnPart        bool
	LinkFromShape se3.Pose
	// Mesh holds for ShapeMesh.
	Mesh MeshFile
	// Size is that of a box along its x, y and z; of a plate and of a table's top
	// length, width and thickness; of a clamp's foot; of a square post side, side
	// and height. m.
	Size r3.Vec
	// Diameter and Length are those of a cylinder and of a round post, m.
	Diameter, Length float64
	// Legs are those of a table: four, square, of this side and height, m; none
	// where the height is 0.
	LegSide, LegHeight float64
	Clamp              Clamp
	At                 Place
}

// Clamp is the bar and the tip of a clamp on its foot, which is Shape.Size. The
// bar lies on the foot, square in section, of side Bar, and reaches from the
// foot's middle to Reach along x. Its end presses down with a round tip.
type Clamp struct {
	Bar, Reach             float64 // m
	TipDiameter, TipLength float64 // m
}

// ShapeKind is the form of a shape; it is the field's name in the document.
// Frames are the shape's own, z up as it stands.
type ShapeKind string

const (
	// ShapeMesh is a file of triangles in the file's own frame, z up.
	ShapeMesh ShapeKind = "mesh"
	// ShapeBox has one corner in the origin and reaches along +x, +y and +z.
	ShapeBox ShapeKind = "box"
	// ShapePlate has a corner of its upper face in the origin; length runs along
	// +x, width along +y, and the thickness lies below.
	ShapePlate ShapeKind = "plate"
	// ShapeCylinder and ShapePost stand on the origin and rise along z.
	ShapeCylinder ShapeKind = "cylinder"
	ShapePost     ShapeKind = "post"
	// ShapeClamp stands on the origin with the middle of its foot, and reaches
	// along +x.
	ShapeClamp ShapeKind = "clamp"
	// ShapeTable has the middle of its top face in the origin.
	ShapeTable ShapeKind = "table"
	// ShapeFloor is everything below the origin; it is level in the world.
	ShapeFloor ShapeKind = "floor"
)

// MeshFile is a file of triangles as it was read: nothing of it is mended yet.
type MeshFile struct {
	// File is its name, relative to the document's folder; Unit what one of its
	// numbers means.
	File string
	Unit mesh.Unit
	// Format is what the file turned out to be, such as "binary STL".
	Format string
	// SHA256 is of the file's bytes, and behind them those of the files that a glTF
	// file names.
	SHA256 [sha256.Size]byte
	Mesh   mesh.Mesh // m
	// Said is what the reader made of the file beyond its triangles, one sentence
	// each.
	Said []string
	At   Place
}

// TorchShape is the torch's form from a file of triangles.
type TorchShape struct {
	MeshFile
	// OnFlange: the file is drawn about the flange; otherwise about the wire tip.
	// LinkFromShape is its pose there.
	OnFlange      bool
	LinkFromShape se3.Pose
}

// CablePiece is a straight piece of the space that the torch's cable may take
// while the arm moves: all within Radius of the line from From to To, in m, in
// the frame of a link of the arm, which carries it.
type CablePiece struct {
	Link     string
	From, To r3.Vec
	// Diameter is that of the cable, Play how far it may swing, m.
	Diameter, Play float64
	At             Place
}

// Radius returns half the cable's diameter and its play together, m.
func (c CablePiece) Radius() float64 { return c.Diameter/2 + c.Play }

// ArmShapes says which shapes of the arm's file count as the arm's body.
type ArmShapes string

const (
	// ShapesCollision: those to keep clear of other things.
	ShapesCollision ArmShapes = "collision"
	// ShapesVisual: those to look at, where the file has no others or the document
	// says so.
	ShapesVisual ArmShapes = "visual"
	// ShapesNone: the file has none, or the document wants none looked at.
	ShapesNone ArmShapes = "none"
)

// Package is a folder that mesh names of the arm's file refer to by a name.
type Package struct{ Name, Folder string }

// Clearance is how far things stay from each other, m.
type Clearance struct {
	// Nozzle and Torch (neck and body) are to part and fixtures while welding and
	// on approach and retreat; Air is for all of the torch in air moves.
	Nozzle, Torch, Air float64
	// Cable is from the space that the cable takes, in all moves.
	Cable float64
	// Arm is from the arm's links to all that is not arm, torch or cable; Self from
	// its links, the torch and the cable to each other.
	Arm, Self float64
	// Stated names the fields that the document gives; the others are defaults.
	Stated []string
	// Ignore and Keep name pairs that are not looked at, or looked at though they
	// would be left out: shapes, members, links of the arm, and the words of
	// BodyWords.
	Ignore, Keep []NamePair
	At           Place
}

// NamePair names two things that may come near each other.
type NamePair struct {
	A, B string
	At   Place
}

// The words by which a pair may name what has no name in the document.
const (
	WordArm    = "arm"    // every link
	WordTorch  = "torch"  // nozzle, neck and body
	WordNozzle = "nozzle" //
	WordNeck   = "neck"   //
	WordBody   = "torch body"
	WordCable  = "cable" // every piece
)

// BodyWords returns those words.
func BodyWords() []string {
	return []string{WordArm, WordTorch, WordNozzle, WordNeck, WordBody, WordCable}
}
