// Package job holds the job document: what a programmer really has, read
// strictly from YAML and CSV, in SI units, with the place of every value
// remembered for messages.
//
// A Job is plain data and never changes after Decode. It refers to points,
// settings sets and files by the names that the document uses; Decode has
// resolved and checked those names. Nothing here computes a weld or a posture.
package job

import (
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/urdf"
	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/procedure"
)

// Version is the form of the document that this package reads: the value of
// its first field, "seamwright".
const Version = 1

// Job is one document with every file that it names.
type Job struct {
	// File is the document's path as given, for messages.
	File                          string
	Name, Part, Drawing, Revision string
	// Code is the family of rules and words that the drawing follows.
	Code weld.CodeFamily

	Arm   Arm
	Torch Torch
	Cell  Cell
	Air   Air

	// Points are the taught points in document order: rows of the CSV file,
	// then inline rows. Labels are unique except where Listed is true.
	Points []Point
	// Keying is how the controller shows poses, as far as the points say.
	Keying Keying
	// Listed says that the points are a whole taught list with moves, so the
	// desk checks of such a list apply.
	Listed bool
	// Home is the label of the point where the run begins and ends; it has a pose
	// with an orientation or joint values.
	Home string

	// Plates and Tubes are the members typed from the drawing's sizes.
	Plates []TypedPlate
	Tubes  []TypedTube
	// Shapes are the bodies of part and fixtures that are told for clearance; typed
	// plates and tubes are bodies of the part besides.
	Shapes    []Shape
	Clearance Clearance

	// Settings are the settings sets. ContactDistance is what a set was made with,
	// 0: not said; the torch's own distance is planned.
	Settings []procedure.Settings
	// Procedures are the welding procedures in document order, each with an id of
	// its own and of the code family of the job; none: none given.
	Procedures []procedure.WPS
	// Learned is what gauge readings taught about settings sets, which have their
	// efficiency and convexity from it; nil: nothing named.
	Learned *Learned
	// Acceptance is what finished welds are accepted by; nil: not said.
	Acceptance *Acceptance
	Seams      []Seam
	// Order names the seams as they are welded, in that order (see Seam.Names);
	// nil: as they stand.
	Order      []string
	Material   Material
	Heat       Heat
	Distortion Distortion

	// Inputs are the files that the job was made from, the document first.
	Inputs []Input
}

// Place is where a value stands: a file as named in the document or on the
// command line, line and column counted from 1, and the path of the field.
type Place struct {
	File         string
	Line, Column int
	Field        string
}

// Arm is the arm's description and what its file does not say.
type Arm struct {
	// URDF is the file as written in the document; Robot what it holds.
	URDF                 string
	Robot                *urdf.Robot
	BaseLink, FlangeLink string
	// PartLink is the top of the turning table that carries the part; "" where the
	// part stands still in the base link. The chain of joints then runs from it
	// over the table's, backwards, to the base link and along the arm.
	PartLink string
	// Shown is how the controller shows each joint, in chain order; nil where it
	// shows the file's values. All joint values of a job are the file's.
	Shown []Shown
	// Cable is between which values the torch's cable lets the last joint turn;
	// nil: not said.
	Cable *JointRange
	// Acceleration limits every joint, rad/s2 (m/s2 for a sliding joint), one
	// value a joint in chain order or a single one for all.
	Acceleration []float64
	// Jerk limits the rate of every joint's acceleration, rad/s3 (m/s3 for a sliding
	// joint), one value a joint in chain order or a single one for all; nil: not
	// said, and DefaultJerkTime holds.
	Jerk []float64
	// LimitMargin is how far every joint stays from its limits while planning,
	// rad. WristMargin is how far the wrist stays from its singularity, rad.
	LimitMargin, WristMargin float64
	// Payload is what the arm may carry by its maker's word, kg, 0: not said.
	Payload float64
	// Shapes says which of the file's shapes are the arm's body, and Packages where
	// the folders lie that its meshes name. Meshes holds the files of these shapes,
	// by urdf.Mesh.File.
	Shapes   ArmShapes
	Packages []Package
	Meshes   map[string]MeshFile
	// HandGuiding are notes for who guides the arm by hand, passed on as written.
	HandGuiding []string
	At          Place
}

