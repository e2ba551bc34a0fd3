package thermal

import (
	"fmt"

	"seamwright/weld"
)

// CoolingWindow returns the cooling times t8/5 usually aimed at for the grade,
// s: 5 to 25 for ordinary structural steel, 10 to 25 often quoted for yield
// strengths from 355 to 460 MPa, 5 to 15 above. Below the window the zone
// beside the weld gets hard, above it soft and brittle. From memory: the
// steel's maker or the procedure decides.
func (g Grade) CoolingWindow() weld.Limit {
	source := weld.Source{Mark: weld.Memory, Code: "usual cooling time t8/5"}
	switch {
	case g.Yield > 460*megapascal:
		return weld.Limit{Range: weld.Between(5, 15), Source: source}
	case g.Yield >= 355*megapascal:
		return weld.Limit{Range: weld.Between(10, 25), Source: source}
	}
	return weld.Limit{Range: weld.Between(5, 25), Source: source}
}

// InterpassCeiling returns the highest temperature at which the next run is
// usually begun, degrees C: 250 for carbon-manganese steel (one reading of EN
// 1011-2 allows 300, workshop articles say 260), 200 quenched and tempered,
// 150 austenitic and duplex, 120 aluminium. The 250 is common practice, no
// source; the others were read in workshop articles. Any other class is refused. The
// procedure may say less.
func InterpassCeiling(c MetalClass) (weld.Limit, error) {
	read := weld.Source{Mark: weld.Read, Code: "interpass temperature", Note: "as workshop articles have it"}
	switch c {
	case CarbonManganese:
		return weld.Limit{Range: weld.AtMost(250), Source: weld.Source{Mark: weld.CommonPractice, Code: "interpass temperature",
			Note: "workshop articles say 260 degC, a reading of EN 1011-2 says 300"}}, nil
	case QuenchedTempered:
		return weld.Limit{Range: weld.AtMost(200), Source: read}, nil
	case Austenitic, Duplex:
		return weld.Limit{Range: weld.AtMost(150), Source: read}, nil
	case Aluminium:
		return weld.Limit{Range: weld.AtMost(120), Source: read}, nil
	}
	return weld.Limit{}, fmt.Errorf("interpass ceiling: %v; say one of: carbon-manganese steel, quenched and tempered steel, "+
		"austenitic stainless steel, duplex stainless steel, aluminium", c)
}
