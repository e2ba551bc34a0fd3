package export

import (
	"seamwright/bench/job"
	"seamwright/bench/plan"
	"seamwright/geom/curve"
	"seamwright/geom/se3"
	"seamwright/weld/seam"
)

// newPath takes the path of a seam apart.
func newPath(s *seam.Seam) []pieceDoc {
	chain, ok := s.Path().(curve.Chain)
	if !ok {
		return []pieceDoc{newPiece(s, s.Path(), 0)}
	}
	var pieces []pieceDoc
	begin := 0.0
	for i, piece := range chain.Pieces() {
		d := newPiece(s, piece, begin)
		start := newFrame(s.At(begin))
		d.Start = &start
		pieces = append(pieces, d)
		begin = chain.Ends()[i]
	}
	return pieces
}

// Spacing of the joints that are told along a curve, m: at most jointStep apart,
// and chords within jointChord of it.
const (
	jointStep  = 10e-3
	jointChord = 0.01e-3
)

// newPiece describes a piece of a seam's path that begins at an arc length (m).
func newPiece(s *seam.Seam, c curve.Curve, begin float64) pieceDoc {
	from, _ := c.At(0)
	to, _ := c.At(c.Length())
	d := pieceDoc{Kind: "line", Length: r6(c.Length() * mm), From: vec(from), To: vec(to)}
	switch c := c.(type) {
	case curve.Arc:
		centre, axis, radius, sweep := vec(c.Centre()), vec(c.Axis()), r6(c.Radius()*mm), r6(c.Sweep()*deg)
		d.Kind, d.Centre, d.Axis, d.Radius, d.Sweep = "arc", &centre, &axis, &radius, &sweep
		if !turnsRound(s, c, begin) {
			d.Joints = jointsAlong(s, c, begin)
		}
	case curve.Smooth:
		d.Kind, d.Joints = "curve", jointsAlong(s, c, begin)
	}
	return d
}

// turnsRound reports whether the joint along an arc that begins at an arc length
// (m) is that of its start, turned about the arc's axis. It is not where the arc
// lies askew to the plates, as one does between sides that were touched.
func turnsRound(s *seam.Seam, c curve.Arc, begin float64) bool {
	const same = 1e-7 // rad: under the last printed digit of an angle
	for _, part := range []float64{0.5, 1} {
		along := part * c.Length()
		start, there := s.At(begin), s.Arriving(begin+along)
		turn := se3.RotAxis(c.Axis(), along/c.Radius())
		if turn.Apply(start.T).Dist(there.T) > same || turn.Apply(start.M).Dist(there.M) > same || turn.Apply(start.B).Dist(there.B) > same {
			return false
		}
	}
	return true
}

// jointsAlong tells the joint along a piece that begins at an arc length (m).
func jointsAlong(s *seam.Seam, c curve.Curve, begin float64) []frameDoc {
	at, err := curve.Stations(c, jointStep, jointChord)
	if err != nil { // more than a million: no seam is so long
		at = []float64{0, c.Length()}
	}
	var list []frameDoc
	for i, along := range at {
		f := s.At(begin + along)
		if i == len(at)-1 {
			f = s.Arriving(begin + along)
		}
		list = append(list, newFrame(f))
	}
	return list
}

func newFrame(f seam.Frame) frameDoc {
	return frameDoc{
		Origin: vec(f.Origin), Travel: vec(f.T), Normal: vec(f.M), Open: vec(f.B),
		Included: r6(f.Included * deg),
	}
}

func newSeam(j *job.Job, p *plan.Plan, s *plan.Seam) seamDoc {
	limit := s.Position.Limit(j.Code)
	d := seamDoc{
		Name: s.Name, Joint: s.Geometry.Joint().String(),
		Length: r6(s.Length * mm), FitResidual: r6(s.FitResidual * mm),
		Path: newPath(s.Geometry),
		Position: positionDoc{
			ISO: s.Position.ISO.String(), AWS: s.Position.AWS.String(),
			Inclination: r6(s.Position.Inclination * deg), Tilt: r6(s.Position.Tilt * deg),
			Margin: r6(limit.Distance * deg), Beyond: limit.Beyond.String(),
		},
		Start:  newFrame(s.Geometry.At(0)),
		End:    newFrame(s.Geometry.At(s.Length)),
		Taught: []taughtDoc{}, Symbol: newSymbol(j, s), Section: newSection(s), Passes: []passDoc{},
	}
	for _, l := range s.Lies {
		d.Lies = append(d.Lies, lieDoc{r6(l.Along * mm), l.Position.ISO.String(), l.Position.AWS.String()})
	}
	for _, t := range s.Taught {
		d.Taught = append(d.Taught, taughtDoc{
			Label: t.Label, Role: string(t.Role),
			Along: r6(t.Along * mm), Across: r6(t.Across * mm), AcrossBase: r6(t.AcrossBase * mm), AcrossFace: r6(t.AcrossFace * mm),
			Work: r6(t.Work * deg), Travel: r6(t.Travel * deg), Spin: r6(t.Spin * deg),
			WantedWork: r6(t.WantedWork * deg), WantedTravel: r6(t.WantedTravel * deg), WantedSpin: r6(t.WantedSpin * deg),
			Pose: newPose(t.BaseFromTip), Wanted: newPose(t.Wanted),
		})
	}
	for i := range s.Passes {
		d.Passes = append(d.Passes, newPass(j, p, s, &s.Passes[i]))
	}
	return d
}

