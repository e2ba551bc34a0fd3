package section

import (
	"errors"
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// Plates is a fillet joint's thicknesses and duty, for the rules on size.
type Plates struct {
	Family   weld.CodeFamily
	Thinner  float64 // m
	Thicker  float64 // m
	Process  weld.Process
	Cyclic   bool // cyclically loaded
	Preheats bool // preheat was calculated for a process that is not low-hydrogen
}

// SizeLimit is a limit on a fillet's size.
type SizeLimit struct {
	Size float64 // m
	// Inch is the same limit in the inch column of a table that prints both,
	// m; 0 where there is none. The columns are rounded apart: 3/16 in is
	// 4.76 mm where the metric column says 5.
	Inch   float64
	Kind   weld.SizeKind // leg or throat: the two families measure differently
	Source weld.Source
}

// minLegs is AWS D1.1:2025 Table 7.7, m: thickness up to and leg of the metric
// column, leg of the inch column (1/8, 3/16, 1/4, 5/16 in).
var minLegs = []struct{ upTo, leg, inch float64 }{
	{6e-3, 3e-3, unit.Inch / 8}, {12e-3, 5e-3, unit.Inch * 3 / 16},
	{20e-3, 6e-3, unit.Inch / 4}, {math.Inf(1), 8e-3, unit.Inch * 5 / 16},
}

// Allows reports whether a size (m) reaches the least size, in the metric or in
// the inch column of its table, within the rounding of a drawing (5 um).
func (l SizeLimit) Allows(size float64) bool {
	least := l.Size
	if l.Inch > 0 {
		least = min(least, l.Inch)
	}
	return size >= least-5e-6
}

// cyclicMinLeg and cyclicMinInch are the least leg under cyclic load, m, same
// table's footnote: 5 mm (3/16 in).
const (
	cyclicMinLeg  = 5e-3
	cyclicMinInch = unit.Inch * 3 / 16
)

// MinSizes returns the least size of a fillet by the plates' thickness.
//
// AWS: leg from D1.1:2025 Table 7.7 (read in a code commentary), by the thinner
// part for low-hydrogen processes (all wire processes here) and for others with
// calculated preheat, else by the thicker; 5 mm at least under cyclic load;
// never required above the thinner part.
//
// ISO: two limits on the throat: 3 mm, EN 1993-1-8 (read as coded in public
// code), and sqrt(t_max) - 0.5 with both in mm, practice of DIN 18800 and the
// German annex of EN 1993 (from memory).
func MinSizes(p Plates) ([]SizeLimit, error) {
	if err := p.validate(); err != nil {
		return nil, fmt.Errorf("minimum fillet size: %w", err)
	}
	if p.Family == weld.AWS {
		return []SizeLimit{p.awsMinSize()}, nil
	}
	tMax := p.Thicker * 1e3 // mm
	return []SizeLimit{
		{Size: 3e-3, Kind: weld.Throat, Source: weld.Source{Mark: weld.Read, Family: weld.ISO, Code: "EN 1993-1-8",
			Clause: "minimum throat", Note: "as public code has it"}},
		{Size: (math.Sqrt(tMax) - 0.5) * 1e-3, Kind: weld.Throat, Source: weld.Source{Mark: weld.Memory, Family: weld.ISO,
			Code: "DIN 18800, EN 1993 national annex", Clause: "a >= sqrt(t max) - 0.5 mm"}},
	}, nil
}

// awsMinSize reads D1.1:2025 Table 7.7.
func (p Plates) awsMinSize() SizeLimit {
	governing := p.Thinner
	if p.Process == weld.CoveredElectrode && !p.Preheats {
		governing = p.Thicker
	}
	var leg, inch float64
	for _, row := range minLegs {
		if weld.AtMost(row.upTo).Contains(governing) {
			leg, inch = row.leg, row.inch
			break
		}
	}
	if p.Cyclic {
		leg, inch = max(leg, cyclicMinLeg), max(inch, cyclicMinInch)
	}
	return SizeLimit{Size: min(leg, p.Thinner), Inch: min(inch, p.Thinner), Kind: weld.Leg, Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
		Code: "AWS D1.1", Edition: "2025", Clause: "Table 7.7", Note: "printed in a code commentary"}}
}

// validate reports missing fields, thicknesses out of order or out of range.
func (p Plates) validate() error {
	if p.Family != weld.ISO && p.Family != weld.AWS {
		return fmt.Errorf("%v; say ISO or AWS, the two measure differently", p.Family)
	}
	if p.Process == 0 && p.Family == weld.AWS {
		return errors.New("process not stated; the table is read by the thinner or the thicker part depending on it")
	}
	if err := weld.CheckAll(plateSense.Of(p.Thinner), plateSense.Of(p.Thicker)); err != nil {
		return err
	}
	if p.Thinner > p.Thicker {
		return fmt.Errorf("the thinner part, %.4g mm, is thicker than the thicker, %.4g mm; swap them", p.Thinner*1e3, p.Thicker*1e3)
	}
	return nil
}

// MaxLapEdge returns the largest leg in m along the edge of a lap joint whose
// edge has the given thickness (m): the thickness itself below 6 mm, else the
// thickness less 2 mm, unless the drawing has the edge built out. AWS D1.1,
// read in an inspection firm's summary (a forum's 20 mm switch is wrong).
func MaxLapEdge(thickness float64) (SizeLimit, error) {
	if err := plateSense.Check(thickness); err != nil {
		return SizeLimit{}, fmt.Errorf("lap edge: %w", err)
	}
	out := SizeLimit{Size: thickness, Kind: weld.Leg, Source: weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "AWS D1.1",
		Clause: "maximum fillet along an edge", Note: "from an inspection firm's summary"}}
	if weld.AtLeast(6e-3).Contains(thickness) {
		out.Size = thickness - 2e-3
	}
	return out, nil
}
