package motion

import (
	"context"
	"fmt"
	"math"
	"slices"
)

// exact finds the quickest order by dynamic programming over the sets of groups
// that are done and the way that was last (M. Held, R. M. Karp, "A Dynamic
// Programming Approach to Sequencing Problems", 1962, from memory), and returns
// the ways in order, nil where there is none.
func (t *tourGraph) exact(ctx context.Context) ([]int, error) {
	n, ways := t.n, len(t.group)
	needs, bundle := t.masks()
	// best[set*ways+i] is the least time, s, in which the groups of set can be
	// done with way i the last of them; last is the way before it.
	best := make([]float64, ways<<n)
	last := make([]int16, ways<<n)
	for k := range best {
		best[k] = math.Inf(1)
	}
	for i := range ways {
		if g := t.group[i]; needs[g] == 0 {
			best[ways<<g+i], last[ways<<g+i] = t.air(-1, i)+t.inside(i), -1
		}
	}
	for set := uint32(1); set < 1<<n; set++ {
		if err := ctx.Err(); err != nil {
			return nil, fmt.Errorf("motion: order of seams: stopped: %w", err)
		}
		row := best[int(set)*ways : int(set+1)*ways]
		for i, cost := range row {
			if math.IsInf(cost, 1) {
				continue
			}
			open := bundle[t.group[i]] &^ set // what the bundle still wants
			for g := range n {
				if has(set, g) || needs[g]&^set != 0 || open != 0 && !has(open, g) {
					continue
				}
				next := int(set|1<<g) * ways
				for j := t.first[g]; j < t.first[g+1]; j++ {
					if c := cost + t.air(i, j) + t.inside(j); c < best[next+j] {
						best[next+j], last[next+j] = c, int16(i)
					}
				}
			}
		}
	}
	return t.unroll(best, last), nil
}

// unroll reads the quickest order off the table of exact, from the end.
func (t *tourGraph) unroll(best []float64, last []int16) (order []int) {
	ways := len(t.group)
	set := 1<<t.n - 1
	end, least := -1, math.Inf(1)
	for i := range ways {
		if c := best[set*ways+i] + t.air(i, -1); c < least {
			end, least = i, c
		}
	}
	for i := end; i >= 0; {
		order = append(order, i)
		before := int(last[set*ways+i])
		set &^= 1 << t.group[i]
		i = before
	}
	slices.Reverse(order)
	return order
}
