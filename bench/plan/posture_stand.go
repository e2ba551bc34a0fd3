package plan

import (
	"math"
	"slices"

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
	fewStands, fewSlowStands   = 700, 100  // at every station of a coarse search
	manyStands, manySlowStands = 1800, 200 // where the search would know for certain: all of one free joint
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
// the order of the arm's own, where it is wanted among them. Of the values of a
// joint that can turn more than once those within half a turn of that are
// enough: the ladder finds its whole turns.
func (s *postureSearch) choices(every int) []kinematics.Q {
	var list []kinematics.Q
next:
	for i := range s.cell.Solver.Choices() {
		held := s.cell.Solver.ChoiceValue(i)
		for _, f := range s.axes {
			v := &held[f.Joint]
			from := s.origin(f)
			*v = snap(*v, from, f.Step)
			if f.Step > 0 && int(math.Round((*v-from)/f.Step))%every != 0 || s.turnsTwice(f) && math.Abs(*v-s.rest[f.Joint]) > math.Pi+angleSlack {
				continue next
			}
			*v = min(max(*v, f.Lower), f.Upper)
		}
		list = append(list, held)
	}
	return list
}

// origin is the value (rad or m) from which the grid of a free joint is counted:
// where it is wanted, but the arm's own where others of its values take long, as
// those of a joint between two that are solved for do.
func (s *postureSearch) origin(f kinematics.FreeJoint) float64 {
	first, last := f.Joint, f.Joint
	for _, g := range slices.Backward(s.axes) {
		if g.Joint == first-1 {
			first--
		}
	}
	for _, g := range s.axes {
		if g.Joint == last+1 {
			last++
		}
	}
	if first == 0 || last == s.cell.Chain.N()-1 {
		return s.rest[f.Joint]
	}
	return f.Lower
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
// grid, so that to stand still is among what neighbours can do.
func (s *postureSearch) band(about stand, l *lattice, radius int) []stand {
	about.spin = snap(about.spin, s.wish, l.spinStep)
	for _, f := range s.axes {
		about.held[f.Joint] = snap(about.held[f.Joint], s.origin(f), l.heldStep[f.Joint])
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
			within := min(max(*v, j.Lower), j.Upper) // a limit ends the grid
			off := math.Abs(*v - within)
			*v = within
			return off < step
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
