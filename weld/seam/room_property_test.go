package seam_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"seamwright/geom/convex"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

func genNozzle() *rapid.Generator[seam.Nozzle] {
	return rapid.Custom(func(t *rapid.T) seam.Nozzle {
		n := seam.Nozzle{
			Radius: rapid.Float64Range(5e-3, 15e-3).Draw(t, "radius"), Length: rapid.Float64Range(10e-3, 100e-3).Draw(t, "length"),
			StickOut: rapid.Float64Range(5e-3, 30e-3).Draw(t, "stick-out"),
		}
		if rapid.Bool().Draw(t, "tapered") {
			n.Top = rapid.Float64Range(5e-3, 20e-3).Draw(t, "top")
		}
		return n
	})
}

func genRoomAim() *rapid.Generator[seam.Aim] {
	return rapid.Custom(func(t *rapid.T) seam.Aim {
		angle := rapid.Float64Range(-70, 70)
		return seam.Aim{
			Work: angle.Draw(t, "work") * radian, Travel: angle.Draw(t, "travel") * radian,
			Offset: rapid.Float64Range(-5e-3, 5e-3).Draw(t, "offset"), Distance: rapid.Float64Range(-2e-3, 20e-3).Draw(t, "distance"),
		}
	})
}

// solidOf is the nozzle as a solid, and its pose in the seam's frame.
func solidOf(t *rapid.T, n seam.Nozzle, f seam.Frame, a seam.Aim) (convex.Solid, se3.Pose) {
	top := n.Top
	if top == 0 {
		top = n.Radius
	}
	solid, err := convex.NewCone(n.Radius, top, n.Length)
	if err != nil {
		t.Fatal(err)
	}
	tip := f.Encode(a)
	e := tip.R.Z().Neg()
	return solid, se3.Pose{R: se3.RotColumns(tip.R.X(), tip.R.Y().Neg(), e), P: tip.P.AddScaled(n.StickOut+n.Length/2, e)}
}

// The closed form against the general search for the nearest points of two solids
// (package convex), which has nothing of it: the plates are boxes of 6 m there.
func TestRoomAgainstConvexSolids(t *testing.T) {
	const long = 6.0
	tee, lap := joined(t, weld.Tee), joined(t, weld.Lap)
	rapid.Check(t, func(t *rapid.T) {
		n, a := genNozzle().Draw(t, "nozzle"), genRoomAim().Draw(t, "aim")
		thick := rapid.Float64Range(1e-3, 20e-3).Draw(t, "thickness")
		way, high := tee, long
		if rapid.Bool().Draw(t, "lap") {
			way, high = lap, thick
		}
		spec := seam.RoomSpec{Way: way, Nozzle: n, OtherThickness: thick}
		r, err := seam.NewRoom(spec)
		if err != nil {
			t.Fatal(err)
		}
		base, err := convex.NewBox(r3.Vec{X: long, Y: long, Z: long})
		if err != nil {
			t.Fatal(err)
		}
		other, err := convex.NewBox(r3.Vec{X: long, Y: long, Z: high})
		if err != nil {
			t.Fatal(err)
		}
		nozzle, seamFromNozzle := solidOf(t, n, way.At(0).Frame, a)
		want := math.Inf(1)
		for _, plate := range []struct {
			solid  convex.Solid
			middle r3.Vec
		}{{base, r3.Vec{Z: -long / 2}}, {other, r3.Vec{Y: -long / 2, Z: high / 2}}} {
			plateFromNozzle := se3.Translation(plate.middle.Neg()).Mul(seamFromNozzle)
			want = min(want, convex.Distance(&plate.solid, &nozzle, &plateFromNozzle).Distance)
		}
		if high == long { // the upright goes on below the base plate's face here
			want = min(want, max(0, want))
		}
		got := r.Least(a, seam.Sway{}).Clearance
		if got > 0 != (want > 0) && math.Abs(got) > 1e-9 || got > 0 && math.Abs(got-want) > 1e-9 {
			t.Errorf("%.9f mm, the solids are %.9f mm apart", got*1e3, want*1e3)
		}
	})
}

