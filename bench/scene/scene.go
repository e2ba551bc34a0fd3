// Package scene holds what a job's arm moves among: the bodies of arm, torch,
// cable, part and fixtures, which pairs of them are looked at, and how far apart
// each pair stays while welding, near the part and in the air. It plans nothing;
// planner and proof both read it.
//
//	s, err := scene.New(j, c)
//	near, found := s.Model.Least(s.Model.Scratch(), &q, s.Welding(seam), 0.1)
//	limit := s.Limit(scene.Weld, near.Pair)
//
// The wire and its stick-out are no body: the wire must touch. What is not known
// is in Findings.
package scene

import (
	"sync"

	"seamwright/bench/finding"
	"seamwright/bench/job"
	"seamwright/robot/cell"
	"seamwright/robot/collision"
)

// Scene is the bodies of one job. It never changes; any number of goroutines may
// read it.
type Scene struct {
	Model *collision.Model
	// Choices says of every pair of bodies whether it is looked at, and why, in the
	// order of collision.NewModel.
	Choices []Choice

	limits  [phases][]Limit // by pair of the model
	regimes [phases]collision.Regime
	said    func() said
}

// Choice is what was decided about a pair of bodies.
type Choice struct {
	A, B string
	Kept bool
	Why  string
}

// Phase is what the arm does; the distances wanted depend on it.
type Phase uint8

// The phases.
const (
	Weld   Phase = iota // along a seam with the arc on
	Leave               // approach and retreat, straight along the wire
	InAir               // everything else
	phases = 3
)

// New returns the scene of a job in its cell. The error is a *job.Problems: a
// size or a link that makes no body.
func New(j *job.Job, c *cell.Cell) (*Scene, error) { return new(Kept).New(j, c) }

// New is the function New, which makes no shape again that was kept.
func (k *Kept) New(j *job.Job, c *cell.Cell) (*Scene, error) {
	k.begin()
	b := &builder{kept: k, job: j, cell: c, names: map[string]bool{}}
	for _, add := range []func() error{b.arm, b.torch, b.cable, b.members, b.shapes} {
		if err := add(); err != nil {
			return nil, err
		}
	}
	s := &Scene{}
	if err := s.pair(b); err != nil {
		return nil, err
	}
	s.said = sync.OnceValue(func() said { return said{b.look(), b.findings()} })
	go func() {
		defer func() { _ = recover() }() // who asks for it gets the panic
		s.said()
	}()
	return s, nil
}

// Welding returns the distances wanted along a seam, by its index among the
// job's seams. They are the same for all seams.
func (s *Scene) Welding(seam int) collision.Regime { return s.regimes[Weld] }

// Leaving returns the distances wanted on the approach to a seam and the retreat
// from it, by its index among the job's seams. They are the same for all seams.
func (s *Scene) Leaving(seam int) collision.Regime { return s.regimes[Leave] }

// Air returns the distances wanted in air moves.
func (s *Scene) Air() collision.Regime { return s.regimes[InAir] }

// Limit returns the distance wanted of a pair of the model, and where it comes
// from.
func (s *Scene) Limit(phase Phase, pair int) Limit { return s.limits[phase][pair] }

// Findings returns what is odd about the shapes, and what is not known.
func (s *Scene) Findings() []finding.Finding { return s.said().findings }

// Meshes says of every file of triangles what it is, what was mended and what was
// not.
func (s *Scene) Meshes() []MeshReport { return s.said().meshes }

// said is what takes a while to find out of large meshes, so that it is looked for
// beside the planning.
type said struct {
	meshes   []MeshReport
	findings []finding.Finding
}

// problem is an error about the job's own text.
func problem(at job.Place, found, allowed, mend string) *job.Problems {
	return &job.Problems{List: []job.Problem{{Place: at, Found: found, Allowed: allowed, Mend: mend}}}
}
