package plan

import (
	"math"

	"seamwright/weld/seam"
)

// Limits at a corner. Common practice, no source.
const (
	// cornerLegOver is how much more the leg may be at a corner than is wanted,
	// m; less it may not be.
	cornerLegOver = 1.5e-3
	// cornerDrag and cornerPush bound the travel angle at a corner, rad: 10 deg
	// of drag, 25 deg of push.
	cornerDrag = -10 * math.Pi / 180
	cornerPush = 25 * math.Pi / 180
)

// CornerTruth is what comes out at one bend of a seam: in it, and as far beside it
// as the torch turns for it and its metal spreads.
type CornerTruth struct {
	Bend  seam.Corner
	Sharp int        // number of the sharp corner, from 0; -1 for a round one
	Share seam.Share // of a sharp corner, its lengths filled in
	// InPlace is turned in the corner, rad, over Hold, s, with the arc on.
	InPlace, Hold float64
	// LegLeast and LegMost are the legs there, m, and LegLeastAt and LegMostAt
	// their arc lengths, m; all 0 for a bead of a given area, NaN where the metal
	// is more than a leg can be told of.
	LegLeast, LegMost, LegLeastAt, LegMostAt float64
	// Angles at which the torch truly stands, rad.
	WorkLeast, WorkMost, TravelLeast, TravelMost float64
	TurnMost                                     float64 // rad/s, fastest turn of the torch
	SpeedLeast                                   float64 // m/s, slowest travel; 0 in a sharp corner, where the tip stops
}

// corners gathers what comes out at each bend of the seam from the samples of
// its whole profile.
func (r *profiler) corners(samples []ProfileSample) []CornerTruth {
	var list []CornerTruth
	sharp := 0
	for _, c := range r.track.way.Seam().Corners() {
		t := CornerTruth{
			Bend: c, Sharp: -1, LegLeast: math.Inf(1), WorkLeast: math.Inf(1), WorkMost: math.Inf(-1),
			TravelLeast: math.Inf(1), TravelMost: math.Inf(-1), SpeedLeast: math.Inf(1),
		}
		from, to := c.From, c.To
		if c.Sharp() {
			turn := r.track.way.Turn(sharp)
			t.Sharp, t.Share, t.InPlace = sharp, turn.Share, turn.InPlace
			t.Hold = r.hold(sharp)
			sharp++
			beside := seam.LumpLength * r.pass.Size.LegBase / 2
			from, to = from-max(turn.Ahead, beside), to+max(turn.Behind, beside)
		}
		for i := range samples {
			if p := &samples[i]; p.Arc >= from-lumpEdge && p.Arc <= to+lumpEdge {
				t.take(p)
			}
		}
		if !r.fillet {
			t.LegLeast = 0
		}
		list = append(list, t)
	}
	return list
}

// take widens what comes out at the corner to a sample.
func (t *CornerTruth) take(p *ProfileSample) {
	if math.IsNaN(p.Leg) {
		t.LegLeast, t.LegMost, t.LegMostAt = p.Leg, p.Leg, p.Arc
	}
	if p.Leg < t.LegLeast {
		t.LegLeast, t.LegLeastAt = p.Leg, p.Arc
	}
	if p.Leg > t.LegMost {
		t.LegMost, t.LegMostAt = p.Leg, p.Arc
	}
	t.WorkLeast, t.WorkMost = min(t.WorkLeast, p.Work), max(t.WorkMost, p.Work)
	t.TravelLeast, t.TravelMost = min(t.TravelLeast, p.Travel), max(t.TravelMost, p.Travel)
	t.TurnMost = max(t.TurnMost, p.Turn)
	if t.Sharp >= 0 || !p.ramp {
		t.SpeedLeast = min(t.SpeedLeast, p.Speed)
	}
}

// hold is the time that the arc stands in a sharp corner while the torch turns,
// s.
func (r *profiler) hold(sharp int) float64 {
	for i, s := range r.stages {
		if s.turn == sharp && !s.arcOff {
			return r.pass.Motion.laws.weld[i].Duration()
		}
	}
	return 0
}
