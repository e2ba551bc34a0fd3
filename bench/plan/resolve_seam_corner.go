package plan

import (
	"math"

	"seamwright/bench/job"
	"seamwright/geom/se3"
	"seamwright/weld/seam"
)

// How the torch turns at a sharp corner where the document does not say: up to
// easeMost on the seam before the corner and as much behind it, the rest in the
// corner, as long as the travel angle stays between cornerDrag and cornerPush.
// Turning all of it in the corner holds the arc there longest and lays the
// thickest lump; turning all of it on the way tilts the torch out of the window.
// 15 deg each way leaves a push of 10 deg between -0.7 and +20.4 deg at a square
// corner (the project's worked case). Common practice, no source.
const (
	easeMost = 15 * math.Pi / 180
	easeStep = 1 * math.Pi / 180
	// easeRoom is the least length of seam, m, over which the torch is turned:
	// on less it would jerk.
	easeRoom = 5e-3
)

// shares says how the torch turns at every sharp corner of a path, in order
// along it.
func (b *seamBuilder) shares(g *seam.Seam) []seam.Share {
	var sharp []seam.Corner
	for _, c := range g.Corners() {
		if c.Sharp() {
			sharp = append(sharp, c)
		}
	}
	shares := make([]seam.Share, len(sharp))
	for i, c := range sharp {
		said := b.said(g, c)
		ahead, behind := room(g, sharp, i)
		s := &shares[i]
		s.ArcOff = said.ArcOff
		switch {
		case said.Shared:
			s.Before, s.After = said.Before, said.After
			s.Ahead, s.Behind = reach(said.Before, said.Ahead, ahead), reach(said.After, said.Behind, behind)
		case !said.ArcOff: // with the arc off there is nothing to ease: all in the corner
			s.Before, s.After = b.ease(g, c)
			if ahead < easeRoom {
				s.Before = 0
			}
			if behind < easeRoom {
				s.After = 0
			}
			s.Ahead, s.Behind = reach(s.Before, 0, ahead), reach(s.After, 0, behind)
		}
	}
	return shares
}

// said returns what the document says of the corner of the path at which c lies.
func (b *seamBuilder) said(g *seam.Seam, c seam.Corner) job.Corner {
	at, _ := g.Path().At(c.From)
	best, nearest := 0, math.Inf(1)
	for i, p := range b.corners {
		if d := p.Dist(at); d < nearest {
			best, nearest = i, d
		}
	}
	if len(b.corners) == 0 {
		return job.Corner{}
	}
	return b.corner(best)
}

// room returns the lengths of seam, m, that are free for turning before and
// behind sharp corner i: to the path's ends, halfway to the corners beside it.
func room(g *seam.Seam, sharp []seam.Corner, i int) (ahead, behind float64) {
	ahead, behind = sharp[i].From, g.Length()-sharp[i].From
	if i > 0 {
		ahead = (sharp[i].From - sharp[i-1].From) / 2
	}
	if i < len(sharp)-1 {
		behind = (sharp[i+1].From - sharp[i].From) / 2
	}
	return ahead, behind
}

// reach returns the length of seam, m, over which an angle is turned: as typed,
// or the usual one as far as there is room.
func reach(angle, typed, room float64) float64 {
	if angle == 0 || typed > 0 {
		return typed
	}
	return min(seam.DefaultReach, room)
}

// ease returns how far (rad) the torch is turned before and behind a sharp
// corner: as far as the travel angle stays in its window, half the turn at most.
func (b *seamBuilder) ease(g *seam.Seam, c seam.Corner) (before, after float64) {
	aim := wantedAim(b.job, b.seam)
	arriving, leaving := g.Arriving(c.From), g.At(c.From)
	turn := columns(leaving).Mul(columns(arriving).T()).Log() // as seam.NewWay turns the torch
	inside := func(f seam.Frame, angle float64) bool {
		held := f.Encode(aim)
		held.R = se3.RotAxis(turn.Unit(), angle).Mul(held.R)
		travel := f.Decode(held).Travel
		return travel >= cornerDrag-angleSlack && travel <= cornerPush+angleSlack
	}
	most := min(easeMost, turn.Norm()/2)
	for before = most; before > 0 && !inside(arriving, before); {
		before = max(0, before-easeStep)
	}
	for after = most; after > 0 && !inside(leaving, -after); {
		after = max(0, after-easeStep)
	}
	return before, after
}

// columns is a joint's frame as a rotation.
func columns(f seam.Frame) se3.Rot { return se3.RotColumns(f.T, f.B, f.M) }
