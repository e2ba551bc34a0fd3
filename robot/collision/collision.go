// Package collision holds what an arm, its torch and its surroundings are made
// of, and answers how far these bodies are from each other: at a posture, and
// between postures too.
//
// A Body is a rigid Shape fixed to one link of a kinematics.Chain. The base,
// in which the part stands, is link 0; the links that the arm moves, the foot
// of an arm beside a turning table and everything else that hangs on the
// chain's links take part alike. A Model holds the bodies and the pairs of them
// that are looked at; it never changes and any number of goroutines may ask it,
// each with a Scratch of its own:
//
//	model, choices, err := collision.NewModel(chain, bodies, collision.PairOptions{})
//	regime := model.Wanted(0.01)
//	scratch := model.Scratch()
//	near, found := model.Least(scratch, &q, regime, 0.1)
//	move := model.LeastMove(scratch, &from, &to, regime, 0.1)
//
// Which pairs are left out, and why, is the list of choices. Distances are
// those of surfaces, so a body wholly inside a closed mesh reads as far as its
// skin is from the mesh's; Inside finds such bodies at the posture that a run
// starts from, and between postures a body cannot get inside without touching.
//
// Queries allocate nothing once a Scratch has grown to what they need. The same
// calls on a fresh Scratch give the same answers; what a Scratch remembers only
// saves time, and may choose among equally near places and move a distance by
// rounding.
package collision

import "seamwright/geom/se3"

// Group says what a body is to the trade.
type Group uint8

// The groups. ArmLink is a link of the arm or of its turning table by its
// manufacturer's shapes: neighbours among these touch where the joint between
// them is, and are not held against each other.
const (
	Other Group = iota
	ArmLink
	TorchBody
	Nozzle
	Cable
	Part
	Fixture
	Floor
	Table
)

// String returns the word for g.
func (g Group) String() string {
	words := [...]string{"body", "arm link", "torch body", "nozzle", "cable", "part", "fixture", "floor", "table"}
	if int(g) < len(words) {
		return words[g]
	}
	return "unknown group"
}

// Body is a shape fixed to one link.
type Body struct {
	Name  string // unique among the bodies of a model
	Group Group
	// Link is the index of the body's link in the list that the chain's Links
	// returns, 0 for the base, in which the part stands; see LinkNamed.
	Link         int
	LinkFromBody se3.Pose
	Shape        Shape
}

// Pair names two bodies of a model by their indices, A < B.
type Pair struct{ A, B int }
