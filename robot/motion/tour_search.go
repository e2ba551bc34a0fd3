package motion

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
)

const (
	// tourStarts is the default of TourRequest.Starts at most.
	tourStarts = 50
	// tourPiece is the longest run of groups that is moved elsewhere as it is.
	tourPiece = 3
)

// tourSearch improves an order of ways step by step.
type tourSearch struct {
	t *tourGraph
	// d[i+1][j+1] is the time from the exit of way i to that of way j, s, -1 for
	// home, more than any order's where there is no way.
	d       [][]float64
	ruled   bool      // there are rules on the order
	order   []int     // ways, in order
	along   []float64 // along[k]: time of the first k steps between groups, s
	against []float64 // the same steps the other way round, s
	trial   []int
}

// search finds a good order of ways, nil where it found none. Method: the
// nearest next group from every start, then moves of one to three groups to
// another place and turns of a run of groups, as long as one gains (Or-opt and
// 2-opt, from memory; groups keep their direction, so a turned run has other air
// moves), the best ways for the order, and kicks: two neighbouring runs of the
// best order so far change places and all is improved again.
func (t *tourGraph) search(ctx context.Context) ([]int, error) {
	s := t.newSearch()
	starts := t.req.Starts
	if starts == 0 {
		starts = min(t.n, tourStarts)
	}
	var best []int
	bestTime := math.Inf(1)
	keep := func() {
		if now := s.time(s.order); now < bestTime-tourEqual*now {
			best, bestTime = append(best[:0], s.order...), now
		}
	}
	for k := range min(starts, t.n) {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("motion: order of seams: stopped: %w", err)
		}
		if s.nearest(k * t.n / min(starts, t.n)) {
			s.improve()
			keep()
		}
	}
	if best == nil {
		return nil, nil
	}
	rng := rand.New(rand.NewPCG(t.req.Seed, 0))
	for range min(10*t.n, 50_000/t.n) {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("motion: order of seams: stopped: %w", err)
		}
		if s.kick(best, rng) {
			s.improve()
			keep()
		}
	}
	if bestTime >= s.d[0][0] {
		return nil, nil
	}
	return best, nil
}

func (t *tourGraph) newSearch() *tourSearch {
	s := &tourSearch{t: t}
	n := len(t.group) + 1
	far := 1.0
	for i := range n {
		s.d = append(s.d, make([]float64, n))
		most := 0.0
		for j := range n {
			if i > 0 && j > 0 && t.group[i-1] == t.group[j-1] || i == j {
				continue
			}
			v := t.air(i-1, j-1)
			if j > 0 {
				v += t.inside(j - 1)
			}
			if s.d[i][j] = v; !math.IsInf(v, 1) {
				most = max(most, v)
			}
		}
		far += most
	}
	for i := range n {
		for j := range n {
			if math.IsInf(s.d[i][j], 1) || i == j {
				s.d[i][j] = far
			}
		}
	}
	for a := range t.n {
		s.ruled = s.ruled || slices.Contains(t.before[a], true) || t.req.Groups[a].Bundle != 0
	}
	return s
}

// step returns the time from one place of the order to another, s; -1 and the
// length of the order are home.
func (s *tourSearch) step(k, l int) float64 { return s.d[s.at(k)][s.at(l)] }

// at returns the index in d of the way at a place of the order.
func (s *tourSearch) at(k int) int {
	if k < 0 || k >= len(s.order) {
		return 0
	}
	return s.order[k] + 1
}

// time returns the time of an order, s.
func (s *tourSearch) time(order []int) float64 {
	from, sum := 0, 0.0
	for _, i := range order {
		sum += s.d[from][i+1]
		from = i + 1
	}
	return sum + s.d[from][0]
}

// nearest begins with a group and goes on to the nearest that the rules allow.
// It reports whether they allow that group as the first.
func (s *tourSearch) nearest(first int) bool {
	t := s.t
	done := make([]bool, t.n)
	s.order = s.order[:0]
	for k := range t.n {
		best, bestTime := -1, math.Inf(1)
		for g := range t.n {
			if k == 0 && g != first || !s.free(g, done) {
				continue
			}
			for i := t.first[g]; i < t.first[g+1]; i++ {
				if d := s.d[s.at(k-1)][i+1]; d < bestTime {
					best, bestTime = i, d
				}
			}
		}
		if best < 0 {
			return false
		}
		s.order = append(s.order, best)
		done[t.group[best]] = true
	}
	return true
}

// free reports whether group g can come next after those that are done, the last
// of which ends the order.
func (s *tourSearch) free(g int, done []bool) bool {
	t := s.t
	if done[g] {
		return false
	}
	for a := range t.n {
		if t.before[a][g] && !done[a] {
			return false
		}
	}
	if len(s.order) == 0 {
		return true
	}
	last := t.group[s.order[len(s.order)-1]]
	if t.bundled(last, g) {
		return true
	}
	for a := range t.n {
		if t.bundled(last, a) && !done[a] {
			return false
		}
	}
	return true
}

