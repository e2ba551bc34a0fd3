package plan

import (
	"context"
	"math"
	"slices"
	"strconv"
	"strings"

	"seamwright/geom/r3"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
)

// What is clear of what, by the part that comes near first.
type ClearKind string

const (
	ClearNozzle ClearKind = "nozzle" // nozzle to what stands about it
	ClearTorch  ClearKind = "torch"  // neck and body to it
	ClearCable  ClearKind = "cable"  // the space of the cable to everything
	ClearArm    ClearKind = "arm"    // links of the arm to what stands about it
	ClearSelf   ClearKind = "self"   // the arm and what it carries to itself
)

// clearKinds are the kinds in the order in which they are told.
var clearKinds = [...]ClearKind{ClearNozzle, ClearTorch, ClearCable, ClearArm, ClearSelf}

// clearKind is the kind of a pair of bodies.
func clearKind(a, b collision.Group) ClearKind {
	if stands(a) {
		a, b = b, a
	}
	switch {
	case a == collision.Cable || b == collision.Cable:
		return ClearCable
	case !stands(b):
		return ClearSelf
	case a == collision.Nozzle:
		return ClearNozzle
	case a == collision.TorchBody:
		return ClearTorch
	}
	return ClearArm
}

// Clearance is where two bodies come nearest to what is wanted in a part of the
// run.
type Clearance struct {
	Kind ClearKind
	// Of moves and To is what it comes near, by their names.
	Of, To string
	// Least is their distance and Wanted the least that is wanted, m.
	Least, Wanted float64
	// Time is when, s of the run; Along where on the seam, m, NaN in the air.
	Time, Along float64
	// OfAt and ToAt are the nearest points of the two, m, in the base frame.
	OfAt, ToAt r3.Vec
}

// Slack is by how much the distance is more than wanted, m.
func (c *Clearance) Slack() float64 { return c.Least - c.Wanted }

// phase is what the run does at an instant.
type phase uint8

const (
	inAir   phase = iota // on a joint move, or standing between passes
	leaving              // on approach or retreat
	welding
)

// partOfRun is what the run does at an instant, for which pass: that to which a
// joint move leads.
type partOfRun struct {
	phase phase
	at    passAt
	home  bool // on the way home, for no pass
}

// stretchOfRun is a piece of the trace that is one part of the run: samples from to
// to, that one excluded.
type stretchOfRun struct {
	partOfRun
	from, to int
}

// partsOfTrace cuts a trace into the parts of the run.
func partsOfTrace(trace []Sample) []stretchOfRun {
	var list []stretchOfRun
	for i := range trace {
		if n := len(list); n > 0 && list[n-1].partOfRun == trace[i].part {
			list[n-1].to = i + 1
			continue
		}
		list = append(list, stretchOfRun{trace[i].part, i, i + 1})
	}
	return list
}

// kindRegime is a regime with the pairs of one kind alone.
func kindRegime(m *collision.Model, r collision.Regime, kind ClearKind) collision.Regime {
	only := make(collision.Regime, len(r))
	bodies := m.Bodies()
	for i, p := range m.Pairs() {
		only[i] = -1
		if clearKind(bodies[p.A].Group, bodies[p.B].Group) == kind {
			only[i] = r[i]
		}
	}
	return only
}

// besides is a regime that asks for the plain distance of all that moves from what
// stands about it, as far as r looks at it.
func besides(m *collision.Model, r collision.Regime) collision.Regime {
	only := make(collision.Regime, len(r))
	bodies := m.Bodies()
	for i, p := range m.Pairs() {
		if r[i] < 0 || clearKind(bodies[p.A].Group, bodies[p.B].Group) == ClearSelf {
			only[i] = -1
		}
	}
	return only
}

