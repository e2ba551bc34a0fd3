package plan

import (
	"math"
	"slices"

	"seamwright/bench/job"
	"seamwright/geom/curve"
	"seamwright/geom/se3"
	"seamwright/weld"
	"seamwright/weld/seam"
)

// wantedAim returns the torch that the document asks for. A work angle that it
// leaves out is the bisector of a fillet, wherever the torch is, and 0 for butt
// and edge joints.
func wantedAim(j *job.Job, s *job.Seam) seam.Aim {
	aim := seam.Aim{Work: s.Aim.Work, Travel: s.Aim.Travel, Offset: s.Aim.Offset}
	if !s.Aim.WorkStated && weldKind(s.Joint) == weld.Fillet {
		aim.Work, aim.FromBisector = 0, true
	}
	if s.Aim.Distance > 0 {
		aim.Distance = s.Aim.Distance - j.Torch.ContactTipDistance()
	}
	return aim
}

// spinGrain is what a wanted spin is rounded to when it comes from hand-guided
// points, which are 3 to 10 deg off: 5 deg.
const spinGrain = 5 * math.Pi / 180

// taughtSpin returns the mean spin of the torch poses taught on the seam,
// rounded to spinGrain; false where no point of the seam holds an orientation.
func taughtSpin(s *job.Seam, g *seam.Seam, all tips) (float64, bool) {
	var sin, cos float64
	n := 0
	for _, label := range audited(s) {
		t := all[label]
		if !t.turned() {
			continue
		}
		_, reading := g.Read(t.baseFromTip)
		sin += math.Sin(reading.Spin)
		cos += math.Cos(reading.Spin)
		n++
	}
	if n == 0 {
		return 0, false
	}
	return math.Round(math.Atan2(sin, cos)/spinGrain)*spinGrain + 0, true // no minus zero
}

// audited are the labels of the points that were taught on the seam: those
// named as taught, otherwise those that the path goes through. It does not go
// through the corners of a polyline that are rounded off.
func audited(s *job.Seam) []string {
	if len(s.Taught) > 0 {
		return s.Taught
	}
	if slices.ContainsFunc(s.Corners, func(c job.Corner) bool { return c.Radius > 0 }) && s.Path == job.PathPolyline {
		return nil
	}
	return s.Points
}

// turned reports whether the point holds an orientation and not only a place.
func (t tip) turned() bool { return t.point != nil && (t.point.HasTurn || !t.point.HasPose) }

// heldPoint is a point taught for a seam and what it is to it.
type heldPoint struct {
	label string
	role  Role
	// on is the whole seam of a point that lies between its stitches, nil for
	// others; it is told from there, m along the whole.
	on   *seam.Way
	from float64
}

// heldPoints lists the points taught for a seam, approach and retreat included.
func heldPoints(s *job.Seam) []heldPoint {
	var list []heldPoint
	if s.Approach.Point != "" {
		list = append(list, heldPoint{label: s.Approach.Point, role: RoleApproach})
	}
	labels := audited(s)
	for i, label := range labels {
		role := RoleVia
		switch {
		case i == 0 && s.StartAt == (job.StartAt{}):
			role = RoleStart
		case i == len(labels)-1 && !s.Closed:
			role = RoleEnd
		}
		list = append(list, heldPoint{label: label, role: role})
	}
	if s.Retreat.Point != "" {
		list = append(list, heldPoint{label: s.Retreat.Point, role: RoleRetreat})
	}
	return list
}

// audit decodes every point taught for a seam and says what is wanted there.
// The wanted spin is the planned one, where there is a motion.
func audit(held []heldPoint, w seam.Way, pass *Pass, all tips) []Taught {
	var list []Taught
	for _, p := range held {
		if t, ok := all[p.label]; ok && t.turned() {
			list = append(list, p.decode(t.baseFromTip, w, pass))
		}
	}
	return list
}

// decode tells a taught torch on the seam that its pass welds, or, between stitches,
// on the whole one.
func (p *heldPoint) decode(baseFromTip se3.Pose, w seam.Way, pass *Pass) Taught {
	if p.on == nil {
		return decode(p.label, p.role, baseFromTip, w, pass)
	}
	still := *pass
	still.Motion = nil
	t := decode(p.label, p.role, baseFromTip, *p.on, &still)
	t.Along -= p.from
	return t
}

func decode(label string, role Role, baseFromTip se3.Pose, w seam.Way, pass *Pass) Taught {
	along := nearest(w, role, baseFromTip, pass)
	place := w.At(along)
	r := place.Joint.Decode(baseFromTip)
	aim := pass.Aim
	aim.Spin = pass.spinAt(along)
	wanted := place.Frame.Encode(aim)
	t := Taught{
		Label: label, Role: role,
		Along: place.Arc, Across: r.Across(), AcrossBase: r.AcrossB, AcrossFace: r.AcrossM,
		Work: r.Work, Travel: r.Travel, Spin: r.Spin,
		WantedWork: place.Frame.WorkOf(aim), WantedTravel: aim.Travel, WantedSpin: aim.Spin,
		BaseFromTip: baseFromTip, Wanted: wanted,
	}
	if place.Corner >= 0 {
		stands := place.True(aim)
		t.WantedWork, t.WantedTravel, t.WantedSpin = stands.Work, stands.Travel, stands.Spin
	}
	if pass.Motion != nil {
		switch role {
		case RoleApproach:
			t.Wanted = pass.Motion.Stations[0].BaseFromTip
		case RoleRetreat:
			t.Wanted = pass.Motion.Stations[len(pass.Motion.Stations)-1].BaseFromTip
		}
	}
	return t
}

// handPlace is how far from its place a point is taught by hand, m. Common
// practice, no source.
const handPlace = 3e-3

// nearest is the place of the way (m) at which a taught point is read. The ends
// are read at the ends: a start taught 1 mm early is still the start. A torch
// taught in a sharp corner may stand anywhere in its turn: it is read where the
// wanted one is nearest to it.
func nearest(w seam.Way, role Role, baseFromTip se3.Pose, pass *Pass) float64 {
	switch role {
	case RoleApproach, RoleStart:
		return 0
	case RoleEnd, RoleRetreat:
		return w.Length()
	}
	arc, _ := curve.Distance(w.Seam().Path(), baseFromTip.P)
	along := w.Of(arc)
	for i := range w.Turns() {
		t := w.Turn(i)
		if math.Abs(arc-t.From) > handPlace {
			continue
		}
		least := math.Inf(1)
		for k, n := 0, steps(t.InPlace, 1/deg); k <= n; k++ {
			at := t.Start + (t.End-t.Start)*float64(k)/float64(max(n, 1))
			if off := w.At(at).Frame.Encode(pass.Aim).R.Z().Angle(baseFromTip.R.Z()); off < least {
				along, least = at, off
			}
		}
	}
	return along
}

// spinAt returns the planned spin at a place of the way (m), rad; the wanted one
// where no motion was found.
func (p *Pass) spinAt(along float64) float64 {
	if p.Motion == nil {
		return p.Aim.Spin
	}
	return p.Motion.spinAt(along)
}
