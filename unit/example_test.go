package unit_test

import (
	"fmt"

	"seamwright/unit"
)

func Example() {
	leg, _ := unit.Parse(unit.Length, "1/4 in")
	fmt.Println(unit.FormatIn(unit.Length, leg, unit.Metric))
	_, err := unit.Parse(unit.Speed, "6.8 mm/sec")
	fmt.Println(err)
	// Output:
	// 6.4 mm
	// "6.8 mm/sec" is not a speed: the unit "mm/sec" is not known; allowed: mm/s, mm/min, cm/min, m/min, m/s, in/min, in/s; write "6.8 mm/s"
}
