package plan

import (
	"testing"

	"seamwright/bench/finding"
)

// Moves that leave the path or turn the torch off, which no plan makes, would be
// found.
func TestMovesAreHeldAgain(t *testing.T) {
	for name, row := range map[string]struct {
		keyed Keyed
		want  int
	}{
		"true":        {Keyed{Off: chordMost, Turn: keyedTurn}, 0},
		"off":         {Keyed{Off: 0.3e-3, Arc: 0.04}, 1},
		"turned":      {Keyed{Turn: 3 / deg}, 1},
		"off and off": {Keyed{Off: 0.3e-3, Turn: 3 / deg}, 2},
	} {
		c := cornerCheck{seam: &Seam{Name: "W1"}, pass: &Pass{Number: 1}, profile: &Profile{Keyed: row.keyed}}
		c.offPath()
		if len(c.found) != row.want {
			t.Errorf("%s: found %+v, want %d", name, c.found, row.want)
		}
		for _, f := range c.found {
			if f.Code != finding.MoveOffPath || !(f.Measured > f.Limit) {
				t.Errorf("%s: %+v", name, f)
			}
		}
	}
}
