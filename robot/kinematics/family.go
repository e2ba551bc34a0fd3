package kinematics

import (
	"fmt"
	"math"
	"strings"

	"seamwright/geom/r3"
)

// Family is a class of six-joint arms whose inverse has a closed form.
type Family uint8

// The families that NewSolver recognises.
const (
	SphericalWrist Family = iota + 1 // axes 4, 5, 6 meet in a point, axes 2 and 3 parallel
	ThreeParallel                    // axes 2, 3, 4 parallel, axes 5 and 6 meet in a point
)

// String returns the family in words.
func (f Family) String() string {
	switch f {
	case SphericalWrist:
		return "spherical wrist, axes 2 and 3 parallel"
	case ThreeParallel:
		return "axes 2, 3 and 4 parallel, axes 5 and 6 intersecting"
	}
	return "unknown"
}

// Tolerances of recognition.
const (
	// exactAngle (rad) and exactLength (m): within these a condition holds as
	// far as double precision is concerned, and the closed form needs no
	// correction.
	exactAngle  = 1e-12
	exactLength = 1e-12
	// roundedAngle (rad) and roundedLength (m): files often write a right
	// angle as 1.5708 (off by 4e-6) and lengths to 0.01 mm. Up to here the
	// closed form of the nearest true member starts Newton's method on the
	// arm as the file has it.
	roundedAngle  = 1e-5
	roundedLength = 1e-5
	// leastAngle (rad) and leastLength (m): a bend or link shorter than this
	// leaves a joint without a task of its own.
	leastAngle  = 0.02
	leastLength = 1e-3
)

// condition is one geometric demand of a family: what was measured, in rad or
// m, and whether that fits.
type condition struct {
	words string
	value float64
	unit  string
	ok    bool
	exact bool
}

func isParallel(name string, a, b line) condition {
	v := math.Atan2(a.dir.Cross(b.dir).Norm(), math.Abs(a.dir.Dot(b.dir)))
	return condition{name + " must be parallel", v, "rad off", v <= roundedAngle, v <= exactAngle}
}

func isBent(name string, a, b line) condition {
	v := math.Atan2(a.dir.Cross(b.dir).Norm(), math.Abs(a.dir.Dot(b.dir)))
	return condition{name + fmt.Sprintf(" must not be parallel (at least %v rad)", leastAngle), v, "rad", v >= leastAngle, true}
}

func isApart(name string, v float64) condition {
	return condition{name + fmt.Sprintf(" must be at least %v m", leastLength), v, "m", v >= leastLength, true}
}

func meet(name string, v float64) condition {
	return condition{name, v, "m off", v <= roundedLength, v <= exactLength}
}

// nearest returns the points of a and b that are nearest to each other, for
// lines that are not parallel.
func nearest(a, b line) (onA, onB r3.Vec) {
	n := a.dir.Cross(b.dir)
	w := b.at.Sub(a.at)
	nn := n.Dot(n)
	ta := w.Cross(b.dir).Dot(n) / nn
	tb := w.Cross(a.dir).Dot(n) / nn
	return a.at.AddScaled(ta, a.dir), b.at.AddScaled(tb, b.dir)
}

// distanceTo returns the distance of p from l, in metres.
func (l line) distanceTo(p r3.Vec) float64 { return p.Sub(l.at).Cross(l.dir).Norm() }

// spherical lists the conditions of a spherical wrist and the wrist centre.
func spherical(l []line) ([]condition, r3.Vec) {
	bent := []condition{isBent("axes 1 and 2", l[0], l[1]), isBent("axes 4 and 5", l[3], l[4]), isBent("axes 5 and 6", l[4], l[5])}
	if !bent[1].ok || !bent[2].ok {
		return append(bent, isParallel("axes 2 and 3", l[1], l[2])), r3.Vec{}
	}
	on4, on5 := nearest(l[3], l[4])
	center := on4.Lerp(on5, 0.5)
	return append(bent,
		isParallel("axes 2 and 3", l[1], l[2]),
		meet("axes 4 and 5 must meet", on4.Dist(on5)),
		meet("axis 6 must pass through the point where axes 4 and 5 meet", l[5].distanceTo(center)),
		isApart("the distance of axes 2 and 3", l[1].distanceTo(l[2].at)),
		isApart("the distance of axis 3 from the wrist centre", l[2].distanceTo(center)),
	), center
}

