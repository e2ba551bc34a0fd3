package plan

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/robot/kinematics"
	"seamwright/robot/motion"
)

// orderSeed fixes the random numbers of the search for an order, so that a job gives
// the same plan again.
const orderSeed = 1

// group is what is welded in one go: the stitches, parts and copies of a seam that
// are called alike, from one place in the plan's list to another, excluded.
type group struct{ from, to int }

// groups cuts the seams into what is welded in one go.
func (m *maker) groups() []group {
	var list []group
	for i := range m.shapes {
		if n := len(list); n > 0 && m.shapes[list[n-1].from].drawn() == m.shapes[i].drawn() {
			list[n-1].to = i + 1
			continue
		}
		list = append(list, group{i, i + 1})
	}
	return list
}

// order puts the seams into the order that takes least time in the air, where the
// document leaves it to the plan and another order than its own takes less. Times are
// those of straight joint moves, over the points that a seam is to be come to through;
// ways round something take longer. Seams that cannot be run come last, as listed.
func (m *maker) order(ctx context.Context) error {
	if m.job.Air.Order != job.OrderShortest || !m.homeOK {
		return nil
	}
	var run, left []group
	for _, g := range m.groups() {
		if m.runs(g) {
			run = append(run, g)
		} else {
			left = append(left, g)
		}
	}
	if len(run) < 2 {
		return nil
	}
	if len(run) > mostOrdered {
		m.shifted = append(m.shifted, finding.Newf(finding.AirOrderChosen, finding.AtField("air.order"), "the seams are welded as listed: an order is searched for up to %d of them, and these are %d", mostOrdered, len(run)))
		return nil
	}
	req := motion.TourRequest{Seed: orderSeed}
	ways := make([][]groupWay, len(run))
	for i, g := range run {
		var err error
		if ways[i], err = m.ways(g, min(mostWays, allWays/len(run))); err != nil {
			return err
		}
		var inside []float64
		for _, w := range ways[i] {
			inside = append(inside, w.inside)
		}
		req.Groups = append(req.Groups, motion.TourGroup{Ways: inside})
	}
	var err error
	if req.Air, err = m.airTimes(slices.Concat(ways...)); err != nil {
		return err
	}
	answer, err := motion.FindTour(ctx, &req)
	if err != nil {
		return err
	}
	listed, err := m.listedTime(run)
	if err != nil {
		return err
	}
	chosen := run
	if answer.Time < listed-leastGain {
		chosen = nil
		for _, stop := range answer.Order {
			g := run[stop.Group]
			chosen = append(chosen, g)
			first := &m.plan.Seams[g.from].Passes[0]
			first.Motion = first.Motion.turned(ways[stop.Group][stop.Way].shift)
		}
	} else { // a search may come to no more than the document has
		answer.Time, answer.Gap = listed, max(0, (listed-answer.Bound)/listed)
	}
	m.orderSaid(&answer, chosen, listed)
	m.permute(slices.Concat(chosen, left))
	return nil
}

// leastGain is what an order must take less than the listed one to be chosen, s: more
// than rounding.
const leastGain = 1e-6

// groupWay is a way to weld a group: with the first pass begun at whole turns of its
// joints off the plan's, rad; each pass after it at the turns nearest to the one
// before.
type groupWay struct {
	seam        int // the first of the group
	shift       kinematics.Q
	entry, exit kinematics.Q
	inside      float64 // s, of the joint moves between its passes
}

// What is searched at most: groups, which take some ten seconds, ways of one group, and
// ways of all groups together, for the table of times between them.
const (
	mostOrdered = 200
	mostWays    = 16
	allWays     = 800
)

// ways lists at most so many ways to weld a group, as it is planned first.
func (m *maker) ways(g group, most int) ([]groupWay, error) {
	shifts := []kinematics.Q{{}}
	first := m.plan.Seams[g.from].Passes[0].Motion
	for j, r := range first.turns {
		if n := r.Hi - r.Lo + 1; n < 2 || n*len(shifts) > most {
			continue
		}
		for _, s := range slices.Clone(shifts) {
			for k := r.Lo; k <= r.Hi; k++ {
				if k != 0 {
					other := s
					other[j] = 2 * math.Pi * float64(k)
					shifts = append(shifts, other)
				}
			}
		}
	}
	var list []groupWay
	for _, shift := range shifts {
		w, err := m.way(g, shift)
		if err != nil {
			return nil, err
		}
		list = append(list, w)
	}
	return list, nil
}

func (m *maker) way(g group, shift kinematics.Q) (groupWay, error) {
	w := groupWay{seam: g.from, shift: shift}
	for i := g.from; i < g.to; i++ {
		for k := range m.plan.Seams[i].Passes {
			mo := m.plan.Seams[i].Passes[k].Motion
			if i == g.from && k == 0 {
				mo = mo.turned(shift)
				w.entry = mo.Stations[0].Q
			} else {
				mo, _ = mo.nearestTurns(&w.exit)
				t, err := m.comingTime(w.exit, i, mo.Stations[0].Q)
				if err != nil {
					return w, err
				}
				w.inside += t
			}
			w.exit = mo.Stations[len(mo.Stations)-1].Q
		}
	}
	return w, nil
}

