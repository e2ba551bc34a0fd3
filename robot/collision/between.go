package collision

import (
	"fmt"
	"math"

	"seamwright/robot/kinematics"
)

// PathOptions say how a sampled path is looked at.
type PathOptions struct {
	// Limit is the slack, m, above which nothing more is looked at; 0: 0.1 m.
	Limit float64
	// Factor says how much a joint may leave the straight line between two
	// samples, as a multiple of what the bend of its values over the three
	// samples about either end shows (their second difference over 8, which is
	// exact with 1 for a steady bend); dimensionless, at least 1; 0: 2. Two
	// samples alone show no bend: the way between them is taken as straight.
	Factor float64
	// At returns the posture (rad or m) at a share (0 to 1, dimensionless) of the
	// way from sample i to the next. Where it is given, stretches that are clear
	// at the samples and not proven to be between are cut in halves, up to seven
	// times. nil: the path between the samples is not known.
	At func(i int, share float64) kinematics.Q
}

// maxCuts is how often a stretch may be halved: from 2 mm to 16 um.
const maxCuts = 7

// Stretch is what is known of a path from one sample up to the next.
type Stretch struct {
	Near Near    // the place of least slack among the postures looked at; Pair is -1 if that is over the limit
	At   float64 // where that is: dimensionless share of the stretch, 0 for the sample itself
	// Lower is what the slack is at least, m, everywhere on the stretch, both
	// ends included, as long as the joints between the samples keep to
	// PathOptions.Factor. Where it is less than the slack that was found the
	// samples are too far apart to tell; it may be less than touching is.
	Lower float64
	// Clear says that everywhere on the stretch, on the same condition, every
	// pair is apart by what is wanted less Tolerance, and apart at all.
	Clear bool
}

// Between returns for each sample of a path (joint values, rad or m) the least
// slack there, and a bound for what lies between it and the next. Of the last
// sample the bound is its own slack.
//
// The bound: a point of one body goes from sample to sample, in the frame of
// the other, on a way of some length at most, by the velocity of the straight
// joint move at one end and what pulls it from there; so the distance between
// is at least the mean of those at the samples less half that length, and less
// what the joints may leave the straight move by.
//
// It refuses an empty path, values that are not finite, a sliding joint beyond
// its limits and options outside their ranges, and panics where the regime has
// not one number for each pair.
func (m *Model) Between(s *Scratch, qs []kinematics.Q, r Regime, o PathOptions) ([]Stretch, error) {
	m.mustFit(r)
	if err := m.checkPath(qs, &o); err != nil {
		return nil, err
	}
	w := passage{m: m, s: s, r: r, o: o, qs: qs, out: make([]Stretch, len(qs))}
	s.within = true
	before, here := s.row(m, 0), s.row(m, 1)
	for i := range qs {
		near := w.sample(&qs[i], here)
		w.out[i] = Stretch{Near: near, Lower: w.slack(near), Clear: near.Pair < 0 || near.Clear()}
		if i > 0 {
			w.bend(i - 1)
			w.join(i-1, near, before, here)
		}
		if w.err != nil {
			return nil, w.err
		}
		before, here = here, before
	}
	return w.out, nil
}

func (m *Model) checkPath(qs []kinematics.Q, o *PathOptions) error {
	if o.Limit == 0 {
		o.Limit = 0.1
	}
	if o.Factor == 0 {
		o.Factor = 2
	}
	switch {
	case len(qs) == 0:
		return fmt.Errorf("found a path without samples; allowed: one or more; give the joint values along it")
	case !(o.Limit > 0):
		return fmt.Errorf("found a limit of %g m; allowed: more than 0 m, or 0 for 0.1 m; correct it", o.Limit)
	case !(o.Factor >= 1 && o.Factor < math.Inf(1)):
		return fmt.Errorf("found a factor of %g; allowed: 1 or more, or 0 for 2; correct it", o.Factor)
	}
	for i := range qs {
		if err := m.checkPosture(&qs[i]); err != nil {
			return fmt.Errorf("sample %d: %w", i, err)
		}
	}
	return nil
}

func (m *Model) checkPosture(q *kinematics.Q) error {
	if !m.frames.finite(q) {
		return fmt.Errorf("found joint values %v; allowed: finite numbers; correct them", q[:m.frames.n])
	}
	if !m.frames.inLimits(q) {
		return fmt.Errorf("found a sliding joint beyond its limits in %v; allowed: values within; correct them", q[:m.frames.n])
	}
	return nil
}

// passage is the state of one question about a path.
type passage struct {
	m    *Model
	s    *Scratch
	r    Regime
	o    PathOptions
	qs   []kinematics.Q
	out  []Stretch
	err  error
	left [kinematics.MaxJoints]float64 // what each joint may leave the straight move by, rad or m
}

// row returns the slice of a depth for bounds by pair.
func (s *Scratch) row(m *Model, depth int) []float64 {
	for len(s.rows) <= depth {
		s.rows = append(s.rows, make([]float64, len(m.pairings)))
	}
	return s.rows[depth]
}

