package motion

import (
	"slices"

	"seamwright/robot/kinematics"
)

// viaWay is the curve of a ViaMove, over the time that it takes at full speed.
type viaWay struct {
	q      kinematics.Q // where it starts
	pieces []viaPiece
	ends   []float64
}

// viaPiece turns from direction d0 to d1: with u the share of its length that is
// made, q' = d0 + (d1-d0)(3u^2 - 2u^3), so that q" is 0 at both ends.
type viaPiece struct {
	from, length float64
	q            kinematics.Q
	d0, d1       kinematics.Q
}

func (w *viaWay) add(p viaPiece) {
	if len(w.ends) == 0 {
		w.ends = append(w.ends, p.from)
	}
	w.pieces, w.ends = append(w.pieces, p), append(w.ends, p.from+p.length)
}

// lineGrowth is the factor from one piece of a straight line to the next, away from a
// blend.
const lineGrowth = 1.5

// addLine adds what two blends, of which cut and half are taken from either end, leave
// of a line that begins at a place of the way: in pieces that grow from the blends,
// because the shorter a blend is, the more the arm has to slow for it, and the law is
// searched on a grid of the pieces.
func (w *viaWay) addLine(l *viaLine, at, cut, half float64) {
	middle := (cut + l.length - half) / 2
	var places []float64
	for x := cut * (1 + lineGrowth); cut > 0 && x < middle; x = cut + (x-cut)*lineGrowth {
		places = append(places, x)
	}
	n := len(places)
	for x := half * (1 + lineGrowth); half > 0 && l.length-x > middle; x = half + (x-half)*lineGrowth {
		places = append(places, l.length-x)
	}
	slices.Reverse(places[n:])
	from := cut
	for _, to := range append(places, l.length-half) {
		w.add(viaPiece{from: at + from, length: to - from, q: l.after(from), d0: l.d, d1: l.d})
		from = to
	}
}

func (w *viaWay) length() float64 {
	if len(w.ends) == 0 {
		return 0
	}
	return w.ends[len(w.ends)-1]
}

func (w *viaWay) knots() []float64 { return w.ends }

func (w *viaWay) at(s float64) kinematics.Q {
	if len(w.pieces) == 0 {
		return w.q
	}
	p := &w.pieces[holding(w.ends, s)]
	u := (s - p.from) / p.length
	bent := p.length * u * u * u * (1 - u/2)
	q := p.q
	for j := range q {
		q[j] += p.d0[j]*(s-p.from) + (p.d1[j]-p.d0[j])*bent
	}
	return q
}

func (w *viaWay) jet(i int, s float64) (d, dd, ddd kinematics.Q) {
	p := &w.pieces[i]
	u := (s - p.from) / p.length
	turned, rate, twist := u*u*(3-2*u), 6*u*(1-u)/p.length, (6-12*u)/(p.length*p.length)
	for j := range d {
		bend := p.d1[j] - p.d0[j]
		d[j] = p.d0[j] + bend*turned
		dd[j], ddd[j] = bend*rate, bend*twist
	}
	return d, dd, ddd
}
