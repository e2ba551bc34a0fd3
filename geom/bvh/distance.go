package bvh

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Pair names one triangle of each of two trees by its index in the mesh.
type Pair struct{ A, B int32 }

// NoPair returns the pair that names none: a query that starts from it starts
// afresh.
func NoPair() Pair { return Pair{-1, -1} }

// Gap is the place where two trees are nearest.
type Gap struct {
	Distance float64 // m; 0 where the surfaces touch or cross
	A, B     r3.Vec  // the nearest points on a and on b, m, both in a's frame
	Pair     Pair    // the triangles on which they lie
}

// Distance returns the least distance between two trees at a pose. Where
// several pairs of points are equally near to rounding, it is one of them.
// At a pose that is not finite the distance is NaN.
func (a *Tree) Distance(b *Tree, aFromB se3.Pose) Gap {
	return a.DistanceFrom(b, aFromB, NoPair())
}

// DistanceFrom is Distance for a pose near one whose answer is known: start is
// that answer's Pair. A good start saves time; the distance is the same to
// rounding from any. A pair that the trees do not have counts as NoPair.
func (a *Tree) DistanceFrom(b *Tree, aFromB se3.Pose, start Pair) Gap {
	gap, _ := a.DistanceUnder(b, aFromB, math.Inf(1), start)
	return gap
}

// DistanceUnder returns the least distance between two trees if it is under
// limit, m. Otherwise near is false and gap.Distance is the limit, which the
// trees are apart at least. The smaller the limit, the less is looked at. start
// is as in DistanceFrom. At a pose that is not finite, or with a limit that is
// no number, the distance is NaN.
func (a *Tree) DistanceUnder(b *Tree, aFromB se3.Pose, limit float64, start Pair) (gap Gap, near bool) {
	if !finite(aFromB) || math.IsNaN(limit) {
		return Gap{Distance: math.NaN(), Pair: NoPair()}, false
	}
	var w walk
	w.start(a, b, aFromB, limit)
	if start.A >= 0 && start.B >= 0 && int(start.A) < len(a.slot) && int(start.B) < len(b.slot) {
		i, j := a.slot[start.A], b.slot[start.B]
		t := w.moved(j)
		w.try(i, j, &t)
	} else if limit > min(a.size, b.size)/10 { // a short limit does as well as a seed
		w.seed()
	}
	w.run(false)
	if !w.found {
		return Gap{Distance: limit, Pair: NoPair()}, false
	}
	w.gap.Pair = Pair{a.given[w.gap.Pair.A], b.given[w.gap.Pair.B]}
	return w.gap, true
}

// Clears reports whether two trees are apart by at least margin, m. It stops
// at the first pair of triangles that is nearer. A margin of Touch or less asks
// whether they neither touch nor cross. At a pose that is not finite, or with
// a margin that is no number, the answer is false.
func (a *Tree) Clears(b *Tree, aFromB se3.Pose, margin float64) bool {
	if !finite(aFromB) || math.IsNaN(margin) {
		return false
	}
	var w walk
	w.start(a, b, aFromB, max(margin, math.Nextafter(Touch, 1)))
	w.run(true)
	return !w.found
}

// Overlaps reports whether the surfaces of two trees touch or cross: whether
// their Distance is 0. At a pose that is not finite the answer is true.
func (a *Tree) Overlaps(b *Tree, aFromB se3.Pose) bool { return !a.Clears(b, aFromB, 0) }

func finite(p se3.Pose) bool {
	sum := p.P.X + p.P.Y + p.P.Z
	for _, x := range p.R {
		sum += x
	}
	return sum-sum == 0
}