// sample places the bodies, writes the slack by pair to low and returns the
// least.
func (w *passage) sample(q *kinematics.Q, low []float64) Near {
	w.m.place(w.s, q)
	near, _ := w.m.least(w.s, w.r, w.o.Limit, low)
	return near
}

func (w *passage) slack(n Near) float64 {
	if n.Pair < 0 {
		return w.o.Limit
	}
	return n.Slack()
}

// bend finds what the joints may leave the straight move from sample i to the
// next by.
func (w *passage) bend(i int) {
	for j := range w.left {
		var most float64
		for _, k := range [2]int{i, i + 1} {
			if k > 0 && k+1 < len(w.qs) {
				most = max(most, math.Abs(w.qs[k-1][j]-2*w.qs[k][j]+w.qs[k+1][j]))
			}
		}
		w.left[j] = w.o.Factor * most / 8
	}
}

// bound is what is known of a part of a path: the slack is at least lower, m, and
// whether it is proven to be clear.
type bound struct {
	lower float64
	clear bool
}

func (b bound) and(other bound) bound {
	return bound{min(b.lower, other.lower), b.clear && other.clear}
}

// join bounds the stretch from sample i to the next, where the bodies are
// placed and the least slack is near.
func (w *passage) join(i int, near Near, before, here []float64) {
	st := &w.out[i]
	from, to := w.qs[i], w.qs[i+1]
	b := w.bound(&to, &from, before, here)
	if w.open(b, st.Near, near) {
		b = w.cut(i, piece{0, 1, from, to, st.Near, near, before, here}, 2)
	}
	b = b.and(bound{st.Lower, st.Clear}).and(w.at(near))
	st.Lower, st.Clear = b.lower, b.clear
}

// at is the bound at a posture that was looked at.
func (w *passage) at(n Near) bound { return bound{w.slack(n), n.Pair < 0 || n.Clear()} }

// open reports whether a stretch between two clear postures is not known to be
// clear, and may be by more postures.
func (w *passage) open(b bound, one, two Near) bool {
	return w.o.At != nil && w.err == nil && !b.clear && w.at(one).clear && w.at(two).clear
}

// piece is a part of a stretch: shares, postures, least slack and slack by pair
// at its ends.
type piece struct {
	from, to   float64
	a, b       kinematics.Q
	nearA      Near
	nearB      Near
	lowA, lowB []float64
}

// cut halves a piece of stretch i and returns its bound.
func (w *passage) cut(i int, p piece, depth int) bound {
	mid := (p.from + p.to) / 2
	q := w.o.At(i, mid)
	if err := w.m.checkPosture(&q); err != nil {
		w.err = fmt.Errorf("between sample %d and the next, at share %g: %w", i, mid, err)
		return bound{lower: math.Inf(-1)}
	}
	low := w.s.row(w.m, depth)
	near := w.sample(&q, low)
	if st := &w.out[i]; near.Pair >= 0 && (st.Near.Pair < 0 || near.Slack() < st.Near.Slack()) {
		st.Near, st.At = near, mid
	}
	saved := w.left
	for j := range w.left {
		w.left[j] = w.o.Factor * math.Abs(p.a[j]-2*q[j]+p.b[j]) / 8
	}
	one, two := w.bound(&q, &p.a, p.lowA, low), w.bound(&q, &p.b, low, p.lowB)
	if depth < maxCuts+1 {
		if w.open(one, p.nearA, near) {
			one = w.cut(i, piece{p.from, mid, p.a, q, p.nearA, near, p.lowA, low}, depth+1)
		}
		if w.open(two, near, p.nearB) {
			two = w.cut(i, piece{mid, p.to, q, p.b, near, p.nearB, low, p.lowB}, depth+1)
		}
	}
	w.left = saved
	return one.and(two).and(w.at(near))
}

// bound bounds the slack between the posture where the bodies are placed and
// another, from the slack by pair at both.
func (w *passage) bound(placed, other *kinematics.Q, a, b []float64) bound {
	m, s := w.m, w.s
	var step, turned [kinematics.MaxJoints]float64
	for j := range m.frames.n {
		step[j] = other[j] - placed[j]
		turned[j] = math.Abs(step[j])
	}
	s.bout.set(m, s, &step)
	m.rates(&turned, s.rate)
	m.rates(&w.left, s.departed)
	all := bound{w.o.Limit, true}
	for i := range m.pairings {
		if w.r[i] < 0 {
			continue
		}
		k := &m.pairings[i]
		ga, gb := m.placed[k.a].group, m.placed[k.b].group
		ends := (a[i]+b[i])/2 - min(s.departed[k.a][gb], s.departed[k.b][ga])
		enough := max(-Tolerance, blur-w.r[i])
		least := ends - min(s.rate[k.a][gb], s.rate[k.b][ga])/2
		if least < max(all.lower, enough) {
			least = ends - m.travel(s, k)/2
		}
		all = all.and(bound{least, least >= enough})
	}
	return all
}
