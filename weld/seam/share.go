package seam

import (
	"fmt"
	"math"
)

// Share says how the turn of the torch at a sharp corner is shared out. The zero
// value makes all of it in place, in the corner.
type Share struct {
	// Before is turned ahead, on the seam before the corner, and After is left
	// to be turned on the seam behind it; both rad, 0 or more, together at most
	// the turn of the corner. The rest is turned in place.
	Before, After float64
	// Ahead and Behind are the lengths of seam (m) over which Before and After
	// are turned at a steady rate per length; 0 means DefaultReach.
	Ahead, Behind float64
	// ArcOff says that the arc is stopped for the turn in place. It is data for
	// the planner and changes nothing here.
	ArcOff bool
}

// DefaultReach is the length of seam (m) over which the torch is turned before
// or after a corner where none is stated: 15 mm, the middle of the 10 to 20 mm
// on either side of an outside corner that are usual (from memory).
const DefaultReach = 15e-3

// slack is by how much the parts of a turn may miss the whole, rad: shares are
// typed in degrees.
const slack = 1e-9

// complete returns the share with its zero lengths filled in, for corner i (from
// 1) at which the torch turns by turn (rad), or refuses it in words.
func (sh Share) complete(i int, turn float64) (Share, error) {
	for _, v := range []float64{sh.Before, sh.After, sh.Ahead, sh.Behind} {
		if !(v >= 0) || math.IsInf(v, 1) {
			return sh, fmt.Errorf("seam: corner %d is shared out as %.3g deg before over %.3g mm and %.3g deg after over %.3g mm: finite numbers of 0 or more are needed",
				i, deg(sh.Before), sh.Ahead*1e3, deg(sh.After), sh.Behind*1e3)
		}
	}
	if sh.Before+sh.After > turn+slack {
		return sh, fmt.Errorf("seam: at corner %d the torch turns by %.1f deg, but %.1f deg before and %.1f deg after it are asked for: together they may be the whole turn at most", i, deg(turn), deg(sh.Before), deg(sh.After))
	}
	sh.Ahead, sh.Behind = reach(sh.Before, sh.Ahead), reach(sh.After, sh.Behind)
	return sh, nil
}

// reach returns the length (m) over which an angle (rad) is turned.
func reach(angle, length float64) float64 {
	switch {
	case angle == 0:
		return 0
	case length == 0:
		return DefaultReach
	}
	return length
}
