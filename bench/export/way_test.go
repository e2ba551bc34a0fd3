package export_test

import (
	"math"
	"slices"
)

// The joint along a seam and the way of the torch along it, from plan.json alone.

// turned is the frame turned by an angle (rad) about a unit axis through its root.
func (f frameText) turned(axis vec, angle float64) frameText {
	f.Travel, f.Normal, f.Open = f.Travel.turned(axis, angle), f.Normal.turned(axis, angle), f.Open.turned(axis, angle)
	return f
}

// startOf is the joint at the start of a piece.
func (s *seamText) startOf(k int) frameText {
	if len(s.Path) == 1 {
		return s.Start
	}
	return s.Path[k].Start
}

// pieceAt is the joint at a place (mm) of a piece: along a line that of its
// start, on an arc the start's turned about the axis, on a curve between the
// joints that are told along it. The root follows the path, from which the travel
// may differ a little where the plates are known better than the path.
func (s *seamText) pieceAt(k int, along float64) frameText {
	p := s.Path[k]
	f := s.startOf(k)
	switch p.Kind {
	case "line":
		f.Root = p.From.plus(p.To.minus(p.From).times(along / p.Length))
	case "arc":
		angle := along / p.Radius
		f = f.turned(p.Axis, angle)
		if len(p.Joints) > 0 { // askew to the plates
			f = between(p.Joints, along/p.Length)
		}
		f.Root = p.Centre.plus(p.From.minus(p.Centre).turned(p.Axis, angle))
	case "curve":
		return between(p.Joints, along/p.Length)
	}
	return f
}

// between interpolates joints at a fraction of the length of the arcs that join
// their roots: the root on the cubic with the directions at both ends; travel and
// base normal on the cubics through four joints, made square to each other. The
// travel is not the root's: the plates may be known better than the path.
func between(list []frameText, f float64) frameText {
	at := make([]float64, len(list))
	for i := 1; i < len(list); i++ {
		at[i] = at[i-1] + arcOf(list[i-1], list[i])
	}
	want, i := f*at[len(at)-1], 1
	for i < len(list)-1 && at[i] < want {
		i++
	}
	a, b, length := list[i-1], list[i], at[i]-at[i-1]
	g := (want - at[i-1]) / length
	first := max(0, min(i-2, len(list)-4))
	last := min(len(list), first+4)
	// Lagrange's and Hermite's cubics, elementary.
	through := func(of func(frameText) vec) (sum vec) {
		for k := first; k < last; k++ {
			share := 1.0
			for n := first; n < last; n++ {
				if n != k {
					share *= (want - at[n]) / (at[k] - at[n])
				}
			}
			sum = sum.plus(of(list[k]).times(share))
		}
		return sum
	}
	opens := through(func(f frameText) vec { return vec{f.Included, 0, 0} })
	out := frameText{Included: opens[0], Travel: through(func(f frameText) vec { return f.Travel }).unit()}
	normal := through(func(f frameText) vec { return f.Normal })
	out.Normal = normal.minus(out.Travel.times(normal.dot(out.Travel))).unit()
	out.Open = out.Normal.cross(out.Travel)
	if out.Open.dot(a.Open) < 0 {
		out.Open = out.Open.times(-1)
	}
	h00, h10 := (1+2*g)*(1-g)*(1-g), g*(1-g)*(1-g)
	h01, h11 := g*g*(3-2*g), g*g*(g-1)
	out.Root = a.Root.times(h00).plus(a.Travel.times(h10 * length)).plus(b.Root.times(h01)).plus(b.Travel.times(h11 * length))
	return out
}

// arcOf is the length (m) of the arc that joins two joints: their chord and the
// angle between their directions, c*(1 + angle^2/24).
func arcOf(a, b frameText) float64 {
	angle := a.Travel.minus(b.Travel).norm()
	return a.Root.minus(b.Root).norm() * (1 + angle*angle/24)
}

// jointAt is the joint at a place (mm) of the seam; at a sharp corner the one
// before it, or the one behind it.
func (s *seamText) jointAt(along float64, behind bool) frameText {
	begin := 0.0
	for k := range s.Path {
		end := begin + s.Path[k].Length
		if along < end-1e-4 || along <= end+1e-4 && !behind || k == len(s.Path)-1 {
			return s.pieceAt(k, along-begin)
		}
		begin = end
	}
	return s.End
}

// cornerAt is the sharp corner at a place (mm), nil where there is none.
func (s *seamText) cornerAt(along float64) *cornerText {
	corners := s.Passes[0].Profile.Corners
	i := slices.IndexFunc(corners, func(c cornerText) bool { return c.sharp() && math.Abs(c.At-along) < 1e-3 })
	if i < 0 {
		return nil
	}
	return &corners[i]
}

// turnOf is the turn of the joint at a corner: a unit axis and an angle, rad, from
// the two frames.
func turnOf(before, after frameText) (axis vec, angle float64) {
	var sum vec
	cos := -1.0
	for _, pair := range [][2]vec{{before.Travel, after.Travel}, {before.Normal, after.Normal}, {before.Open, after.Open}} {
		sum = sum.plus(pair[0].cross(pair[1]))
		cos += pair[0].dot(pair[1])
	}
	return sum.unit(), math.Atan2(sum.norm(), cos)
}

// aimed are wanted torch angles, deg.
type aimed struct{ work, travel float64 }

