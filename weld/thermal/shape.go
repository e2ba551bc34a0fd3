package thermal

import (
	"fmt"
	"strings"

	"seamwright/weld"
)

// JointShape says into how much metal a run's heat can flow, as the cooling
// times of EN 1011-2 tell joints apart. The zero value is "not stated".
type JointShape uint8

// The joint shapes of EN 1011-2.
const (
	RunOnPlate   JointShape = iota + 1 // a run laid on a plate
	BetweenBeads                       // a run between the beads of a butt weld
	CornerFillet                       // a single-run fillet in a corner joint
	TeeFillet                          // a single-run fillet in a tee joint
)

var shapeNames = [...]string{RunOnPlate: "run on plate", BetweenBeads: "run between beads of a butt weld",
	CornerFillet: "single-run fillet in a corner joint", TeeFillet: "single-run fillet in a tee joint"}

// String returns the name of the shape.
func (s JointShape) String() string {
	if s < RunOnPlate || s > TeeFillet {
		return "joint shape not stated"
	}
	return shapeNames[s]
}

// ParseJointShape reads the name of a shape, as String prints it.
func ParseJointShape(s string) (JointShape, error) {
	for shape := RunOnPlate; shape <= TeeFillet; shape++ {
		if strings.EqualFold(strings.TrimSpace(s), shapeNames[shape]) {
			return shape, nil
		}
	}
	return 0, fmt.Errorf("joint shape %q is not known; write one of: %s", s, strings.Join(shapeNames[RunOnPlate:], ", "))
}

// ShapeFactors are the factors by which EN 1011-2 shortens the cooling time of
// a run on plate, dimensionless.
type ShapeFactors struct {
	F2 weld.Figure // thin plate, two-dimensional flow
	F3 weld.Figure // thick plate, three-dimensional flow
}

// Factors returns the joint's shape factors, dimensionless. Source: EN 1011-2
// Annex D; 0.9 and 0.9 between beads read in public code, the others from
// memory. F2 of a tee runs from 0.45 to 0.67; 0.67 is the figure to use and
// the interval stands in Usual.
func (s JointShape) Factors() (ShapeFactors, error) {
	factor := func(m weld.Mark, value float64) weld.Figure {
		return weld.Figure{Value: value, Source: weld.Source{Mark: m, Family: weld.ISO,
			Code: "EN 1011-2", Edition: "2001", Clause: "Annex D, shape factors"}}
	}
	switch s {
	case RunOnPlate:
		return ShapeFactors{factor(weld.Memory, 1), factor(weld.Memory, 1)}, nil
	case BetweenBeads:
		return ShapeFactors{factor(weld.Read, 0.9), factor(weld.Read, 0.9)}, nil
	case CornerFillet:
		return ShapeFactors{factor(weld.Memory, 0.9), factor(weld.Memory, 0.67)}, nil
	case TeeFillet:
		thin := factor(weld.Memory, 0.67)
		thin.Usual = weld.Between(0.45, 0.67)
		return ShapeFactors{thin, factor(weld.Memory, 0.67)}, nil
	}
	return ShapeFactors{}, fmt.Errorf("%v; write one of: %s", s, strings.Join(shapeNames[RunOnPlate:], ", "))
}
