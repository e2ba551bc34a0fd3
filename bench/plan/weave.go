package plan

import (
	"errors"
	"fmt"
	"math"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/robot/kinematics"
	"seamwright/unit"
	"seamwright/weld/seam"
	"seamwright/weld/section"
	"seamwright/weld/weave"
)

// Weaving is the weave of a pass, which the controller lays over the middle line
// that steps and trace run along, and what it asks of the arm.
type Weaving struct {
	weave.Weave
	Advance   float64 // m of seam in a cycle
	PathRatio float64 // length of the wire's path over that of the seam, dimensionless
	Lateral   float64 // highest speed across the seam, m/s
	// Joint is the one that comes nearest to its speed limit, travel and weave
	// together, or furthest beyond: Speed of Limit, rad/s or m/s, at Along, m of the
	// seam. Speed is 0 where there is no posture.
	Joint               int
	Speed, Limit, Along float64
}

// weaveOf is the weave that the document wishes for a pass, nil for none.
func weaveOf(s *job.Seam, w *job.PassWish) *Weaving {
	wish := s.Weave
	if w.Weave.Wished() || w.Weave.Not {
		wish = w.Weave
	}
	if !wish.Wished() {
		return nil
	}
	return &Weaving{Weave: wish.Weave}
}

// weaving finds what the weave of a pass asks of the arm, and holds it against the
// joints and what is usual.
func (m *maker) weaving(at passAt) error {
	s, pass := &m.plan.Seams[at.seam], m.pass(at)
	w := pass.Weave
	if w == nil {
		return nil
	}
	var err error
	w.Advance = w.Weave.Advance(pass.Size.Travel)
	_, w.Lateral = w.LateralSpeed()
	if w.PathRatio, err = w.Weave.PathRatio(pass.Size.Travel); err != nil {
		return err
	}
	c := weaveCheck{maker: m, seam: s, pass: pass, weave: w, name: s.PassName(pass)}
	if err := c.usual(); err != nil {
		return err
	}
	if pass.Motion != nil {
		if err := c.joints(); err != nil {
			return err
		}
	}
	m.bent[at.seam][at.pass] = append(m.bent[at.seam][at.pass], c.found...)
	return nil
}

// weaveCheck holds the weave of one pass.
type weaveCheck struct {
	*maker
	seam  *Seam
	pass  *Pass
	weave *Weaving
	name  string
	found []finding.Finding
}

// usual holds the weave against what shops use.
func (c *weaveCheck) usual() error {
	use := seam.WeaveUse{Travel: c.pass.Size.Travel, Wire: c.pass.Size.WireDiameter, Position: c.seam.Position.Name(c.job.Code)}
	// The bead's width is that of its metal as it lies, which the weave spreads.
	use.Bead = max(0, c.beadWidth()-2*c.weave.Amplitude)
	breaches, err := seam.WeaveAgainst(c.weave.Weave, use)
	if err != nil {
		return err
	}
	for _, b := range breaches {
		f := finding.Newf(finding.WeaveUnusual, finding.AtSeam(c.seam.Name), "%s: %s %s, %s is usual", c.name, b.What, b.Found, b.Allowed)
		c.found = append(c.found, f.Mend("%s", b.Mend).From(b.Source.String()))
	}
	return nil
}

// beadWidth is the width of the pass's bead as it lies in its section, m; 0 where
// that is not known.
func (c *weaveCheck) beadWidth() float64 {
	size := &c.pass.Size
	if c.seam.Section != nil {
		return c.seam.Section.Passes[c.pass.Number-1].Width()
	}
	if f, err := section.New(size.Included, size.LegBase, size.LegOther); err == nil && size.LegBase > 0 {
		return f.FaceWidth()
	}
	return 0
}

// weaveRound is the part of the amplitude over which an arm rounds the turn of a
// triangle, dimensionless. Own judgement: a controller blends about so much.
const weaveRound = 0.2

// joints solves for both edges of the weave all along the pass and holds the speed
// that travel and weave ask of each joint together against what it can do.
func (c *weaveCheck) joints() error {
	mo, w := c.pass.Motion, c.weave
	accel, err := w.LateralAcceleration(weaveRound * w.Amplitude)
	if err != nil {
		return err
	}
	worst, gather := 0.0, jointLoad{}
	for i := mo.First; i <= mo.Last; i++ {
		perMetre, err := c.perMetre(&mo.Stations[i])
		if err != nil {
			f := finding.Newf(finding.WeaveSpeed, c.at(c.seam.Name, c.pass.Number, mo.Stations[i].Arc), "%s at %s: %v", c.name, c.tape(mo.Stations[i].Arc), err)
			c.found = append(c.found, f.Mend("weave less wide"))
			return nil
		}
		along := mo.alongRate(i, c.pass.Size.Travel, c.plan.Cell.Chain.N())
		for j := range c.limits {
			limit := &c.limits[j]
			if load := (perMetre[j]*w.Lateral + along[j]) / limit.Speed; load > worst {
				worst, w.Joint, w.Speed, w.Limit, w.Along = load, j, load*limit.Speed, limit.Speed, mo.Stations[i].Arc
			}
			gather.take(perMetre[j]*accel, limit.Accel, j, mo.Stations[i].Arc)
		}
	}
	c.tooFast(worst)
	c.tooSudden(gather)
	return nil
}

