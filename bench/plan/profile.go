package plan

import (
	"math"
	"slices"

	"seamwright/weld/deposit"
	"seamwright/weld/seam"
)

// Profile is a pass as it comes out along its seam: at the speed that the arm
// holds, not the one that is asked for, with the metal that this lays and the
// angles at which the torch truly stands to the joint.
//
// What is laid at the weld start and end is left out, in start delay and crater
// time and while the arm gathers speed and stops: it makes the first pool and
// fills the crater.
type Profile struct {
	// Samples are in order along the seam, dense enough to be joined by straight
	// lines. Where something jumps, as at a sharp corner, several are at one arc
	// length.
	Samples []ProfileSample
	// Corners are the bends of the seam, in order, with what is worst there.
	Corners []CornerTruth
	// Leg is the leg that is wanted, m, and LegMost the most that it may be at a
	// corner; both 0 for a bead of a given area, whose corners are not held
	// against a size.
	Leg, LegMost float64
	Keyed        Keyed
}

// Even reports whether there is nothing to see: a seam without a bend, welded at
// one speed but for the ramps at its ends, with one leg and one angle.
func (p *Profile) Even() bool {
	if len(p.Corners) > 0 {
		return false
	}
	first := -1
	for i := range p.Samples {
		s := &p.Samples[i]
		if s.ramp {
			continue
		}
		if first < 0 {
			first = i
		}
		if a := &p.Samples[first]; s.off(a, a, a.Speed) > 1 {
			return false
		}
	}
	return true
}

// ProfileSample is a pass at one place of its seam.
type ProfileSample struct {
	Arc float64 // m, arc length of the seam
	// Speed is the travel speed that the arm holds, m/s: 0 where it stops.
	Speed float64
	Area  float64 // m2, metal laid along the seam
	// Leg is the leg that the metal fills on the base plate, m: 0 for a bead of a
	// given area, NaN where the plates stand too flat or too steep to tell.
	Leg float64
	// Work and Travel are the angles at which the torch truly stands, rad.
	Work, Travel float64
	Turn         float64 // rad/s, how fast the torch turns
	Corner       int     // sharp corner in or beside which it turns, from 0; -1 elsewhere

	along float64 // m of the way
	ramp  bool    // the tip gathers speed there, or stops
}

// profileStep is the distance between the places at which a profile is computed,
// m.
const profileStep = 1e-3

// profiler makes the profile of one pass.
type profiler struct {
	pass   *Pass
	track  *track
	stages []stage
	melt   deposit.Melt
	shape  deposit.Shape // at the weld start
	fillet bool          // a whole one, sized by a leg or a throat
	// turnFeed is the wire feed over that of the seam while the torch turns in
	// place, dimensionless; 0 means 1.
	turnFeed float64

	ramps []ramps // of the stages
	metal seam.Metal
	lumps int // dwells of the metal
}

// profiler returns what makes the profile of a pass of seam i.
func (m *maker) profiler(i int, p *Pass) (*profiler, error) {
	doc := m.shapes[i].doc
	set := settingsOf(m.job, p.Size.Settings)
	t := p.Motion.search.track
	r := &profiler{pass: p, track: t, stages: t.stages(), fillet: doc.Weld.Fillet() && p.Role == 0}
	if r.fillet {
		r.shape = set.Shape(p.Size.Included, p.Size.LegOther/p.Size.LegBase)
	} else {
		r.shape = deposit.SquareFillet(1) // so far a lump of its metal heaps up
	}
	var err error
	r.melt, err = set.Melt()
	return r, err
}

// profile makes the profile.
func (r *profiler) profile() (*Profile, error) {
	if err := r.lay(); err != nil {
		return nil, err
	}
	p := &Profile{Keyed: r.pass.Motion.keyed()}
	if r.fillet {
		p.Leg = r.pass.Size.LegBase
		p.LegMost = p.Leg + cornerLegOver
	}
	samples := r.samples()
	p.Corners = r.corners(samples)
	p.Samples = thinned(samples, r.pass.Size.Travel)
	return p, nil
}

// samples computes the profile along every stretch, ends included, at both sides
// of the ends of lumps of metal and beside the stops.
func (r *profiler) samples() []ProfileSample {
	var list []ProfileSample
	stage := 0
	for i := range r.track.stretches {
		s := &r.track.stretches[i]
		for s.to > r.stages[stage].to+sideStep {
			stage++
		}
		for _, along := range r.places(s, stage) {
			list = append(list, r.sample(along, s, stage))
		}
	}
	return list
}

// places are the places of a stretch (m of the way) at which the profile is
// computed, in order.
func (r *profiler) places(s *stretch, stage int) []float64 {
	g := &r.stages[stage]
	n := max(1, steps(s.to-s.from, max(profileStep, r.track.length/maxStations)))
	at := make([]float64, n+1)
	for i := range at {
		at[i] = s.from + (s.to-s.from)*float64(i)/float64(n)
	}
	add := func(along float64) {
		if along > s.from && along < s.to {
			at = append(at, along)
		}
	}
	begin, end := g.from+r.ramps[stage].from, g.to-r.ramps[stage].to
	add(begin)
	add(end)
	if s.bend != inPlace {
		offset := s.from - r.track.arc(s.from)
		for k := range r.lumps {
			from, to := r.metal.Lump(k)
			for _, edge := range []float64{from + offset, to + offset} {
				if edge > begin && edge < end {
					add(edge - lumpEdge)
					add(edge + lumpEdge)
				}
			}
		}
	}
	slices.Sort(at)
	return at
}

// lumpEdge is how far before and behind the end of a lump of metal the profile
// is computed, m, and sideStep how far on one side of a corner the joint is
// looked at, m of the way.
const (
	lumpEdge = 1e-6
	sideStep = 1e-9
)

// sample computes the profile at a place of a stretch (m of the way).
func (r *profiler) sample(along float64, s *stretch, stage int) ProfileSample {
	at := along
	if along == s.to && s.bend != inPlace {
		at -= sideStep // the joint of this stretch, not of the one behind a corner
	}
	place := r.track.way.At(at)
	aim := r.pass.Aim
	stands := place.True(aim)
	speed := r.pass.Motion.laws.weld[stage].SpeedAt(along)
	p := ProfileSample{
		Arc: r.track.arc(along), along: along, Speed: speed, Corner: place.Corner,
		Work: stands.Work, Travel: stands.Travel, Turn: speed * s.rateAt(along),
	}
	g, ramps := &r.stages[stage], &r.ramps[stage]
	p.ramp = along < g.from+ramps.from || along > g.to-ramps.to
	if s.bend == inPlace {
		p.Speed = 0
	}
	p.Area = r.metal.Area(p.Arc)
	if r.fillet {
		shape := r.shape
		shape.Angle = place.Joint.Included
		var err error
		if p.Leg, err = shape.Leg(p.Area); err != nil {
			p.Leg = math.NaN()
		}
	}
	return p
}
