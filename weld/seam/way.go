package seam

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
)

// Way is the way of the torch along a seam: places by a length u (m) that grows
// with the arc length of the seam and, in each sharp corner, goes on while the
// torch turns in place. Over all of it the torch moves and turns steadily. For a
// seam without sharp corners u is the arc length. Make one with NewWay; a Way
// never changes, and may be used from several goroutines.
type Way struct {
	seam   *Seam
	turns  []Turn
	length float64 // m
}

// Turn is the turning of the torch at one sharp corner of a way.
type Turn struct {
	Corner
	Share
	Total    float64 // rad, by which the torch turns at the corner in all
	InPlace  float64 // rad, of it while the arc stands in the corner
	Start    float64 // m of u, at which the turn in place begins
	End      float64 // m of u, at which it ends
	axis     r3.Vec  // unit, about which the torch turns, right-handed
	arriving Frame
	leaving  Frame
}

// Dwell returns the time (s) that the torch stands in the corner when it turns
// at rate (rad/s) there.
func (t Turn) Dwell(rate float64) float64 { return t.InPlace / rate }

// LengthPerTurn is the length of u (m) that a turn in place takes for each
// radian, so that places taken evenly along u are no further apart in angle than
// on a corner of this radius: 20 mm.
const LengthPerTurn = 20e-3

// MaxTurn is the largest turn (rad) of the torch at a sharp corner: 175 deg.
// Further, the path runs back over itself and the sense of the turn is not told.
const MaxTurn = 175 * math.Pi / 180

// NewWay returns the way along s with the turns at its sharp corners shared out
// as told: none is all in place, one is for every corner, otherwise one for each
// sharp corner in order. It fails for another number of shares, for a share that
// its corner cannot take, where the torch would turn by more than MaxTurn, and
// where the turning before or behind a corner reaches past an end of the path or
// into that of the next corner.
func NewWay(s *Seam, shares ...Share) (Way, error) {
	w := Way{seam: s, length: s.Length()}
	for _, c := range s.Corners() {
		if c.Sharp() {
			w.turns = append(w.turns, Turn{Corner: c})
		}
	}
	if n := len(shares); n > 1 && n != len(w.turns) {
		return Way{}, fmt.Errorf("seam: %d shares for a path of %d sharp corners: give none, one for all, or one for each", n, len(w.turns))
	}
	var inPlace float64  // m of u spent in corners so far
	var freeFrom float64 // m, arc length up to which the seam is taken by turning
	for i := range w.turns {
		t := &w.turns[i]
		switch len(shares) {
		case 0:
		case 1:
			t.Share = shares[0]
		default:
			t.Share = shares[i]
		}
		if err := t.turn(s, i+1); err != nil {
			return Way{}, err
		}
		if t.From-t.Ahead < freeFrom-1e-9 {
			return Way{}, fmt.Errorf("seam: corner %d at %.1f mm: the turn before it takes %.1f mm of seam, but only %.1f mm are free; shorten it, or turn more in place", i+1, t.From*1e3, t.Ahead*1e3, (t.From-freeFrom)*1e3)
		}
		freeFrom = t.From + t.Behind
		t.Start = t.From + inPlace
		inPlace += LengthPerTurn * t.InPlace
		t.End = t.From + inPlace
	}
	if freeFrom > s.Length()+1e-9 {
		t := w.turns[len(w.turns)-1]
		return Way{}, fmt.Errorf("seam: corner %d at %.1f mm: the turn behind it takes %.1f mm of seam, but only %.1f mm are left; shorten it, or turn more in place", len(w.turns), t.From*1e3, t.Behind*1e3, (s.Length()-t.From)*1e3)
	}
	w.length += inPlace
	return w, nil
}

// turn fills in the turn at corner i (from 1) of the seam.
func (t *Turn) turn(s *Seam, i int) error {
	t.arriving, t.leaving = s.Arriving(t.From), s.At(t.From)
	// Columns of one handedness on both sides: the product is a rotation.
	before := se3.RotColumns(t.arriving.T, t.arriving.B, t.arriving.M)
	after := se3.RotColumns(t.leaving.T, t.leaving.B, t.leaving.M)
	turn := after.Mul(before.T()).Log()
	t.Total, t.axis = turn.Norm(), turn.Unit()
	if t.Total > MaxTurn {
		return fmt.Errorf("seam: at corner %d, %.1f mm, the torch would turn by %.1f deg: the path runs back over itself, %.0f deg at most are possible; split the seam there", i, t.From*1e3, deg(t.Total), deg(MaxTurn))
	}
	var err error
	if t.Share, err = t.Share.complete(i, t.Total); err != nil {
		return err
	}
	t.InPlace = t.Total - t.Before - t.After
	if t.InPlace < slack { // what rounding leaves of a turn that is all on the seam
		t.InPlace = 0
	}
	return nil
}

// Seam returns the seam along which the way goes.
func (w Way) Seam() *Seam { return w.seam }

// Length returns the length of u, in metres.
func (w Way) Length() float64 { return w.length }

