package motion

import (
	"context"
	"fmt"
	"math"
	"slices"

	"seamwright/robot/kinematics"
)

const (
	// airVia is what a via point counts beside length, weighted rad: about what a
	// joint with a top speed of 2 rad/s and 8 rad/s2 could have travelled in the
	// time that it needs to stop there and start again.
	airVia = 0.5
	// airOrdered bounds the moves that one ordered pass asks about, by posture of
	// the path.
	airOrdered = 20
)

// shortener is the working memory of shortcuts.
type shortener struct {
	path []kinematics.Q
	edge []shortEdge // from posture i to posture j > i of the path: [i*len + j]
	best []float64   // cost from the start to each posture
	from []int
}

// shortEdge is what is known of a move.
type shortEdge struct {
	cost  float64 // +Inf where it is not clear
	known bool    // proven, with its true cost; else cost is no more than that
}

// shorten replaces stretches of the path by straight moves: in order, then
// between places drawn at random, then in order again. The ends stay.
func (a *AirPlanner) shorten(ctx context.Context, out *AirAnswer) error {
	if len(out.Path) < 3 {
		return nil
	}
	tries := a.req.Shortcuts
	if tries == 0 {
		tries = airShortcuts
	}
	if tries > 0 {
		a.ordered(out)
	}
	for range tries {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("motion: air move: stopped while shortening the path: %w", err)
		}
		if len(out.Path) < 3 {
			break
		}
		a.shortcut(out)
	}
	if tries > 0 {
		a.ordered(out)
	}
	if a.req.Clearance != nil {
		return a.widen(ctx, out)
	}
	return nil
}

// ordered keeps those postures of the path that make it cheapest, via points
// counted in, of all that can be joined by clear moves. It asks the checker only
// about moves that the cheapest way would use if all that is not known were clear.
func (a *AirPlanner) ordered(out *AirAnswer) {
	n, s := len(out.Path), &a.short
	s.edge = slices.Grow(s.edge[:0], n*n)[:n*n]
	for i := range n {
		for j := i + 1; j < n; j++ {
			e := shortEdge{cost: a.distance(&out.Path[i], &out.Path[j])}
			if j == i+1 {
				e = shortEdge{cost: a.moveCost(&out.Path[i], &out.Path[j]), known: true}
			}
			s.edge[i*n+j] = e
		}
	}
	for left := airOrdered * n; !a.sure(out, left > 0); left-- {
	}
	s.path = s.path[:0]
	for j := n - 1; j > 0; j = s.from[j] {
		s.path = append(s.path, out.Path[j])
	}
	s.path = append(s.path, out.Path[0])
	slices.Reverse(s.path)
	out.Path = append(out.Path[:0], s.path...)
}

// sure finds the cheapest way over the postures of the path and asks about the
// first move on it that is not known; it reports whether there was none. Without
// ask, only moves that are known count.
func (a *AirPlanner) sure(out *AirAnswer, ask bool) bool {
	n, s := len(out.Path), &a.short
	s.best, s.from = append(s.best[:0], 0), append(s.from[:0], -1)
	for j := 1; j < n; j++ {
		best, from := math.Inf(1), -1
		for i := range j {
			e := s.edge[i*n+j]
			if c := s.best[i] + e.cost + airVia; c < best && (e.known || ask) {
				best, from = c, i
			}
		}
		s.best, s.from = append(s.best, best), append(s.from, from)
	}
	for j := n - 1; j > 0; j = s.from[j] {
		i := s.from[j]
		if e := &s.edge[i*n+j]; !e.known {
			e.known = true
			if e.cost = math.Inf(1); a.clearMove(&out.Path[i], &out.Path[j]) {
				e.cost = a.moveCost(&out.Path[i], &out.Path[j])
			}
			return false
		}
	}
	return true
}

// shortcut joins two places of the path, drawn at random on different moves, by
// a straight move where that is clear and cheaper.
func (a *AirPlanner) shortcut(out *AirAnswer) {
	length := a.length(out.Path)
	p, q := &a.one, &a.two
	i := a.place(out.Path, a.rng.Float64()*length, p)
	j := a.place(out.Path, a.rng.Float64()*length, q)
	if i > j {
		i, j, p, q = j, i, q, p
	}
	if i == j || *p == *q {
		return
	}
	before, after := &out.Path[i], &out.Path[j+1]
	was := a.pathCost(out.Path[i:j+2]) + airVia*float64(j-i)
	now := a.distance(before, p) + a.distance(p, q) + a.distance(q, after) + 2*airVia
	if now >= was || !a.clearMove(p, q) || !a.clearMove(before, p) || !a.clearMove(q, after) {
		return
	}
	if a.req.Clearance != nil {
		if a.moveCost(before, p)+a.moveCost(p, q)+a.moveCost(q, after)+2*airVia >= was {
			return
		}
	}
	out.Path = slices.Replace(out.Path, i+1, j+1, *p, *q)
}

// place sets q to the posture at a length along the path (weighted rad) and
// returns the number of the move that it lies on.
func (a *AirPlanner) place(path []kinematics.Q, along float64, q *kinematics.Q) int {
	last := len(path) - 2
	for i := 0; ; i++ {
		d := a.distance(&path[i], &path[i+1])
		if along < d || i == last {
			share := 0.0
			if d > 0 {
				share = min(1, along/d)
			}
			*q = kinematics.Q{}
			a.between(q, &path[i], &path[i+1], share)
			return i
		}
		along -= d
	}
}

// pathCost returns the cost of a path without its via points, weighted rad.
func (a *AirPlanner) pathCost(path []kinematics.Q) (sum float64) {
	for i := 1; i < len(path); i++ {
		sum += a.moveCost(&path[i-1], &path[i])
	}
	return sum
}
