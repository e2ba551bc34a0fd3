// Package contact holds what is published of forces and speeds at which a moving
// arm may touch a person, ISO/TS 15066 (its content is part of ISO 10218:2025).
//
// It answers one question honestly: none of it makes a welding torch safe. The wire
// is a needle, the nozzle is hot, the arc blinds; a few newton on a bare wire are too
// much. The figures are for whoever assesses the risk of a cell; that person, the
// maker's manual and local rules decide.
//
// Units are SI: N, N/m, Pa, kg, m/s, J.
package contact

import (
	"fmt"
	"math"
)

// Mark says whether a figure was read or remembered.
type Mark string

const (
	Read   Mark = "READ, secondary"
	Memory Mark = "from memory"
)

// Region is a part of the body with its limits.
type Region struct {
	Name string
	// Force is the most that may press while the person is clamped (quasi-static), N:
	// Table A.2 of ISO/TS 15066, READ, secondary.
	Force float64
	// Transient is by how much Force may be exceeded in a free impact, dimensionless; 0:
	// contact is not allowed there. READ, secondary.
	Transient float64
	// Stiffness is that of the region, N/m, and Mass what moves with it, kg: Table A.3.
	Stiffness, Mass         float64
	StiffnessMark, MassMark Mark
}

// Regions returns the regions of the table, from head to foot.
func Regions() []Region { return append([]Region(nil), regions...) }

var regions = []Region{
	{"skull and forehead", 130, 0, 150e3, 4.4, Read, Memory},
	{"face", 65, 0, 75e3, 4.4, Read, Memory},
	{"neck", 150, 2, 50e3, 1.2, Read, Memory},
	{"back and shoulders", 210, 2, 35e3, 40, Read, Memory},
	{"chest", 140, 2, 25e3, 40, Read, Memory},
	{"abdomen", 110, 2, 10e3, 40, Read, Memory},
	{"pelvis", 180, 2, 25e3, 40, Memory, Memory},
	{"upper arm and elbow", 150, 2, 30e3, 3, Memory, Memory},
	{"forearm and wrist", 160, 2, 40e3, 2, Memory, Memory},
	{"hand and fingers", 140, 2, 75e3, 0.6, Memory, Memory},
	{"thigh and knee", 220, 2, 50e3, 75, Memory, Read},
	{"lower leg", 130, 2, 60e3, 75, Memory, Memory},
}

// Find returns the region of a name.
func Find(name string) (Region, error) {
	for _, r := range regions {
		if r.Name == name {
			return r, nil
		}
	}
	return Region{}, fmt.Errorf("region %q: ISO/TS 15066 is held here for %s to %s", name, regions[0].Name, regions[len(regions)-1].Name)
}

// Energy returns what a contact that reaches a force (N, above 0) puts into a region,
// J: F^2/(2k). ISO/TS 15066, READ, secondary, which prints 1.9 J for the thigh.
func (r Region) Energy(force float64) (float64, error) {
	if !(force > 0 && force < 1e4) {
		return 0, fmt.Errorf("contact energy: a force of %g N is outside 0 to 10,000 N; check the unit", force)
	}
	return force * force / (2 * r.Stiffness), nil
}

// Speed returns the speed at which an arm may meet the region so that a force (N) is
// not exceeded, m/s, for the arm's effective mass (kg, 0.5 to 1000): half of what moves
// and the load.
//
//	v = F/sqrt(mu k)    1/mu = 1/mH + 1/mR
//
// ISO/TS 15066 Annex A, READ, secondary. Pressure, edges, heat and the wire are not in
// it.
func (r Region) Speed(force, arm float64) (float64, error) {
	if !(arm >= 0.5 && arm <= 1000) {
		return 0, fmt.Errorf("contact speed: an effective mass of %g kg is outside 0.5 to 1000 kg; take half of the moving mass and the load", arm)
	}
	if _, err := r.Energy(force); err != nil {
		return 0, err
	}
	mu := 1 / (1/r.Mass + 1/arm)
	return force / math.Sqrt(mu*r.Stiffness), nil
}

// TipForce returns the force at which a bare wire of a diameter (m, 0.5 to 4 mm)
// reaches a pressure (Pa, above 0), N: pressure times the wire's section, geometry. At
// the 2 MPa of a hand a 1.2 mm wire may press with 2.3 N: less than anybody feels in
// time.
func TipForce(wire, pressure float64) (float64, error) {
	if !(wire >= 0.5e-3 && wire <= 4e-3 && pressure > 0 && pressure < 1e9) {
		return 0, fmt.Errorf("force on a wire tip: wire %g mm, pressure %g N/cm2; allowed are 0.5 to 4 mm and pressures above 0", wire*1e3, pressure/1e4)
	}
	return math.Pi / 4 * wire * wire * pressure, nil
}
