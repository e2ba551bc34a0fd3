package motion

import (
	"fmt"
	"math"

	"seamwright/robot/kinematics"
)

const turn = 2 * math.Pi

// maxRows bounds the working memory of one search (96 bytes a row) where joints
// of very many turns are laid out turn by turn.
const maxRows = 1 << 22

// row is a node laid out for the search, once for every whole turn that the
// laid-out joints may stand at.
type row struct {
	cost float64 // cheapest way here from the first rung, rad or s; +Inf if none
	q    kinematics.Q
	spin float64
	node int32 // number in Ladder.nodes
	id   int32 // number in LadderSearch.rows
}

// layout is the ladder as rows, rung by rung.
type layout struct {
	rows []row
	ends []int
	// laid marks the wide joints of which every whole turn has rows of its own;
	// the other wide joints step the short way round, whatever their limits.
	laid [kinematics.MaxJoints]bool
}

// rung returns the rows of rung r.
func (l *layout) rung(r int) []row {
	if r == 0 {
		return l.rows[:l.ends[0]]
	}
	return l.rows[l.ends[r-1]:l.ends[r]]
}

// turnsInside returns the numbers lo..hi of whole turns k for which q + k turns
// lies within the joint's limits; none when lo > hi. It compares the very sums
// that the search uses later, so that rounding cannot make two places disagree.
func turnsInside(j *LadderJoint, q float64) (lo, hi int) {
	if j.endless() {
		return -maxRows, maxRows
	}
	lo = int(math.Ceil((j.Lower - q) / turn))
	hi = int(math.Floor((j.Upper - q) / turn))
	for atTurn(q, lo-1) >= j.Lower {
		lo--
	}
	for atTurn(q, lo) < j.Lower {
		lo++
	}
	for atTurn(q, hi+1) <= j.Upper {
		hi++
	}
	for atTurn(q, hi) > j.Upper {
		hi--
	}
	return lo, hi
}

// atTurn returns q plus k whole turns, rad.
func atTurn(q float64, k int) float64 { return q + float64(turn*float64(k)) }

// survey brings every node's joint values to one representative, s.home: inside
// the limits for a joint that can stand there in one way only, from -pi to pi
// for a wide joint. Nodes that no turn brings inside the limits, and forbidden
// ones, are marked unusable.
func (s *LadderSearch) survey(req *LadderRequest) error {
	nodes := req.Ladder.nodes
	s.home = grow(s.home, len(nodes))
	s.usable = grow(s.usable, len(nodes))
	for j := range req.Joints {
		s.within[j] = [2]float64{req.Joints[j].Lower, req.Joints[j].Upper}
		if req.Joints[j].wide() {
			s.within[j] = [2]float64{max(-math.Pi, req.Joints[j].Lower), min(math.Pi, req.Joints[j].Upper)}
		}
	}
	for i := range nodes {
		n := &nodes[i]
		if !(n.Cost >= 0) || math.IsNaN(n.Spin) || math.IsInf(n.Spin, 0) {
			return fmt.Errorf("motion: ladder node %d: cost %g and spin %g rad: the cost must be 0 or more, the spin finite", i, n.Cost, n.Spin)
		}
		s.usable[i] = !math.IsInf(n.Cost, 1)
		s.home[i] = n.Q
		for j := range req.Joints {
			if q := n.Q[j]; q >= s.within[j][0] && q <= s.within[j][1] {
				continue
			}
			if err := s.surveyJoint(&req.Joints[j], i, j); err != nil {
				return err
			}
		}
	}
	return nil
}

// surveyJoint does survey's work for joint j of node i.
func (s *LadderSearch) surveyJoint(joint *LadderJoint, i, j int) error {
	q := &s.home[i][j]
	if math.IsNaN(*q) || math.IsInf(*q, 0) || math.Abs(*q) > maxRows {
		return fmt.Errorf("motion: ladder node %d: joint %d stands at %g: it must be a finite angle (rad) or length (m)", i, j+1, *q)
	}
	if joint.wide() {
		if math.Abs(*q) > math.Pi {
			*q = math.Remainder(*q, turn)
		}
		if lo, hi := turnsInside(joint, *q); lo > hi {
			s.usable[i] = false // at a range of exactly one turn, by rounding
		}
		return nil
	}
	if *q >= joint.Lower && *q <= joint.Upper {
		return nil
	}
	if joint.Turning {
		if lo, hi := turnsInside(joint, *q); lo <= hi {
			*q = atTurn(*q, lo)
			return nil
		}
	}
	s.usable[i] = false
	return nil
}

// anySpin asks lay for the nodes of all spins.
var anySpin = math.NaN()

// sameSpin is the difference up to which two spins are one, rad: rounding of a
// grid in degrees, far below any turn that shows.
const sameSpin = 1e-9

// atSpin reports whether the node stands at spin (rad), or whether any will do.
func (n *Node) atSpin(spin float64) bool {
	return math.IsNaN(spin) || spinStep(n.Spin, spin) <= sameSpin
}

// layOut fills s.lay with the usable nodes at spin, or with all of them for
// anySpin, and multiplies them by the turns of the laid joints.
func (s *LadderSearch) layOut(req *LadderRequest, laid [kinematics.MaxJoints]bool, spin float64) error {
	l := &s.lay
	l.rows, l.ends, l.laid = l.rows[:0], l.ends[:0], laid
	for r := range req.Ladder.ends {
		for i := req.Ladder.begin(r); i < req.Ladder.ends[r]; i++ {
			node := &req.Ladder.nodes[i]
			if s.usable[i] && node.atSpin(spin) {
				s.layNode(req, i, node.Spin)
			}
		}
		if len(l.rows) > maxRows {
			return fmt.Errorf("motion: ladder: more than %d nodes once the joints' whole turns are told apart: use fewer nodes or narrower limits", maxRows)
		}
		l.ends = append(l.ends, len(l.rows))
	}
	return nil
}

// layNode appends the rows of node i.
func (s *LadderSearch) layNode(req *LadderRequest, i int, spin float64) {
	l := &s.lay
	first := len(l.rows)
	l.rows = append(l.rows, row{q: s.home[i], spin: spin, node: int32(i), id: int32(first)})
	for j := range req.Joints {
		if !l.laid[j] {
			continue
		}
		q := s.home[i][j]
		lo, hi := turnsInside(&req.Joints[j], q)
		for r, end := first, len(l.rows); r < end; r++ {
			l.rows[r].q[j] = atTurn(q, lo)
			for k := lo + 1; k <= hi; k++ {
				copied := l.rows[r]
				copied.q[j] = atTurn(q, k)
				copied.id = int32(len(l.rows))
				l.rows = append(l.rows, copied)
			}
		}
	}
}

// grow returns a slice of length n that reuses s's memory where it can.
func grow[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/4)
	}
	return s[:n]
}