// A joint that is its own mirror image gives the same for torches that are.
func TestRoomIsSymmetric(t *testing.T) {
	tee, butt := joined(t, weld.Tee), joined(t, weld.Butt)
	rapid.Check(t, func(t *rapid.T) {
		n := genNozzle().Draw(t, "nozzle")
		lean, travel := rapid.Float64Range(0, 40).Draw(t, "lean")*radian, rapid.Float64Range(-40, 40).Draw(t, "travel")*radian
		spec, middle := seam.RoomSpec{Way: tee, Nozzle: n}, math.Pi/4
		if rapid.Bool().Draw(t, "butt") {
			g, err := section.NewGroove(section.Groove{Prep: section.SingleV, Thickness: 20e-3, Gap: 2e-3, RootFace: 1e-3, Angle: rapid.Float64Range(30, 90).Draw(t, "angle") * radian})
			if err != nil {
				t.Fatal(err)
			}
			spec, middle = seam.RoomSpec{Way: butt, Nozzle: n, Groove: &g}, 0
		}
		r, err := seam.NewRoom(spec)
		if err != nil {
			t.Fatal(err)
		}
		one := r.Least(seam.Aim{Work: middle + lean, Travel: travel}, seam.Sway{}).Clearance
		for _, other := range []seam.Aim{{Work: middle - lean, Travel: travel}, {Work: middle + lean, Travel: -travel}} {
			if got := r.Least(other, seam.Sway{}).Clearance; math.Abs(got-one) > 1e-9 {
				t.Errorf("%.9f mm one way, %.9f the other", one*1e3, got*1e3)
			}
		}
	})
}

// The clearance changes by no more than the torch is moved, and a larger nozzle never
// has more of it.
func TestRoomIsSteady(t *testing.T) {
	ways := map[weld.JointType]seam.Way{weld.Tee: joined(t, weld.Tee), weld.Lap: joined(t, weld.Lap), weld.Butt: joined(t, weld.Butt)}
	rapid.Check(t, func(t *rapid.T) {
		n, a := genNozzle().Draw(t, "nozzle"), genRoomAim().Draw(t, "aim")
		joint := rapid.SampledFrom([]weld.JointType{weld.Tee, weld.Lap, weld.Butt}).Draw(t, "joint")
		spec := seam.RoomSpec{Way: ways[joint], Nozzle: n, OtherThickness: 6e-3}
		if joint == weld.Butt {
			g, err := section.NewGroove(section.Groove{Prep: section.SingleU, Thickness: 25e-3, Gap: 1e-3, RootFace: 2e-3, Angle: 12 * radian, Radius: 6e-3})
			if err != nil {
				t.Fatal(err)
			}
			spec.Groove = &g
		}
		least := func(a seam.Aim) float64 {
			r, err := seam.NewRoom(spec)
			if err != nil {
				t.Fatal(err)
			}
			return r.Least(a, seam.Sway{}).Clearance
		}
		before := least(a)
		by := rapid.Float64Range(-3e-3, 3e-3).Draw(t, "by")
		across, along := a, a
		across.Offset += by
		along.Distance += by
		for _, moved := range []seam.Aim{across, along} {
			if got := least(moved); math.Abs(got-before) > math.Abs(by)+1e-9 {
				t.Errorf("moved by %.6f mm the clearance goes from %.6f to %.6f mm", by*1e3, before*1e3, got*1e3)
			}
		}
		more := rapid.Float64Range(0, 5e-3).Draw(t, "more")
		spec.Nozzle.Radius += more
		if n.Top > 0 {
			spec.Nozzle.Top += more
		}
		larger, err := seam.NewRoom(spec)
		if err != nil {
			t.Fatal(err)
		}
		again, err := larger.With(n)
		if err != nil {
			t.Fatal(err)
		}
		if got := again.Least(a, seam.Sway{}).Clearance; got != before {
			t.Errorf("the same nozzle has %.9f mm in a room made for a larger one, %.9f in its own", got*1e3, before*1e3)
		}
		if got := least(a); got > before+1e-9 {
			t.Errorf("a nozzle larger by %.6f mm has %.6f mm, more than %.6f", more*1e3, got*1e3, before*1e3)
		}
	})
}