// improve makes the order quicker until nothing gains.
func (s *tourSearch) improve() {
	for {
		for s.moveOne() || s.turnOne() {
		}
		if !s.bestWays() {
			return
		}
	}
}

// gains reports whether a change of time, s, is more than rounding.
func (s *tourSearch) gains(change float64) bool {
	return change < -tourEqual*(1+s.along[len(s.along)-1])
}

// measure sums up the order's steps both ways round.
func (s *tourSearch) measure() {
	s.along, s.against = append(s.along[:0], 0), append(s.against[:0], 0)
	for k := 1; k < len(s.order); k++ {
		s.along = append(s.along, s.along[k-1]+s.step(k-1, k))
		s.against = append(s.against, s.against[k-1]+s.step(k, k-1))
	}
}

// moveOne moves the first run of one to three groups that gains by it to another
// place, and reports whether there is one.
func (s *tourSearch) moveOne() bool {
	s.measure()
	n := len(s.order)
	for size := 1; size <= min(tourPiece, n-1); size++ {
		for i := 0; i+size <= n; i++ {
			j := i + size - 1
			out := s.step(i-1, j+1) - s.step(i-1, i) - s.step(j, j+1)
			for k := -1; k < n; k++ { // to between k and k+1
				if k >= i-1 && k <= j {
					continue
				}
				if change := out + s.step(k, i) + s.step(j, k+1) - s.step(k, k+1); s.gains(change) && s.take(i, j+1, k+1) {
					return true
				}
			}
		}
	}
	return false
}

// take moves places i to j of the order, j excluded, to before place k, unless
// that breaks a rule.
func (s *tourSearch) take(i, j, k int) bool {
	s.trial = s.trial[:0]
	if k < i {
		s.trial = append(append(append(append(s.trial, s.order[:k]...), s.order[i:j]...), s.order[k:i]...), s.order[j:]...)
	} else {
		s.trial = append(append(append(append(s.trial, s.order[:i]...), s.order[j:k]...), s.order[i:j]...), s.order[k:]...)
	}
	return s.accept()
}

// accept makes the trial the order unless it breaks a rule.
func (s *tourSearch) accept() bool {
	if s.ruled && !s.t.allowed(func(k int) int { return s.t.group[s.trial[k]] }) {
		return false
	}
	s.order, s.trial = s.trial, s.order
	return true
}

// turnOne turns round the first run that gains by it and reports whether there
// is one.
func (s *tourSearch) turnOne() bool {
	s.measure()
	n := len(s.order)
	for i := range n {
		for j := i + 1; j < n; j++ {
			change := s.step(i-1, j) + s.step(i, j+1) + s.against[j] - s.against[i] -
				s.step(i-1, i) - s.step(j, j+1) - (s.along[j] - s.along[i])
			if !s.gains(change) {
				continue
			}
			s.trial = append(s.trial[:0], s.order...)
			slices.Reverse(s.trial[i : j+1])
			if s.accept() {
				return true
			}
		}
	}
	return false
}

// bestWays gives every group the way that makes the order as it stands quickest,
// and reports whether that gains.
func (s *tourSearch) bestWays() bool {
	t := s.t
	was := s.time(s.order)
	best, from := make([]float64, len(t.group)), make([]int, len(t.group))
	for k, i := range s.order {
		g := t.group[i]
		for j := t.first[g]; j < t.first[g+1]; j++ {
			if k == 0 {
				best[j], from[j] = s.d[0][j+1], -1
				continue
			}
			before := t.group[s.order[k-1]]
			best[j] = math.Inf(1)
			for h := t.first[before]; h < t.first[before+1]; h++ {
				if c := best[h] + s.d[h+1][j+1]; c < best[j] {
					best[j], from[j] = c, h
				}
			}
		}
	}
	last, least := -1, math.Inf(1)
	g := t.group[s.order[len(s.order)-1]]
	for j := t.first[g]; j < t.first[g+1]; j++ {
		if c := best[j] + s.d[j+1][0]; c < least {
			last, least = j, c
		}
	}
	if least >= was-tourEqual*(1+was) {
		return false
	}
	for k := len(s.order) - 1; k >= 0; k-- {
		s.order[k] = last
		last = from[last]
	}
	return true
}

// kick sets the order to another one with two neighbouring runs exchanged, and
// reports whether the rules allow it.
func (s *tourSearch) kick(order []int, rng *rand.Rand) bool {
	n := len(order)
	if n < 3 {
		return false
	}
	s.order = append(s.order[:0], order...)
	cuts := [3]int{rng.IntN(n + 1), rng.IntN(n + 1), rng.IntN(n + 1)}
	slices.Sort(cuts[:])
	if cuts[0] == cuts[1] || cuts[1] == cuts[2] {
		return false
	}
	return s.take(cuts[0], cuts[1], cuts[2])
}