// threeParallel lists the conditions of the offset wrist and the point where
// axes 5 and 6 meet.
func threeParallel(l []line) ([]condition, r3.Vec) {
	all := []condition{
		isBent("axes 1 and 2", l[0], l[1]), isBent("axes 4 and 5", l[3], l[4]), isBent("axes 5 and 6", l[4], l[5]),
		isParallel("axes 2 and 3", l[1], l[2]), isParallel("axes 3 and 4", l[2], l[3]),
		isApart("the distance of axes 2 and 3", l[1].distanceTo(l[2].at)),
		isApart("the distance of axes 3 and 4", l[2].distanceTo(l[3].at)),
	}
	if !all[2].ok {
		return all, r3.Vec{}
	}
	on5, on6 := nearest(l[4], l[5])
	return append(all, meet("axes 5 and 6 must meet", on5.Dist(on6))), on5.Lerp(on6, 0.5)
}

// verdict returns whether all conditions hold, whether they hold exactly, and
// the failed ones in words.
func verdict(all []condition) (ok, exact bool, failed string) {
	ok, exact = true, true
	var words []string
	for _, c := range all {
		exact = exact && c.exact
		if !c.ok {
			ok = false
			words = append(words, fmt.Sprintf("%s (found %.3g %s)", c.words, c.value, c.unit))
		}
	}
	return ok, exact, strings.Join(words, "; ")
}

// NewSolver recognises the family of c from its axes alone. Any other arm is an
// error that names the geometric conditions that fail and by how much. Axes
// may point either way, joints may have their zero anywhere, and the angles
// between axes that are not parallel are free.
//
// A file that rounds its numbers (a right angle written 1.5708) is still
// recognised, up to 1e-5 rad and 1e-5 m; see Exact.
func NewSolver(c *Chain) (*Solver, error) {
	if c.n != 6 {
		return nil, fmt.Errorf("solver: found %d moving joints; allowed: 6; choose base and flange links with six joints between them", c.n)
	}
	for i := range c.n {
		if c.joints[i].Kind == Prismatic {
			return nil, fmt.Errorf("solver: found joint %d (%q) prismatic; allowed: six revolute or continuous joints; choose links with turning joints only between them", i+1, c.joints[i].Name)
		}
	}
	l := c.lines[:6]
	wrist, center := spherical(l)
	okS, exactS, failedS := verdict(wrist)
	offset, corner := threeParallel(l)
	okP, exactP, failedP := verdict(offset)
	s := &Solver{chain: c}
	switch {
	case okS && (exactS || !okP || !exactP):
		s.family, s.exact = SphericalWrist, exactS
		s.arm = newArm(c, center, SphericalWrist)
	case okP:
		s.family, s.exact = ThreeParallel, exactP
		s.arm = newArm(c, corner, ThreeParallel)
	default:
		return nil, fmt.Errorf("solver: found an arm of neither family; allowed: (a) %s, which fails as %s; (b) %s, which fails as %s; check the joint origins and axes in the file, or use another arm",
			SphericalWrist, failedS, ThreeParallel, failedP)
	}
	s.setLimits()
	return s, nil
}

// setLimits copies the joints' limits to where Solve wants them.
func (s *Solver) setLimits() {
	for j := range 6 {
		jt := &s.chain.joints[j]
		s.lower[j], s.upper[j] = jt.Lower, jt.Upper
		if jt.Kind != Continuous {
			s.middle[j] = jt.Lower + (jt.Upper-jt.Lower)/2
		}
	}
}
