package plan_test

import (
	"testing"

	"seamwright/bench/finding"
	"seamwright/weld"
)

// mounted is the good job with its arm at a place and turn of the world, fixed
// x-y-z, mm and deg, without the list that was taught on the floor.
func mounted(t *testing.T, at, turn, measured string) files {
	t.Helper()
	f := good(t)
	f.edit(t, "home: home\n", "home: home\ncell: {world_from_base: {at: "+at+", orientation: fixed x-y-z degrees, turn: "+turn+"}}\n")
	f.edit(t, "measured_in: base", "measured_in: "+measured)
	f.edit(t, "list: true", "list: false")
	f.edit(t, lastRows, outRow)
	return f
}

// The same part on the same bench, welded by an arm on the floor, hung under a
// gantry and on a wall: it lies alike to gravity, and each arm can weld it.
func TestMountedArmsPlan(t *testing.T) {
	for _, row := range []struct{ name, at, turn string }{
		{"on the floor", "[0 mm, 0 mm, 0 mm]", "[0, 0, 0]"},
		{"hung under a gantry", "[0 mm, 0 mm, 1200 mm]", "[180, 0, 0]"},
		{"on a wall", "[-300 mm, -230 mm, 600 mm]", "[0, 90, 0]"},
	} {
		t.Run(row.name, func(t *testing.T) {
			p := planOf(t, mounted(t, row.at, row.turn, "world"))
			if s := p.Seams[0]; s.Passes[0].Motion == nil || s.Position.Name(weld.ISO) != weld.PB {
				t.Fatalf("motion %v, position %v, want a way and PB:\n%s", s.Passes[0].Motion != nil, s.Position.Name(weld.ISO), list(p.Findings))
			}
			if !p.Fit() || len(withCode(p, finding.TaughtOtherSide)) > 0 || len(p.Steps) < 4 {
				t.Errorf("%d steps:\n%s", len(p.Steps), list(p.Findings))
			}
			// Up in the world is where the weld start's z axis says.
			first := p.Seams[0].Passes[0].Motion.Stations[0]
			inWorld := p.Cell.WorldFromBase(&first.Q).Mul(first.BaseFromTip)
			if wire := inWorld.R.Z(); wire.Z > -0.5 {
				t.Errorf("the wire points along %v in the world, want down into the joint", wire)
			}
		})
	}
}

// One seam in the arm's frame, its plate given by a direction there: how it lies
// to gravity is the mount's doing. By hand: travel x, base plate's normal z, the
// weld's face between z and y.
func TestPositionFollowsTheMount(t *testing.T) {
	for _, row := range []struct {
		name, turn string
		want       weld.PositionName
	}{
		{"floor", "[0, 0, 0]", weld.PB},
		{"turned on the floor", "[0, 0, 70]", weld.PB},
		{"ceiling", "[180, 0, 0]", weld.PD},
		{"wall, x up", "[0, -90, 0]", weld.PF},
		{"wall, x down", "[0, 90, 0]", weld.PG},
		{"wall, y up", "[90, 0, 0]", weld.PB},
		{"wall, y down", "[-90, 0, 0]", weld.PD},
	} {
		t.Run(row.name, func(t *testing.T) {
			f := mounted(t, "[0 mm, 0 mm, 2000 mm]", row.turn, "base")
			f.edit(t, "base: level", "base: {direction: [0, 0, 1]}")
			p := planOf(t, f)
			if got := p.Seams[0].Position.Name(weld.ISO); got != row.want {
				t.Errorf("position %v, want %v", got, row.want)
			}
			if p.Seams[0].Passes[0].Motion == nil {
				t.Errorf("no way:\n%s", list(p.Findings))
			}
		})
	}
}
