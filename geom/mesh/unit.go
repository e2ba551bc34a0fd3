package mesh

import (
	"fmt"
	"strings"

	"seamwright/unit"
)

// Unit is what one unit of a file's coordinates means. The zero value is
// Undeclared.
type Unit uint8

// The units that meshes come in.
const (
	Undeclared Unit = iota
	Millimetres
	Inches
	Metres
	Centimetres
	Feet
	Micrometres
	unitCount
)

// lengths holds the symbol of each unit and its length in metres.
var lengths = [unitCount]struct {
	symbol string
	metres float64
}{
	Undeclared:  {"undeclared", 0},
	Millimetres: {"mm", unit.MM},
	Inches:      {"in", unit.Inch},
	Metres:      {"m", 1},
	Centimetres: {"cm", unit.CM},
	Feet:        {"ft", unit.Foot},
	Micrometres: {"um", 1e-6},
}

// String returns the symbol: mm, in, m, cm, ft, um or undeclared.
func (u Unit) String() string {
	if u >= unitCount {
		return fmt.Sprintf("unit %d", uint8(u))
	}
	return lengths[u].symbol
}

// Metres returns the length of one unit, m; 0 for Undeclared.
func (u Unit) Metres() float64 {
	if u >= unitCount {
		return 0
	}
	return lengths[u].metres
}

// ParseUnit reads mm, in, m, cm, ft or um. Nothing else is understood, so that
// a slip is an error and not another size.
func ParseUnit(text string) (Unit, error) {
	for u := Millimetres; u < unitCount; u++ {
		if strings.TrimSpace(text) == lengths[u].symbol {
			return u, nil
		}
	}
	return Undeclared, fmt.Errorf("mesh unit: found %q; allowed: mm, in, m, cm, ft or um; to mend: say which unit the file was exported in", text)
}
