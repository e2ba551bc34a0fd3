package prove

import (
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// How far the run may leave a move as the controller would make it of the steps
// alone: what is keyed in must be what was proved. Common practice, no source.
const (
	offMove  = 0.2e-3       // m: where a curve is commanded by arcs and lines
	offTurn  = 2 * unit.Deg // rad
	offJoint = 1e-6         // rad or m: joint moves are straight in the joints

	offAir     = 0.01e-3         // m: in the air the ways are straight
	offAirTurn = 0.05 * unit.Deg // rad
)

// commanded holds the trace against the moves that the steps command.
func (p *proof) commanded() {
	joint := atMost("joint moves are straight in the joints", "urad", 1e6)
	place1 := atMost("linear and arc moves: off the commanded way", "mm", 1/unit.MM)
	turn := atMost("linear and arc moves: turned off", "deg", 1/unit.Deg)
	kinds := atMost("kinds of moves", "", 1)
	for k := 1; k < p.reached; k++ {
		from, to := &p.steps[k-1], &p.steps[k]
		switch {
		case to.Move == "joint":
			p.straight(joint, k)
			kinds.pass()
		case to.Move == "linear":
			p.along(place1, turn, k, lineWay(from.tip, to.tip))
			kinds.pass()
		case to.Move == "arc" && k+1 < p.reached && p.steps[k+1].Move == "arc":
			way, ok := arcWay(from.tip, to.tip, p.steps[k+1].tip)
			if !ok {
				kinds.fail(p.atStep(k), "the arc move through step %d has no circle", k+1)
				continue
			}
			p.along(place1, turn, k, way[0])
			p.along(place1, turn, k+1, way[1])
			kinds.pass()
			k++
		default:
			kinds.fail(p.atStep(k), "move %q alone: joint, linear or a pair of arc moves", cut(to.Move))
		}
	}
	if p.reached > 0 && p.steps[0].Move != "joint" {
		kinds.fail(p.atStep(0), "the run begins with a %s move", cut(p.steps[0].Move))
	}
	p.add(kinds, joint, place1, turn)
}

// straight holds the samples on the way to step k against the straight way in the
// joints.
func (p *proof) straight(m *meter, k int) {
	a, b := &p.steps[k-1].q, &p.steps[k].q
	for i := p.steps[k-1].at; i <= p.steps[k].at; i++ {
		q := &p.trace[i].q
		if q == a || *q == *b {
			m.checked++
			continue
		}
		if d := fromChord(q, a, b); m.near(d, offJoint) {
			m.keep(d, offJoint, p.atSample(i))
		}
	}
}

// way is where a commanded move has the tip: the nearest place of it to a point, and
// the share of the way there.
type way struct {
	nearest func(r3.Vec) (r3.Vec, float64)
	from    se3.Rot
	axis    r3.Vec // about which the torch turns, in from
	angle   float64
	still   bool // the tip stays and the torch turns
}

// along holds the samples on the way to step k against a way.
func (p *proof) along(off, turn *meter, k int, w way) {
	mostOff, mostTurn := offAir, offAirTurn
	if p.trace[p.steps[k].at].arc {
		mostOff, mostTurn = offMove, offTurn
	}
	begin, end := p.steps[k-1].at, p.steps[k].at
	if furthest(&p.trace[begin].q, &p.steps[k-1].q) > sameJoint {
		begin++ // it lies before the step
	}
	for i := begin; i <= end; i++ {
		tip := &p.trace[i].tip
		near, share := w.nearest(tip.P)
		if d := near.Dist(tip.P); off.near(d, mostOff) {
			off.keep(d, mostOff, p.atSample(i))
		}
		if w.still { // any place of the turn will do
			share = w.shareOf(tip.R)
		}
		if r := apart(tip.R, w.at(share)); turn.near(r, mostTurn) {
			turn.keep(r, mostTurn, p.atSample(i))
		}
	}
}

func (w *way) at(share float64) se3.Rot {
	if w.angle == 0 {
		return w.from
	}
	return w.from.Mul(se3.RotAxis(w.axis, share*w.angle))
}

// shareOf is how much of its turn the torch has made.
func (w *way) shareOf(r se3.Rot) float64 {
	if w.angle == 0 {
		return 0
	}
	return min(1, max(0, w.from.T().Mul(r).Log().Dot(w.axis)/w.angle))
}

// turning returns a way with the turn from one torch to another, evenly along it.
func turning(from, to se3.Rot) way {
	v := from.T().Mul(to).Log()
	return way{from: from, axis: v.Unit(), angle: v.Norm()}
}

// stays is under what length a move is a turn of the torch alone, m.
const stays = 1e-6

// lineWay is a linear move.
func lineWay(from, to se3.Pose) way {
	w := turning(from.R, to.R)
	d := to.P.Sub(from.P)
	length := d.Norm()
	w.still = length < stays
	w.nearest = func(v r3.Vec) (r3.Vec, float64) {
		if length == 0 {
			return from.P, 0
		}
		share := min(1, max(0, v.Sub(from.P).Dot(d)/(length*length)))
		return from.P.AddScaled(share, d), share
	}
	return w
}

// arcWay is a pair of arc moves: from a start through a point to an end.
func arcWay(start, via, end se3.Pose) (ways [2]way, ok bool) {
	centre, axis, ok := circle(start.P, via.P, end.P)
	if !ok {
		return ways, false
	}
	radius := start.P.Dist(centre)
	x := start.P.Sub(centre).Unit()
	y := axis.Cross(x)
	seam := 0.0 // angle at which a place counts as behind the end and not before the start
	angleOf := func(v r3.Vec) float64 {
		d := v.Sub(centre)
		a := math.Atan2(d.Dot(y), d.Dot(x))
		if a < seam {
			a += 2 * math.Pi
		}
		return a
	}
	half, full := angleOf(via.P), angleOf(end.P)
	seam = (full - 2*math.Pi) / 2
	for i, part := range [2]struct {
		from, to   se3.Pose
		begin, end float64
	}{{start, via, 0, half}, {via, end, half, full}} {
		ways[i] = turning(part.from.R, part.to.R)
		ways[i].nearest = func(v r3.Vec) (r3.Vec, float64) {
			a := min(part.end, max(part.begin, angleOf(v)))
			at := centre.AddScaled(radius*math.Cos(a), x).AddScaled(radius*math.Sin(a), y)
			return at, (a - part.begin) / (part.end - part.begin)
		}
	}
	return ways, half > 0 && full > half
}

// circle returns the centre and the axis of the circle that runs through three
// points in order.
func circle(a, b, c r3.Vec) (centre, axis r3.Vec, ok bool) {
	ab, ac := b.Sub(a), c.Sub(a)
	n := ab.Cross(ac)
	square := n.Dot(n)
	if !(square > 1e-12*ab.Dot(ab)*ac.Dot(ac)) {
		return centre, axis, false
	}
	to := n.Cross(ab).Scale(ac.Dot(ac)).Add(ac.Cross(n).Scale(ab.Dot(ab))).Scale(1 / (2 * square))
	return a.Add(to), n.Unit(), true
}

// moved reports whether joint values differ.
func moved(a, b *kinematics.Q) bool { return furthest(a, b) > sameJoint }
