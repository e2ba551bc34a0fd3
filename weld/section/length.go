package section

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

var longSense = weld.Sense{What: "weld length", Low: 1e-3, High: 1000, Unit: unit.Metres}

// MinLength returns the least length in m of a fillet that counts, for the size
// in m that its family measures: four legs for AWS (D1.1:2010 2.4.2.3, read);
// the larger of 30 mm and six throats for ISO (EN 1993-1-8, read as coded in
// public code). Legs outside 0.5 to 60 mm and throats outside 0.3 to 60 mm are refused.
// A shorter AWS weld counts with a quarter of its length as leg.
func MinLength(f weld.CodeFamily, size float64) (weld.Figure, error) {
	switch f {
	case weld.AWS:
		if err := legSense.Check(size); err != nil {
			return weld.Figure{}, fmt.Errorf("minimum length: %w", err)
		}
		return weld.Figure{Value: 4 * size, Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
			Code: "AWS D1.1", Edition: "2010", Clause: "2.4.2.3"}}, nil
	case weld.ISO:
		if err := throatSense.Check(size); err != nil {
			return weld.Figure{}, fmt.Errorf("minimum length: %w", err)
		}
		return weld.Figure{Value: max(30e-3, 6*size), Source: weld.Source{Mark: weld.Read, Family: weld.ISO,
			Code: "EN 1993-1-8", Clause: "minimum length", Note: "as public code has it"}}, nil
	}
	return weld.Figure{}, fmt.Errorf("minimum length: %v; say ISO or AWS", f)
}

// LongFillet returns the share of its length that an end-loaded fillet of the
// given leg and length (m) counts with, dimensionless: 1 up to 100 legs, 1.2 -
// 0.2 L/(100 w) up to 300 legs, beyond that 180 legs over the length. AWS
// D1.1:2010 2.4.2.5, read.
func LongFillet(leg, length float64) (weld.Figure, error) {
	if err := weld.CheckAll(legSense.Of(leg), longSense.Of(length)); err != nil {
		return weld.Figure{}, fmt.Errorf("long fillet: %w", err)
	}
	w, L := leg, length
	beta := 1.0
	switch {
	case L > 300*w:
		beta = 180 * w / L
	case L > 100*w:
		beta = 1.2 - 0.2*L/(100*w)
	}
	return weld.Figure{Value: beta, Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
		Code: "AWS D1.1", Edition: "2010", Clause: "2.4.2.5"}}, nil
}
