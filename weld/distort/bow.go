package distort

import "fmt"

// Pull is a weld that runs along a beam and bends it.
type Pull struct {
	Area      float64 // A, of the section of the weld metal, m2
	Offset    float64 // d, from the beam's neutral axis to the weld, signed, m
	HeatInput float64 // q, with k, J/m; 0 where it is not known
}

// Beam is a part that long welds bend. Its welds all lie in one plane of
// bending; for the other plane ask again.
type Beam struct {
	Length  float64 // L, of the welds, m
	Inertia float64 // I, second moment of area of the welded section about the neutral axis, m4
	Welds   []Pull
}

// Bow returns how far the middle of the beam moves from the line of its ends,
// m, positive where it is hollow on the side of positive offsets. Welds on
// opposite sides cancel.
//
//	0.005 A d L^2/I                                   O. Blodgett, from memory
//	F d L^2/(8 E I), F = 0.3354 alpha q E/(c gamma)   Okerblom, read in public code,
//	                                                  where every heat input is given
//
// Each rule sums over the welds. The two agreed within a tenth where they were
// compared.
func (b Beam) Bow() (Estimate, error) {
	if err := sensible(lengths.of(b.Length), inertias.of(b.Inertia)); err != nil {
		return Estimate{}, fmt.Errorf("bow: %w", err)
	}
	if len(b.Welds) == 0 {
		return Estimate{}, fmt.Errorf("bow: no weld is given; give at least one")
	}
	metal, moment, heated := 0.0, 0.0, true
	for i, w := range b.Welds {
		err := sensible(areas.of(w.Area), offsets.of(w.Offset))
		if err == nil && w.HeatInput != 0 {
			err = heatInputs.check(w.HeatInput)
		}
		if err != nil {
			return Estimate{}, fmt.Errorf("bow: weld %d: %w", i+1, err)
		}
		metal += w.Area * w.Offset
		moment += pull(w.HeatInput) * w.Offset
		heated = heated && w.HeatInput != 0
	}
	L2 := b.Length * b.Length
	rules := append(make([]Rule, 0, 2), Rule{"area", 0.005 * metal * L2 / b.Inertia, blodgett})
	if heated {
		rules = append(rules, Rule{"pull of the weld", moment * L2 / (8 * elasticity * b.Inertia), okerblom})
	}
	return estimate(rules...), nil
}
