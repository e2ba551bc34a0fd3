package plan

import (
	"context"
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/unit"
)

// shorter are the shares of an approach's or a retreat's length that are tried
// in turn when the arm cannot have the whole.
var shorter = []float64{1, 0.5, 0.25}

// posture plans the arm along a pass.
func (m *maker) posture(ctx context.Context, at passAt) error {
	shape, p, pass := &m.shapes[at.seam], &m.plan.Seams[at.seam], m.pass(at)
	t := newTrack(p.Way, pass.Aim)
	in, out := m.leaves(shape, t)
	search := m.searchFor(shape, t)
	pass.Aim.Spin = search.wish

	if err := search.withLeaves(ctx, pass, in, out); err != nil {
		return err
	}
	wanted, gave := pass.Aim, gaveNothing
	if pass.Motion == nil && search.clear != nil {
		var err error
		if search, gave, err = m.giveWay(ctx, at); err != nil {
			return err
		}
	}
	found := &m.placed[at.seam][at.pass]
	if pass.Motion == nil {
		*found = []finding.Finding{search.blocked(p, pass)}
	} else {
		*found = append(m.motionFindings(p, search, pass), m.gaveFindings(at, gave, wanted)...)
	}
	spins, tried, err := search.spinsWhole(ctx)
	pass.Reach = search.reachOf(spins, tried)
	return err
}

// withLeaves searches with approach and retreat; an end that the arm cannot
// have is tried shorter, and s.shortened says what was. Only a search that was
// stopped outside the weld is helped by that.
func (s *postureSearch) withLeaves(ctx context.Context, pass *Pass, in, out r3.Vec) (err error) {
	var i, o int // how often each was shortened
	for {
		s.track.in, s.track.out = in.Scale(shorter[i]), out.Scale(shorter[o])
		if pass.Motion, err = s.run(ctx); err != nil || pass.Motion != nil {
			break
		}
		early, late := s.stoppedInAir()
		if early && i < len(shorter)-1 {
			i++
		} else if late && o < len(shorter)-1 {
			o++
		} else {
			break
		}
	}
	var ends []string
	if i > 0 {
		ends = append(ends, fmt.Sprintf("the approach to %s of %s", s.tape(s.track.in.Norm()), s.tape(in.Norm())))
	}
	if o > 0 {
		ends = append(ends, fmt.Sprintf("the retreat to %s of %s", s.tape(s.track.out.Norm()), s.tape(out.Norm())))
	}
	s.shortened = strings.Join(ends, " and ")
	return err
}

// leaves are the tip's displacements to the approach and the retreat: to the
// taught points, or straight back along the wire.
func (m *maker) leaves(shape *seamShape, t *track) (in, out r3.Vec) {
	leave := func(l job.Leave, along float64) r3.Vec {
		end := t.way.At(along).Frame.Encode(t.aim)
		if l.Point != "" {
			return m.tips[l.Point].baseFromTip.P.Sub(end.P)
		}
		return end.R.Z().Scale(-l.Out)
	}
	return leave(shape.doc.Approach, 0), leave(shape.doc.Retreat, t.length)
}

func (m *maker) searchFor(shape *seamShape, t *track) *postureSearch {
	rest := m.restOf(shape)
	search := &postureSearch{
		words: m.words, cell: m.plan.Cell, track: t, home: m.home,
		limitMargin: m.job.Arm.LimitMargin, wristMargin: m.job.Arm.WristMargin,
		axes: m.plan.Cell.Solver.Free(), rest: rest, up: m.plan.Cell.Up(&rest),
		clear: newClearing(m.scene.Model, m.scene.Welding(shape.index), m.scene.Leaving(shape.index)),
	}
	switch aim := &shape.doc.Aim; aim.Spin {
	case job.SpinFixed:
		search.wish, search.fixed = aim.SpinAngle, true
	case job.SpinTaught:
		search.wish, search.free = shape.spin, !shape.spun
	default:
		search.wish, search.free = shape.spin, true
	}
	return search
}

// motionFindings says what the posture search changed, and what is tight.
func (m *maker) motionFindings(s *Seam, search *postureSearch, pass *Pass) []finding.Finding {
	mo, name := pass.Motion, s.PassName(pass)
	var found []finding.Finding
	where := finding.AtSeam(s.Name)
	if search.shortened != "" {
		found = append(found, finding.Newf(finding.ApproachReplaced, where, "%s: shortened %s: the arm cannot have the whole with the posture of the pass", name, search.shortened))
	}
	if mo.LimitMargin < search.limitMargin-angleSlack {
		joint, near := m.plan.Cell.Chain.Joint(mo.LimitJoint), mo.guess(mo.MarginAlong)
		f := finding.Newf(finding.JointLimitMargin, m.at(s.Name, pass.Number, mo.MarginAlong), "%s at %s: %s is %.1f deg from its %s", name, m.tape(mo.MarginAlong), joint.Name, mo.LimitMargin*deg, limitName(joint, near[mo.LimitJoint]))
		found = append(found, f.Values(m.pair(unit.Angle, mo.LimitMargin, search.limitMargin)))
	}
	if mo.WristMargin < search.wristMargin-angleSlack {
		f := finding.Newf(finding.NearSingular, m.at(s.Name, pass.Number, mo.WristAlong), "%s at %s: the wrist is %.1f deg from its singularity", name, m.tape(mo.WristAlong), mo.WristMargin*deg)
		found = append(found, f.Values(m.pair(unit.Angle, mo.WristMargin, search.wristMargin)))
	}
	return append(found, m.spinFindings(s, search, pass)...)
}

func (m *maker) spinFindings(s *Seam, search *postureSearch, pass *Pass) []finding.Finding {
	mo, name := pass.Motion, s.PassName(pass)
	where := finding.AtSeam(s.Name)
	var found []finding.Finding
	start := mo.Stations[mo.First].Spin
	if mo.SpinVaries() {
		end := mo.Stations[mo.Last].Spin
		text := fmt.Sprintf("%s: the torch turns from %.0f to %.0f deg about its wire along the seam; no single spin does better", name, start*deg, end*deg)
		if via := len(mo.Knots) - 2; via > 0 {
			text += fmt.Sprintf("; via points to key in: %d", via)
		}
		found = append(found, finding.New(finding.SpinVaries, where, text))
	} else if off := math.Abs(math.Remainder(start-search.wish, 2*math.Pi)); !search.free && off > angleSlack {
		f := finding.Newf(finding.SpinChanged, where, "%s: the taught spin of %.0f deg does not carry through with the margins asked for; %.0f deg does", name, search.wish*deg, start*deg)
		found = append(found, f.Values(m.pair(unit.Angle, start, search.wish)))
	}
	return found
}
