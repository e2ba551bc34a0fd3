package job

import (
	"math"

	"seamwright/unit"
)

// What a document that leaves a field out means. All but TipSpeed are common
// practice, no source: choices of this project that a shop may overrule field
// by field.
const (
	// DefaultJointAcceleration holds for every turning joint, rad/s2. URDF has
	// no place for it; 300 deg/s2 is mild for an arm of a metre and a half.
	DefaultJointAcceleration = 300 * unit.Deg
	// DefaultJerkTime is the time in which a joint, and the tip on a line, gathers
	// its full acceleration, s: with it jerk follows from acceleration.
	DefaultJerkTime = 0.1
	// DefaultLimitMargin is how far joints stay from their limits, rad.
	DefaultLimitMargin = 5 * unit.Deg
	// DefaultWristMargin is how far the wrist stays from being straight, rad.
	DefaultWristMargin = 10 * unit.Deg
	// DefaultTipSpeed is the speed of linear air moves, m/s: the limit while
	// people teach, 250 mm/s (ISO 10218-1, reduced speed; from memory).
	DefaultTipSpeed = 250 * unit.MMPerS
	// DefaultJointPercent is the share of joint speed in joint moves, percent.
	DefaultJointPercent = 25
	// DefaultTipAcceleration holds for linear moves, m/s2.
	DefaultTipAcceleration = 1000 * unit.MMPerS2
	// DefaultOut is the length of generated approaches and retreats, m.
	DefaultOut = 60 * unit.MM
	// DefaultTolerance is how far work and travel may be off as taught, rad.
	DefaultTolerance = 5 * unit.Deg
	// DefaultNozzleLength, DefaultNeckDiameter and DefaultBodyDiameter are the
	// torch's where they are not measured, m: what usual gas-cooled torches for an
	// arm do not exceed by much. The neck is never taken as thinner than the
	// nozzle.
	DefaultNozzleLength = 70 * unit.MM
	DefaultNeckDiameter = 26 * unit.MM
	DefaultBodyDiameter = 60 * unit.MM
)

// DefaultClearance returns the distances, m, that hold where a document says
// none. Nozzle to plate while welding 3 mm, torch in air moves 20 mm and arm to
// anything 50 mm are common practice, no source. So are the others, which this
// project chose: 5 mm for neck and body of the torch while welding, which bend
// where the nozzle can be changed, 5 mm beyond the space that the cable is said
// to take, and 5 mm from the arm to itself, for links that lie beside each other
// by design.
func DefaultClearance() Clearance {
	return Clearance{Nozzle: 3 * unit.MM, Torch: 5 * unit.MM, Air: 20 * unit.MM, Cable: 5 * unit.MM, Arm: 50 * unit.MM, Self: 5 * unit.MM}
}

// Ranges of sense: wide enough for any shop, narrow enough to catch a lost
// decimal point, a wrong unit or a swapped field. Common practice, no source.
var (
	anyLength    = span{-20, 20}                             // m: places in a cell
	bodyLength   = span{0, 2}                                // m
	neckLength   = span{1 * unit.MM, 1}                      // m
	neckAngle    = span{-135 * unit.Deg, 135 * unit.Deg}     // rad
	jointTurn    = span{-720 * unit.Deg, 720 * unit.Deg}     // rad: joint values
	cableTurn    = span{10 * unit.Deg, 3600 * unit.Deg}      // rad, either way
	payload      = span{0.5, 1000}                           // kg
	torchMass    = span{0.1, 100}                            // kg
	wholeTurn    = span{-360 * unit.Deg, 360 * unit.Deg}     // rad
	sideways     = span{-500 * unit.MM, 500 * unit.MM}       // m
	nozzle       = span{5 * unit.MM, 60 * unit.MM}           // m
	tipRecess    = span{-20 * unit.MM, 20 * unit.MM}         // m
	stickOut     = span{1 * unit.MM, 60 * unit.MM}           // m
	tipDistance  = span{3 * unit.MM, 80 * unit.MM}           // m
	wireDiameter = span{0.5 * unit.MM, 4 * unit.MM}          // m
	margin       = span{0, 60 * unit.Deg}                    // rad
	jointAccel   = span{1 * unit.Deg, 20000 * unit.Deg}      // rad/s2
	jointJerk    = span{10 * unit.Deg, 2000000 * unit.Deg}   // rad/s3
	tipJerk      = span{100 * unit.MMPerS3, 2000}            // m/s3
	tipAccel     = span{10 * unit.MMPerS2, 20}               // m/s2
	airSpeed     = span{1 * unit.MMPerS, 3}                  // m/s
	share        = span{1 * unit.Percent, 1}                 // dimensionless
	percents     = span{0.01, 100000}                        // percent, as typed: more than 100 is for the desk check
	wayOut       = span{5 * unit.MM, 500 * unit.MM}          // m
	plateAngle   = span{15 * unit.Deg, 165 * unit.Deg}       // rad
	thickness    = span{0.5 * unit.MM, 300 * unit.MM}        // m
	weldSize     = span{1 * unit.MM, 50 * unit.MM}           // m
	weldArea     = span{1 * unit.MM2, 2500 * unit.MM2}       // m2
	gap          = span{0, 20 * unit.MM}                     // m
	weldSpeed    = span{0.5 * unit.MMPerS, 50 * unit.MMPerS} // m/s
	radius       = span{3 * unit.MM, 10}                     // m
	overlap      = span{0, 200 * unit.MM}                    // m
	cornerRadius = span{0, 10}                               // m
	turnAngle    = span{0, 175 * unit.Deg}                   // rad: the most that a torch turns at a corner
	turnReach    = span{1 * unit.MM, 500 * unit.MM}          // m
	memberSize   = span{1 * unit.MM, 20}                     // m
	splitAt      = span{2 * unit.MM, 20}                     // m
	startBy      = span{0, 20}                               // m
	workAngle    = span{0, math.Pi / 2}                      // rad: under 90 deg by definition (AWS A3.0, from memory)
	travelAngle  = span{0, 60 * unit.Deg}                    // rad, push or drag
	aimOffset    = span{-50 * unit.MM, 50 * unit.MM}         // m
	tolerance    = span{0.1 * unit.Deg, 45 * unit.Deg}       // rad
	blendRadius  = span{0, 1}                                // m

	nozzleLength  = span{5 * unit.MM, 200 * unit.MM}   // m
	taperOver     = span{1 * unit.MM, 100 * unit.MM}   // m
	neckDiameter  = span{5 * unit.MM, 80 * unit.MM}    // m
	bodyDiameter  = span{10 * unit.MM, 200 * unit.MM}  // m
	cableDiameter = span{5 * unit.MM, 150 * unit.MM}   // m
	cablePlay     = span{0, 500 * unit.MM}             // m
	shapeSize     = span{1 * unit.MM, 20}              // m
	apart         = span{0.5 * unit.MM, 500 * unit.MM} // m: 0 would let things touch
)
