package deposit

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// MendTravel returns the travel speed, m/s, that turns legs as gauged (m, base
// plate and other) at a travel speed (m/s) into equal legs as wanted (m), at the
// same feed: the area goes with 1/v, so v' = v z1 z2 / z^2. DERIVED. A gauge
// reading is trusted in full: see Learn for one that is weighed. The new speed
// is at most twice and at least half of the old; beyond that the settings are
// wrong, not the speed.
func MendTravel(travel, legBase, legOther, wanted float64) (float64, error) {
	err := weld.CheckAll(travelSpan.Of(travel), legSpan.Of(legBase), legSpan.Of(legOther), legSpan.Of(wanted))
	if err != nil {
		return 0, fmt.Errorf("travel after gauging: %w", err)
	}
	ratio := legBase * legOther / (wanted * wanted)
	if ratio < 0.5 || ratio > 2 {
		return 0, fmt.Errorf("travel after gauging: legs %.3g mm and %.3g mm for a wanted %.3g mm want %.3g times the speed; allowed: 0.5 to 2; choose another settings set, or check that the reading is of this seam",
			legBase/unit.MM, legOther/unit.MM, wanted/unit.MM, ratio)
	}
	return travel * ratio, nil
}

// AimShift returns by how much to shift the aim across the base plate, m,
// positive from the root onto the base plate, so that legs as gauged (m, base
// plate and other) come out equal: half of their difference, to the short leg's
// side. A bead moved by d lengthens one leg by about d and shortens the other by
// about d, its area being the same. DERIVED for a square joint, first order; not
// found in print: shift, gauge again. At most one wire diameter (m) at a time
// (common practice, no source): the Figure is cut to it, with a note.
func AimShift(legBase, legOther, wireDiameter float64) (weld.Figure, error) {
	if err := weld.CheckAll(legSpan.Of(legBase), legSpan.Of(legOther), wireSpan.Of(wireDiameter)); err != nil {
		return weld.Figure{}, fmt.Errorf("aim after gauging: %w", err)
	}
	if short, long := min(legBase, legOther), max(legBase, legOther); long > 3*short {
		return weld.Figure{}, fmt.Errorf("aim after gauging: legs %.3g mm and %.3g mm; allowed: up to 3:1; the wire is off the joint or the work angle is wrong: mend that first",
			legBase/unit.MM, legOther/unit.MM)
	}
	out := weld.Figure{Value: (legOther - legBase) / 2, Source: weld.Source{Mark: weld.Derived, Code: "equal legs, first order"}}
	if math.Abs(out.Value) > wireDiameter {
		out.Value = math.Copysign(wireDiameter, out.Value)
		out.Source.Note = "cut to one wire diameter: shift, gauge again, and look at the work angle"
	}
	return out, nil
}