// Shown is how a controller shows a joint: Zero is the file's value where it
// shows 0 (rad or m), Sign 1 or -1 (dimensionless), where it counts the other
// way.
type Shown struct{ Zero, Sign float64 }

// File returns the file's value of a joint shown at v, both rad or m.
func (s Shown) File(v float64) float64 { return s.Zero + s.Sign*v }

// Of returns what the controller shows at the file's value v, both rad or m.
func (s Shown) Of(v float64) float64 { return s.Sign * (v - s.Zero) }

// JointRange is what a turning joint may stand at, rad.
type JointRange struct{ Lower, Upper float64 }

// Torch is the torch by shop measurements, or by the pose of its tip.
// Lengths are metres, angles radians.
type Torch struct {
	// Measured says that the measurements below give the pose; otherwise
	// FlangeFromTip was typed.
	Measured bool
	// Body is the length from the flange face along its axis to the middle of
	// the neck's bend; Neck the length from there along the wire to the nozzle
	// end; NeckAngle the bend; Turn the turn of the torch about the flange
	// axis; Sideways the offset of the body's axis from the flange axis.
	Body, Neck, NeckAngle, Turn float64
	Sideways                    [2]float64
	// NozzleDiameter is the outside diameter; TipRecess how far the contact
	// tip sits inside the nozzle (negative: sticks out); StickOut the length
	// from the nozzle end to the wire end.
	NozzleDiameter, TipRecess, StickOut float64
	// TaperEnd is the nozzle's outside diameter at its end where it narrows over
	// its last TaperOver, both 0 where it does not; NozzleLength its length.
	TaperEnd, TaperOver, NozzleLength float64
	// NeckDiameter and BodyDiameter are outside diameters; 0 where Shape stands for
	// them. Assumed names the fields that the document leaves out and that have a
	// default here.
	NeckDiameter, BodyDiameter float64
	Assumed                    []string
	// Shape is the torch as drawn, nil: its measurements are its shape.
	Shape *TorchShape
	// Cable is the space that the cable may take; nil: not said.
	Cable []CablePiece
	// WireDiameter is the wire that the tool point was found with, 0: not said.
	WireDiameter float64
	// Mass is that of torch, cable and bracket on the flange, kg, 0: not said.
	Mass          float64
	FlangeFromTip se3.Pose
	At            Place
}

// ContactTipDistance returns the nominal contact-tip-to-work distance in
// metres: recess and stick-out together.
func (t Torch) ContactTipDistance() float64 { return t.TipRecess + t.StickOut }

// Cell is where things stand. World is z up, gravity -z.
type Cell struct {
	WorldFromBase se3.Pose
	WorldFromPart se3.Pose
	HasPart       bool
	At            Place
}

// Air is how the arm moves without arc: TipSpeed the site's limit on linear
// moves, m/s; JointPercent the share of the joints' speed in joint moves, 1 to
// 100; TipAcceleration on linear moves, m/s2; Out the length of generated
// approaches and retreats, m.
type Air struct {
	TipSpeed, JointPercent, TipAcceleration, Out float64
	// Order says who chooses in which order seams are welded.
	Order AirOrder
	At    Place
}

// AirOrder is who chooses the order of welding.
type AirOrder string

const (
	// OrderListed: the document, by its order or as its seams stand.
	OrderListed AirOrder = "as listed"
	// OrderShortest: the plan, for the least time in the air.
	OrderShortest AirOrder = "shortest"
)

// Keying is how the points' poses are written: in which frame, of what, in
// which unit and convention. Values to key in are printed the same way.
type Keying struct {
	Frame FrameName
	// Flange: poses locate the flange; otherwise the wire tip.
	Flange bool
	// Length is "mm", "m" or "in"; Orientation the convention. Both are zero
	// where no pose with an orientation was given.
	Length      string
	Orientation se3.Convention
	// Joints is "deg" or "rad", the unit of turning joints; "" where not said.
	Joints string
	// Speed is the unit of speeds: that of the points' column of speeds, else
	// in/min with lengths in inches and mm/s with others.
	Speed unit.Unit
}

