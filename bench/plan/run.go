package plan

import (
	"context"
	"fmt"
	"math"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// Spacing of the trace and of the samples that times are computed from.
const (
	traceAir   = 20e-3 // s between samples in the air
	traceWeld  = 2e-3  // m between samples on a seam
	traceDwell = 0.1   // s between samples at arc start and crater
)

// runner strings the passes together from home to home.
type runner struct {
	words
	job    *job.Job
	plan   *Plan
	tips   tips
	limits []motion.LawLimits
	scene  *scene.Scene

	planner motion.AirPlanner

	now     float64      // s
	arm     kinematics.Q // where the arm stands
	found   []finding.Finding
	airTime float64
	lit     []litPass // passes that are welded, in order
	part    partOfRun // what is being done
}

// run makes steps, trace and times of every seam that has a motion.
func (m *maker) run(ctx context.Context) error {
	if !m.homeOK {
		return nil
	}
	r := runner{words: m.words, job: m.job, plan: m.plan, tips: m.tips, limits: m.limits, scene: m.scene, arm: m.home}
	r.step(Step{Label: m.job.Home, Move: MoveJoint, Percent: r.job.Air.JointPercent, Q: r.arm, Work: math.NaN(), Travel: math.NaN()})
	r.sample(Sample{Along: math.NaN(), Q: r.arm})
	for i := range m.plan.Seams {
		s := &m.plan.Seams[i]
		for k := range s.Passes {
			if s.Passes[k].Motion == nil {
				r.found = append(r.found, finding.Newf(finding.RunIncomplete, finding.AtSeam(s.Name), "%s is left out of the run: no posture carries through it", s.PassName(&s.Passes[k])))
				continue
			}
			r.part.at = passAt{i, k}
			r.start(s, &s.Passes[k])
			if err := r.pass(ctx, m.shapes[i].doc, s, &s.Passes[k]); err != nil {
				return fmt.Errorf("%s: %w", s.PassName(&s.Passes[k]), err)
			}
		}
	}
	r.part = partOfRun{home: true}
	if err := r.airMove(ctx, m.home, Step{Label: m.job.Home}); err != nil {
		return err
	}
	m.plan.Times.Total = r.now
	m.plan.Times.Air = r.airTime
	m.plan.Times.Arc = r.now - r.airTime - m.plan.Times.Wait
	m.moved = r.found
	return nil
}

// nearestTurns returns the motion shifted by whole turns of its joints, as far
// as they fit the limits, so that it starts nearest to the joint values from.
// Held are the joints that could not have the nearest turn.
func (m *Motion) nearestTurns(from *kinematics.Q) (moved *Motion, held []int) {
	var shift kinematics.Q
	shifted := false
	for j, turns := range m.turns {
		nearest := int(math.Round((from[j] - m.Stations[0].Q[j]) / (2 * math.Pi)))
		k := max(turns.Lo, min(turns.Hi, nearest))
		if k != nearest {
			held = append(held, j)
		}
		shift[j] = 2 * math.Pi * float64(k)
		shifted = shifted || k != 0
	}
	if !shifted {
		return m, held
	}
	copied := *m
	copied.Stations = append([]Station(nil), m.Stations...)
	for i := range copied.Stations {
		for j := range shift {
			copied.Stations[i].Q[j] += shift[j]
		}
	}
	return &copied, held
}

// start puts a pass at the whole turns nearest to where the arm comes from,
// and says where the limits ask for others.
func (r *runner) start(s *Seam, p *Pass) {
	if p.Motion.begun {
		return
	}
	var held []int
	p.Motion, held = p.Motion.nearestTurns(&r.arm)
	if len(held) == 0 {
		return
	}
	var starts []string
	for _, j := range held {
		starts = append(starts, fmt.Sprintf("%s at %.0f deg", r.plan.Cell.Chain.Joint(j).Name, p.Motion.Stations[0].Q[j]*deg))
	}
	r.found = append(r.found, finding.Newf(finding.WindingStart, finding.AtSeam(s.Name),
		"%s must start with %s: from the turn nearest to where the arm comes from a limit would stop it", s.PassName(p), strings.Join(starts, " and ")))
}

// pass runs one pass: to the approach, in, along the seam with the arc on, out.
func (r *runner) pass(ctx context.Context, doc *job.Seam, s *Seam, p *Pass) error {
	m := p.Motion
	first := &m.Stations[0]
	label := func(what string) string { return s.PassName(p) + " " + what }
	leg := leg{runner: r, seam: s, pass: p, motion: m}
	if err := r.through(ctx, doc, p.Number); err != nil {
		return err
	}
	if err := r.airMove(ctx, first.Q, Step{Label: label("approach"), Seam: s.Name, Pass: p.Number}); err != nil {
		return err
	}
	if err := r.cool(s, p); err != nil {
		return err
	}
	r.lit = append(r.lit, litPass{seam: s, pass: p})
	if m.First > 0 {
		if err := leg.air(m.laws.in, first.Along, Step{Label: label("weld start"), Arc: "on", Settings: p.Size.Settings}); err != nil {
			return err
		}
	} else {
		r.arcOn(p.Size.Settings)
	}
	r.lit[len(r.lit)-1].on = r.now
	leg.dwell(p.Size.StartTime, 0)
	if err := leg.weld(); err != nil {
		return err
	}
	leg.dwell(p.Size.CraterTime, s.Length)
	r.lit[len(r.lit)-1].off = r.now
	if m.Last < len(m.Stations)-1 {
		return leg.air(m.laws.out, s.Way.Length(), Step{Label: label("retreat")})
	}
	return nil
}

// through passes the points that the document puts before the approach. A pose
// is passed in the posture nearest to where the arm comes from.
func (r *runner) through(ctx context.Context, doc *job.Seam, pass int) error {
	for _, label := range doc.Through {
		t := r.tips[label]
		q, ok := r.plan.postureNear(t, &r.arm)
		if !ok {
			f := finding.Newf(finding.PointOutsideReach, finding.AtPoint(doc.Name, label), "%s: the arm cannot pass point %q on its way to the approach; the run leaves it out", doc.Name, label)
			r.found = append(r.found, f.As(finding.Stop))
			continue
		}
		if err := r.airMove(ctx, q, Step{Label: label, Seam: doc.Name, Pass: pass}); err != nil {
			return err
		}
	}
	return nil
}

// arcOn lights the arc at the last step, where no approach leads to the start.
func (r *runner) arcOn(settings string) {
	last := &r.plan.Steps[len(r.plan.Steps)-1]
	last.Arc, last.Settings = "on", settings
}

func (r *runner) step(s Step) {
	s.Pose = r.plan.Cell.BaseFromTip(&s.Q)
	r.plan.Steps = append(r.plan.Steps, s)
}

// sample adds an instant to the trace. Two at the same time are one: the one
// on the seam.
func (r *runner) sample(s Sample) {
	s.T, s.part, s.Clearance = r.now, r.part, math.NaN()
	s.Pose = r.plan.Cell.BaseFromTip(&s.Q)
	trace := r.plan.Trace
	if n := len(trace); n > 0 && s.T-trace[n-1].T < 1e-9 {
		if s.Arc {
			trace[n-1] = s
		}
		return
	}
	r.plan.Trace = append(trace, s)
}

// jointMove moves all joints together to q.
func (r *runner) jointMove(q kinematics.Q, s Step) error {
	move, err := motion.NewJointMove(motion.MoveRequest{From: r.arm, To: q, Limits: r.limits, SpeedPercent: r.job.Air.JointPercent})
	if err != nil {
		return err
	}
	start := r.now
	r.part.phase = inAir
	for _, t := range motion.Times(move.Duration(), traceAir)[1:] {
		at, speed, _ := move.At(t)
		if t >= move.Duration() {
			at = q // to the last digit
		}
		r.now = start + t
		r.sample(Sample{Seam: s.Seam, Pass: s.Pass, Along: math.NaN(), Q: at, Speed: r.tipSpeed(&at, &speed)})
	}
	r.now = start + move.Duration()
	r.airTime += move.Duration()
	r.arm = q
	s.Move, s.Percent, s.Q, s.Work, s.Travel = MoveJoint, r.job.Air.JointPercent, q, math.NaN(), math.NaN()
	r.step(s)
	return nil
}

// tipSpeed is the speed of the wire tip, m/s, when the joints move.
func (r *runner) tipSpeed(q, qd *kinematics.Q) float64 {
	c := r.plan.Cell
	var j kinematics.Jacobian
	pose := c.BaseFromTip(q)
	flange := pose.Mul(c.FlangeFromTip.Inv())
	c.Chain.Jacobian(q, &flange, &j)
	lever := pose.P.Sub(flange.P)
	var v, w [3]float64
	for i := range c.Chain.N() {
		for k := range 3 {
			v[k] += j[k][i] * qd[i]
			w[k] += j[k+3][i] * qd[i]
		}
	}
	x := v[0] + w[1]*lever.Z - w[2]*lever.Y
	y := v[1] + w[2]*lever.X - w[0]*lever.Z
	z := v[2] + w[0]*lever.Y - w[1]*lever.X
	return math.Sqrt(x*x + y*y + z*z)
}
