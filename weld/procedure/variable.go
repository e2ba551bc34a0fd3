package procedure

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Rule is what a change of an essential variable may be before a code asks for
// a new qualification. The zero value is none.
type Rule uint8

// The rules.
const (
	NoChange    Rule = iota + 1 // any change asks for it
	NoIncrease                  // any increase asks for it
	WithinShare                 // a change beyond Down or Up, shares of the value
	WithinStep                  // a change beyond Down or Up, in the unit of the item
)

// Variable is one essential variable of a code.
type Variable struct {
	Item Item
	Rule Rule
	// Down and Up are how far the value may fall and rise: dimensionless shares,
	// or steps in the unit of the item. A side whose flag is not set has no limit.
	Down, Up       float64
	HasDown, HasUp bool
	Source         weld.Source
}

// String returns the variable in words, such as "voltage: 7 % down, 7 % up".
func (v Variable) String() string {
	side := func(x float64, has bool, way string) string {
		switch {
		case !has:
			return way + " without limit"
		case v.Rule == WithinShare:
			return fmt.Sprintf("%.4g %% %s", x/unit.Percent, way)
		}
		return fmt.Sprintf("%.4g degC %s", x, way)
	}
	switch v.Rule {
	case NoChange:
		return string(v.Item) + ": no change"
	case NoIncrease:
		return string(v.Item) + ": no increase"
	case WithinShare, WithinStep:
		return string(v.Item) + ": " + side(v.Down, v.HasDown, "down") + ", " + side(v.Up, v.HasUp, "up")
	}
	return string(v.Item) + ": no rule"
}

// Range returns what is permitted about a qualified value, in the unit of that
// value; nothing for the rules on words.
func (v Variable) Range(qualified float64) weld.Range {
	low, high := qualified-v.Down, qualified+v.Up
	if v.Rule == WithinShare {
		low, high = qualified*(1-v.Down), qualified*(1+v.Up)
	}
	switch rule := v.Rule == WithinShare || v.Rule == WithinStep; {
	case rule && v.HasDown && v.HasUp:
		return weld.Between(low, high)
	case rule && v.HasDown:
		return weld.AtLeast(low)
	case rule && v.HasUp:
		return weld.AtMost(high)
	}
	return weld.Range{}
}

// D11Variables returns the essential variables of AWS D1.1 for a wire process
// (gas-metal arc, metal-cored or flux-cored), without impact tests. The shares
// are those of D11Tolerances. From memory, but for current type, polarity and
// progression (Table 6.6 of 2025, READ in a code commentary) and the wire
// diameter of solid wire.
//
// Of the wire diameter two statements are at hand that differ: "an increase asks
// for a new qualification" (from memory, no edition) and "any change does" (READ
// in a public forum on a procedure of the 2015 edition, a secondary source). A
// third, from memory, would explain both: the table asks by process, any increase
// or decrease for gas-metal arc and any increase for flux-cored wire. Nobody has
// opened the table. So any change counts for solid and metal-cored wire, the
// stricter and better sourced reading: at worst a thinner wire that the code
// allows is called a change. For flux-cored wire an increase counts, from memory.
// The source of a verdict says which; the code in the contract decides.
//
// What D1.1 qualifies beyond the record's own position, thickness and joint is not
// held here: those stay as welded or not stated.
func D11Variables(p weld.Process) ([]Variable, error) {
	if !p.Planned() {
		return nil, fmt.Errorf("essential variables of AWS D1.1: %v is not held; allowed: 131, 135, 136, 138; open the code for other processes", p)
	}
	memory := weld.Source{Mark: weld.Memory, Family: weld.AWS, Code: "AWS D1.1", Clause: "essential variables, wire processes", Note: "check the edition in the contract"}
	low, read, forum := memory, memory, memory
	low.Note = "low confidence: open the edition in the contract"
	read.Mark, read.Edition, read.Clause, read.Note = weld.Read, "2025", "Table 6.6", "as a code commentary has it"
	forum.Mark, forum.Note = weld.Read, "as a forum has it; others say an increase only: open the edition in the contract"
	diameter := Variable{Item: ItemWireDiameter, Rule: NoChange, Source: forum}
	if p == weld.FluxCored {
		diameter.Rule, diameter.Source = NoIncrease, memory
	}
	out := []Variable{
		{Item: ItemProcess, Rule: NoChange, Source: memory},
		{Item: ItemTransfer, Rule: NoChange, Source: read},
		{Item: ItemPolarity, Rule: NoChange, Source: read},
		{Item: ItemPosition, Rule: NoChange, Source: low},
		{Item: ItemProgression, Rule: NoChange, Source: read},
		{Item: ItemWireClass, Rule: NoChange, Source: memory},
		diameter,
		{Item: ItemGasName, Rule: NoChange, Source: memory},
	}
	for _, t := range D11Tolerances() {
		out = append(out, Variable{Item: t.Item, Rule: WithinShare, Down: t.Down, Up: t.Up, HasDown: true, HasUp: true, Source: t.Source})
	}
	// 25 degF.
	return append(out, Variable{Item: ItemPreheat, Rule: WithinStep, Down: 14, HasDown: true, Source: low}), nil
}

// Tests says which tests a qualification to ISO 15614-1 rests on.
type Tests struct {
	Impact   bool // impact tests are asked for: heat input has an upper limit
	Hardness bool // hardness tests are asked for: heat input has a lower limit
	Level1   bool // level 1 of the 2017 edition; else level 2
}

// ISO15614Variables returns essential variables of ISO 15614-1:2017: heat input
// 25 % up with impact tests, 25 % down with hardness tests; preheat not below
// the record's; interpass temperature 50 degC above it, 100 at level 1; the
// process, polarity, transfer mode and gas as welded. All from memory. The
// ranges of thickness and throat are not held here: they stay not stated, which
// is no pass.
func ISO15614Variables(t Tests) []Variable {
	src := weld.Source{Mark: weld.Memory, Family: weld.ISO, Code: "ISO 15614-1", Edition: "2017", Clause: "range of qualification", Note: "open the edition"}
	out := []Variable{
		{Item: ItemProcess, Rule: NoChange, Source: src},
		{Item: ItemTransfer, Rule: NoChange, Source: src},
		{Item: ItemPolarity, Rule: NoChange, Source: src},
		{Item: ItemGasName, Rule: NoChange, Source: src},
		{Item: ItemPreheat, Rule: WithinStep, HasDown: true, Source: src},
		{Item: ItemInterpass, Rule: WithinStep, Up: 50, HasUp: true, Source: src},
	}
	if t.Level1 {
		out[len(out)-1].Up = 100
	}
	if t.Impact || t.Hardness {
		out = append(out, Variable{Item: ItemEnergy, Rule: WithinShare, Down: 0.25, Up: 0.25, HasDown: t.Hardness, HasUp: t.Impact, Source: src})
	}
	return out
}
