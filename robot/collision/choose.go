package collision

import (
	"fmt"
	"math/rand/v2"

	"seamwright/geom/r3"
	"seamwright/robot/kinematics"
)

// PairOptions say which pairs of bodies a model looks at. The zero value keeps
// every pair that can tell something.
type PairOptions struct {
	// LeaveOut and Keep name pairs of bodies that the user wants left out, or
	// looked at whatever the rules say. A pair of bodies that do not move on
	// each other can be kept too. A pair may not be in both.
	LeaveOut, Keep [][2]string
	// Samples is how many postures within the joints' limits decide whether a
	// pair touches always; 0: 200. The middle posture comes first.
	Samples int
	// Seed chooses these postures.
	Seed uint64
}

// Reason says why a pair is looked at or left out.
type Reason uint8

// The reasons.
const (
	Apart          Reason = iota // kept: the bodies move on each other
	AskedToKeep                  // kept: the user said so
	AskedToLeave                 // left out: the user said so
	FixedTogether                // left out: no joint lies between the bodies
	NeighbourLinks               // left out: two arm links with one joint between them
	AlwaysTouching               // left out: they touch in every posture tried
)

// Kept reports whether a pair is looked at for this reason.
func (r Reason) Kept() bool { return r <= AskedToKeep }

// String returns the words for r.
func (r Reason) String() string {
	words := [...]string{
		"looked at: they move on each other",
		"looked at: asked for",
		"left out: asked for",
		"left out: fixed to each other",
		"left out: arm links with one joint between them",
		"left out: they touch in every posture tried",
	}
	if int(r) < len(words) {
		return words[r]
	}
	return "unknown reason"
}

// Choice is what was decided about one pair of bodies.
type Choice struct {
	Pair   Pair
	A, B   string // the bodies' names
	Reason Reason
}

const defaultSamples = 200

// choose decides about every pair of the model's bodies, in the order of
// Pair.A and then Pair.B.
func (m *Model) choose(o PairOptions) ([]Choice, error) {
	said, err := m.said(o)
	if err != nil {
		return nil, err
	}
	postures := m.postures(o)
	s := m.Scratch()
	var choices []Choice
	for a := range m.bodies {
		for b := a + 1; b < len(m.bodies); b++ {
			c := Choice{Pair: Pair{a, b}, A: m.bodies[a].Name, B: m.bodies[b].Name}
			apart := max(m.placed[a].group, m.placed[b].group) - min(m.placed[a].group, m.placed[b].group)
			reason, asked := said[c.Pair]
			switch {
			case asked:
				c.Reason = reason
			case apart == 0:
				c.Reason = FixedTogether
			case apart == 1 && m.bodies[a].Group == ArmLink && m.bodies[b].Group == ArmLink:
				c.Reason = NeighbourLinks
			case m.touchAlways(s, c.Pair, postures):
				c.Reason = AlwaysTouching
			}
			choices = append(choices, c)
		}
	}
	return choices, nil
}

// said looks up the pairs that the user named.
func (m *Model) said(o PairOptions) (map[Pair]Reason, error) {
	index := map[string]int{}
	for i, b := range m.bodies {
		index[b.Name] = i
	}
	said := map[Pair]Reason{}
	for _, list := range []struct {
		names  [][2]string
		reason Reason
		what   string
	}{{o.LeaveOut, AskedToLeave, "to leave out"}, {o.Keep, AskedToKeep, "to keep"}} {
		for _, names := range list.names {
			a, okA := index[names[0]]
			b, okB := index[names[1]]
			switch {
			case !okA || !okB:
				missing := names[0]
				if okA {
					missing = names[1]
				}
				return nil, fmt.Errorf("pair %s %q and %q: found no body %q; allowed: the names of the bodies; correct the name", list.what, names[0], names[1], missing)
			case a == b:
				return nil, fmt.Errorf("pair %s %q and %q: found one body twice; allowed: two bodies; name the other", list.what, names[0], names[1])
			}
			p := Pair{min(a, b), max(a, b)}
			if before, twice := said[p]; twice && before != list.reason {
				return nil, fmt.Errorf("pair %q and %q: found it both to keep and to leave out; allowed: one of the two; strike the other", names[0], names[1])
			}
			said[p] = list.reason
		}
	}
	return said, nil
}

// postures returns the middle posture and others within the joints' limits.
func (m *Model) postures(o PairOptions) []kinematics.Q {
	n := o.Samples
	if n == 0 {
		n = defaultSamples
	}
	random := rand.New(rand.NewPCG(o.Seed, 1))
	list := make([]kinematics.Q, 1, n+1)
	for range n {
		list = append(list, kinematics.Q{})
	}
	for i := range list {
		for j := range m.frames.n {
			f := 0.5
			if i > 0 {
				f = random.Float64()
			}
			lower, upper := m.frames.span(j)
			list[i][j] = lower + f*(upper-lower)
		}
	}
	return list
}

// touchAlways reports whether two bodies touch in every posture.
func (m *Model) touchAlways(s *Scratch, p Pair, postures []kinematics.Q) bool {
	k := newPairing(m, p)
	for i := range postures {
		m.place(s, &postures[i])
		var axis r3.Vec
		if m.apart(s, &k, blur) >= blur || m.clears(s, &k, 0, &axis) {
			return false
		}
	}
	return true
}
