package distort_test

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld/distort"
)

// Four fillets along a beam: the corners are welded crosswise, each from the
// middle outwards.
func ExampleProposeOrder() {
	fillet := func(y, z float64) distort.Seam {
		return distort.Seam{Area: 18 * unit.MM2, Y: y * unit.MM, Z: z * unit.MM, To: 1}
	}
	o, err := distort.ProposeOrder(distort.OrderRequest{Seams: []distort.Seam{fillet(5, 100), fillet(-5, 100), fillet(5, -100), fillet(-5, -100)}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range o.Seams {
		fmt.Println("seam", s.Seam+1, s.Reason, s.Runs)
	}
	// Output:
	// seam 1 in balance so far: the thickest that is left [{0.5 1} {0.5 0}]
	// seam 4 brings the part nearest to balance [{0.5 1} {0.5 0}]
	// seam 2 in balance so far: the thickest that is left [{0.5 1} {0.5 0}]
	// seam 3 brings the part nearest to balance [{0.5 1} {0.5 0}]
}
