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
)

const deg = 180 / math.Pi // degrees in a radian, for messages

// checkPoints looks at every taught point as a number: places that coincide,
// places that look like another unit, postures outside the limits.
func checkPoints(j *job.Job, p *Plan, all tips) []finding.Finding {
	var found []finding.Finding
	found = append(found, checkUnits(j, p, all)...)
	for i := range j.Points {
		found = append(found, checkJoints(p, &j.Points[i])...)
		found = append(found, checkPercent(&j.Points[i])...)
	}
	return append(found, checkDoubles(j, all)...)
}

// checkPercent holds a taught share of joint speed against 1 to 100: a field
// that nothing checks at the machine.
func checkPercent(p *job.Point) []finding.Finding {
	const least, full = 1, 100
	if p.Percent == 0 || p.Percent >= least && p.Percent <= full {
		return nil
	}
	limit := float64(full)
	if p.Percent < least {
		limit = least
	}
	f := finding.Newf(finding.SpeedOverFull, finding.AtPoint("", p.Label), "%s is reached at %g percent of joint speed", name(p), p.Percent)
	return []finding.Finding{f.Values(p.Percent, limit, "percent")}
}

// checkDoubles finds points at the same place: each is held against those
// before it along x that are near enough.
func checkDoubles(j *job.Job, all tips) []finding.Finding {
	at := make([]r3.Vec, len(j.Points))
	order := make([]int, len(j.Points))
	for i := range j.Points {
		at[i], order[i] = all[j.Points[i].Label].baseFromTip.P, i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(at[a].X, at[b].X) })
	var pairs [][2]int
	for n, i := range order {
		for m := n - 1; m >= 0 && at[i].X-at[order[m]].X < samePlace; m-- {
			k := order[m]
			if j.Points[i].Label != j.Points[k].Label && at[i].Dist(at[k]) < samePlace {
				pairs = append(pairs, [2]int{min(i, k), max(i, k)})
			}
		}
	}
	slices.SortFunc(pairs, func(a, b [2]int) int { return cmp.Or(cmp.Compare(a[0], b[0]), cmp.Compare(a[1], b[1])) })
	var found []finding.Finding
	for _, pair := range pairs {
		a, b := &j.Points[pair[0]], &j.Points[pair[1]]
		f := finding.Newf(finding.DuplicatePoint, finding.AtPoint("", b.Label), "%s stands where %s does", name(b), name(a))
		found = append(found, f.Values(at[pair[0]].Dist(at[pair[1]])*1e3, samePlace*1e3, "mm"))
	}
	return found
}

func checkJoints(p *Plan, point *job.Point) []finding.Finding {
	if point.HasPose {
		return nil
	}
	var found []finding.Finding
	for i, v := range point.Joints {
		joint := p.Cell.Chain.Joint(i)
		out := max(joint.Lower-v, v-joint.Upper)
		if out <= 0 {
			continue
		}
		limit := joint.Upper
		if v < joint.Lower {
			limit = joint.Lower
		}
		f := finding.Newf(finding.TaughtJointsOutside, finding.AtPoint("", point.Label),
			"%s has %s at %.1f deg, %.1f deg outside its limit", name(point), joint.Name, v*deg, out*deg)
		if math.Abs(v*deg) > 360 && math.Abs(v) <= 360 {
			f = f.Mend("the number reads like degrees: check `points.joints`")
		}
		found = append(found, f.Values(v*deg, limit*deg, "deg"))
	}
	return found
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

// checkUnits asks the arm whether it can have each taught pose. A pose out of
// reach or inside the arm's column that comes into reach when its lengths are
// read in another unit is called a slip of units, any other only unreachable.
func checkUnits(j *job.Job, p *Plan, all tips) []finding.Finding {
	var found []finding.Finding
	for i := range j.Points {
		point := &j.Points[i]
		if !point.HasTurn {
			continue // joint values are a posture; a place alone has no torch
		}
		pose := all[point.Label].baseFromTip
		missing, ok := p.reaches(pose)
		if ok && pose.P.Norm() >= inFoot {
			continue
		}
		where := finding.AtPoint("", point.Label)
		if slip, factor := p.unitSlip(pose); slip != "" {
			f := finding.Newf(finding.UnitsSuspect, where, "%s lies %.1f mm from the arm's foot; read in the other unit it would lie %.0f mm away", name(point), pose.P.Norm()*1e3, pose.P.Norm()*factor*1e3)
			found = append(found, f.Values(pose.P.Norm()*1e3, pose.P.Norm()*factor*1e3, "mm").Mend("check `points.length`: %s may have been taken for each other", slip))
			continue
		}
		if ok {
			continue
		}
		f := finding.Newf(finding.PointOutsideReach, where, "%s cannot be had by this arm as taught", name(point))
		if missing > 0 {
			f = finding.Newf(finding.PointOutsideReach, where, "%s lies %.0f mm out of this arm's reach", name(point), missing*1e3).Values(missing*1e3, 0, "mm")
		}
		found = append(found, f)
	}
	return found
}

// reaches reports whether any posture has the tip at the pose, and if the arm
// is too short or too long for it, by how much (m).
func (p *Plan) reaches(baseFromTip se3.Pose) (missing float64, ok bool) {
	var s kinematics.Solutions
	p.Cell.Solve(baseFromTip, nil, &s)
	if s.Status == kinematics.OutOfReach && s.Reach != kinematics.WrongAttitude {
		missing = s.Missing
	}
	return missing, s.N > 0
}

func (p *Plan) unitSlip(pose se3.Pose) (slip string, factor float64) {
	for _, u := range unitFactors {
		for _, f := range []float64{u.factor, 1 / u.factor} {
			scaled := pose
			scaled.P = scaled.P.Scale(f)
			if _, ok := p.reaches(scaled); ok && scaled.P.Norm() >= worked {
				return u.slip, f
			}
		}
	}
	return "", 0
}
