package motion

import (
	"context"
	"fmt"
	"math"
)

// tourAscents bounds the steps by which the bound is raised.
const tourAscents = 200

// bound returns a time, s, below which no order can come, +Inf where there is
// provably no order. best is the time of the best order known, s, or 0.
//
// Every order enters and leaves home and each group once. Dropping "leaves once"
// leaves a cheapest tree that reaches all groups from home, with a way back: a
// relaxation that Edmonds' method solves. A fee on leaving each place (J. E.
// Beasley's and M. Held and R. M. Karp's Lagrangean way, 1971, from memory) is
// raised where the tree leaves too often. The first fees come from the assignment
// problem, so the bound is never less than that one's.
func (t *tourGraph) bound(ctx context.Context, best float64) (float64, error) {
	c, forbidden := t.arcs()
	fees := assign(c)
	top := math.Inf(-1)
	scale, since := 1.0, 0
	for range tourAscents {
		if err := ctx.Err(); err != nil {
			return 0, fmt.Errorf("motion: order of seams: stopped: %w", err)
		}
		value, excess, open := relaxed(c, fees, forbidden)
		if !open {
			return math.Inf(1), nil
		}
		if since++; value > top {
			top, since = value, 0
		}
		square := 0.0
		for _, e := range excess {
			square += e * e
		}
		if square == 0 || scale < 1e-3 || best > 0 && top >= best*(1-tourEqual) {
			break
		}
		if since > 8 {
			scale, since = scale/2, 0
		}
		aim := best
		if aim == 0 {
			aim = 1.1*math.Abs(top) + 1e-6
		}
		step := scale * max(aim-value, 1e-9*(1+math.Abs(aim))) / square
		for i, e := range excess {
			fees[i] += step * e
		}
	}
	return top, nil
}

// arcs returns the time from each place to the next one, that inside the latter
// included, s, by the best ways: 0 is home, g+1 group g. What cannot be has a
// time that is more than that of any order, and forbidden is half of it.
func (t *tourGraph) arcs() (c [][]float64, forbidden float64) {
	c = make([][]float64, t.n+1)
	sum := 1.0
	for a := range c {
		c[a] = make([]float64, t.n+1)
		most := 0.0
		for b := range c[a] {
			c[a][b] = t.arc(a-1, b-1)
			if !math.IsInf(c[a][b], 1) {
				most = max(most, c[a][b])
			}
		}
		sum += most
	}
	const far = 1000
	for a := range c {
		for b := range c[a] {
			if math.IsInf(c[a][b], 1) {
				c[a][b] = far * sum
			}
		}
	}
	return c, far * sum / 2
}

// arc returns the least time from the exit of group a to the exit of group b, s,
// where -1 is home.
func (t *tourGraph) arc(a, b int) float64 {
	least := math.Inf(1)
	if a == b || !t.may(a, b) {
		return least
	}
	for i := t.lo(a); i < t.hi(a); i++ {
		for j := t.lo(b); j < t.hi(b); j++ {
			s := t.air(i, j)
			if j >= 0 {
				s += t.inside(j)
			}
			least = min(least, s)
		}
	}
	return least
}

// assign solves the assignment problem and returns the fee on leaving each
// place, s: minus the dual values of the rows. It is the Hungarian method with
// potentials (H. W. Kuhn 1955, J. Munkres 1957, from memory).
func assign(c [][]float64) []float64 {
	n := len(c)
	u, v := make([]float64, n+1), make([]float64, n+1)
	row, way := make([]int, n+1), make([]int, n+1) // row[j] has column j, from 1; 0 is none
	for i := 1; i <= n; i++ {
		row[0] = i
		least, used := make([]float64, n+1), make([]bool, n+1)
		for j := range least {
			least[j] = math.Inf(1)
		}
		at := 0
		for row[at] != 0 {
			used[at] = true
			r, next, delta := row[at], 0, math.Inf(1)
			for j := 1; j <= n; j++ {
				if used[j] {
					continue
				}
				if d := c[r-1][j-1] - u[r] - v[j]; d < least[j] {
					least[j], way[j] = d, at
				}
				if least[j] < delta {
					delta, next = least[j], j
				}
			}
			for j := range used {
				if used[j] {
					u[row[j]], v[j] = u[row[j]]+delta, v[j]-delta
				} else {
					least[j] -= delta
				}
			}
			at = next
		}
		for ; at != 0; at = way[at] {
			row[at] = row[way[at]]
		}
	}
	fees := make([]float64, n)
	for i := range fees {
		fees[i] = -u[i+1]
	}
	return fees
}

