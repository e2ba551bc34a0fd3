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

// A way round a sharp corner: 15 deg of the turn before it, 15 behind it, 60 in
// place, with the angles at which the torch truly stands.
func ExampleNewWay() {
	path, err := curve.Polyline(r3.Vec{}, r3.Vec{X: 0.2}, r3.Vec{X: 0.2, Y: 0.15})
	if err != nil {
		panic(err)
	}
	base := seam.Plane{N: r3.Vec{Z: 1}}
	wall, err := seam.Stands(base, seam.Left, math.Pi/2)
	if err != nil {
		panic(err)
	}
	s, err := seam.New(seam.Spec{Path: path, Joint: weld.Tee, Base: base, Other: wall.Face})
	if err != nil {
		panic(err)
	}
	const deg = math.Pi / 180
	w, err := seam.NewWay(s, seam.Share{Before: 15 * deg, After: 15 * deg})
	if err != nil {
		panic(err)
	}
	turn := w.Turn(0)
	fmt.Printf("%v of %.0f deg, %.0f deg in place: %.2f s at 45 deg/s\n", turn.Kind, turn.Total/deg, turn.InPlace/deg, turn.Dwell(45*deg))
	for _, u := range []float64{turn.Start - 0.02, turn.Start, turn.End, turn.End + 0.02} {
		r := w.At(u).True(seam.Aim{Work: 45 * deg, Travel: 10 * deg})
		fmt.Printf("work %.1f travel %.1f\n", r.Work/deg, r.Travel/deg)
	}
	// Output:
	// outside corner of 90 deg, 60 deg in place: 1.33 s at 45 deg/s
	// work 45.0 travel 10.0
	// work 45.9 travel -0.7
	// work 42.0 travel 20.4
	// work 45.0 travel 10.0
}