// Turns returns the number of sharp corners.
func (w Way) Turns() int { return len(w.turns) }

// Turn returns the turning at sharp corner i, from 0 to Turns less 1.
func (w Way) Turn(i int) Turn { return w.turns[i] }

// Place is where and how the torch is at one place of a way.
type Place struct {
	Arc float64 // m, arc length of the seam
	// Frame carries the torch: encode an aim in it. It is turned ahead of the
	// joint before a corner and lags it behind one.
	Frame Frame
	// Joint is the joint as it truly is. While the torch turns in place, with
	// the arc in the corner, it turns steadily from the joint before the corner
	// to the one behind it, as round a corner of no radius.
	Joint Frame
	// Turning is set while the torch turns in place.
	Turning bool
	// Corner is the sharp corner at which, before or behind which the torch
	// turns at this place, from 0, and -1 away from corners.
	Corner int
}

// True returns the angles at which a torch aimed by a in Frame truly stands to
// the joint.
func (p Place) True(a Aim) Reading { return p.Joint.Decode(p.Frame.Encode(a)) }

// At returns the place at u (m). Outside 0..Length it runs on along the seam as
// Seam.At does.
func (w Way) At(u float64) Place {
	i, arc := w.locate(u)
	if i >= 0 {
		if t := &w.turns[i]; u <= t.End && t.End > t.Start {
			return t.inPlace((u-t.Start)/(t.End-t.Start), i)
		}
	}
	p := Place{Arc: arc, Corner: -1}
	p.Joint = w.seam.At(arc)
	p.Frame = p.Joint
	if i >= 0 {
		if t := &w.turns[i]; arc-t.From < t.Behind {
			p.Frame, p.Corner = p.Joint.turned(t.axis, -t.After*(1-(arc-t.From)/t.Behind)), i
			return p
		}
	}
	if i+1 < len(w.turns) {
		if t := &w.turns[i+1]; t.From-arc < t.Ahead {
			p.Frame, p.Corner = p.Joint.turned(t.axis, t.Before*(1-(t.From-arc)/t.Ahead)), i+1
		}
	}
	return p
}

// locate returns the last turn that begins at or before u (m), -1 before the
// first, and the arc length (m) at u.
func (w Way) locate(u float64) (turn int, arc float64) {
	low, high := 0, len(w.turns) // turns before low begin at or before u
	for low < high {
		mid := (low + high) / 2
		if w.turns[mid].Start <= u {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if low == 0 {
		return -1, u
	}
	t := &w.turns[low-1]
	return low - 1, t.From + max(0, u-t.End)
}

// Arc returns the arc length (m) of the seam at u (m); outside 0..Length both go
// on together.
func (w Way) Arc(u float64) float64 {
	_, arc := w.locate(u)
	return arc
}

// Moved returns the way, given in frame a, as seen from frame b: after the part
// or the cart has moved.
func (w Way) Moved(bFromA se3.Pose) Way {
	turns := make([]Turn, len(w.turns))
	for i, t := range w.turns {
		t.axis, t.arriving, t.leaving = bFromA.Dir(t.axis), t.arriving.moved(bFromA), t.leaving.moved(bFromA)
		turns[i] = t
	}
	return Way{seam: w.seam.Moved(bFromA), turns: turns, length: w.length}
}

// moved returns the frame, given in frame a, as seen from frame b.
func (f Frame) moved(bFromA se3.Pose) Frame {
	f.Origin = bFromA.Apply(f.Origin)
	f.T, f.M, f.B, f.Bisector = bFromA.Dir(f.T), bFromA.Dir(f.M), bFromA.Dir(f.B), bFromA.Dir(f.Bisector)
	return f
}

// Of returns the u (m) at which the way first comes to an arc length (m) of the
// seam; a turn in place comes behind it.
func (w Way) Of(arc float64) float64 {
	u := arc
	for i := range w.turns {
		if t := &w.turns[i]; t.From < arc {
			u = arc + t.End - t.From
		}
	}
	return u
}

// inPlace returns the place at the fraction f of the turn in place at corner i.
func (t *Turn) inPlace(f float64, i int) Place {
	return Place{
		Arc: t.From, Turning: true, Corner: i,
		Frame: t.between(f, t.Before+f*t.InPlace),
		Joint: t.between(f, f*t.Total),
	}
}

// between returns the joint before the corner turned by angle (rad), its
// bisector and included angle passing to those behind the corner by f.
func (t *Turn) between(f, angle float64) Frame {
	a, b := t.arriving.turned(t.axis, angle), t.leaving.turned(t.axis, angle-t.Total)
	a.Bisector = a.Bisector.Lerp(b.Bisector, f).Unit()
	a.Included += f * (b.Included - a.Included)
	return a
}

// turned returns the frame turned by angle (rad) about the unit axis through its
// origin.
func (f Frame) turned(axis r3.Vec, angle float64) Frame {
	r := se3.RotAxis(axis, angle)
	f.T, f.M, f.B, f.Bisector = r.Apply(f.T), r.Apply(f.M), r.Apply(f.B), r.Apply(f.Bisector)
	return f
}
