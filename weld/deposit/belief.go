package deposit

import (
	"fmt"
	"math"

	"seamwright/weld"
)

// Belief is what a shop knows of a settings set: how much of the wire becomes
// weld, how much metal a fillet of given legs takes over a flat face, how sure
// that is and on what evidence. Build it with NewBelief; Learn makes the next.
type Belief struct {
	Efficiency float64 // deposition efficiency, dimensionless
	FaceFactor float64 // bead area over flat-face area k, dimensionless
	// EfficiencySpread and FaceSpread are relative standard deviations,
	// dimensionless; Correlation is that of the two, dimensionless, -1 to 1. Legs
	// alone tell only efficiency over face factor, so the two grow correlated.
	EfficiencySpread, FaceSpread, Correlation float64

	Evidence Evidence
}

// Evidence is what readings have said so far.
type Evidence struct {
	Readings int
	// LogYield is the mean natural logarithm of flat-face area over wire area
	// fed, and Squares the sum of squares about it, dimensionless.
	LogYield, Squares float64
}

// Spread returns the relative scatter of the readings' areas, a standard
// deviation, dimensionless; 0 below two readings.
func (e Evidence) Spread() float64 {
	if e.Readings < 2 {
		return 0
	}
	return math.Sqrt(e.Squares / float64(e.Readings-1))
}

// add returns the evidence with one more logarithm of yield (Welford's running
// sums).
func (e Evidence) add(y float64) Evidence {
	e.Readings++
	d := y - e.LogYield
	e.LogYield += d / float64(e.Readings)
	e.Squares += float64(d * (y - e.LogYield))
	return e
}

// Spreads of a settings set that nobody has gauged, relative standard
// deviations, dimensionless. Chosen here so that two of them cover the usual
// intervals: efficiency 0.93 to 0.98, face factor 1.10 to 1.25 (both from
// memory).
const (
	firstEfficiencySpread = 0.02
	firstFaceSpread       = 0.06
)

// NewBelief returns the belief of a settings set without readings from the
// figures to plan with: a deposition efficiency and a face factor k, both
// dimensionless. See Efficiency, and section.Convexity.
func NewBelief(efficiency, faceFactor float64) (Belief, error) {
	if err := weld.CheckAll(efficiencies.Of(efficiency), convexities.Of(faceFactor)); err != nil {
		return Belief{}, fmt.Errorf("belief: %w", err)
	}
	return Belief{Efficiency: efficiency, FaceFactor: faceFactor,
		EfficiencySpread: firstEfficiencySpread, FaceSpread: firstFaceSpread}, nil
}

// Validate reports a belief that no set can have.
func (b Belief) Validate() error {
	spreads := weld.Sense{What: "relative spread", Low: 1e-6, High: 0.5}
	links := weld.Sense{What: "correlation", Low: -1, High: 1}
	err := weld.CheckAll(efficiencies.Of(b.Efficiency), convexities.Of(b.FaceFactor), spreads.Of(b.EfficiencySpread), spreads.Of(b.FaceSpread), links.Of(b.Correlation))
	if err != nil {
		return fmt.Errorf("belief: %w", err)
	}
	return nil
}

// Plan returns the wire and the shape to plan a fillet with: the melt with the
// believed efficiency, and a shape with the believed face factor for plates at
// an included angle (rad) with a dimensionless ratio of second to first leg.
func (b Belief) Plan(m Melt, angle, legRatio float64) (Melt, Shape) {
	m.Efficiency = b.Efficiency
	return m, Shape{Angle: angle, LegRatio: legRatio, Convexity: b.FaceFactor}
}

// LegSpread returns how far one leg may lie from the plan, a relative standard
// deviation, dimensionless: half of that of the area, which is the doubt in
// efficiency over face factor and the scatter from place to place. DERIVED.
func (b Belief) LegSpread() float64 {
	return math.Sqrt(b.yieldVariance()+float64(b.scatter()*b.scatter())) / 2
}

// yieldVariance is the variance of the logarithm of efficiency over face
// factor.
func (b Belief) yieldVariance() float64 {
	e, f := b.EfficiencySpread, b.FaceSpread
	return max(0, e*e+f*f-2*b.Correlation*e*f)
}

// Scatter of the area of one weld from place to place, relative standard
// deviation, dimensionless, before a shop has readings enough to tell its own.
// Common practice, no source.
const (
	firstScatter   = 0.05
	enoughReadings = 5
)

// scatter is the scatter to count with: the shop's own from five readings on.
func (b Belief) scatter() float64 {
	if b.Evidence.Readings < enoughReadings {
		return firstScatter
	}
	return max(b.Evidence.Spread(), firstScatter/5)
}
