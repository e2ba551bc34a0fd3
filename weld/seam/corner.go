package seam

import (
	"fmt"
	"math"

	"seamwright/geom/curve"
)

// MinTurn is the turn (rad) from which a bend of a path counts as a corner of the
// seam: 0.1 deg, to which orientations are read off a screen.
const MinTurn = 0.1 * math.Pi / 180

// CornerKind says which way a path bends at a joint. The zero value belongs to
// joints without an upright (butt, edge) and to bends out of the base surface.
type CornerKind uint8

// The two kinds of corner.
const (
	// OutsideBend turns round the other plate, away from the open side: the
	// torch has the longer way.
	OutsideBend CornerKind = iota + 1
	// InsideBend turns into the open side: nozzle and torch come close to the
	// plate ahead.
	InsideBend
)

// String returns "outside corner" or "inside corner".
func (k CornerKind) String() string {
	switch k {
	case OutsideBend:
		return "outside corner"
	case InsideBend:
		return "inside corner"
	}
	return fmt.Sprintf("corner kind %d", uint8(k))
}

// Corner is a bend of a seam's path: sharp, or round with a radius.
type Corner struct {
	curve.Bend
	Kind CornerKind
}

// Corners returns the bends of the seam's path that turn by more than MinTurn,
// in order: what a planner needs for the turning speed (Bend.Rate) and the
// places at which the torch cannot follow without stopping (Bend.Sharp).
func (s *Seam) Corners() []Corner {
	bends := curve.Bends(s.spec.Path, MinTurn)
	corners := make([]Corner, len(bends))
	for i, b := range bends {
		corners[i] = Corner{Bend: b, Kind: s.kind(b)}
	}
	return corners
}

// kind returns which way the bend goes: by the direction after a sharp corner,
// by the chord over the first half radian of a round one.
func (s *Seam) kind(b curve.Bend) CornerKind {
	if flat(s.spec.Joint) {
		return 0
	}
	before := s.Arriving(b.From)
	ahead := s.At(b.To).T
	if !b.Sharp() {
		before = s.At(b.From)
		ahead = s.At(b.From + (b.To-b.From)*min(0.5, 0.5/b.Turn)).Origin.Sub(before.Origin).Unit()
	}
	switch open := ahead.Dot(before.B); {
	case open > MinTurn/2:
		return InsideBend
	case open < -MinTurn/2:
		return OutsideBend
	}
	return 0
}
