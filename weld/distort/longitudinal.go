package distort

import (
	"errors"
	"fmt"

	"seamwright/unit"
)

// Joint tells butt and fillet welds apart. The zero value is "not stated".
type Joint uint8

// The joints.
const (
	ButtJoint Joint = iota + 1
	FilletJoint
)

// String returns "butt weld" or "fillet weld".
func (j Joint) String() string {
	switch j {
	case ButtJoint:
		return "butt weld"
	case FilletJoint:
		return "fillet weld"
	}
	return "kind of weld not stated"
}

// Along is a weld whose shrinkage along itself is wanted.
type Along struct {
	Joint     Joint
	Length    float64 // of the weld, m
	HeatInput float64 // q, with k, J/m; 0 where it is not known
	Section   float64 // area of the part's section that the weld pulls on, m2; 0 where it is not known
}

// Longitudinal returns how much a part shortens along a weld, m.
//
//	0.8 mm in 3 m            fillet, TWI, read
//	3 mm in 3 m              butt, TWI, read
//	F L/(E A)                elastic, where heat input and section are given:
//	                         F = 0.3354 alpha q E/(c gamma), Okerblom, read in public code
//
// It holds for lengths of 1 mm to 100 m, heat inputs of 0.02 to 20 kJ/mm and sections
// from 10 mm2; heat input and section are given together or not at all.
func (a Along) Longitudinal() (Estimate, error) {
	if err := a.check(); err != nil {
		return Estimate{}, fmt.Errorf("shrinkage along a weld: %w", err)
	}
	perLength := 0.8 * unit.MM / 3 // m/m
	if a.Joint == ButtJoint {
		perLength = 3 * unit.MM / 3
	}
	rules := append(make([]Rule, 0, 2), Rule{"allowance", perLength * a.Length, twi})
	if a.HeatInput != 0 {
		rules = append(rules, Rule{"pull of the weld", pull(a.HeatInput) * a.Length / (elasticity * a.Section), okerblom})
	}
	return estimate(rules...), nil
}

func (a Along) check() error {
	if a.Joint != ButtJoint && a.Joint != FilletJoint {
		return fmt.Errorf("%v; say butt weld or fillet weld", a.Joint)
	}
	if err := lengths.check(a.Length); err != nil {
		return err
	}
	switch {
	case a.HeatInput == 0 && a.Section == 0:
		return nil
	case a.HeatInput == 0:
		return errors.New("the section is given without a heat input; give both or neither")
	case a.Section == 0:
		return errors.New("the heat input is given without the section that it pulls on; give both or neither")
	}
	return sensible(heatInputs.of(a.HeatInput), sections.of(a.Section))
}
