package thermal

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// Plate says how heat spreads in a part. The zero value is "not stated".
type Plate uint8

// The ways heat spreads.
const (
	ThickPlate  Plate = iota + 1 // in three dimensions: the far face is never felt
	ThinPlate                    // in two: the temperature is the same through the thickness
	FinitePlate                  // between the two: the far face sends heat back
)

var plateNames = [...]string{ThickPlate: "thick plate", ThinPlate: "thin plate", FinitePlate: "plate of finite thickness"}

// String returns the way's name, such as "thin plate".
func (p Plate) String() string {
	if p < ThickPlate || p > FinitePlate {
		return "plate not stated"
	}
	return plateNames[p]
}

// CoolingRequest is one run whose cooling time is wanted.
type CoolingRequest struct {
	HeatInput float64    // Q, with the thermal efficiency k, J/m
	Preheat   float64    // T0, preheat or interpass temperature, degrees C
	Thickness float64    // d, plate thickness, m
	Shape     JointShape // what the run is laid on
}

// CoolingTime is the answer to a CoolingRequest.
type CoolingTime struct {
	Time       float64      // t8/5, the larger of the two below, s
	Spread     weld.Range   // Time less and more 10 %, with the shape factor's own interval, s
	Plate      Plate        // which of the two applies, ThickPlate or ThinPlate
	Thick      float64      // t8/5 by three-dimensional flow, s
	Thin       float64      // t8/5 by two-dimensional flow, s
	Transition float64      // thickness at which a run on plate changes from one to the other, m
	Crossing   float64      // the same with the shape factors of this joint, m
	Factors    ShapeFactors // those used
	Source     weld.Source
}

// coolingScatter is the scatter of measured about computed cooling times, as a
// share either way, dimensionless. Read in public code that cites EN 1011-2.
const coolingScatter = 0.10

var coolingPreheats = validity{"preheat", 0, 300, 1, "degC",
	"the cooling times of EN 1011-2 hold only there: warm cold steel first, and take hotter parts from a trial weld"}

var coolingTimes = validity{"cooling time t8/5", 0.5, 200, 1, "s", "check the value and its unit"}

// Cooling returns the time in which a run cools from 800 to 500 degrees C, s.
//
//	3-D: t = (6700 - 5 T0) Q [1/(500-T0) - 1/(800-T0)] F3
//	2-D: t = (4300 - 4.3 T0) 10^5 (Q/d)^2 [1/(500-T0)^2 - 1/(800-T0)^2] F2
//
// with Q in kJ/mm, T0 in degrees C and d in mm. The larger of the two applies:
// three-dimensional from the crossing thickness upward. Unalloyed and low-alloy
// steel, T0 0 to 300 degrees C; outside is a RangeError.
//
// Source: EN 1011-2:2001 Annex D, read in three independent public code files
// that agree, and in a steel maker's page; the letter of the annex and the
// shape factors of fillets from memory. No published example with a printed
// result was found.
func Cooling(r CoolingRequest) (CoolingTime, error) {
	f, err := r.check()
	if err != nil {
		return CoolingTime{}, err
	}
	if err := heatSpan.Check(r.HeatInput); err != nil {
		return CoolingTime{}, fmt.Errorf("cooling time t8/5: %w", err)
	}
	Q := r.HeatInput / unit.KJPerMM
	thick, thin := r.perHeat()
	out := CoolingTime{Factors: f, Source: coolingSource(),
		Thick: thick * Q * f.F3.Value, Thin: thin * Q * Q * f.F2.Value}
	out.Plate, out.Time = ThickPlate, out.Thick
	if out.Thin > out.Thick {
		out.Plate, out.Time = ThinPlate, out.Thin
	}
	least := f.F2.Value
	if f.F2.Usual.HasLow {
		least = f.F2.Usual.Low
	}
	low := max(out.Thick, thin*Q*Q*least)
	out.Spread = weld.Between(low*(1-coolingScatter), out.Time*(1+coolingScatter))
	// Both formulas give the same at d with F2 = F3: thin falls with d^2.
	out.Transition = r.Thickness * math.Sqrt(thin*Q/thick)
	out.Crossing = out.Transition * math.Sqrt(f.F2.Value/f.F3.Value)
	return out, nil
}

// HeatInputFor returns the heat input Q (with k, J/m) at which the run cools
// from 800 to 500 degrees C in the given time (s, 0.5 to 200): the inverse of
// Cooling, whose ranges and source it shares. r.HeatInput is not read.
func HeatInputFor(time float64, r CoolingRequest) (float64, error) {
	f, err := r.check()
	if err != nil {
		return 0, err
	}
	if err := coolingTimes.check(time); err != nil {
		return 0, err
	}
	thick, thin := r.perHeat()
	// The larger of two rising functions reaches the time at the smaller root.
	Q := min(time/(thick*f.F3.Value), math.Sqrt(time/(thin*f.F2.Value)))
	if err := heatSpan.Check(Q * unit.KJPerMM); err != nil {
		return 0, fmt.Errorf("heat input for a cooling time t8/5 of %.4g s: %w", time, err)
	}
	return Q * unit.KJPerMM, nil
}

// check validates everything but the heat input and returns the factors.
func (r CoolingRequest) check() (ShapeFactors, error) {
	f, err := r.Shape.Factors()
	if err == nil {
		err = plateSpan.Check(r.Thickness)
	}
	if err == nil {
		err = coolingPreheats.check(r.Preheat)
	}
	if err != nil {
		return ShapeFactors{}, fmt.Errorf("cooling time t8/5: %w", err)
	}
	return f, nil
}

// perHeat returns t/Q (s mm/kJ) of thick and t/Q^2 (s mm2/kJ2) of thin plate
// for shape factors of 1.
func (r CoolingRequest) perHeat() (thick, thin float64) {
	T0, d := r.Preheat, r.Thickness/unit.MM
	hot, cold := 1/(500-T0), 1/(800-T0)
	thick = (6700 - 5*T0) * (hot - cold)
	thin = (4300 - 4.3*T0) * 1e5 / (d * d) * (hot*hot - cold*cold)
	return thick, thin
}

func coolingSource() weld.Source {
	return weld.Source{Mark: weld.Read, Family: weld.ISO, Code: "EN 1011-2", Edition: "2001", Clause: "Annex D",
		Note: "as three public code files have it; scatter 10 %"}
}
