package seam_test

import (
	"math"
	"testing"

	"seamwright/weld"
	"seamwright/weld/seam"
	"seamwright/weld/section"
)

// The worked case of a nozzle in a V-groove (invented; the project's own acceptance
// case S7): plates of 10 mm, 60 degrees, root face 1.5, gap 3, the wire's tip at the
// root, a nozzle of 22 mm with the contact tip 2 mm inside it. Its answers are printed
// to 0.1 mm: 3 mm over the plates at 15 mm contact-tip distance, 0.9 leaning 10
// degrees, 1.2 inside at 18.7; a distance of 18 to 20 is told to be enough, as is to
// lean by 5 at most.
func TestNozzleInGroove(t *testing.T) {
	g, err := section.NewGroove(section.Groove{Prep: section.SingleV, Thickness: 10e-3, Gap: 3e-3, RootFace: 1.5e-3, Angle: 60 * radian})
	if err != nil {
		t.Fatal(err)
	}
	r := roomOf(t, seam.RoomSpec{Way: joined(t, weld.Butt), Groove: &g})
	for _, row := range []struct {
		lean, distance float64 // deg, mm
		want           float64 // mm
	}{{0, 15, 3}, {10, 15, 0.9}, {18.7, 15, -1.2}} {
		got := r.Least(seam.Aim{Travel: row.lean * radian, Distance: (row.distance - 15) * 1e-3}, seam.Sway{})
		if math.Abs(got.Clearance*1e3-row.want) > 0.05 || got.Metal != seam.PlateFace {
			t.Errorf("leaning %g at %g mm: %.3f mm to the %s, want %.1f to the plates' face", row.lean, row.distance, got.Clearance*1e3, got.Metal, row.want)
		}
	}
	for _, distance := range []float64{18, 20} {
		if got := r.Least(seam.Aim{Travel: 10 * radian, Distance: (distance - 15) * 1e-3}, seam.Sway{}); got.Clearance < 3e-3 {
			t.Errorf("at %g mm %.2f mm are left, told to be enough", distance, got.Clearance*1e3)
		}
	}
	if got := r.Least(seam.Aim{Travel: 5 * radian}, seam.Sway{}).Clearance; got < 1.5e-3 {
		t.Errorf("leaning 5 deg leaves %.2f mm, told to be enough", got*1e3)
	}
}

// The exact distances in the same groove from its shoulders, where a narrower nozzle
// goes in: 12 mm wide, tip at the root, upright. The face is 13 mm up, over the plates'
// face; its rim is nearest to the shoulders at (6.408, 10): hypot(0.408, 3). By hand.
func TestNarrowNozzleInGroove(t *testing.T) {
	g, err := section.NewGroove(section.Groove{Prep: section.SingleV, Thickness: 10e-3, Gap: 3e-3, RootFace: 1.5e-3, Angle: 60 * radian})
	if err != nil {
		t.Fatal(err)
	}
	mouth := 1.5 + 8.5*math.Tan(30*radian)
	narrow := seam.Nozzle{Radius: 6e-3, Length: 60e-3, StickOut: 13e-3}
	r := roomOf(t, seam.RoomSpec{Way: joined(t, weld.Butt), Groove: &g, Nozzle: narrow})
	if got, want := r.Least(seam.Aim{}, seam.Sway{}), math.Hypot(mouth-6, 3); math.Abs(got.Clearance*1e3-want) > 1e-9 {
		t.Errorf("%.6f mm to the %s, want %.6f", got.Clearance*1e3, got.Metal, want)
	}
	// 9 mm up it is inside, 1 mm below the face and beside both walls, which stand 30
	// degrees from it: nearest along their normals.
	narrow.StickOut = 9e-3
	r = roomOf(t, seam.RoomSpec{Way: joined(t, weld.Butt), Groove: &g, Nozzle: narrow})
	sin, cos := math.Sincos(30 * radian)
	wall := 9*sin - 6*cos + 1.5*cos - 1.5*sin
	if got := r.Least(seam.Aim{}, seam.Sway{}); math.Abs(got.Clearance*1e3-wall) > 1e-9 {
		t.Errorf("%.6f mm to the %s, want %.6f", got.Clearance*1e3, got.Metal, wall)
	}
}
