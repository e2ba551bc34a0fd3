// Package plan turns a job into a finished run: torch targets true to the
// joint, a posture of the arm along every pass, approach, retreat and air
// moves, times, and the findings of every check.
//
//	Job --resolve--> Cell and seams --size--> passes --aim--> torch targets
//	    --posture--> joint paths --run--> steps, trace --check--> findings
//
// Each arrow is a function from values to new values; nothing is written back.
// All geometry of a Plan is in the base frame (see robot/cell), SI units.
package plan

import (
	"seamwright/bench/finding"
	"seamwright/bench/scene"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/thermal"
)

// Plan is a finished run and everything that is needed to prove it.
type Plan struct {
	Cell *cell.Cell
	// Scene is what the arm moves among.
	Scene *scene.Scene
	// Seams are in the order of welding, which is that of the document; one seam
	// of the document may make several here.
	Seams []Seam
	// Stitched tells of the document's seams that are welded in stitches.
	Stitched []Stitching
	// Steps are the commanded moves from home to home, Trace the run in time.
	Steps []Step
	Trace []Sample
	Times Times
	// Air are the ways through the air, in order; nil where no bodies are known.
	Air []AirMove
	// Distortion is what the welds are likely to do to the part, by rules of thumb.
	Distortion Distortion

	Findings []finding.Finding
}

// Times are seconds. Wait is what the arm stands for a joint to cool.
type Times struct{ Arc, Weld, Air, Wait, Total float64 }

// Seam is one seam with what was taught and what is wanted.
type Seam struct {
	Name  string
	Index int // place in the job's list, from 0, of the document's seam that it comes from
	// BaseThickness and OtherThickness are those of the plates, m, also where they
	// follow from typed members; 0: not said.
	BaseThickness, OtherThickness float64
	Geometry                      *seam.Seam
	Way                           seam.Way // of the torch along it, which turns at sharp corners
	// FitResidual is the largest distance of a point from the path, m.
	FitResidual float64
	Length      float64 // m, along the path with overlap
	// Position is the weld position at the weld start, Lies every one that the seam
	// has along its way, that of the start first.
	Position weld.Position
	Lies     []Lie
	// OpensLeast and OpensMost are the least and the largest angle between the
	// plates along the seam, rad.
	OpensLeast, OpensMost float64
	Taught                []Taught
	// Section is what the passes fill, across the seam at its start, in the order of
	// welding and with those from the back; nil for a weld in a single pass.
	Section *section.Plan
	Passes  []Pass
}

// Taught is one taught point of a seam, decoded.
type Taught struct {
	Label string
	Role  Role
	// Along is its arc length on the path, m. Across is its distance from the
	// seam line (m), AcrossBase and AcrossFace the parts of that along the base
	// plate's face out of the joint and along the base plate's normal.
	Along, Across, AcrossBase, AcrossFace float64
	// Work, Travel, Spin as taught and as wanted at that place, rad.
	Work, Travel, Spin                   float64
	WantedWork, WantedTravel, WantedSpin float64
	// BaseFromTip as taught, and Wanted as planned at that place.
	BaseFromTip, Wanted se3.Pose
}

// Role is what a taught point is to its seam.
type Role string

const (
	RoleApproach Role = "approach"
	RoleStart    Role = "weld start"
	RoleVia      Role = "via point"
	RoleEnd      Role = "weld end"
	RoleRetreat  Role = "retreat"
)

// Pass is one run of weld metal along a seam.
type Pass struct {
	Number int // from 1
	// Role and Layer (from 1) are of a pass among several; 0 where there is one.
	Role  section.Role
	Layer int
	Aim   seam.Aim
	// Above is how far along the wire the place that the pass is aimed at lies from
	// where the wire would meet the base plate, m: part of Aim.Distance, but not of
	// the contact-tip-to-work distance.
	Above float64
	Size  Size
	Heat  Heat
	Weave *Weaving // nil for a stringer bead
	Room  *Room    // of the nozzle; nil where it was not looked at
	Held  *Held    // nil where no procedure says anything of the pass
	// Clear holds the least slack of each kind along approach, weld and retreat; nil
	// where no bodies are known.
	Clear []Clearance
	// Motion is nil when no posture was found, and so is the profile.
	Motion  *Motion
	Profile *Profile
	Reach   Reach
}

// TipDistance is the contact-tip-to-work distance of the pass, m, with a torch whose
// own is nominal, m.
func (p *Pass) TipDistance(nominal float64) float64 {
	return nominal + p.Aim.Distance - p.Above
}