// relaxed returns the time of the cheapest tree with a way back home when
// leaving each place costs its fee, less all fees, s; by how much more than once
// each place is left; and whether it needs nothing forbidden.
func relaxed(c [][]float64, fees []float64, forbidden float64) (value float64, excess []float64, open bool) {
	n := len(c)
	paid := make([][]float64, n)
	for a := range paid {
		paid[a] = make([]float64, n)
		for b := range paid[a] {
			paid[a][b] = c[a][b] + fees[a]
		}
	}
	parent := arborescence(paid)
	parent[0] = 1
	for a := 2; a < n; a++ {
		if paid[a][0] < paid[parent[0]][0] {
			parent[0] = a
		}
	}
	excess = make([]float64, n)
	for a := range excess {
		excess[a]--
	}
	open = true
	for b, a := range parent {
		value += c[a][b]
		excess[a]++
		open = open && c[a][b] < forbidden
	}
	for a, e := range excess {
		value += float64(fees[a] * e)
	}
	return value, excess, open
}

// arborescence returns the parent of each place in the cheapest tree that grows
// from place 0 (J. Edmonds, "Optimum Branchings", 1967, from memory): everyone
// takes the cheapest parent, and rings that come of it are drawn together.
func arborescence(c [][]float64) (parent []int) {
	n := len(c)
	parent = make([]int, n)
	for b := 1; b < n; b++ {
		parent[b] = -1
		for a := range n {
			if a != b && (parent[b] < 0 || c[a][b] < c[parent[b]][b]) {
				parent[b] = a
			}
		}
	}
	place, places := drawTogether(parent)
	if places == n {
		return parent
	}
	small := make([][]float64, places)
	from, to := make([][]int, places), make([][]int, places) // the arc behind each small one
	for a := range small {
		small[a], from[a], to[a] = make([]float64, places), make([]int, places), make([]int, places)
		for b := range small[a] {
			small[a][b] = math.Inf(1)
		}
	}
	for a := range n {
		for b := 1; b < n; b++ {
			x, y := place[a], place[b]
			// Entering a ring at b saves the arc that b has in the ring; for places
			// alone this takes the same off all, which changes nothing.
			if d := c[a][b] - c[parent[b]][b]; x != y && d < small[x][y] {
				small[x][y], from[x][y], to[x][y] = d, a, b
			}
		}
	}
	for y, x := range arborescence(small) {
		if y > 0 {
			parent[to[x][y]] = from[x][y]
		}
	}
	return parent
}

// drawTogether numbers places afresh, each ring of parents as one, place 0 as 0.
func drawTogether(parent []int) (place []int, places int) {
	n := len(parent)
	place = make([]int, n)
	seen := make([]int, n) // by whom a place was passed
	for b := range place {
		place[b], seen[b] = -1, -1
	}
	place[0], places = 0, 1
	for b := 1; b < n; b++ {
		at := b
		for at != 0 && seen[at] < 0 {
			seen[at], at = b, parent[at]
		}
		if at != 0 && seen[at] == b && place[at] < 0 { // a ring, met for the first time
			for place[at] < 0 {
				place[at], at = places, parent[at]
			}
			places++
		}
	}
	for b := range place {
		if place[b] < 0 {
			place[b] = places
			places++
		}
	}
	return place, places
}
