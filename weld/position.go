package weld

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
)

// Position is how a weld lies to gravity, named by both code families.
type Position struct {
	Kind WeldKind
	ISO  PositionName // by ISO 6947
	AWS  PositionName // by AWS A3.0

	// Inclination is the angle of the weld axis from the horizontal, rad, 0 to pi/2.
	Inclination float64
	// Tilt is the angle of the weld face from up, in the plane square to the
	// weld axis, rad: 0 face up, pi/2 face vertical, pi face down. It is 0 and
	// TiltKnown is false when the axis stands upright.
	Tilt float64
	// Rotation is the same angle as AWS A3.0 counts it, rad, 0 to 2 pi: 0 face
	// down, clockwise looking along the travel; pi face up.
	Rotation  float64
	TiltKnown bool

	Progression Progression
	ISOLimit    PositionLimit
	AWSLimit    PositionLimit
}

// PositionLimit is how near a weld stands to another position.
type PositionLimit struct {
	// Distance is the smallest turn of the part, in any direction, that brings
	// it to the limit, rad.
	Distance float64
	Beyond   PositionName // the position on the far side
}

// PositionDoubt is the distance from a limit, rad, below which a position made
// from hand-guided points should be confirmed with a level: such points are 3
// to 10 degrees off. Common practice, no source.
const PositionDoubt = 5 * math.Pi / 180

const (
	// uprightAxis is the length of "up" across the weld axis below which the
	// tilt of the face means nothing, dimensionless: 0.2 arc seconds, far
	// below any level's reading.
	uprightAxis = 1e-6
	// levelTravel is the sine of the climb below which travel is called level,
	// dimensionless; it only absorbs rounding.
	levelTravel = 1e-9
)

// Name returns the position in the words of one family, zero for none.
func (p Position) Name(f CodeFamily) PositionName {
	switch f {
	case ISO:
		return p.ISO
	case AWS:
		return p.AWS
	}
	return 0
}

// Limit returns the nearest limit in one family, zero for none.
func (p Position) Limit(f CodeFamily) PositionLimit {
	switch f {
	case ISO:
		return p.ISOLimit
	case AWS:
		return p.AWSLimit
	}
	return PositionLimit{}
}

// Classify names the position of a weld of the given kind. Travel is the weld
// axis in the sense of travel; faceNormal is the outward normal of the weld
// face (for a fillet the bisector of the plates, pointing to the torch; for a
// groove the plates' normal on the welded side) and is first made square to
// travel; up points against gravity. All three are non-zero directions in one
// frame, of any length.
//
// Sources: angles as AWS A3.0 and ISO 6947 define them (read in previews);
// ranges from memory, see the tables in position_table.go. A fillet whose face
// is vertical is 4F for AWS and PC for ISO: both are reported, as printed.
func Classify(kind WeldKind, travel, faceNormal, up r3.Vec) (Position, error) {
	isoCells, awsCells, err := positionTables(kind)
	if err != nil {
		return Position{}, err
	}
	t, z := travel.Unit(), up.Unit()
	if t == (r3.Vec{}) || z == (r3.Vec{}) || !t.IsFinite() || !z.IsFinite() || !faceNormal.IsFinite() {
		return Position{}, fmt.Errorf("welding position: travel %v, face normal %v and up %v must be finite directions, none of length zero", travel, faceNormal, up)
	}
	n := faceNormal.Unit().Reject(t)
	if n.Norm() < uprightAxis {
		return Position{}, fmt.Errorf("welding position: the face normal %v must not lie along the travel %v", faceNormal, travel)
	}
	n = n.Unit()

	// "Up" seen from the weld: its share along the travel gives the
	// inclination, its direction across the travel gives the tilt.
	along, across, side := z.Dot(t), z.Dot(n), z.Dot(t.Cross(n))
	height := math.Hypot(across, side)
	p := Position{
		Kind:        kind,
		Inclination: math.Atan2(math.Abs(along), height),
		TiltKnown:   height >= uprightAxis,
		Progression: progressionOf(along),
	}
	if p.TiltKnown {
		p.Tilt = math.Atan2(math.Abs(side), across)
		// Clockwise looking along t runs from down, through -(t x z), to up.
		p.Rotation = math.Mod(math.Atan2(side, -across)+2*math.Pi, 2*math.Pi)
	}
	p.ISO, p.ISOLimit = place(isoCells, p.Inclination, p.Tilt, p.Progression)
	p.AWS, p.AWSLimit = place(awsCells, p.Inclination, p.Tilt, p.Progression)
	return p, nil
}

// progressionOf names the sense of travel from the sine of its climb.
func progressionOf(climb float64) Progression {
	switch {
	case climb > levelTravel:
		return Uphill
	case climb < -levelTravel:
		return Downhill
	}
	return Level
}

// TestPieceTolerance returns how far a test piece may stand from its nominal
// position, both figures in rad: slope 5 degrees, rotation 10 degrees.
// Source: ISO 6947:2011, 3.3, read in a public preview.
func TestPieceTolerance() (slope, rotation Figure) {
	s := Source{Mark: Read, Family: ISO, Code: "ISO 6947", Edition: "2011", Clause: "3.3", Note: "public preview"}
	return Figure{Value: degrees(5), Source: s}, Figure{Value: degrees(10), Source: s}
}

// degrees converts an angle from degrees to rad.
func degrees(d float64) float64 { return d * math.Pi / 180 }
