package weld

import (
	"fmt"
	"math"

	"seamwright/unit"
)

var (
	castSense = Sense{What: "wire cast diameter", Low: 0.1, High: 5, Unit: unit.Millimetres}
	freeSense = Sense{What: "free wire length", Low: 0, High: 50e-3, Unit: unit.Millimetres}
	tiltSense = Sense{What: "turn of the torch", Low: 0, High: math.Pi, Unit: unit.Degrees}
	tipSense  = Sense{What: "tool point error", Low: 0, High: 1, Unit: unit.Millimetres}
)

// CastOffset returns how far the end of a wire of a given cast diameter (m)
// leaves the straight line over a free length (m), in m. Derived: l^2/(2R) for
// l small against R, within 0.1 % up to l = R/10. AWS A5.18 asks for a cast of
// at least 380 mm for wire of 0.9 mm and more (from memory).
func CastOffset(castDiameter, free float64) (float64, error) {
	if err := CheckAll(castSense.Of(castDiameter), freeSense.Of(free)); err != nil {
		return 0, fmt.Errorf("wire cast: %w", err)
	}
	R := castDiameter / 2
	if free > R/2 {
		return 0, fmt.Errorf("wire cast: a free length of %.4g mm is more than half the cast radius, %.4g mm; check both", free/unit.MM, R/2/unit.MM)
	}
	return free * free / (2 * R), nil
}

// TiltShift returns how far the arc moves, m, when the torch is turned by an
// angle (rad) about a tool point that is wrong along the wire by tipError (m).
// Derived: L sin(angle), for an error of 0 to 1 m and a turn of 0 to 180 degrees.
func TiltShift(tipError, angle float64) (float64, error) {
	if err := CheckAll(tipSense.Of(tipError), tiltSense.Of(angle)); err != nil {
		return 0, fmt.Errorf("tilt shift: %w", err)
	}
	return tipError * math.Sin(angle), nil
}

// SeamTolerance returns how far across the seam the arc may be, either way, m,
// without weave, for a wire diameter (m): half the wire. Common practice, no
// source found in print.
func SeamTolerance(wireDiameter float64) Figure {
	return Figure{Value: wireDiameter / 2, Source: Source{Mark: CommonPractice, Code: "half a wire diameter across the seam"}}
}