// wire is the direction of a torch aimed so at a joint (the formulas of
// readAngles, solved for the wire).
func (a aimed) wire(f frameText) vec {
	sinW, cosW := math.Sincos(a.work * math.Pi / 180)
	sinT, cosT := math.Sincos(a.travel * math.Pi / 180)
	square := f.Normal.times(cosW).plus(f.Open.times(sinW))
	return f.Travel.times(sinT).minus(square.times(cosT))
}

// torchAt is the frame that carries the torch at a place (mm) of a pass: the
// joint, turned ahead before a sharp corner and lagging behind it. In the corner
// it may stand anywhere on the way from the one to the other: where the wire asks
// for.
func (s *seamText) torchAt(along float64, pass int, wire vec, aim aimed) frameText {
	for _, c := range s.Passes[pass].Profile.Corners {
		if !c.sharp() || along < c.At-c.Ahead-1e-3 || along > c.At+c.Behind && along > c.At+1e-3 {
			continue
		}
		before, after := s.jointAt(c.At, false), s.jointAt(c.At, true)
		axis, _ := turnOf(before, after)
		const rad = math.Pi / 180
		switch {
		case along < c.At-1e-3:
			return s.jointAt(along, false).turned(axis, c.Before*rad*(1-(c.At-along)/c.Ahead))
		case along > c.At+1e-3:
			return s.jointAt(along, true).turned(axis, -c.After*rad*(1-(along-c.At)/c.Behind))
		}
		best, off := before.turned(axis, c.Before*rad), math.Inf(1)
		for k := range 1001 {
			f := before.turned(axis, c.Before*rad+c.Place*rad*float64(k)/1000)
			if d := aim.wire(f).minus(wire).norm(); d < off {
				best, off = f, d
			}
		}
		// The nearest of a thousand is within 0.05 deg; the rest of the turn to the
		// wire itself is about the same axis.
		return best.turned(axis, aboutAxis(axis, aim.wire(best), wire))
	}
	return s.jointAt(along, true)
}

// aboutAxis is the angle (rad) about a unit axis from one direction to another.
func aboutAxis(axis, from, to vec) float64 {
	from, to = from.minus(axis.times(from.dot(axis))), to.minus(axis.times(to.dot(axis)))
	return math.Atan2(from.cross(to).dot(axis), from.dot(to))
}

// jointsNear are the joints nearest to a place (m), which lies up to a distance
// (m) from the root line: one, or at a sharp corner both.
func (s *seamText) jointsNear(place vec, beside float64) []frameText {
	at, least := 0.0, math.Inf(1)
	for n, k := int(s.Length/0.05), 0; k <= n; k++ {
		along := s.Length * float64(k) / float64(n)
		f := s.jointAt(along, true)
		if d := f.Root.plus(f.Open.times(beside)).minus(place).norm(); d < least {
			at, least = along, d
		}
	}
	for _, c := range s.Passes[0].Profile.Corners {
		if c.sharp() && math.Abs(c.At-at) < 0.1+math.Abs(beside)*2e3 {
			return []frameText{s.jointAt(c.At, false), s.jointAt(c.At, true), s.jointAt(at, true)}
		}
	}
	// To the place itself: the last part along the travel.
	f := s.jointAt(at, true)
	at += place.minus(f.Root).dot(f.Travel) * 1e3
	return []frameText{s.jointAt(min(max(at, 0), s.Length), true)}
}

// weldMove is one commanded move: a straight line, or a circle through three
// places.
type weldMove struct {
	from, via, to vec
	arc           bool
}

// weldMoves are the moves between arc on and arc off of a seam.
func (f folderText) weldMoves(seam string) []weldMove {
	var moves []weldMove
	var last row
	lit := false
	for i := 0; i < len(f.steps); i++ {
		r := f.steps[i]
		if lit && r.text("seam") == seam {
			m := weldMove{from: last.place(), to: r.place()}
			if r.text("move") == "arc" {
				m.via, m.arc = r.place(), true
				i++
				r = f.steps[i]
				m.to = r.place()
			}
			moves = append(moves, m)
		}
		if r.text("arc") != "" {
			lit = r.text("arc") == "on"
		}
		last = r
	}
	return moves
}

// distance is how far a place (m) lies from the move.
func (m weldMove) distance(p vec) float64 {
	if m.arc {
		return m.fromArc(p)
	}
	d := m.to.minus(m.from)
	f := 0.0
	if d.norm() > 0 {
		f = min(max(p.minus(m.from).dot(d)/d.dot(d), 0), 1)
	}
	return p.minus(m.from.plus(d.times(f))).norm()
}

// fromArc is how far a place lies from the circle through the three places
// (circumcentre, elementary geometry); from its ends where it lies beyond them.
func (m weldMove) fromArc(p vec) float64 {
	a, b := m.via.minus(m.from), m.to.minus(m.from)
	n := a.cross(b)
	centre := m.from.plus(n.cross(a).times(b.dot(b)).minus(n.cross(b).times(a.dot(a))).times(1 / (2 * n.dot(n))))
	axis := n.unit()
	angle := func(q vec) float64 {
		x := aboutAxis(axis, m.from.minus(centre), q.minus(centre))
		if x < -1e-9 {
			x += 2 * math.Pi
		}
		return x
	}
	if angle(p) > angle(m.to)+1e-9 {
		return min(p.minus(m.from).norm(), p.minus(m.to).norm())
	}
	on := centre.plus(m.from.minus(centre).turned(axis, angle(p)))
	return p.minus(on).norm()
}
