package procedure

import "seamwright/weld"

// Tolerance is how far a variable may leave the value of its qualification
// record before a code asks for a new one.
type Tolerance struct {
	Item   Item
	Down   float64 // share below, dimensionless
	Up     float64 // share above, dimensionless
	Source weld.Source
}

// Range returns the allowed range about a qualified value, in the unit of that
// value.
func (t Tolerance) Range(qualified float64) weld.Range {
	return weld.Around(qualified, t.Down, t.Up)
}

// D11Tolerances returns the essential-variable tolerances of AWS D1.1 for
// gas-metal arc welding: current and wire feed 10 %, voltage 7 %, travel speed
// 25 %, gas flow 50 % up and 20 % down. From memory, the gas row with low
// confidence; check the edition in the contract.
func D11Tolerances() []Tolerance {
	src := weld.Source{Mark: weld.Memory, Family: weld.AWS, Code: "AWS D1.1",
		Clause: "essential variables, gas-metal arc", Note: "check the edition in the contract"}
	gas := src
	gas.Note = "low confidence: open the edition in the contract"
	return []Tolerance{
		{ItemCurrent, 0.10, 0.10, src},
		{ItemVoltage, 0.07, 0.07, src},
		{ItemFeed, 0.10, 0.10, src},
		{ItemTravelSpeed, 0.25, 0.25, src},
		{ItemGasFlow, 0.20, 0.50, gas},
	}
}
