package section

import "math"

// arc is a circular arc from one point to another, bulging by its sagitta to the
// right of the way between them; negative bulges to the left.
type arc struct {
	from, to Point
	sagitta  float64 // m
	chord    float64 // m
}

func newArc(from, to Point, sagitta float64) arc {
	return arc{from, to, sagitta, to.sub(from).norm()}
}

// angle returns the angle of the arc, rad: 4 atan(2 |h| / w).
func (a arc) angle() float64 { return 4 * math.Atan2(2*math.Abs(a.sagitta), a.chord) }

// radius returns the radius, m, infinite for a straight line.
func (a arc) radius() float64 {
	h := math.Abs(a.sagitta)
	return (a.chord*a.chord/4 + h*h) / (2 * h)
}

// at returns the place at the share f (dimensionless) of the arc's length, m.
//
// Over the chord at the share u: half w sin(phi)/sin(theta/2) along it, and the
// height of the circle there, h less R (1 - cos(phi)); phi from -theta/2 to
// theta/2.
func (a arc) at(f float64) Point {
	d := a.to.sub(a.from)
	if math.Abs(a.sagitta) < 1e-9*a.chord { // a straight line within 1e-9 of its length
		return a.from.between(a.to, f)
	}
	half := a.angle() / 2
	phi := half * (2*f - 1)
	along := 0.5 + math.Sin(phi)/(2*math.Sin(half))
	height := math.Abs(a.sagitta) - a.radius()*2*math.Pow(math.Sin(phi/2), 2)
	out := Point{d.Y / a.chord, -d.X / a.chord}
	return a.from.between(a.to, along).along(math.Copysign(height, a.sagitta), out)
}

// points returns the arc in a number of straight steps, both ends included.
func (a arc) points(steps int) []Point {
	out := make([]Point, steps+1)
	for i := range out {
		out[i] = a.at(float64(i) / float64(steps))
	}
	out[0], out[steps] = a.from, a.to
	return out
}
