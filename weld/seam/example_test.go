package seam_test

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
	"seamwright/geom/r3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// Two touched tips, a base plate that looks up and an upright on the left are
// enough for a torch at 45 deg of work and 10 deg of push.
func Example() {
	path, err := curve.NewLine(r3.Vec{X: 0.40, Y: 0.10, Z: 0.02}, r3.Vec{X: 0.65, Y: 0.10, Z: 0.02})
	if err != nil {
		panic(err)
	}
	base, err := seam.Up(path, r3.Vec{Z: 1})
	if err != nil {
		panic(err)
	}
	upright, err := seam.Stands(base.Face, seam.Left, math.Pi/2)
	if err != nil {
		panic(err)
	}
	s, err := seam.New(seam.Spec{Path: path, Joint: weld.Tee, Base: base.Face, Other: upright.Face, Keep: base.Keep})
	if err != nil {
		panic(err)
	}
	f := s.At(0)
	frameFromTip := f.Encode(seam.Aim{Work: f.BisectingWork(), Travel: 10 * math.Pi / 180})
	wire := frameFromTip.R.Z()
	fmt.Printf("wire %.5f %.5f %.5f\n", wire.X, wire.Y, wire.Z)
	fmt.Println(upright.Decided)
	// Output:
	// wire 0.17365 0.69636 -0.69636
	// told: stands on the left of the travel, 90.0 deg from the other plate
}
