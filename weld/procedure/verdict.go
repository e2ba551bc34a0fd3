package procedure

import (
	"seamwright/unit"
	"seamwright/weld"
)

// Item is one thing that a procedure may limit, in the trade's words.
type Item string

// The items, in the order in which Check reports them.
const (
	ItemProcess         Item = "process"
	ItemTransfer        Item = "transfer mode"
	ItemJoint           Item = "joint type"
	ItemKind            Item = "weld kind"
	ItemPosition        Item = "position"
	ItemProgression     Item = "progression"
	ItemWireClass       Item = "wire class"
	ItemWireDiameter    Item = "wire diameter"
	ItemGasName         Item = "shielding gas"
	ItemGasFlow         Item = "gas flow"
	ItemThickness       Item = "thickness"
	ItemCurrent         Item = "current"
	ItemVoltage         Item = "voltage"
	ItemFeed            Item = "wire feed speed"
	ItemTravelSpeed     Item = "travel speed"
	ItemEnergy          Item = "energy per length"
	ItemContactDistance Item = "contact-tip-to-work distance"
	ItemWorkAngle       Item = "work angle"
	ItemTravelAngle     Item = "travel angle"
	ItemWorkDeviation   Item = "deviation of the work angle"
	ItemTravelDeviation Item = "deviation of the travel angle"
	ItemSinglePass      Item = "size of one pass"
	ItemParentGroup     Item = "parent material group"
	ItemPolarity        Item = "polarity"
	ItemTechnique       Item = "technique"
	ItemAmplitude       Item = "weave amplitude"
	ItemFrequency       Item = "weave frequency"
	ItemDwell           Item = "weave dwell"
	ItemPreheat         Item = "preheat temperature"
	ItemInterpass       Item = "interpass temperature"
)

// Items returns every item in the order in which Check reports them.
func Items() []Item {
	return []Item{
		ItemProcess, ItemTransfer, ItemJoint, ItemKind, ItemPosition, ItemProgression, ItemWireClass, ItemWireDiameter, ItemGasName,
		ItemGasFlow, ItemThickness, ItemCurrent, ItemVoltage, ItemFeed, ItemTravelSpeed, ItemContactDistance, ItemEnergy,
		ItemWorkAngle, ItemTravelAngle, ItemWorkDeviation, ItemTravelDeviation, ItemSinglePass,
		ItemParentGroup, ItemPolarity, ItemTechnique, ItemAmplitude, ItemFrequency, ItemDwell, ItemPreheat, ItemInterpass,
	}
}

// Kind returns the quantity in which an item is measured, the zero Kind for one
// in words; the wire diameter, a list of lengths, is a length.
func (i Item) Kind() unit.Kind {
	switch i {
	case ItemGasFlow:
		return unit.GasFlow
	case ItemThickness, ItemContactDistance, ItemSinglePass, ItemAmplitude, ItemWireDiameter:
		return unit.Length
	case ItemCurrent:
		return unit.Current
	case ItemVoltage:
		return unit.Voltage
	case ItemFeed:
		return unit.WireFeed
	case ItemTravelSpeed:
		return unit.Speed
	case ItemEnergy:
		return unit.EnergyPerLength
	case ItemWorkAngle, ItemTravelAngle, ItemWorkDeviation, ItemTravelDeviation:
		return unit.Angle
	case ItemFrequency:
		return unit.Frequency
	case ItemDwell:
		return unit.Time
	case ItemPreheat, ItemInterpass:
		return unit.Temperature
	}
	return 0
}

// Show prints a value of the item (SI, degC) in the unit of a reader's system, a
// travel angle as push or drag.
func (i Item) Show(x float64, s unit.System) string {
	if i != ItemTravelAngle || x == 0 {
		return weld.Show(x, i.Kind(), s)
	}
	if x < 0 {
		return "drag " + weld.Show(-x, unit.Angle, s)
	}
	return "push " + weld.Show(x, unit.Angle, s)
}

// ShowRange prints a range of the item (SI, degC) in the unit of a reader's system,
// a travel angle as push or drag; nothing for one that states nothing.
func (i Item) ShowRange(r weld.Range, s unit.System) string {
	if i != ItemTravelAngle || !r.HasLow || !r.HasHigh {
		return r.In(i.Kind(), s)
	}
	return i.Show(r.Low, s) + " to " + i.Show(r.High, s)
}

// State is the outcome for one item. The zero value is no outcome.
type State uint8

// The outcomes. Only Inside is a pass.
const (
	Inside    State = iota + 1
	Outside         // the procedure forbids it
	NotStated       // the procedure gives no limit: not checked
	NotKnown        // the procedure gives a limit, the plan gives no value: not checked
)

// String returns the outcome in words.
func (s State) String() string {
	switch s {
	case Inside:
		return "inside"
	case Outside:
		return "outside"
	case NotStated:
		return "not stated"
	case NotKnown:
		return "not known"
	}
	return "no outcome"
}

// Verdict is the outcome for one item. Items with a number fill Measured,
// Range and Unit; the others fill Found and Allowed.
type Verdict struct {
	Item  Item
	State State

	Measured   float64     // planned value in SI, in Unit; 0 when NotKnown
	weld.Range             // the limits in SI, in Unit
	Unit       string      // SI unit: "A", "V", "m/s", "m", "rad", "J/m", "m3/s", "Hz", "s", "degC"
	Found      string      // planned word
	Allowed    []string    // words allowed
	Wires      []float64   // wire diameters allowed, m, of that item alone
	Note       string      // what a reader must know, such as which energy this is
	Source     weld.Source // where the limit stands
}
