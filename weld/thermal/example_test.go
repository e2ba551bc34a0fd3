package thermal_test

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/thermal"
)

// A single-run fillet on 10 mm plate, from the arc to its cooling time.
func ExampleCooling() {
	arcEnergy, err := thermal.FromVoltsAmps(26, 250, 6.8*unit.MMPerS)
	if err != nil {
		fmt.Println(err)
		return
	}
	q, err := thermal.HeatInput.FromArcEnergy(arcEnergy, weld.MAG)
	if err != nil {
		fmt.Println(err)
		return
	}
	cool, err := thermal.Cooling(thermal.CoolingRequest{HeatInput: q, Preheat: 20, Thickness: 10 * unit.MM, Shape: thermal.TeeFillet})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f s, %v (thick plate %.1f s)\n", cool.Time, cool.Plate, cool.Thick)
	// Output: 4.5 s, thin plate (thick plate 2.7 s)
}
