package deposit

import (
	"math"

	"seamwright/weld"
)

// Melt is a wire being fed into a weld. Build it with NewMelt, which checks
// it; the zero value deposits nothing.
type Melt struct {
	WireDiameter float64 // m, the true one: 0.045 in is 1.143 mm, not 1.2
	Feed         float64 // wire feed speed, m/s
	Efficiency   float64 // deposition efficiency, dimensionless, 0.5 to 1
}

// NewMelt returns a checked Melt for a wire diameter (m), a feed (m/s) and a
// dimensionless deposition efficiency, or an error naming the range that one
// of them leaves.
func NewMelt(wireDiameter, feed, efficiency float64) (Melt, error) {
	m := Melt{wireDiameter, feed, efficiency}
	if err := m.Validate(); err != nil {
		return Melt{}, err
	}
	return m, nil
}

// Validate reports a field outside its range of sense.
func (m Melt) Validate() error {
	return weld.CheckAll(wireSpan.Of(m.WireDiameter), feedSpan.Of(m.Feed), efficiencies.Of(m.Efficiency))
}

// WireArea returns the cross-section in m2 of a wire of the given diameter (m).
func WireArea(diameter float64) float64 { return math.Pi * diameter * diameter / 4 }

// WireFlow returns the volume of wire fed per time, m3/s.
func (m Melt) WireFlow() float64 { return WireArea(m.WireDiameter) * m.Feed }

// Flow returns the volume of weld metal deposited per time, m3/s.
func (m Melt) Flow() float64 { return m.WireFlow() * m.Efficiency }

// DepositionRate returns the mass deposited per time, kg/s, of a metal of the
// given density (kg/m3, 2000 to 12000). Mass balance, derived.
func (m Melt) DepositionRate(density float64) (float64, error) {
	if err := densities.Check(density); err != nil {
		return 0, err
	}
	return m.Flow() * density, nil
}

// BeadArea returns the bead's cross-section in m2 at a travel speed (m/s).
// Volume balance A = Q eta / v, derived, exact; travel 0.2 to 100 mm/s.
func (m Melt) BeadArea(travel float64) (float64, error) {
	if err := m.Validate(); err != nil {
		return 0, err
	}
	if err := travelSpan.Check(travel); err != nil {
		return 0, err
	}
	return m.Flow() / travel, nil
}

// TravelForArea returns the travel speed in m/s that lays a bead of the given
// area (m2), by the volume balance, derived. An answer outside 0.2 to 100 mm/s is an
// error.
func (m Melt) TravelForArea(area float64) (float64, error) {
	if err := m.Validate(); err != nil {
		return 0, err
	}
	if err := areaSpan.Check(area); err != nil {
		return 0, err
	}
	travel := m.Flow() / area
	return travel, travelSpan.Check(travel)
}

// Leg returns the first leg in m that the bead fills at a travel speed (m/s), in the
// range of BeadArea and of Shape.Leg. Derived from both.
func (m Melt) Leg(s Shape, travel float64) (float64, error) {
	area, err := m.BeadArea(travel)
	if err != nil {
		return 0, err
	}
	return s.Leg(area)
}

// TravelForLeg returns the travel speed in m/s that gives a first leg (m), in the
// range of Shape.Area and of TravelForArea. Derived from both.
func (m Melt) TravelForLeg(s Shape, leg float64) (float64, error) {
	area, err := s.Area(leg)
	if err != nil {
		return 0, err
	}
	return m.TravelForArea(area)
}

// FeedForArea returns the same wire and efficiency with the feed that lays a
// bead of the given area (m2) at a travel speed (m/s). m.Feed is not read. A
// feed outside 0.5 to 30 m/min is an error.
func (m Melt) FeedForArea(area, travel float64) (Melt, error) {
	err := weld.CheckAll(wireSpan.Of(m.WireDiameter), efficiencies.Of(m.Efficiency),
		areaSpan.Of(area), travelSpan.Of(travel))
	if err != nil {
		return Melt{}, err
	}
	return NewMelt(m.WireDiameter, area*travel/(WireArea(m.WireDiameter)*m.Efficiency), m.Efficiency)
}

// FeedForLeg returns the same wire and efficiency with the feed that gives a
// first leg (m) at a travel speed (m/s). m.Feed is not read.
func (m Melt) FeedForLeg(s Shape, leg, travel float64) (Melt, error) {
	area, err := s.Area(leg)
	if err != nil {
		return Melt{}, err
	}
	return m.FeedForArea(area, travel)
}

// Efficiency returns the deposition efficiency, dimensionless, to plan with
// before a shop has weighed its own: 0.97 spray and pulsed in argon-CO2, 0.95
// short-circuit, 0.93 globular in CO2, from memory; the interval 0.93 to 0.98
// was read in a wire maker's guide to gas-metal arc welding. A transfer mode
// that is not stated takes the low end.
func Efficiency(t weld.Transfer) weld.Figure {
	value := map[weld.Transfer]float64{
		weld.Spray: 0.97, weld.Pulsed: 0.97, weld.ShortCircuit: 0.95, weld.Globular: 0.93,
	}[t]
	if value == 0 {
		value = 0.93
	}
	return weld.Figure{Value: value, Usual: weld.Between(0.93, 0.98), Source: weld.Source{
		Mark: weld.Memory, Code: "deposition efficiency by transfer mode",
		Note: "interval 93 to 98 % read in a wire maker's guide"}}
}
