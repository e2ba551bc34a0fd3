package kinematics

import (
	"math"

	"seamwright/geom/r3"
)

// Tolerances of recognition.
const (
	// exactAngle (rad) and exactLength (m): within these a condition holds as
	// far as double precision is concerned, and the closed form needs no
	// correction.
	exactAngle  = 1e-12
	exactLength = 1e-12
	// roundedAngle (rad) and roundedLength (m): files often write a right
	// angle as 1.5708 (off by 4e-6) and lengths to 0.01 mm. Up to here the
	// closed form of the nearest true member starts Newton's method on the
	// arm as the file has it; an arm that is further off is General.
	roundedAngle  = 1e-5
	roundedLength = 1e-5
	// leastAngle (rad) and leastLength (m): a bend or link shorter than this
	// leaves a joint without a task of its own.
	leastAngle  = 0.02
	leastLength = 1e-3
)

// fit says how well an arm meets the conditions of a family.
type fit uint8

const (
	misfit  fit = iota
	rounded     // within the rounding of files
	exactly     // to the last digits
)

// shape is a family with how well an arm fits it and the points that its
// formulas need: the wrist point, and where two axes of the arm meet.
type shape struct {
	family        Family
	fit           fit
	center, joint r3.Vec // m
}

// offParallel returns the angle (rad, 0 to pi/2) of two axes off parallel.
func offParallel(a, b line) float64 {
	return math.Atan2(a.dir.Cross(b.dir).Norm(), math.Abs(a.dir.Dot(b.dir)))
}

func fitParallel(a, b line) fit { return fitWithin(offParallel(a, b), exactAngle, roundedAngle) }

func fitMeet(off float64) fit { return fitWithin(off, exactLength, roundedLength) }

func fitWithin(off, exact, round float64) fit {
	switch {
	case off <= exact:
		return exactly
	case off <= round:
		return rounded
	}
	return misfit
}

func fitBent(a, b line) fit { return fitLeast(offParallel(a, b), leastAngle) }

func fitApart(v float64) fit { return fitLeast(v, leastLength) }

func fitLeast(v, least float64) fit {
	if v >= least {
		return exactly
	}
	return misfit
}

// crossing returns how well two axes meet, and where.
func crossing(a, b line) (fit, r3.Vec) {
	if fitBent(a, b) == misfit {
		return misfit, r3.Vec{}
	}
	onA, onB := nearest(a, b)
	return fitMeet(onA.Dist(onB)), onA.Lerp(onB, 0.5)
}

// nearest returns the points of a and b that are nearest to each other, for
// lines that are not parallel.
func nearest(a, b line) (onA, onB r3.Vec) {
	n := a.dir.Cross(b.dir)
	w := b.at.Sub(a.at)
	nn := n.Dot(n)
	ta := w.Cross(b.dir).Dot(n) / nn
	tb := w.Cross(a.dir).Dot(n) / nn
	return a.at.AddScaled(ta, a.dir), b.at.AddScaled(tb, b.dir)
}

// distanceTo returns the distance of p from l, in metres.
func (l line) distanceTo(p r3.Vec) float64 { return p.Sub(l.at).Cross(l.dir).Norm() }

// shapesOf judges an arm by the five families that are not mirror images, in
// the order in which they are preferred. l holds its six axes.
func shapesOf(l []line) [5]shape {
	list := [5]shape{{family: SphericalWrist}, {family: ThreeParallel}, {family: WristMeet12}, {family: WristMeet23}, {family: WristParallel12}}
	list[1].fit, list[1].center = fitThreeParallel(l)
	wrist, center := crossing(l[3], l[4])
	wrist = min(wrist, fitBent(l[4], l[5]), fitMeet(l[5].distanceTo(center)), fitApart(l[2].distanceTo(center)))
	if wrist == misfit {
		return list
	}
	list[0].fit = min(wrist, fitBent(l[0], l[1]), fitParallel(l[1], l[2]), fitApart(l[1].distanceTo(l[2].at)))
	list[2].fit, list[2].joint = crossing(l[0], l[1])
	list[2].fit = min(wrist, list[2].fit, fitApart(l[2].distanceTo(list[2].joint)))
	list[3].fit, list[3].joint = crossing(l[1], l[2])
	list[3].fit = min(wrist, list[3].fit, fitApart(l[0].distanceTo(list[3].joint)))
	list[4].fit = min(wrist, fitParallel(l[0], l[1]), fitApart(l[0].distanceTo(l[1].at)), fitBent(l[0], l[2]))
	for i := range list {
		if i != 1 {
			list[i].center = center
		}
	}
	return list
}

// fitThreeParallel judges an arm by that family and returns the point where
// axes 5 and 6 meet.
func fitThreeParallel(l []line) (fit, r3.Vec) {
	meets, corner := crossing(l[4], l[5])
	return min(meets, fitBent(l[0], l[1]), fitBent(l[3], l[4]), fitParallel(l[1], l[2]), fitParallel(l[2], l[3]),
		fitApart(l[1].distanceTo(l[2].at)), fitApart(l[2].distanceTo(l[3].at))), corner
}

// recognise returns the family of six turning joints: the first whose
// conditions hold exactly, else the first whose conditions hold within the
// rounding of files, else General. back is the same arm seen from its flange.
func recognise(c, back *Chain) shape {
	here, there := shapesOf(c.lines[:6]), shapesOf(back.lines[:6])
	for i := range there {
		there[i].family += SphericalShoulder - SphericalWrist
	}
	for _, want := range [2]fit{exactly, rounded} {
		for _, list := range [2]*[5]shape{&here, &there} {
			for _, s := range list {
				if s.fit >= want {
					return s
				}
			}
		}
	}
	return shape{family: General, fit: exactly}
}
