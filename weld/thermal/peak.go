package thermal

import (
	"fmt"
	"math"

	"seamwright/weld"
)

// PeakRequest asks for the hottest that a place beside a run gets, for an arc
// so fast that heat flows only sideways.
type PeakRequest struct {
	HeatInput float64 // Q, with the thermal efficiency k, J/m
	Preheat   float64 // T0, degrees C
	Thickness float64 // d, m; read for thin plate only
	Metal     Metal   // zero is SteelGrong
}

// check validates the request but for the thickness and returns the metal.
func (r PeakRequest) check() (Metal, error) {
	m := r.Metal.orGrong()
	err := m.Validate()
	if err == nil {
		err = weld.CheckAll(heatSpan.Of(r.HeatInput), partSpan.Of(r.Preheat))
	}
	return m, err
}

var (
	peakDistances = validity{"distance", 0.1e-3, 1, 1e-3, "mm", "check the value and its unit"}
	peakRises     = validity{"rise of temperature to the peak", 20, 3000, 1, "K", "ask for a peak above the part's temperature"}
)

// PeakInThickPlate returns the hottest that a place at a distance (m) from the
// line of the run gets in thick plate, degrees C.
//
//	Tp - T0 = 2 Q / (pi e rho c r^2)
//
// For a fast arc, v r/(2a) far above 1; a slow one peaks lower, which Field.Peak
// knows. From memory (Rosenthal's field for a fast source).
func (r PeakRequest) PeakInThickPlate(distance float64) (float64, error) {
	m, err := r.check()
	if err == nil {
		err = peakDistances.check(distance)
	}
	if err != nil {
		return 0, fmt.Errorf("peak temperature in thick plate: %w", err)
	}
	return r.Preheat + 2*r.HeatInput/(math.Pi*math.E*m.HeatCapacity*distance*distance), nil
}

// RadiusInThickPlate returns how far from the line of the run a peak
// temperature (degrees C) reaches in thick plate, m: the inverse of
// PeakInThickPlate, derived from it, for peaks 20 to 3000 K above the part. At the
// melting temperature it is a rough half-width of the fused metal.
func (r PeakRequest) RadiusInThickPlate(peak float64) (float64, error) {
	m, err := r.check()
	if err == nil {
		err = peakRises.check(peak - r.Preheat)
	}
	if err != nil {
		return 0, fmt.Errorf("radius of a peak temperature in thick plate: %w", err)
	}
	return math.Sqrt(2 * r.HeatInput / (math.Pi * math.E * m.HeatCapacity * (peak - r.Preheat))), nil
}

// PeakInThinPlate returns the hottest that a place at a distance (m) from the
// fusion line gets in thin plate, degrees C: the equation of Adams.
//
//	1/(Tp - T0) = sqrt(2 pi e) rho c d y / Q + 1/(Tm - T0)
//
// with Tm the metal's melting temperature, at 0 and at 0.1 mm to 1 m from the fusion
// line. Read in a university's virtual
// laboratory, which prints 4.132 for the root.
func (r PeakRequest) PeakInThinPlate(fromFusion float64) (float64, error) {
	m, err := r.check()
	if err == nil {
		err = plateSpan.Check(r.Thickness)
	}
	if err == nil && fromFusion != 0 {
		err = peakDistances.check(fromFusion)
	}
	if err == nil {
		err = peakRises.check(m.Melting - r.Preheat)
	}
	if err != nil {
		return 0, fmt.Errorf("peak temperature in thin plate: %w", err)
	}
	perRise := math.Sqrt(2*math.Pi*math.E)*m.HeatCapacity*r.Thickness*fromFusion/r.HeatInput + 1/(m.Melting-r.Preheat)
	return r.Preheat + 1/perRise, nil
}
