package plan

import (
	"math"
	"slices"

	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// course is how a free joint moves along a pass: a smooth profile of its values,
// rad or m. Neighbouring values of a slide are far less than half a turn apart,
// so that the profile, which takes turns the short way round, leaves them alone.
type course struct {
	joint   int
	profile motion.SpinProfile
}

// hold puts the free joints in q to where their courses have them at a place (m),
// at the turn that q is near to.
func (m *Motion) hold(q *kinematics.Q, along float64) {
	for _, c := range m.courses {
		v, _ := c.profile.At(along)
		q[c.joint] = v + 2*math.Pi*math.Round((q[c.joint]-v)/(2*math.Pi))
	}
}

// atRest reports whether no free joint moves along the pass.
func (m *Motion) atRest() bool {
	return !slices.ContainsFunc(m.courses, func(c course) bool { return !c.profile.Constant() })
}

// spins returns the spins of the stations, rad.
func (m *Motion) spins() []float64 {
	list := make([]float64, len(m.Stations))
	for i := range m.Stations {
		list[i] = m.Stations[i].Spin
	}
	return list
}

// values returns the values of joint j at the stations, rad or m.
func (m *Motion) values(j int) []float64 {
	list := make([]float64, len(m.Stations))
	for i := range m.Stations {
		list[i] = m.Stations[i].Q[j]
	}
	return list
}

// setKnots finds the stations between which the spin and the free joints change
// evenly: those that the spin needs and those that a free joint needs to be off
// by at most so much, rad or m.
func (m *Motion) setKnots(along []float64, off map[int]float64) error {
	for i := range m.Stations {
		m.Stations[i].Spin = m.spinAt(along[i])
	}
	weld := along[m.First : m.Last+1]
	knots, err := motion.SpinKnots(weld, m.spins()[m.First:m.Last+1], knotTolerance)
	if err != nil {
		return err
	}
	for _, c := range m.courses {
		more, err := motion.SpinKnots(weld, m.values(c.joint)[m.First:m.Last+1], off[c.joint])
		if err != nil {
			return err
		}
		knots = append(knots, more...)
	}
	for _, k := range knots {
		m.Knots = append(m.Knots, m.First+k.Station)
	}
	slices.Sort(m.Knots)
	m.Knots = slices.Compact(m.Knots)
	return nil
}
