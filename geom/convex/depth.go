package convex

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Depth returns how far, in metres, and in which unit direction of a's frame b
// has to be moved to be free of a: 0 for solids that do not overlap. Moving b
// so far always frees it; a shorter way may exist, by a direction that is not
// square to a face or an edge of either.
func Depth(a, b *Solid, aFromB *se3.Pose) (depth float64, direction r3.Vec) {
	p := newPair(a, b, aFromB)
	axis := p.guess()
	var s simplex
	switch {
	case s.search(&p, &axis, math.Inf(1), 0) == broken:
		return math.NaN(), r3.Vec{}
	case !s.overlap:
		core := axis.Norm()
		return max(0, p.rounding-core), axis.Scale(1 / core)
	}
	depth = math.Inf(1)
	r := &aFromB.R
	mine := [3]r3.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	yours := [3]r3.Vec{r.X(), r.Y(), r.Z()}
	try := func(n r3.Vec) {
		n = n.Unit()
		if n == (r3.Vec{}) {
			return
		}
		for range 2 {
			if _, w := p.support(n); -w.Dot(n) < depth {
				depth, direction = -w.Dot(n), n
			}
			n = n.Neg()
		}
	}
	try(p.guess())
	for i := range 3 {
		try(mine[i])
		try(yours[i])
		for k := range 3 {
			try(mine[i].Cross(yours[k]))
		}
	}
	return max(0, depth) + p.rounding, direction
}