// jointLoad is the highest share of a limit that is asked of a joint.
type jointLoad struct {
	share, asked, limit float64
	joint               int
	along               float64 // m
}

func (l *jointLoad) take(asked, limit float64, joint int, along float64) {
	if share := asked / limit; share > l.share {
		*l = jointLoad{share, asked, limit, joint, along}
	}
}

// errEdge says that an edge of the weave cannot be had.
var errEdge = errors.New("the arm cannot have the edge of the weave in the posture of the pass")

// perMetre is how far each joint moves (rad or m) for a metre across the seam at a
// station, the larger of both sides.
func (c *weaveCheck) perMetre(st *Station) (kinematics.Q, error) {
	var out kinematics.Q
	place := c.seam.Way.At(st.Along)
	across := place.Frame.WeaveAcross(c.weave.Weave, c.pass.Aim)
	n := c.plan.Cell.Chain.N()
	for _, side := range []float64{-1, 1} {
		pose, q := st.BaseFromTip, st.Q
		pose.P = pose.P.AddScaled(side*c.weave.Amplitude, across)
		if !c.plan.Cell.SolveNear(pose, &q) || farthest(&q, &st.Q, n) > followMost || !c.withinLimits(&q) {
			return out, errEdge
		}
		for j := range n {
			out[j] = max(out[j], math.Abs(q[j]-st.Q[j])/c.weave.Amplitude)
		}
	}
	return out, nil
}

// withinLimits reports whether every joint is inside its limits.
func (c *weaveCheck) withinLimits(q *kinematics.Q) bool {
	for j := range c.plan.Cell.Chain.N() {
		if joint := c.plan.Cell.Chain.Joint(j); q[j] < joint.Lower || q[j] > joint.Upper {
			return false
		}
	}
	return true
}

// alongRate is the speed of each joint (rad/s or m/s) about a station at a travel
// speed (m/s) along the way, the larger of both sides.
func (m *Motion) alongRate(i int, travel float64, n int) kinematics.Q {
	var out kinematics.Q
	for _, k := range []int{i - 1, i} {
		if k < m.First || k+1 > m.Last {
			continue
		}
		a, b := &m.Stations[k], &m.Stations[k+1]
		if b.Along <= a.Along {
			continue
		}
		for j := range n {
			out[j] = max(out[j], math.Abs(b.Q[j]-a.Q[j])/(b.Along-a.Along)*travel)
		}
	}
	return out
}

// tooFast reports a joint that cannot follow travel and weave together.
func (c *weaveCheck) tooFast(load float64) {
	w := c.weave
	if load <= 1 {
		return
	}
	joint := c.plan.Cell.Chain.Joint(w.Joint)
	kind := jointSpeedKind(joint)
	asked, limit, in := c.pair(kind, w.Speed, w.Limit)
	f := finding.Newf(finding.WeaveSpeed, c.at(c.seam.Name, c.pass.Number, w.Along),
		"%s at %s: travel and a weave of %s at %.3g Hz together ask %s %s of %s, it can do %s",
		c.name, c.tape(w.Along), c.say(asSize, w.Amplitude), w.Frequency, threeDigits(asked), in, joint.Name, threeDigits(limit))
	most := w.Frequency / load
	c.found = append(c.found, f.Values(asked, limit, in).Mend("weave at %.3g Hz at most, or less wide", math.Floor(most*20)/20))
}

// tooSudden reports a joint that cannot turn round as fast as the weave asks: the
// arm then rounds the weave off.
func (c *weaveCheck) tooSudden(l jointLoad) {
	if l.share <= 1 {
		return
	}
	joint := c.plan.Cell.Chain.Joint(l.joint)
	kind := unit.AngularAcceleration
	if joint.Kind == kinematics.Prismatic {
		kind = unit.Acceleration
	}
	asked, limit, in := c.pair(kind, l.asked, l.limit)
	f := finding.Newf(finding.WeaveSpeed, c.at(c.seam.Name, c.pass.Number, l.along),
		"%s at %s: turning round at the edges of the weave asks %s %s of %s, it can do %s: the weave comes out narrower than planned",
		c.name, c.tape(l.along), threeDigits(asked), in, joint.Name, threeDigits(limit))
	c.found = append(c.found, f.As(finding.Caution).Values(asked, limit, in).Mend("weave slower or less wide, or look at its width in the dry run"))
}

// jointSpeedKind is what a joint's speed is.
func jointSpeedKind(j kinematics.Joint) unit.Kind {
	if j.Kind == kinematics.Prismatic {
		return unit.Speed
	}
	return unit.AngularSpeed
}

// Text says the weave in a line: "triangle, 2.0 mm either way, 1.2 Hz, 3.2 mm in a
// cycle".
func (w *Weaving) Text(system unit.System) string {
	say := words{system}
	text := fmt.Sprintf("%v, %s either way, %.3g Hz, %s in a cycle", w.Shape, say.say(asSize, w.Amplitude), w.Frequency, say.say(asSize, w.Advance))
	if w.DwellLeft > 0 || w.DwellRight > 0 {
		text += fmt.Sprintf(", dwell %.2g s left and %.2g s right", w.DwellLeft, w.DwellRight)
	}
	if w.DwellCentre > 0 {
		text += fmt.Sprintf(", %.2g s in the middle", w.DwellCentre)
	}
	return text
}
