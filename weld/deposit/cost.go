package deposit

import (
	"errors"
	"fmt"
	"math"

	"seamwright/weld"
)

// Use is what a piece of welding takes.
type Use struct {
	Time   float64 // worked time, arc and all else, s
	Wire   float64 // wire or electrode bought, kg
	Gas    float64 // shielding gas, m3
	Energy float64 // from the mains, J
}

// Add returns the two uses together.
func (u Use) Add(v Use) Use {
	return Use{u.Time + v.Time, u.Wire + v.Wire, u.Gas + v.Gas, u.Energy + v.Energy}
}

// Rates are prices, in currency units of the caller's choice; no rate is a
// price of zero.
type Rates struct {
	Labour float64 // labour and overhead, currency units per s
	Wire   float64 // currency units per kg
	Gas    float64 // currency units per m3
	Energy float64 // currency units per J
}

// Cost is a cost by what it is for, in currency units.
type Cost struct {
	Labour, Wire, Gas, Energy float64 // in currency units
}

// Total returns the sum, in currency units.
func (c Cost) Total() float64 { return c.Labour + c.Wire + c.Gas + c.Energy }

// Cost returns what a use costs, in currency units: worked time times labour,
// wire, gas and energy times their prices. DERIVED. Labour is about 85 % of the
// cost of a weld, power under 1 % (US Navy NAVEDTRA 14251A, READ).
func (r Rates) Cost(u Use) Cost {
	return Cost{u.Time * r.Labour, u.Wire * r.Wire, u.Gas * r.Gas, u.Energy * r.Energy}
}

// Validate reports a price that is negative or no number.
func (r Rates) Validate() error {
	for _, p := range []struct {
		name  string
		price float64
	}{{"labour", r.Labour}, {"wire", r.Wire}, {"gas", r.Gas}, {"energy", r.Energy}} {
		if !(p.price >= 0) || math.IsInf(p.price, 0) {
			return fmt.Errorf("rates: the price of %s is %g; give a price that is 0 or more", p.name, p.price)
		}
	}
	return nil
}

// Laying is how a shop lays weld metal.
type Laying struct {
	Rate       float64 // weld metal while the arc burns, kg/s
	Factor     float64 // operating factor, arc time over worked time, dimensionless
	Efficiency float64 // weld metal over filler bought, dimensionless, 0.3 to 1
	GasFlow    float64 // m3/s; 0 for none
}

// PerMass returns the use for each kg of weld metal: worked time 1/(D OF),
// filler 1/eta, gas flow/D. Ranges: D 0.05 to 50 kg/h, OF 0.02 to 1. Handbook
// worksheet, READ in a filler-metal maker's handbook.
func (l Laying) PerMass() (Use, error) {
	values := []weld.Sensed{rateSpan.Of(l.Rate), factorSpan.Of(l.Factor), electrodeEta.Of(l.Efficiency)}
	if l.GasFlow != 0 {
		values = append(values, flowSpan.Of(l.GasFlow))
	}
	if err := weld.CheckAll(values...); err != nil {
		return Use{}, fmt.Errorf("use per mass: %w", err)
	}
	return Use{Time: 1 / (l.Rate * l.Factor), Wire: 1 / l.Efficiency, Gas: l.GasFlow / l.Rate}, nil
}

// WorkedTime returns the worked time, s, for an arc time (s) and a dimensionless
// operating factor of 0.02 to 1: t_arc / OF. DERIVED.
func WorkedTime(arcTime, factor float64) (float64, error) {
	if err := weld.CheckAll(arcTimes.Of(arcTime), factorSpan.Of(factor)); err != nil {
		return 0, fmt.Errorf("worked time: %w", err)
	}
	return arcTime / factor, nil
}

// Way is how a shop welds, for its operating factor. The zero value is "not
// stated".
type Way uint8

// The ways.
const (
	ManualElectrode Way = iota + 1 // covered electrode by hand
	SemiAutomatic                  // hand-held gas-metal arc or flux-cored
	SmallShopManual                // by hand, job work in a small shop
	Mechanised
	Automatic        // automatic gas-metal arc or flux-cored
	CartArm          // collaborative arm on a cart, one station
	CartArmTwoPlaces // the same between two stations
)

// String returns the way in words.
func (w Way) String() string {
	if w < ManualElectrode || w > CartArmTwoPlaces {
		return "way of welding not stated"
	}
	return [...]string{"", "covered electrode by hand", "semi-automatic", "by hand in a small shop", "mechanised", "automatic", "arm on a cart, one station", "arm on a cart, two stations"}[w]
}

// OperatingFactor returns arc time over worked time, dimensionless, to plan with
// before a shop has timed its own, and the interval met. Covered electrode 30 %,
// semi-automatic 40 to 45 %, mechanised 50 %, automatic 60 to 80 % (a costing
// article and the Handbook of Structural Steel Connection Design, READ); small
// shop 15 to 30 %, arm on a cart 30 to 50 %, with two stations 50 to 70 % (from
// memory, an estimate).
func OperatingFactor(w Way) (weld.Figure, error) {
	figure := func(mark weld.Mark, value, low, high float64) (weld.Figure, error) {
		return weld.Figure{Value: value, Usual: weld.Between(low, high), Source: weld.Source{Mark: mark, Code: "operating factor", Note: w.String()}}, nil
	}
	switch w {
	case ManualElectrode:
		return figure(weld.Read, 0.30, 0.30, 0.30)
	case SemiAutomatic:
		return figure(weld.Read, 0.45, 0.40, 0.45)
	case SmallShopManual:
		return figure(weld.Memory, 0.20, 0.15, 0.30)
	case Mechanised:
		return figure(weld.Read, 0.50, 0.50, 0.50)
	case Automatic:
		return figure(weld.Read, 0.70, 0.60, 0.80)
	case CartArm:
		return figure(weld.Memory, 0.40, 0.30, 0.50)
	case CartArmTwoPlaces:
		return figure(weld.Memory, 0.60, 0.50, 0.70)
	}
	return weld.Figure{}, errors.New("operating factor: way of welding not stated; say how the shop welds, or give its own factor")
}