// turned is the motion begun at whole turns (rad) off its own, and held there.
func (m *Motion) turned(shift kinematics.Q) *Motion {
	moved := *m
	moved.Stations = slices.Clone(m.Stations)
	for i := range moved.Stations {
		for j := range shift {
			moved.Stations[i].Q[j] += shift[j]
		}
	}
	moved.begun = true
	return &moved
}

// listedTime is the time in the air as the document has the groups, s, each begun at
// the turns nearest to the one before.
func (m *maker) listedTime(groups []group) (float64, error) {
	var sum float64
	at := m.home
	for _, g := range groups {
		begin, _ := m.plan.Seams[g.from].Passes[0].Motion.nearestTurns(&at)
		var shift kinematics.Q
		for j := range shift {
			shift[j] = begin.Stations[0].Q[j] - m.plan.Seams[g.from].Passes[0].Motion.Stations[0].Q[j]
		}
		w, err := m.way(g, shift)
		if err != nil {
			return 0, err
		}
		t, err := m.comingTime(at, g.from, w.entry)
		if err != nil {
			return 0, err
		}
		sum, at = sum+t+w.inside, w.exit
	}
	t, err := m.moveTime(at, m.home)
	return sum + t, err
}

// runs reports whether every pass of a group can be run.
func (m *maker) runs(g group) bool {
	for i := g.from; i < g.to; i++ {
		for k := range m.plan.Seams[i].Passes {
			if m.plan.Seams[i].Passes[k].Motion == nil {
				return false
			}
		}
	}
	return true
}

// airTimes are the times (s) of straight joint moves from the exit of each way to the
// entry of each other, home being the first; motion.TourRequest.Air.
func (m *maker) airTimes(ways []groupWay) ([][]float64, error) {
	all := append([]groupWay{{seam: -1, entry: m.home, exit: m.home}}, ways...)
	times := make([][]float64, len(all))
	for i := range all {
		times[i] = make([]float64, len(all))
		for k := range all {
			if k == i {
				continue
			}
			t, err := m.comingTime(all[i].exit, all[k].seam, all[k].entry)
			if err != nil {
				return nil, err
			}
			times[i][k] = t
		}
	}
	return times, nil
}

// comingTime is how long straight joint moves take to a pass of a seam, or home for
// -1, over the points that the document puts before it, s; see runner.through.
func (m *maker) comingTime(from kinematics.Q, seam int, to kinematics.Q) (float64, error) {
	var sum float64
	if seam >= 0 {
		for _, label := range m.shapes[seam].doc.Through {
			q, ok := m.plan.postureNear(m.tips[label], &from)
			if !ok {
				continue
			}
			t, err := m.moveTime(from, q)
			if err != nil {
				return 0, err
			}
			sum, from = sum+t, q
		}
	}
	t, err := m.moveTime(from, to)
	return sum + t, err
}

// moveTime is how long a straight joint move takes, s.
func (m *maker) moveTime(from, to kinematics.Q) (float64, error) {
	move, err := motion.NewJointMove(motion.MoveRequest{From: from, To: to, Limits: m.limits, SpeedPercent: m.job.Air.JointPercent})
	if err != nil {
		return 0, err
	}
	return move.Duration(), nil
}

// permute puts the seams, and all that is held of each, into the order of groups.
func (m *maker) permute(groups []group) {
	shapes, seams := m.shapes, m.plan.Seams
	sized, roomed, placed, bent := m.sized, m.roomed, m.placed, m.bent
	m.shapes, m.plan.Seams, m.sized, m.roomed, m.placed, m.bent = nil, nil, nil, nil, nil, nil
	for _, g := range groups {
		m.shapes = append(m.shapes, shapes[g.from:g.to]...)
		m.plan.Seams = append(m.plan.Seams, seams[g.from:g.to]...)
		m.sized = append(m.sized, sized[g.from:g.to]...)
		m.roomed = append(m.roomed, roomed[g.from:g.to]...)
		m.placed = append(m.placed, placed[g.from:g.to]...)
		m.bent = append(m.bent, bent[g.from:g.to]...)
	}
	m.plan.Stitched = stitchings(m.shapes)
}

// orderSaid says which order of groups was chosen, and what it saves; listed is the
// time in the air as the document has them, s.
func (m *maker) orderSaid(a *motion.TourAnswer, chosen []group, listed float64) {
	var names []string
	for _, g := range chosen {
		names = append(names, m.shapes[g.from].drawn())
	}
	proof := "no order takes less"
	if a.Status != motion.TourOptimal {
		proof = fmt.Sprintf("the best takes at most %.0f percent less", math.Ceil(100*a.Gap))
	}
	f := finding.Newf(finding.AirOrderChosen, finding.AtField("air.order"), "the seams are welded in the order %s: %.1f s of straight joint moves in place of %.1f s as listed; %s",
		strings.Join(names, ", "), a.Time, listed, proof)
	m.shifted = append(m.shifted, f.Values(a.Time, listed, "s"))
}
