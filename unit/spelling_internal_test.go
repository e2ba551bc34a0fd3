package unit

import "testing"

// No spelling, without capitals and spaces, may stand for two units.
func TestSpellingsAreTheirOwn(t *testing.T) {
	owner := map[string]Unit{}
	for u := Millimetres; u < unitCount; u++ {
		for _, s := range append([]string{scales[u].symbol}, scales[u].also...) {
			if other, taken := owner[plain(s)]; taken {
				t.Errorf("%q stands for %v and for %v", s, other, u)
			}
			owner[plain(s)] = u
		}
	}
}
