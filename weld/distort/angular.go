package distort

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// Flange is a plate with a web in its middle, welded by a fillet on both sides,
// whose edges rise towards the web.
type Flange struct {
	Width     float64 // W, from edge to edge, m
	Leg       float64 // z, of each fillet, m
	Thickness float64 // t, of the flange, m
}

// Lift is how the edges of a flange rise.
type Lift struct {
	Edge   float64 // of each edge against the middle, m
	Angle  float64 // of each half, taken as straight, rad
	Source weld.Source
}

// Lift returns how the edges of the flange rise.
//
//	0.02 W z^1.3 / t^2    all in inches; 0.1925 W z^1.3 / t^2 in mm
//
// O. Blodgett, from memory; the angle is that of a straight half, 2 lift/W,
// derived.
func (f Flange) Lift() (Lift, error) {
	err := sensible(widths.of(f.Width), legs.of(f.Leg), plates.of(f.Thickness))
	if err == nil && f.Leg > f.Width/2 {
		err = &InputError{legs.what, legs.print(f.Leg), legs.print(0) + " to half of the flange, " + legs.print(f.Width/2),
			"check which of the two is the width"}
	}
	if err != nil {
		return Lift{}, fmt.Errorf("lift of the flange: %w", err)
	}
	W, z, t := f.Width/unit.Inch, f.Leg/unit.Inch, f.Thickness/unit.Inch
	edge := 0.02 * W * math.Pow(z, 1.3) / (t * t) * unit.Inch
	return Lift{Edge: edge, Angle: math.Atan2(edge, f.Width/2), Source: blodgett}, nil
}

// Turn is a joint that turns when it is welded. The zero value is "not stated".
type Turn uint8

// The joints that turn, as the rule of thumb tells them apart.
const (
	SingleV     Turn = iota + 1 // a single V of 60 degrees in 12 mm plate
	OneSidedTee                 // a tee with a fillet on one side
	Balanced                    // welded evenly from both sides
)

// String returns the joint in words.
func (j Turn) String() string {
	switch j {
	case SingleV:
		return "single V of 60 degrees in 12 mm plate"
	case OneSidedTee:
		return "tee with a fillet on one side"
	case Balanced:
		return "joint welded evenly from both sides"
	}
	return "joint not stated"
}

// Angular returns the angle by which a joint closes towards the weld, rad, which
// is also the angle by which it is set open beforehand: 3 to 5 degrees for a
// single V, 1 to 3 for a tee with one fillet, about none for a balanced joint.
// Read in workshop articles.
func Angular(j Turn) (weld.Limit, error) {
	source := weld.Source{Mark: weld.Read, Code: "angular change", Note: "as workshop articles have it"}
	switch j {
	case SingleV:
		return weld.Limit{Range: weld.Between(3*unit.Deg, 5*unit.Deg), Source: source}, nil
	case OneSidedTee:
		return weld.Limit{Range: weld.Between(1*unit.Deg, 3*unit.Deg), Source: source}, nil
	case Balanced:
		return weld.Limit{Range: weld.Between(0, 0), Source: source}, nil
	}
	return weld.Limit{}, fmt.Errorf("angular change: %v; say one of: %v, %v, %v", j, SingleV, OneSidedTee, Balanced)
}
