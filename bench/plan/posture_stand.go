package plan

import (
	"math"

	"seamwright/robot/kinematics"
)

// stand is what a place of the tip leaves open: the turn about the wire and the
// values of the arm's free joints, in their places in held (rad or m).
type stand struct {
	spin float64 // rad
	held kinematics.Q
}

// slideRadian is how far a joint slides where another turns by a radian, m: what
// 0.1 m of a track is to a weld, 20 deg of a joint are. Own judgement.
const slideRadian = 0.3

// radians brings a change of joint j (rad or m) to radians.
func radians(j kinematics.Joint, change float64) float64 {
	if j.Kind == kinematics.Prismatic {
		return change / slideRadian
	}
	return change
}

// How many stands are looked at together, by whether the postures of one are had
// in microseconds or not (kinematics.General).
const (
	fewStands, fewSlowStands   = 600, 100  // at every station of a coarse search
	manyStands, manySlowStands = 1200, 200 // where the search would know for certain
)

// standsAt returns the stands of the spins with the free joints at held.
func standsAt(spins []float64, held kinematics.Q) []stand {
	list := make([]stand, len(spins))
	for i, spin := range spins {
		list[i] = stand{spin, held}
	}
	return list
}

// lattice is an even grid of stands.
type lattice struct {
	spins []float64      // rad
	held  []kinematics.Q // rad or m
	// spinStep (rad) is the step of the spins, heldStep (rad or m) that of each
	// free joint, in its place; 0 for a single value.
	spinStep float64
	heldStep kinematics.Q
}

func (l *lattice) stands() []stand {
	var list []stand
	for i := range l.held {
		list = append(list, standsAt(l.spins, l.held[i])...)
	}
	return list
}

// lattice returns the grid of the spins and the arm's choices, thinned evenly to
// at most so many stands: first to every second spin, then to fewer choices. A
// thinner grid is part of a denser one.
func (s *postureSearch) lattice(spins []float64, most int) lattice {
	l := lattice{spins: spins, spinStep: spinGrid, held: s.choices(1)}
	if len(spins) == 1 {
		l.spinStep = 0
	}
	if len(l.spins)*len(l.held) > most && len(spins) > 1 {
		l.spins, l.spinStep = nil, 2*spinGrid
		for i := 0; i < len(spins); i += 2 {
			l.spins = append(l.spins, spins[i])
		}
	}
	every := 1
	for len(l.spins)*len(l.held) > most && len(l.held) > 1 {
		every *= 2
		l.held = s.choices(every)
	}
	for _, f := range s.axes {
		l.heldStep[f.Joint] = float64(every) * f.Step
	}
	return l
}

// choices returns every so-manieth value of each free joint, all together in
// the order of the arm's own. Of the values of a joint that can turn more than
// once those within half a turn of where it is wanted are enough: the ladder
// finds its whole turns.
func (s *postureSearch) choices(every int) []kinematics.Q {
	var list []kinematics.Q
next:
	for i := range s.cell.Solver.Choices() {
		held := s.cell.Solver.ChoiceValue(i)
		for _, f := range s.axes {
			at := 0
			if f.Step > 0 {
				at = int(math.Round((held[f.Joint] - f.Lower) / f.Step))
			}
			if at%every != 0 || s.turnsTwice(f) && math.Abs(held[f.Joint]-s.rest[f.Joint]) > math.Pi {
				continue next
			}
		}
		list = append(list, held)
	}
	return list
}

// turnsTwice reports whether a free joint can stand at one posture in two ways.
func (s *postureSearch) turnsTwice(f kinematics.FreeJoint) bool {
	return s.cell.Chain.Joint(f.Joint).Kind != kinematics.Prismatic && f.Upper-f.Lower >= 2*math.Pi
}

// few and many are how many stands are looked at together.
func (s *postureSearch) few() int  { return s.either(fewStands, fewSlowStands) }
func (s *postureSearch) many() int { return s.either(manyStands, manySlowStands) }

func (s *postureSearch) either(fast, slow int) int {
	if s.cell.Solver.Family().ClosedForm() {
		return fast
	}
	return slow
}

// band returns the stands about one, up to radius steps of the lattice to each
// side in every direction, free joints inside their limits. All stand on one
// grid from 0, so that to stand still is among what neighbours can do.
func (s *postureSearch) band(about stand, l *lattice, radius int) []stand {
	about.spin = snap(about.spin, s.wish, l.spinStep)
	for _, f := range s.axes {
		about.held[f.Joint] = snap(about.held[f.Joint], f.Lower, l.heldStep[f.Joint])
	}
	list := []stand{about}
	if l.spinStep > 0 {
		list = spread(list, radius, func(st *stand, k int) bool {
			st.spin += float64(k) * l.spinStep
			return true
		})
	}
	for _, f := range s.axes {
		step := l.heldStep[f.Joint]
		if step == 0 {
			continue
		}
		j := s.cell.Chain.Joint(f.Joint)
		list = spread(list, radius, func(st *stand, k int) bool {
			v := &st.held[f.Joint]
			*v += float64(k) * step
			if *v > j.Upper && *v < j.Upper+step/2 {
				*v = j.Upper // the last value of a range that the step does not divide, by rounding
			}
			return *v >= j.Lower && *v <= j.Upper
		})
	}
	return list
}

// spread returns the list with each stand moved by -radius to radius steps, as
// far as move allows.
func spread(list []stand, radius int, move func(st *stand, k int) bool) []stand {
	var wide []stand
	for _, st := range list {
		for k := -radius; k <= radius; k++ {
			if at := st; move(&at, k) {
				wide = append(wide, at)
			}
		}
	}
	return wide
}

// snap returns the value nearest to v that lies a whole number of steps from
// origin.
func snap(v, origin, step float64) float64 {
	if step == 0 {
		return v
	}
	return origin + math.Round((v-origin)/step)*step
}
