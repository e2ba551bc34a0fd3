package curve

import (
	"math"
	"sort"

	"seamwright/geom/r3"
)

// Bend is a place or a stretch of a path where the direction of travel turns: a
// sharp corner, an arc, a smooth piece.
type Bend struct {
	From, To float64 // m, arc length; equal in a sharp corner
	Turn     float64 // rad, turned in all, above 0; 0..pi in a sharp corner
	Radius   float64 // m, of the arc, the tightest of a smooth piece; 0 in a sharp corner
}

// Sharp reports whether the direction jumps.
func (b Bend) Sharp() bool { return b.From == b.To }

// Rate returns how fast (rad/s) a torch that keeps its angles to the path must
// turn where the bend is tightest, at a travel speed (m/s): speed / Radius. It
// is +Inf in a sharp corner.
func (b Bend) Rate(speed float64) float64 { return speed / b.Radius }

// Bends returns the bends of c that turn by more than least (rad), in order:
// each arc and each smooth piece as one, and each joint at which the direction
// jumps. The joint of a closed path's end with its start is not passed and does
// not count.
func Bends(c Curve, least float64) []Bend {
	pieces := []Curve{c}
	var corners []Corner
	if chain, ok := c.(Chain); ok {
		pieces = chain.pieces
		corners = chain.Corners(least)
	}
	var bends []Bend
	for _, k := range corners {
		bends = append(bends, Bend{From: k.S, To: k.S, Turn: k.Turn})
	}
	var begin float64
	for _, piece := range pieces {
		b := Bend{From: begin, To: begin + piece.Length()}
		switch piece := piece.(type) {
		case Arc:
			b.Turn, b.Radius = piece.sweep, piece.radius
		case Smooth:
			b.Turn, b.Radius = piece.bend()
		}
		if b.Turn > least {
			bends = append(bends, b)
		}
		begin = b.To
	}
	sort.SliceStable(bends, func(i, j int) bool { return bends[i].From < bends[j].From })
	return bends
}

// bend returns the turn (rad) of the whole curve, added up between the rows of
// its table, and its tightest radius (m) at a row.
func (c Smooth) bend() (turn, radius float64) {
	_, last := c.At(0)
	tightest := c.curvature(0)
	for _, s := range c.rows() {
		_, tangent := c.At(s)
		turn += last.Angle(tangent)
		tightest = max(tightest, c.curvature(s))
		last = tangent
	}
	return turn, 1 / math.Max(tightest, 0)
}

// Arriving returns the point (m) and the unit direction of travel at arc length
// s (m), as Curve.At does, but where two pieces of a chain meet the direction is
// that of the earlier one.
func Arriving(c Curve, s float64) (p, tangent r3.Vec) {
	chain, ok := c.(Chain)
	if !ok {
		return c.At(s)
	}
	i := sort.Search(len(chain.ends)-1, func(i int) bool { return s <= chain.ends[i] })
	return chain.pieces[i].At(s - chain.begin(i))
}