func newPass(j *job.Job, p *plan.Plan, s *plan.Seam, pass *plan.Pass) passDoc {
	n := p.Cell.Chain.N()
	d := passDoc{
		Number: pass.Number, Work: r6(s.Way.At(0).Frame.WorkOf(pass.Aim) * deg), Travel: r6(pass.Aim.Travel * deg), Offset: r6(pass.Aim.Offset * mm), Above: r6(pass.Above * mm),
		Distance: r6(pass.TipDistance(j.Torch.ContactTipDistance()) * mm),
		Size:     newSize(pass.Size),
		Reach: reachDoc{
			Whole: pass.Reach.Whole, From: r6(pass.Reach.From * mm), To: r6(pass.Reach.To * mm), StopsAt: r6(pass.Reach.StopsAt * mm),
			SpinsWhole: pass.Reach.Spins, SpinsTried: pass.Reach.Tried,
		},
	}
	if pass.Aim.FromBisector {
		off := r6(pass.Aim.Work * deg)
		d.Bisector = &off
	}
	if pass.Role != 0 {
		d.Role, d.Layer = pass.Role.String(), pass.Layer
	}
	d.Clear = newClearances(pass.Clear)
	d.Held, d.Heat, d.Room = newHeld(pass.Held), newHeat(&pass.Heat), newRoom(pass.Room)
	d.Weave, d.Profile = newWeave(p, pass.Weave), newProfile(pass.Profile)
	if m := pass.Motion; m != nil {
		d.Margins = &marginsDoc{
			Limit: r6(m.LimitMargin * deg), LimitJoint: p.Cell.Chain.Joint(m.LimitJoint).Name, LimitAlong: r6(m.MarginAlong * mm),
			Wrist: r6(m.WristMargin * deg), WristAlong: r6(m.WristAlong * mm),
			SpinVarying: m.SpinVaries(),
		}
		for _, s := range m.Stations {
			d.Stations = append(d.Stations, stationDoc{Along: r6(s.Arc * mm), Spin: r6(s.Spin * deg), Q: joints(&s.Q, n), Pose: newPose(s.BaseFromTip)})
		}
	}
	return d
}

func newSize(s plan.Size) sizeDoc {
	d := sizeDoc{
		Settings: s.Settings,
		LegBase:  r6(s.LegBase * mm), LegOther: r6(s.LegOther * mm), Throat: r6(s.Throat * mm), Area: r6(s.Area * mm2),
		Travel: r6(s.Travel * mm), Feed: r6(s.Feed * mmin), Wire: r6(s.WireDiameter * mm),
		Volts: s.Volts, Amps: s.Amps, Efficiency: s.Efficiency, Convexity: s.Convexity,
		ArcEnergy: optional(s.ArcEnergy * kjmm), HeatInput: optional(s.HeatInput * kjmm),
		ArcTime: r6(s.ArcTime), StartTime: s.StartTime, CraterTime: s.CraterTime,
	}
	if s.Typed > 0 {
		typed, leg := r6(s.Typed*mm), r6(s.TypedLeg*mm)
		d.Typed, d.TypedLeg = &typed, &leg
	}
	return d
}

func newStep(number int, s *plan.Step, n int) stepDoc {
	d := stepDoc{
		Step: number, Label: s.Label, Seam: s.Seam, Pass: s.Pass, Move: string(s.Move),
		Arc: s.Arc, Settings: s.Settings, Pose: newPose(s.Pose), Q: joints(&s.Q, n),
		Work: optional(s.Work * deg), Travel: optional(s.Travel * deg),
	}
	if s.Wait > 0 {
		d.Wait = optional(s.Wait)
	}
	switch {
	case s.Move == plan.MoveJoint:
		d.Percent = optional(s.Percent)
	case s.Turn > 0:
		d.Turn = optional(s.Turn * deg)
	default:
		d.Speed = optional(s.Speed * mm)
	}
	return d
}