// Size is what a pass deposits and with what.
type Size struct {
	Settings string
	// Process-true values of the settings set.
	Feed, Volts, Amps, Efficiency, Convexity, WireDiameter float64 // m/s, V, A, 1, 1, m
	// LegBase, LegOther and Throat are of the deposited section, m, flat face;
	// Area is the metal deposited per length, m2. DrawnLegBase and DrawnLegOther
	// are what the drawing asks, m, before the gap rule; 0 where it asks for an
	// area.
	LegBase, LegOther, Throat, Area float64
	DrawnLegBase, DrawnLegOther     float64
	// AloneLeg and AloneThroat are those of a fillet of this pass alone, m, the
	// larger leg; 0 for a groove and for a bead of a given area.
	AloneLeg, AloneThroat float64
	Included              float64 // rad between the plates
	// Travel is the planned speed along the seam, m/s. Typed is the speed in
	// the document (0: none) and TypedLeg the leg it would give, m.
	Travel, Typed, TypedLeg float64
	// ArcEnergy and HeatInput are J/m, NaN where the settings set does not give
	// them; HeatIs says which heat input: with the thermal efficiency for jobs
	// of the ISO family, without for AWS.
	ArcEnergy, HeatInput  float64
	HeatIs                thermal.Quantity
	StartTime, CraterTime float64 // s
	ArcTime               float64 // s, travel only
}

// Motion is the arm along approach, pass and retreat.
type Motion struct {
	// Stations are in order of travel; Along is negative on the approach and
	// beyond the way's length on the retreat.
	Stations []Station
	// First and Last are the indices of weld start and weld end.
	First, Last int
	// Knots are the stations between which the spin and the free joints change
	// evenly, by index, weld start and weld end included.
	Knots []int
	// LimitMargin is the smallest distance of any joint from its limits, rad,
	// and LimitJoint which; WristMargin the smallest wrist angle, rad;
	// MarginAlong and WristAlong where, m.
	LimitMargin float64
	LimitJoint  int
	MarginAlong float64
	WristMargin float64
	WristAlong  float64

	spin    motion.SpinProfile
	courses []course           // of the free joints
	turns   []motion.TurnRange // whole turns by which each joint's way may be shifted
	begun   bool               // at the turns at which the run begins it
	search  *postureSearch     // solves between the stations
	laws    passLaws
}

// Station is one place of a pass.
type Station struct {
	Along       float64 // m of the way from the weld start
	Arc         float64 // m from the weld start, arc length of the seam
	Spin        float64 // rad
	Q           kinematics.Q
	BaseFromTip se3.Pose
}

// Reach says how far the arm gets along a pass.
type Reach struct {
	// Whole is true when one go carries through.
	Whole bool
	// From, To is the longest stretch that can be welded in one go, m; both 0
	// when there is none.
	From, To float64
	// StopsAt is where the best attempt from the start stops, m.
	StopsAt float64
	// Spins is how many spins carry through when they are held, of those Tried
	// in the last attempt; both 0 where the free joints had to move.
	Spins, Tried int
	// suspect is the place that is not reached, m of the way.
	suspect   float64
	splitting splitting
}

// StepMove is the kind of a commanded move.
type StepMove string

const (
	MoveJoint  StepMove = "joint"
	MoveLinear StepMove = "linear"
	MoveArc    StepMove = "arc"
)

// Step is one commanded move: its end pose, and what happens to the arc there.
type Step struct {
	Label string
	Seam  string
	Pass  int
	Move  StepMove
	// Speed is the tip's speed, m/s, for linear and arc moves; Percent the
	// share of joint speed for joint moves. Turn is the torch's rate, rad/s, in a
	// linear move that turns it in a corner: the tip has no speed there.
	Speed, Percent, Turn float64
	// Arc is on where the arc is lit after the move has arrived, off where it
	// is put out there, empty where nothing changes.
	Arc      string
	Settings string
	// Wait is how long the arm stands where the move has arrived, s.
	Wait float64
	Q    kinematics.Q
	Pose se3.Pose // base from tip
	// Work and Travel are rad; NaN away from a seam.
	Work, Travel float64
}

// Sample is one instant of the run.
type Sample struct {
	T     float64 // s
	Seam  string
	Pass  int
	Along float64 // m on the seam; NaN in the air
	Arc   bool
	Pose  se3.Pose // base from tip, by forward kinematics of Q
	Q     kinematics.Q
	Speed float64 // m/s: of the tip in the air, along the seam on a weld
	// Clearance is the least distance of the arm and all that it carries from what
	// stands about it, m.
	Clearance float64

	part partOfRun
}
