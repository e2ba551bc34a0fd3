package motion

import (
	"errors"
	"fmt"
	"math"
)

const (
	// tourExact is the default of TourRequest.ExactUpTo and tourMost its largest:
	// the exact search needs 2^groups times the number of ways in memory.
	tourExact, tourMost = 12, 16
	// tourLargest is the largest number of groups: the rules are kept by number.
	tourLargest = 500
)

// tourGraph is a request that has been checked, in a form that searches use.
// Ways are numbered from 0 over all groups; home is no way.
type tourGraph struct {
	req   *TourRequest
	n     int   // groups
	first []int // first[g] is the number of group g's first way; first[n] their count
	group []int // the group of each way
	// before[a][b] says that group a must be done before group b.
	before [][]bool
}

func newTourGraph(req *TourRequest) (*tourGraph, error) {
	t := &tourGraph{req: req, n: len(req.Groups), first: []int{0}}
	if t.n > tourLargest {
		return nil, fmt.Errorf("%d groups: %d are the most", t.n, tourLargest)
	}
	for g, group := range req.Groups {
		if len(group.Ways) == 0 {
			return nil, fmt.Errorf("group %d has no way in which it can be done: give at least one", g+1)
		}
		for w, inside := range group.Ways {
			if !(inside >= 0) || math.IsInf(inside, 1) {
				return nil, fmt.Errorf("group %d, way %d takes %g s: it must be finite and 0 or more", g+1, w+1, inside)
			}
			t.group = append(t.group, g)
		}
		t.first = append(t.first, len(t.group))
	}
	if err := t.checkAir(); err != nil {
		return nil, err
	}
	if req.ExactUpTo > tourMost || req.Starts < 0 {
		return nil, fmt.Errorf("exact up to %d groups, %d starts: at most %d, and 0 or more, are allowed", req.ExactUpTo, req.Starts, tourMost)
	}
	return t, t.rule()
}

func (t *tourGraph) checkAir() error {
	want := len(t.group) + 1
	if len(t.req.Air) != want {
		return fmt.Errorf("air times have %d rows: %d are needed, home and every way of every group", len(t.req.Air), want)
	}
	for i, row := range t.req.Air {
		if len(row) != want {
			return fmt.Errorf("row %d of the air times has %d numbers: %d are needed", i, len(row), want)
		}
		for j, s := range row {
			same := i == j || i > 0 && j > 0 && t.group[i-1] == t.group[j-1]
			if !same && !(s >= 0) {
				return fmt.Errorf("the air move from %d to %d takes %g s: it must be 0 or more, +Inf where there is no way", i, j, s)
			}
		}
	}
	return nil
}

// rule fills before with what the groups ask for and what follows from it, and
// refuses what cannot be.
func (t *tourGraph) rule() error {
	t.before = make([][]bool, t.n)
	for g := range t.before {
		t.before[g] = make([]bool, t.n)
	}
	for b, group := range t.req.Groups {
		for _, a := range group.After {
			if a < 0 || a >= t.n || a == b {
				return fmt.Errorf("group %d is to be done after group %d: name another one of the %d groups", b+1, a+1, t.n)
			}
			t.before[a][b] = true
		}
	}
	// A bundle is done as a whole: what comes before one of it comes before all.
	for changed := true; changed; {
		changed = t.close()
		for a := range t.n {
			for b := range t.n {
				if t.before[a][b] && !t.bundled(a, b) {
					changed = t.spread(a, b) || changed
				}
			}
		}
	}
	for g := range t.n {
		if t.before[g][g] {
			return fmt.Errorf("group %d would have to be done before itself: the rules of what comes first run in a circle", g+1)
		}
	}
	return nil
}

// close adds what follows: a before b and b before c make a before c.
func (t *tourGraph) close() (changed bool) {
	for b := range t.n {
		for a := range t.n {
			if !t.before[a][b] {
				continue
			}
			for c := range t.n {
				if t.before[b][c] && !t.before[a][c] {
					t.before[a][c], changed = true, true
				}
			}
		}
	}
	return changed
}

// spread puts all of a's bundle before all of b's.
func (t *tourGraph) spread(a, b int) (changed bool) {
	for x := range t.n {
		for y := range t.n {
			if (x == a || t.bundled(x, a)) && (y == b || t.bundled(y, b)) && !t.before[x][y] {
				t.before[x][y], changed = true, true
			}
		}
	}
	return changed
}

