package plan

import (
	"cmp"
	"math"
	"slices"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// pointsCheck looks at every taught point as a number: places that coincide,
// places that look like another unit, postures outside the limits.
type pointsCheck struct {
	words
	job   *job.Job
	plan  *Plan
	tips  tips
	found []finding.Finding
}

func checkPoints(j *job.Job, p *Plan, all tips) []finding.Finding {
	c := pointsCheck{words: wordsOf(j), job: j, plan: p, tips: all}
	for i := range j.Points {
		c.reach(&j.Points[i])
	}
	for i := range j.Points {
		c.joints(&j.Points[i])
		c.percent(&j.Points[i])
	}
	c.doubles()
	return c.found
}

func (c *pointsCheck) add(f finding.Finding) { c.found = append(c.found, f) }

// percent holds a taught share of joint speed against 1 to 100: a field that
// nothing checks at the machine.
func (c *pointsCheck) percent(p *job.Point) {
	const least, full = 1, 100
	if p.Percent == 0 || p.Percent >= least && p.Percent <= full {
		return
	}
	limit := float64(full)
	if p.Percent < least {
		limit = least
	}
	f := finding.Newf(finding.SpeedOverFull, finding.AtPoint("", p.Label), "%s is reached at %g percent of joint speed", name(p), p.Percent)
	c.add(f.Values(p.Percent, limit, "percent"))
}

// doubles finds points at the same place: each is held against those before it
// along x that are near enough.
func (c *pointsCheck) doubles() {
	points := c.job.Points
	at := make([]r3.Vec, len(points))
	order := make([]int, len(points))
	for i := range points {
		at[i], order[i] = c.tips[points[i].Label].baseFromTip.P, i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(at[a].X, at[b].X) })
	var pairs [][2]int
	for n, i := range order {
		for m := n - 1; m >= 0 && at[i].X-at[order[m]].X < samePlace; m-- {
			k := order[m]
			if points[i].Label != points[k].Label && at[i].Dist(at[k]) < samePlace {
				pairs = append(pairs, [2]int{min(i, k), max(i, k)})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	for _, pair := range pairs {
		a, b := &points[pair[0]], &points[pair[1]]
		f := finding.Newf(finding.DuplicatePoint, finding.AtPoint("", b.Label), "%s stands where %s does", name(b), name(a))
		c.add(f.Values(c.pair(unit.Length, at[pair[0]].Dist(at[pair[1]]), samePlace)))
	}
}

// joints holds taught joint values against the arm's limits.
func (c *pointsCheck) joints(p *job.Point) {
	if p.HasPose {
		return
	}
	for i, v := range p.Joints {
		joint := c.plan.Cell.Chain.Joint(i)
		out := max(joint.Lower-v, v-joint.Upper)
		if out <= 0 {
			continue
		}
		f := finding.Newf(finding.TaughtJointsOutside, finding.AtPoint("", p.Label),
			"%s has %s at %s, %s outside its %s", name(p), joint.Name, c.jointValue(joint, v), c.jointValue(joint, out), limitName(joint, v))
		if joint.Kind != kinematics.Prismatic && math.Abs(v*deg) > 360 && math.Abs(v) <= 360 {
			f = f.Mend("the number reads like degrees: check `points.joints`")
		}
		c.add(f.Values(c.pair(jointKind(joint), v, nearLimit(joint, v))))
	}
}

// unitFactors are what numbers are off by when one of the units of points is
// taken for another. Centimetres are not among them: a tenth of nearly every
// place out of reach is in reach.
var unitFactors = []struct {
	factor float64
	slip   string
}{
	{25.4, "inches and millimetres"}, {1000, "metres and millimetres"},
}

// Distances (m) from the arm's foot. Nearer than inFoot a tip would stand inside
// the arm's own column: 1.5 m read as inches come to 59 mm. Nearer than worked
// nobody welds, so that is not what another unit would mean. Common practice, no
// source.
const (
	inFoot = 60e-3
	worked = 150e-3
)

// reach asks the arm whether it can have a taught pose. A pose out of reach or
// inside the arm's column that comes into reach when its lengths are read in
// another unit is called a slip of units, any other only unreachable.
func (c *pointsCheck) reach(p *job.Point) {
	if !p.HasTurn {
		return // joint values are a posture; a place alone has no torch
	}
	taught := c.tips[p.Label]
	stood := taught.stood()
	footFromTip := c.plan.Cell.BaseFromFoot(&stood).Inv().Mul(taught.baseFromTip)
	from := footFromTip.P.Norm()
	missing, ok := c.plan.reaches(footFromTip, &stood)
	if ok && from >= inFoot {
		return
	}
	where := finding.AtPoint("", p.Label)
	if slip, factor := c.plan.unitSlip(footFromTip, &stood); slip != "" {
		f := finding.Newf(finding.UnitsSuspect, where, "%s lies %s from the arm's foot; read in the other unit it would lie %s away", name(p), c.say(asPlace, from), c.tape(from*factor))
		c.add(f.Values(c.pair(unit.Length, from, from*factor)).Mend("check `points.length`: %s may have been taken for each other", slip))
		return
	}
	switch {
	case ok:
	case missing > 0:
		f := finding.Newf(finding.PointOutsideReach, where, "%s lies %s out of this arm's reach", name(p), c.tape(missing))
		c.add(f.Values(c.pair(unit.Length, missing, 0)))
	default:
		c.add(finding.Newf(finding.PointOutsideReach, where, "%s cannot be had by this arm as taught", name(p)))
	}
}

// reaches reports whether any posture has the tip at the pose, seen from the
// arm's foot, with the table as it stood, and if the arm is too short or too long
// for it, by how much (m) at least.
func (p *Plan) reaches(footFromTip se3.Pose, stood *kinematics.Q) (missing float64, ok bool) {
	var s kinematics.Solutions
	baseFromTip := p.Cell.BaseFromFoot(stood).Mul(footFromTip)
	missing = math.Inf(1)
	for held := range p.Cell.Choices(stood) {
		p.Cell.SolveHeld(&held, baseFromTip, nil, &s)
		switch {
		case s.N > 0:
			return 0, true
		case s.Status == kinematics.OutOfReach && s.Reach != kinematics.WrongAttitude:
			missing = min(missing, s.Missing)
		default:
			missing = 0
		}
	}
	return missing, false
}

// unitSlip returns the two units of which one taken for the other would explain
// a pose that the arm cannot have, and the factor that sets it right; "" for
// none.
func (p *Plan) unitSlip(footFromTip se3.Pose, stood *kinematics.Q) (slip string, factor float64) {
	for _, u := range unitFactors {
		for _, f := range []float64{u.factor, 1 / u.factor} {
			scaled := footFromTip
			scaled.P = scaled.P.Scale(f)
			if _, ok := p.reaches(scaled, stood); ok && scaled.P.Norm() >= worked {
				return u.slip, f
			}
		}
	}
	return "", 0
}
