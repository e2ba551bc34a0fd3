package curve

import (
	"fmt"
	"slices"
	"sort"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Chain is a curve of pieces joined end to start. Make one with NewChain,
// Polyline or Rounded; the zero value is no chain.
type Chain struct {
	pieces []Curve   // never chains
	ends   []float64 // m, arc length at the end of each piece, rising
}

// NewChain joins the pieces in order; chains among them are taken apart. It
// fails for no pieces and where a piece begins more than JoinTolerance from the
// end of the one before, naming the two (counted from 1) and the gap.
func NewChain(pieces ...Curve) (Chain, error) {
	var c Chain
	for _, piece := range pieces {
		switch piece := piece.(type) {
		case nil:
			return Chain{}, fmt.Errorf("curve: chain with an empty piece")
		case Chain:
			c.pieces = append(c.pieces, piece.pieces...)
		default:
			c.pieces = append(c.pieces, piece)
		}
	}
	if len(c.pieces) == 0 {
		return Chain{}, fmt.Errorf("curve: chain of no pieces: at least one is needed")
	}
	c.ends = make([]float64, len(c.pieces))
	var s float64
	for i, piece := range c.pieces {
		if i > 0 {
			end, _ := c.pieces[i-1].At(c.pieces[i-1].Length())
			start, _ := piece.At(0)
			if gap := end.Dist(start); !(gap <= JoinTolerance) {
				return Chain{}, fmt.Errorf("curve: piece %d of the chain ends at %v but piece %d begins at %v, %.3g m away: pieces must meet within %g m", i, end, i+1, start, gap, JoinTolerance)
			}
		}
		s += piece.Length()
		c.ends[i] = s
	}
	return c, nil
}

// Polyline returns the straight lines from each point (m) to the next. It fails
// for fewer than two points and where NewLine does, naming the points.
func Polyline(points ...r3.Vec) (Chain, error) {
	if len(points) < 2 {
		return Chain{}, fmt.Errorf("curve: polyline of %d points: at least two are needed", len(points))
	}
	pieces := make([]Curve, 0, len(points)-1)
	for i := 1; i < len(points); i++ {
		l, err := NewLine(points[i-1], points[i])
		if err != nil {
			return Chain{}, fmt.Errorf("points %d and %d of the polyline: %w", i, i+1, err)
		}
		pieces = append(pieces, l)
	}
	return NewChain(pieces...)
}

// Pieces returns the pieces in order, none of them a chain.
func (c Chain) Pieces() []Curve { return slices.Clone(c.pieces) }

// Ends returns the arc length (m) at the end of each piece; the last is Length.
func (c Chain) Ends() []float64 { return slices.Clone(c.ends) }

// Length returns the length, in metres.
func (c Chain) Length() float64 { return c.ends[len(c.ends)-1] }

// At returns the point (m) and the unit direction of travel at arc length s
// (m). Where two pieces meet the direction is that of the later one.
func (c Chain) At(s float64) (p, tangent r3.Vec) {
	i, local := c.locate(s)
	return c.pieces[i].At(local)
}

// locate returns the piece that arc length s (m) falls on and the arc length
// (m) within it.
func (c Chain) locate(s float64) (piece int, local float64) {
	i := sort.Search(len(c.ends)-1, func(i int) bool { return s < c.ends[i] })
	return i, s - c.begin(i)
}

// begin returns the arc length (m) at which piece i begins.
func (c Chain) begin(i int) float64 {
	if i == 0 {
		return 0
	}
	return c.ends[i-1]
}

// Nearest returns the arc length (m) of the point nearest to p (m).
func (c Chain) Nearest(p r3.Vec) float64 {
	var best, bestDist float64
	for i, piece := range c.pieces {
		s, dist := Distance(piece, p)
		if i == 0 || dist < bestDist {
			best, bestDist = c.begin(i)+s, dist
		}
	}
	return best
}

// Corner is a place where the direction of travel jumps: at arc length S (m),
// by Turn (rad, 0..pi).
type Corner struct{ S, Turn float64 }

// Corners returns the joints of the chain where the direction turns by more
// than least (rad), in order.
func (c Chain) Corners(least float64) []Corner {
	var corners []Corner
	for i := 1; i < len(c.pieces); i++ {
		_, before := c.pieces[i-1].At(c.pieces[i-1].Length())
		_, after := c.pieces[i].At(0)
		if turn := before.Angle(after); turn > least {
			corners = append(corners, Corner{S: c.ends[i-1], Turn: turn})
		}
	}
	return corners
}

func (c Chain) trim(from, to float64) Curve {
	var part Chain
	var s float64
	for i, piece := range c.pieces {
		begin, end := max(from, c.begin(i)), min(to, c.ends[i])
		if end-begin < MinLength/2 {
			continue // a sliver left by rounding at a joint
		}
		part.pieces = append(part.pieces, piece.trim(begin-c.begin(i), end-c.begin(i)))
		s += end - begin
		part.ends = append(part.ends, s)
	}
	return part
}

func (c Chain) reversed() Curve {
	n := len(c.pieces)
	r := Chain{pieces: make([]Curve, n), ends: make([]float64, n)}
	var s float64
	for i := range n {
		r.pieces[i] = c.pieces[n-1-i].reversed()
		s += r.pieces[i].Length()
		r.ends[i] = s
	}
	return r
}

func (c Chain) moved(bFromA se3.Pose) Curve {
	m := Chain{pieces: make([]Curve, len(c.pieces)), ends: slices.Clone(c.ends)}
	for i, piece := range c.pieces {
		m.pieces[i] = piece.moved(bFromA)
	}
	return m
}
