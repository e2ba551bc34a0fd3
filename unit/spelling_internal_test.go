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

func TestEditDistance(t *testing.T) {
	rows := []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"", "mm", 2}, {"mm", "mm", 0}, {"mm/sec", "mm/s", 2}, {"kitten", "sitting", 3},
	}
	for _, row := range rows {
		if got := editDistance(row.a, row.b); got != row.want {
			t.Errorf("%q to %q: got %d, want %d", row.a, row.b, got, row.want)
		}
		if got := editDistance(row.b, row.a); got != row.want {
			t.Errorf("%q to %q: got %d, want %d", row.b, row.a, got, row.want)
		}
	}
}