// bundled reports whether two groups are in one bundle.
func (t *tourGraph) bundled(a, b int) bool {
	k := t.req.Groups[a].Bundle
	return k != 0 && k == t.req.Groups[b].Bundle
}

// air returns the time of the air move from way i to way j, s, where -1 is home.
func (t *tourGraph) air(i, j int) float64 { return t.req.Air[i+1][j+1] }

// inside returns the time that way i takes, s.
func (t *tourGraph) inside(i int) float64 {
	g := t.group[i]
	return t.req.Groups[g].Ways[i-t.first[g]]
}

// follows returns the time from the end of group a to the entry of group b by
// the quickest ways, s, where -1 is home, and +Inf where b cannot come right
// after a.
func (t *tourGraph) follows(a, b int) float64 {
	if !t.may(a, b) {
		return math.Inf(1)
	}
	least := math.Inf(1)
	for i := t.lo(a); i < t.hi(a); i++ {
		for j := t.lo(b); j < t.hi(b); j++ {
			least = min(least, t.air(i, j))
		}
	}
	return least
}

// lo and hi enclose the ways of a group, home's single place for -1.
func (t *tourGraph) lo(g int) int {
	if g < 0 {
		return -1
	}
	return t.first[g]
}

func (t *tourGraph) hi(g int) int {
	if g < 0 {
		return 0
	}
	return t.first[g+1]
}

// may reports whether the rules allow group b right after group a, where -1 is
// home.
func (t *tourGraph) may(a, b int) bool {
	if a == b {
		return false
	}
	for c := range t.n {
		switch {
		case a < 0 && t.before[c][b], b < 0 && t.before[a][c]:
			return false
		case a >= 0 && b >= 0 && t.before[a][c] && t.before[c][b]:
			return false
		}
	}
	return a < 0 || b < 0 || !t.before[b][a]
}

// stuck lists the groups that nothing leads to or from.
func (t *tourGraph) stuck() (list []int) {
	for g := range t.n {
		in, out := math.Inf(1), math.Inf(1)
		for o := -1; o < t.n; o++ {
			if o != g {
				in, out = min(in, t.follows(o, g)), min(out, t.follows(g, o))
			}
		}
		if math.IsInf(max(in, out), 1) {
			list = append(list, g)
		}
	}
	return list
}

// masks returns for each group the groups that must come before it, and those of
// its bundle, as bits.
func (t *tourGraph) masks() (needs, bundle []uint32) {
	needs, bundle = make([]uint32, t.n), make([]uint32, t.n)
	for b := range t.n {
		for a := range t.n {
			if t.before[a][b] {
				needs[b] |= 1 << a
			}
			if a == b || t.bundled(a, b) {
				bundle[b] |= 1 << a
			}
		}
	}
	return needs, bundle
}

// answer writes down an order of ways.
func (t *tourGraph) answer(ways []int, out *TourAnswer) {
	from := -1
	for _, i := range ways {
		g := t.group[i]
		out.Order = append(out.Order, TourStop{Group: g, Way: i - t.first[g]})
		out.Air += t.air(from, i)
		out.Time += t.inside(i)
		from = i
	}
	if len(ways) > 0 {
		out.Air += t.air(from, -1)
	}
	out.Time += out.Air
}

// check proves an order once more: every group once, every rule kept, every move
// possible.
func (t *tourGraph) check(out *TourAnswer) error {
	place := make([]int, t.n)
	for g := range place {
		place[g] = -1
	}
	for k, s := range out.Order {
		if place[s.Group] >= 0 {
			return fmt.Errorf("group %d is done twice", s.Group+1)
		}
		place[s.Group] = k
	}
	if len(out.Order) != t.n || math.IsInf(out.Time, 1) {
		return errors.New("the order is not whole")
	}
	if !t.allowed(func(k int) int { return out.Order[k].Group }) {
		return errors.New("the order breaks a rule")
	}
	return nil
}

// allowed reports whether an order of all groups keeps the rules; at returns the
// group at a place.
func (t *tourGraph) allowed(at func(k int) int) bool {
	for k := range t.n {
		g := at(k)
		for l := range k {
			if t.before[g][at(l)] {
				return false
			}
			// Between two of one bundle there is only that bundle.
			if t.bundled(at(l), g) && !t.bundled(at(k-1), g) {
				return false
			}
		}
	}
	return true
}

// has reports whether a set of bits holds number g.
func has(set uint32, g int) bool { return set>>g&1 != 0 }
