package distort

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Butt is a butt weld whose shrinkage across the seam is wanted.
type Butt struct {
	Area      float64 // A, of the section of the weld metal, m2
	Thickness float64 // t, of the plates, m
	RootGap   float64 // b, m
	HeatInput float64 // q, of all passes together, with k, J/m; 0 where it is not known
}

// Transverse returns how much the plates draw together across a butt weld, m.
//
//	0.2 A/t + 0.05 b        Procedure Handbook of Arc Welding, read in workshop articles
//	0.10 A/t                O. Blodgett, from memory
//	alpha q / (c gamma t)   Okerblom, read in public code, where the heat input is given
//
// The first two differ by a factor of two. Beside them TWI allows 1.5 to 3 mm for
// a V of 60 degrees whatever the plate, read. A plate that is held shrinks less.
func (b Butt) Transverse() (Estimate, error) {
	err := sensible(areas.of(b.Area), plates.of(b.Thickness), gaps.of(b.RootGap))
	if err == nil && b.HeatInput != 0 {
		err = heatInputs.check(b.HeatInput)
	}
	if err != nil {
		return Estimate{}, fmt.Errorf("shrinkage across a butt weld: %w", err)
	}
	perThickness := b.Area / b.Thickness
	rules := append(make([]Rule, 0, 3),
		Rule{"area and gap", 0.2*perThickness + 0.05*b.RootGap, weld.Source{Mark: weld.Read, Code: "Procedure Handbook of Arc Welding",
			Note: "as workshop articles quote it; also Spraragen and Ettinger, from memory"}},
		Rule{"area, short form", 0.10 * perThickness, blodgett})
	if b.HeatInput != 0 {
		rules = append(rules, heatRule(b.HeatInput, b.Thickness))
	}
	return estimate(rules...), nil
}

// heatRule is Okerblom's shrinkage across a seam, m, for the heat input (J/m)
// and the thickness (m) through which the heat is taken as even.
func heatRule(heatInput, thickness float64) Rule {
	return Rule{"heat input", expansion * heatInput / (heatCapacity * thickness), okerblom}
}

var blodgett = weld.Source{Mark: weld.Memory, Code: "O. Blodgett, Design of Weldments"}

// Fillet is a fillet weld whose shrinkage across the seam is wanted.
type Fillet struct {
	Leg       float64 // z, m
	Thickness float64 // t, of the plate that is drawn in, m
	HeatInput float64 // q, with k, J/m; 0 where it is not known
}

const (
	filletShrinkage = 0.8 * unit.MM // across one fillet
	filletMost      = 0.75          // of the plate's thickness that its leg may be, dimensionless
)

// Transverse returns how much a plate is drawn in across a fillet weld, m.
//
//	0.8 mm for each weld    TWI, read, legs to 0.75 t
//	alpha q / (c gamma t)   Okerblom, read in public code, where the heat input is given
//
// A larger leg is an InputError: the allowance was not made for it.
func (f Fillet) Transverse() (Estimate, error) {
	err := sensible(legs.of(f.Leg), plates.of(f.Thickness))
	if err == nil && f.HeatInput != 0 {
		err = heatInputs.check(f.HeatInput)
	}
	if err == nil && !weld.AtMost(filletMost*f.Thickness).Contains(f.Leg) {
		err = &InputError{legs.what, legs.print(f.Leg), legs.print(0) + " to " + legs.print(filletMost*f.Thickness),
			"the allowance holds for legs up to three quarters of the plate: weld a trial piece"}
	}
	if err != nil {
		return Estimate{}, fmt.Errorf("shrinkage across a fillet weld: %w", err)
	}
	rules := append(make([]Rule, 0, 2), Rule{"allowance", filletShrinkage, twi})
	if f.HeatInput != 0 {
		rules = append(rules, heatRule(f.HeatInput, f.Thickness))
	}
	return estimate(rules...), nil
}

var twi = weld.Source{Mark: weld.Read, Code: "TWI, allowances for weld shrinkage", Note: "also Job Knowledge 33"}