// FrameName says in which frame points are measured.
type FrameName string

const (
	FrameBase  FrameName = "base"
	FrameWorld FrameName = "world"
	FramePart  FrameName = "part"
)

// Point is one taught point: a pose or joint values.
type Point struct {
	Label, Comment string
	// HasPose: BaseFromTip or BaseFromFlange was taught (TipPose says which),
	// already carried from the measured frame into the base: the arm's base
	// link, or the part link where a turning table carries the part. HasTurn is
	// false where only a place was given and the pose's rotation means nothing.
	HasPose bool
	HasTurn bool
	TipPose bool
	Pose    se3.Pose
	// Joints are the taught joint values in chain order, rad or m; nil if none.
	Joints []float64
	// Table are the values of the joints of the turning table when the point was
	// taught, the first of the chain, rad or m; nil without a table.
	Table []float64
	// Move, Speed, Arc and Settings are what the taught list says of the move
	// to this point; zero values where it says nothing.
	Move     Move
	Speed    float64 // m/s, 0: not said
	Percent  float64 // percent of joint speed, 0: not said
	Blend    float64 // blend radius, m, 0: stop point
	Arc      Arc
	Settings string
	At       Place
}

// Move is a kind of move.
type Move string

const (
	MoveNone   Move = ""
	MoveJoint  Move = "joint"
	MoveLinear Move = "linear"
	MoveArc    Move = "arc"
)

// Arc is a change of the arc at a point.
type Arc string

const (
	ArcSame Arc = ""
	ArcOn   Arc = "on"
	ArcOff  Arc = "off"
)

// Seam is one line to be welded, as the document says it.
type Seam struct {
	Name  string
	Joint weld.JointType
	Path  PathKind
	// Points are labels in order of travel; those of all Sides, for PathSides,
	// each of which was touched at two points or more. Radius is the drawing's
	// radius of an arc or circle, m, 0: take it from the points; Plane the one in
	// which it is known to lie.
	Points []string
	Sides  [][]string
	Radius float64
	Plane  Flat
	// Corners are those of a polyline or of sides: none (all sharp), one for all,
	// or one for each in the order in which the path comes to them; a closed path
	// comes to its first point last.
	Corners []Corner
	// Closed: the path comes back to its first point. It then begins at StartAt
	// and runs past its start by Overlap, m. A circle is closed.
	Closed  bool
	StartAt StartAt
	Overlap float64
	// Meeting, TubeOnPlate and Saddle hold for the paths of those names, which
	// follow from typed members; there are then no Points, and the plates and
	// their thicknesses follow too.
	Meeting     Meeting
	TubeOnPlate TubeOnPlate
	Saddle      Saddle
	// Mirror, Repeat and Split make several seams of this one; see Names. Stitches
	// cut each of them, and Restart says which and how much of it is welded already.
	Mirror   Mirror
	Repeat   Repeat
	Split    Split
	Stitches Stitches
	Restart  Restart
	// Taught are labels of points taught on the seam where the path is known
	// from elsewhere, in order of travel; empty: Points are the taught ones.
	Taught []string
	// Base is the non-butting member, the lower plate of a lap or the plate of
	// a butt joint; Other the butting member.
	Base, Other Plate
	// BaseThickness and OtherThickness in m, 0: not said.
	BaseThickness, OtherThickness float64
	Weld                          Weld
	Passes                        Passes
	Weave                         Weaving
	// Gap is the fit-up gap, m, the wider one where it differs from start to end, and
	// GapStart and GapEnd both of them.
	Gap, GapStart, GapEnd float64
	// Symbol is that of the drawing, where the seam has one in place of a weld.
	Symbol Symbol
	// Settings is the identity of the settings set.
	Settings string
	// Procedure is the id of the welding procedure, "" where the job gives none.
	Procedure string
	// Speed is a typed travel speed, m/s; 0: find it from the size.
	Speed             float64
	Aim               Aim
	Approach, Retreat Leave
	// Through are labels of points that the arm passes in joint moves on its
	// way to the approach, in that order; each has a pose with an orientation or
	// joint values.
	Through []string
	At      Place
	// Fields gives the place of the fields of this seam by name ("speed",
	// "torch.work"), for messages; a field taken from the defaults has its place
	// there.
	Fields map[string]Place
}