// called is what a body is called: one of several pieces of a thing has a number
// behind its name, which says nothing to who looks at the thing.
func called(b collision.Body) string {
	name, piece, ok := strings.Cut(b.Name, " (")
	if _, err := strconv.Atoi(strings.TrimSuffix(piece, ")")); !ok || err != nil || !strings.HasSuffix(piece, ")") {
		return b.Name
	}
	return name
}

// regime is what is wanted in a part of the run.
func (m *maker) regime(p partOfRun) collision.Regime {
	switch doc := m.shapes[p.at.seam].index; p.phase {
	case welding:
		return m.scene.Welding(doc)
	case leaving:
		return m.scene.Leaving(doc)
	}
	return m.scene.Air()
}

// probeChunk is how many samples are looked at in one go: the same on every
// machine, so that what is remembered from one to the next is too.
const probeChunk = 256

// clearances measures every sample of the trace, writes the least distance of arm
// and torch from what stands about into each, and returns for every stretch the
// least slack of each kind.
func (m *maker) clearances(ctx context.Context, stretches []stretchOfRun) ([][]Clearance, error) {
	type chunk struct{ stretch, from, to int }
	var chunks []chunk
	for i, s := range stretches {
		for from := s.from; from < s.to; from += probeChunk {
			chunks = append(chunks, chunk{i, from, min(s.to, from+probeChunk)})
		}
	}
	parts := make([][]Clearance, len(chunks))
	err := sideBySide(ctx, len(chunks), func(_ context.Context, n int) error {
		c := chunks[n]
		parts[n] = m.probe(&stretches[c.stretch], c.from, c.to)
		return nil
	})
	if err != nil {
		return nil, err
	}
	list := make([][]Clearance, len(stretches))
	for n, c := range chunks {
		list[c.stretch] = Lesser(list[c.stretch], parts[n])
	}
	return list, nil
}

// Lesser returns the lesser slack of each kind of two lists in the order of kinds;
// nil counts as none.
func Lesser(a, b []Clearance) []Clearance {
	if a == nil {
		return slices.Clone(b)
	}
	list := slices.Clone(a)
	for i := range b {
		if b[i].Slack() < a[i].Slack() {
			list[i] = b[i]
		}
	}
	return list
}

// probe measures some samples of a stretch.
func (m *maker) probe(s *stretchOfRun, from, to int) []Clearance {
	model, trace := m.scene.Model, m.plan.Trace
	scratch := model.Scratch()
	bodies, pairs := model.Bodies(), model.Pairs()
	wanted := m.regime(s.partOfRun)
	list := make([]Clearance, len(clearKinds))
	var regimes [len(clearKinds)]collision.Regime
	outside := besides(model, wanted)
	for k, kind := range clearKinds {
		list[k] = Clearance{Kind: kind, Least: math.Inf(1)}
		regimes[k] = kindRegime(model, wanted, kind)
	}
	var last *kinematics.Q
	for i := from; i < to; i++ {
		sample := &trace[i]
		if last != nil && *last == sample.Q {
			sample.Clearance = trace[i-1].Clearance
			continue
		}
		last = &sample.Q
		sample.Clearance = math.Inf(1)
		if near, found := model.Least(scratch, &sample.Q, outside, math.Inf(1)); found {
			sample.Clearance = near.Distance
		}
		for k := range clearKinds {
			limit := math.Inf(1) // a mesh is searched faster from the nearest place known
			if clearKinds[k] == ClearSelf {
				limit = list[k].Slack()
			}
			near, found := model.Least(scratch, &sample.Q, regimes[k], limit)
			if !found || near.Slack() >= list[k].Slack() {
				continue
			}
			of, at := bodies[pairs[near.Pair].A], near.A
			by, there := bodies[pairs[near.Pair].B], near.B
			if stands(of.Group) {
				of, by, at, there = by, of, there, at
			}
			list[k] = Clearance{Kind: clearKinds[k], Of: called(of), To: called(by), Least: near.Distance, Wanted: near.Wanted,
				Time: sample.T, Along: sample.Along, OfAt: at, ToAt: there}
		}
	}
	return list
}
