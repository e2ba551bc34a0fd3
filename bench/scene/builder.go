package scene

import (
	"fmt"

	"seamwright/bench/job"
	"seamwright/geom/convex"
	"seamwright/geom/mesh"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// role is what a body is to the distances that are wanted.
type role uint8

const (
	armLink   role = iota // of the arm, its foot included
	tableLink             // of the turning table that carries the part
	nozzle
	torchBody
	cable
	part
	fixture
)

// builder gathers the bodies of a scene.
type builder struct {
	kept    *Kept
	job     *job.Job
	cell    *cell.Cell
	names   map[string]bool // of bodies
	bodies  []collision.Body
	roles   []role
	words   [][]string // what a document may call each body
	foot    int        // index of the arm's foot in the chain's list of links
	last    int        // index of the flange's link there
	reports []MeshReport
	left    []func() mesh.Report // what is left to mend, by report

	splitTorch []string // what was made of the torch's drawing
	eased      []string // pairs that are nearer than wanted by design
	ignored    []string // pairs that the user left out
	unlong     []string // tubes without a length
}

// add puts in a body; owner is its name in the document and more are other words
// by which a pair may name it. Bodies of one owner get numbers.
func (b *builder) add(owner string, r role, body collision.Body, more ...string) {
	body.Name = owner
	for i := 2; b.names[body.Name]; i++ {
		body.Name = fmt.Sprintf("%s (%d)", owner, i)
	}
	b.names[body.Name] = true
	body.Group = groups[r]
	b.bodies = append(b.bodies, body)
	b.roles = append(b.roles, r)
	b.words = append(b.words, append([]string{owner}, more...))
}

var groups = map[role]collision.Group{
	armLink: collision.ArmLink, tableLink: collision.ArmLink, nozzle: collision.Nozzle, torchBody: collision.TorchBody,
	cable: collision.Cable, part: collision.Part, fixture: collision.Fixture,
}

// solid puts in a convex body; made is what its constructor returned.
func (b *builder) solid(owner string, r role, link int, linkFromSolid se3.Pose, at job.Place, made func() (convex.Solid, error), more ...string) error {
	s, err := made()
	if err != nil {
		return problem(at, quoted(owner)+", sizes that make no body", "sizes over 0", err.Error())
	}
	b.add(owner, r, collision.Body{Link: link, LinkFromBody: linkFromSolid, Shape: collision.OfSolid(s)}, more...)
	return nil
}

func quoted(name string) string { return `"` + name + `"` }

// moves returns for every link of the chain's list how many of the chain's joints
// lie between it and the base, the last of those that move it counted.
func moves(c *kinematics.Chain) []int {
	still := c.Links(&kinematics.Q{}, nil)
	out := make([]int, len(still))
	const turn, moved = 0.1, 1e-9 // rad or m; what counts as another pose
	for k := range c.N() {
		var q kinematics.Q
		q[k] = turn
		for i, l := range c.Links(&q, nil) {
			d := l.BaseFromLink.Minus(still[i].BaseFromLink)
			if d.Linear.Norm()+d.Angular.Norm() > moved {
				out[i] = k + 1
			}
		}
	}
	return out
}
