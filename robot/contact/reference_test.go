package contact_test

import (
	"math"
	"testing"

	"seamwright/robot/contact"
)

// Rows V111 to V114 of the project's table of check values, and the wire tip.
func TestContactReference(t *testing.T) {
	find := func(name string) contact.Region {
		r, err := contact.Find(name)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	energy := func(r contact.Region, force float64) float64 {
		x, err := r.Energy(force)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	speed := func(r contact.Region, force, arm float64) float64 {
		x, err := r.Speed(force, arm)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	hand, chest, thigh, face := find("hand and fingers"), find("chest"), find("thigh and knee"), find("face")
	tip, err := contact.TipForce(1.2e-3, 200e4)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		name, source   string
		got, want, tol float64
	}{
		{"V111 thigh, transient force, energy", "ISO/TS 15066, READ, secondary: printed 1.9 J", energy(thigh, thigh.Force*thigh.Transient), 1.936, 0.01},
		{"V112 hand, transient, effective mass 10 kg", "ISO/TS 15066 Table A.3; k and mass MEMORY", speed(hand, hand.Force*hand.Transient, 10), 1.359, 0.005},
		{"V113 chest, transient, effective mass 10 kg", "ISO/TS 15066 A.2, A.3: force and k READ, mass MEMORY", speed(chest, chest.Force*chest.Transient, 10), 0.626, 0.005},
		{"V114 face, quasi-static force", "ISO/TS 15066 A.2, READ, secondary", face.Force, 65, 0},
		{"thigh, quasi-static, effective mass 10 kg", "the same, computed", speed(thigh, thigh.Force, 10), 0.331, 0.001},
		{"bare wire 1.2 mm at 200 N/cm2", "geometry, DERIVED", tip, 2.3, 0.05},
	} {
		t.Run(row.name, func(t *testing.T) {
			if !(math.Abs(row.got-row.want) <= row.tol) {
				t.Errorf("got %g, want %g +- %g (%s)", row.got, row.want, row.tol, row.source)
			}
		})
	}
	if face.Transient != 0 || find("skull and forehead").Transient != 0 {
		t.Error("an impact on head or face is allowed")
	}
	// Energy is that of the meeting masses: half of mu v^2.
	v := speed(hand, 280, 10)
	mu := 1 / (1/hand.Mass + 1.0/10)
	if e := energy(hand, 280); math.Abs(e-mu*v*v/2) > 1e-12 {
		t.Errorf("energy %g J by the force, %g by the speed", e, mu*v*v/2)
	}
}

func TestContactRefuses(t *testing.T) {
	if _, err := contact.Find("tail"); err == nil {
		t.Error("a region that nobody has")
	}
	hand, _ := contact.Find("hand and fingers")
	for _, force := range []float64{0, -1, math.NaN(), math.Inf(1), 1e4} {
		if x, err := hand.Energy(force); err == nil {
			t.Errorf("%g N: %g J", force, x)
		}
	}
	for _, mass := range []float64{0, 0.4, 1001, math.NaN()} {
		if x, err := hand.Speed(140, mass); err == nil {
			t.Errorf("%g kg: %g m/s", mass, x)
		}
	}
	for _, bad := range [][2]float64{{0, 1e6}, {5e-3, 1e6}, {1e-3, 0}, {1e-3, math.NaN()}} {
		if x, err := contact.TipForce(bad[0], bad[1]); err == nil {
			t.Errorf("%v: %g N", bad, x)
		}
	}
}
