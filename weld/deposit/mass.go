package deposit

import "seamwright/weld"

// SteelDensity is the density of mild-steel weld metal, kg/m3. Handbook value
// 7.85 g/cm3, from memory; the American handbooks' 0.283 lb/in3 (read in a
// filler-metal maker's handbook) is 7833, 0.2 % less.
const SteelDensity = 7850.0

// Mass returns the weld metal in kg in a length (m) of bead of the given area
// (m2) and density (kg/m3), or an error naming the range that the input leaves.
// Volume times density, by definition.
func Mass(area, length, density float64) (float64, error) {
	err := weld.CheckAll(areaSpan.Of(area), lengthSpan.Of(length), densities.Of(density))
	if err != nil {
		return 0, err
	}
	return area * length * density, nil
}

// ArcTime returns the time in s to weld a length (m, 0 to 1000) at a travel speed
// (m/s, 0.2 to 100 mm/s): length over speed, by definition.
func ArcTime(length, travel float64) (float64, error) {
	if err := weld.CheckAll(lengthSpan.Of(length), travelSpan.Of(travel)); err != nil {
		return 0, err
	}
	return length / travel, nil
}

// DwellVolume returns the extra metal in m3 that a bead of the given area (m2)
// laid at a travel speed (m/s) gains when the tip takes extra time (s) with
// the arc on, 0 to 60 s, as at a corner. Derived: dV = A v t.
func DwellVolume(area, travel, extra float64) (float64, error) {
	if err := weld.CheckAll(areaSpan.Of(area), travelSpan.Of(travel), dwells.Of(extra)); err != nil {
		return 0, err
	}
	return area * travel * extra, nil
}