// Plate says how a plate's face is known.
type Plate struct {
	Kind PlateKind
	// Direction is the outward normal, in the base as points are, for PlateDirection.
	Direction r3.Vec
	// Points are the touched points' labels for PlateTouched and
	// PlateTouchedVertical.
	Points []string
	// Angle between the two plates, rad, for PlateAngle.
	Angle float64
	At    Place
}

// PlateKind is a way to know a plate's face.
type PlateKind string

const (
	// PlateUnstated: the document does not say.
	PlateUnstated PlateKind = ""
	// PlateUp, PlateDown: the welded face looks up or down, square to the seam.
	PlateUp   PlateKind = "up"
	PlateDown PlateKind = "down"
	// PlateLevel: the plate is level and the seam lies in it.
	PlateLevel PlateKind = "level"
	// PlateLeft, PlateRight: the plate stands on that side of the travel, seen
	// with the base plate's face towards the eye, square to the base plate.
	PlateLeft  PlateKind = "left"
	PlateRight PlateKind = "right"
	// PlateDirection: by its outward normal.
	PlateDirection PlateKind = "direction"
	// PlateAngle: by its angle to the other plate and the side it stands on.
	PlateAngleLeft  PlateKind = "angle left"
	PlateAngleRight PlateKind = "angle right"
	// PlateTouched: by three to twelve touched points.
	PlateTouched PlateKind = "touched"
	// PlateTouchedVertical: by two to twelve touched points, the plate being plumb.
	PlateTouchedVertical PlateKind = "touched vertical"
	// PlateTubeOutside, PlateTubeInside: the wall of a tube on the circle's
	// axis, welded on that side.
	PlateTubeOutside PlateKind = "tube outside"
	PlateTubeInside  PlateKind = "tube inside"
)

// Weld is the size on the drawing. Exactly one kind is given.
type Weld struct {
	Kind SizeKind
	// Leg (both legs) or LegBase and LegOther, Throat: m. Area: m2.
	LegBase, LegOther, Throat, Area float64
	Groove                          Groove
	At                              Place
}

// Fillet reports whether the size is that of a fillet.
func (w Weld) Fillet() bool {
	return w.Kind == SizeLeg || w.Kind == SizeLegs || w.Kind == SizeThroat
}

// SizeKind says what the size on the drawing measures.
type SizeKind string

const (
	SizeLeg    SizeKind = "leg"
	SizeLegs   SizeKind = "legs"
	SizeThroat SizeKind = "throat"
	SizeArea   SizeKind = "area"
	SizeGroove SizeKind = "groove"
)

// Aim is the wanted torch, radians and metres; travel is push positive.
type Aim struct {
	Work, Travel float64
	// WorkStated: the document gives the work angle; otherwise the bisector is
	// taken (0 for butt and edge joints).
	WorkStated bool
	Spin       SpinWish
	// SpinAngle is the wanted spin for SpinFixed, rad.
	SpinAngle float64
	// Offset is the sideways shift of the tip onto the base plate, m.
	Offset float64
	// Distance is the wanted contact-tip-to-work distance, m; 0: the torch's
	// nominal.
	Distance float64
	// Tolerance is how far work and travel may be off as taught before the
	// report says so, rad.
	Tolerance float64
}

// SpinWish says how the spin is chosen.
type SpinWish string

const (
	// SpinTaught: as taught where that works, otherwise the nearest that does.
	SpinTaught SpinWish = "as taught"
	// SpinFree: whatever serves the arm best.
	SpinFree SpinWish = "free"
	// SpinFixed: this one and no other.
	SpinFixed SpinWish = "fixed"
)

// Leave is an approach or a retreat: a taught point, or Out metres straight
// back along the wire.
type Leave struct {
	Point string
	Out   float64
}
