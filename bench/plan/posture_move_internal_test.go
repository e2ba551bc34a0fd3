package plan

import (
	"context"
	"testing"

	"seamwright/geom/r3"
)

// TestBandsAgainstTheWholeGrid holds the ways that bands lead to against the
// cheapest of the whole grid of spins and free values: the cost is the same sum,
// and bands go below the grid by their finer steps. On short seams the free
// joints can stand still, on the two long ones they cannot.
func TestBandsAgainstTheWholeGrid(t *testing.T) {
	seven, gantry := benchArms[0].benchArm, benchArms[3].benchArm
	for _, row := range []struct {
		name     string
		arm      benchArm
		from, to string
		most     float64 // the dearer the way may be than the grid's cheapest
	}{
		{"seven axes, to the right", seven, "500, -420, 100", "500, -180, 100", 1.001},
		{"seven axes, ahead", seven, "580, -120, 220", "580, 120, 220", 1.001},
		{"seven axes, to the left", seven, "540, 100, 160", "540, 340, 160", 1.001},
		{"seven axes, away", seven, "380, 240, 220", "620, 240, 220", 1.001},
		{"seven axes, a long one", seven, "500, -500, 100", "500, 500, 100", 1.001},
		{"gantry, to the right", gantry, "500, -420, 1800", "500, -180, 1800", 1.001},
		{"gantry, away", gantry, "380, 240, 1920", "620, 240, 1920", 1.001},
		{"gantry, a long one", gantry, "500, -900, 1900", "500, 1200, 1900", 1.001},
	} {
		t.Run(row.name, func(t *testing.T) {
			row.arm.from, row.arm.to = row.from, row.to
			s := row.arm.search(t)
			s.track.in, s.track.out = r3.Vec{}, r3.Vec{}
			s.along, s.first, s.last = s.track.stations(20e-3)
			a := attempt{spins: s.grid(), limit: s.limitMargin, wrist: s.wristMargin, axes: move}
			grid := s.lattice(a.spins, 1<<20)
			list := grid.stands()
			s.fill(a, func(int) []stand { return list })
			if err := s.sweep(context.Background(), a); err != nil || s.best == nil {
				t.Fatalf("no way on the whole grid: %v", err)
			}
			whole := s.best.Cost
			if err := s.solveMoving(context.Background(), a); err != nil || s.best == nil {
				t.Fatalf("no way in bands: %v", err)
			}
			ratio := s.best.Cost / whole
			t.Logf("%d stands at %d stations: bands %.3f rad, grid %.3f rad, ratio %.4f", len(list), len(s.along), s.best.Cost, whole, ratio)
			if ratio > row.most {
				t.Errorf("the bands' way is dearer by the factor %.4f", ratio)
			}
		})
	}
}
