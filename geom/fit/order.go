package fit

import (
	"math"

	"seamwright/geom/r3"
)

// order sets the sense of the axis, the sweep, the ends and the points out of
// order, from the order of the points.
//
// Where one way round visits all points in less than a full turn, that is the
// way: with three points it always exists. Otherwise, as for points that go
// round more than once, each step is taken the short way, the way that most
// steps go is the way, and steps against it are out of order.
func (f *CircleFit) order(points []r3.Vec) {
	x := points[0].Sub(f.Centre).Reject(f.Axis).Unit()
	y := f.Axis.Cross(x)
	turns := make([]float64, len(points)) // rad, -pi..pi, about the fitted axis
	for i, p := range points {
		d := p.Sub(f.Centre)
		turns[i] = math.Atan2(d.Dot(y), d.Dot(x))
	}
	forward, back := turnsOneWay(turns, 1), turnsOneWay(turns, -1)
	switch {
	case forward < 2*math.Pi:
		f.Sweep = forward
	case back < 2*math.Pi:
		f.Sweep = back
		f.Axis = f.Axis.Neg()
	default:
		f.orderByShortSteps(turns)
	}
	f.Start = f.Centre.AddScaled(f.Radius, x)
	last := points[len(points)-1].Sub(f.Centre).Reject(f.Axis).Unit()
	f.End = f.Centre.AddScaled(f.Radius, last)
}

// turnsOneWay returns the sum (rad) of the steps from each turn to the next,
// each taken the way of sense (+1 or -1) and above 0: a point that repeats the
// one before costs a full turn.
func turnsOneWay(turns []float64, sense float64) float64 {
	var sum float64
	for i := 1; i < len(turns); i++ {
		step := math.Mod(sense*(turns[i]-turns[i-1]), 2*math.Pi)
		if step <= 0 {
			step += 2 * math.Pi
		}
		sum += step
	}
	return sum
}

func (f *CircleFit) orderByShortSteps(turns []float64) {
	steps := make([]float64, len(turns)-1)
	forward := 0
	for i := range steps {
		steps[i] = math.Remainder(turns[i+1]-turns[i], 2*math.Pi)
		f.Sweep += steps[i]
		if steps[i] > 0 {
			forward++
		} else {
			forward--
		}
	}
	sense := 1.0
	if forward < 0 || forward == 0 && f.Sweep < 0 {
		sense = -1
		f.Axis, f.Sweep = f.Axis.Neg(), -f.Sweep
	}
	for i, step := range steps {
		if step*sense <= 0 {
			f.OutOfOrder = append(f.OutOfOrder, i+1)
		}
	}
}
