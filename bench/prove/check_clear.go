package prove

import (
	"fmt"
	"math"
	"runtime"
	"sync"

	"seamwright/bench/job"
	"seamwright/bench/scene"
	"seamwright/geom/se3"
	"seamwright/robot/cell"
	"seamwright/robot/collision"
	"seamwright/robot/kinematics"
	"seamwright/unit"
)

// newScene builds the bodies of the job about the proof's own arm.
func newScene(j *job.Job, a *arm) (*scene.Scene, error) {
	joints := 0
	if a.table != nil {
		joints = a.table.N()
	}
	solver, err := kinematics.NewTableSolver(a.chain, joints)
	if err != nil {
		return nil, err
	}
	baseFromPart := se3.Identity() // on a table the part's frame is the base
	if a.table == nil {
		baseFromPart = a.worldFromFoot.Inv().Mul(j.Cell.WorldFromPart)
	}
	return scene.New(j, cell.New(cell.Spec{Solver: solver, Table: a.table, WorldFromFoot: a.worldFromFoot, BaseFromPart: baseFromPart, FlangeFromTip: a.flangeFromTip}))
}

// stretch is a piece of the run that is held against one set of distances: a straight move
// of the joints, or samples of a way of the tip.
type stretch struct {
	phase    scene.Phase
	seam     string
	pass     int
	joint    bool
	from, to int // samples, both included
}

// roomCap is the room beyond what is wanted that is not told any more, m.
const roomCap = 50e-3

// clear holds arm, torch and cable clear of part, fixtures and each other, at every
// sample and between them: in joint moves for the whole straight move, along a way of
// the tip by how far bodies can move on each other between two samples, the joints
// running there along the cubic through four samples and leaving it by no more than
// their bend.
func (p *proof) clear() {
	rows := [3]*meter{
		scene.Weld: roomMeter("clear of everything: welding"), scene.Leave: roomMeter("clear of everything: approach and retreat"),
		scene.InAir: roomMeter("clear of everything: air moves"),
	}
	said := atMost("clearance as the trace says it", "mm", 1/unit.MM)
	defer func() { p.add(rows[0], rows[1], rows[2], said) }()
	if len(p.scene.Model.Pairs()) == 0 {
		for _, m := range append(rows[:], said) {
			m.open(p.saysAny([]string{"arm-has-no-shapes", "part-shape-not-given", "surroundings-not-given"}, ""), "no bodies are known")
		}
		return
	}
	list := p.stretches()
	found := make([]closest, len(list))
	p.sideBySide(len(list), func(s *collision.Scratch, n int) { found[n] = p.closestOn(s, &list[n]) })
	for n := range list {
		m, w := rows[list[n].phase], &list[n]
		c := &found[n]
		where := place{w.seam, w.pass, p.nearWhat(w, c)}
		m.checked += w.to - w.from
		switch {
		case c.err != nil:
			m.fail(where, "%v", c.err)
		default:
			m.hold(c.wanted+c.slack, c.wanted, where)
		}
	}
	p.saidClear(said, list)
}

// shapesSaid checks that the plan says what is not known of the shapes about the arm.
func (p *proof) shapesSaid() {
	m := atMost("what is not known of the shapes is said", "", 1)
	for _, f := range p.scene.Findings() {
		if p.says(string(f.Code), "") {
			m.pass()
			continue
		}
		m.fail(place{what: f.Where.String()}, "%s: %s", f.Code, f.Message)
	}
	m.pass()
	p.add(m)
}

// roomMeter is a row of clearances; the tolerance is that of the search between
// postures.
func roomMeter(name string) *meter {
	m := atLeast(name, "mm", 1/unit.MM)
	m.allow = collision.Tolerance
	return m
}

// closest is the least room on a stretch: slack is by how much the distance is more
// than wanted, m, between the samples too.
type closest struct {
	slack, wanted float64
	near          collision.Near
	at            int // sample
	err           error
}

// nearWhat says where on a stretch and between what the least room is.
func (p *proof) nearWhat(w *stretch, c *closest) string {
	if c.near.Pair < 0 || c.err != nil {
		return fmt.Sprintf("from %.3f s of the trace", p.trace[w.from].t)
	}
	model := p.scene.Model
	pair := model.Pairs()[c.near.Pair]
	return fmt.Sprintf("%.3f s of the trace, %s and %s", p.trace[c.at].t, model.Bodies()[pair.A].Name, model.Bodies()[pair.B].Name)
}

// stretches cuts the run into pieces: every joint move, and the ways of the tip
// between, with the arc and without.
func (p *proof) stretches() (list []stretch) {
	lit := false
	for k := 1; k < p.reached; k++ {
		from, to := &p.steps[k-1], &p.steps[k]
		switch from.Arc {
		case "on":
			lit = true
		case "off":
			lit = false
		}
		w := stretch{phase: scene.Leave, seam: to.Seam, pass: to.Pass, from: from.at, to: to.at}
		switch {
		case to.Move == "joint":
			w.phase, w.joint = scene.InAir, true
		case lit:
			w.phase = scene.Weld
		}
		n := len(list) - 1
		if n >= 0 && !w.joint && !list[n].joint && list[n].phase == w.phase && list[n].seam == w.seam && list[n].pass == w.pass {
			list[n].to = w.to
			continue
		}
		list = append(list, w)
	}
	return list
}

// regime is what is wanted on a stretch.
func (p *proof) regime(w *stretch) collision.Regime {
	switch w.phase {
	case scene.Weld:
		return p.scene.Welding(p.jobIndex(w.seam))
	case scene.Leave:
		return p.scene.Leaving(p.jobIndex(w.seam))
	}
	return p.scene.Air()
}

// jobIndex is the place of the seam of the job that a seam of the plan is made of.
func (p *proof) jobIndex(name string) int {
	doc := p.jobSeam(name)
	for i := range p.job.Seams {
		if &p.job.Seams[i] == doc {
			return i
		}
	}
	return 0
}

// closestOn finds the least room on a stretch.
func (p *proof) closestOn(s *collision.Scratch, w *stretch) closest {
	model, regime := p.scene.Model, p.regime(w)
	model.Forget(s)
	out := closest{slack: roomCap, near: collision.Near{Pair: -1}, at: w.from}
	if w.joint {
		from, to := &p.trace[w.from].q, &p.trace[w.to].q
		least := model.LeastMove(s, from, to, regime, roomCap)
		out.near, out.at = least.Near, p.sampleAt(w, least.At)
		if least.Near.Pair >= 0 {
			out.wanted, out.slack = least.Near.Wanted, least.Near.Slack()
		}
		if !least.Clear { // what lies between the postures looked at counts too
			out.slack = min(out.slack, least.Lower)
		}
		return out
	}
	return p.closestAlong(s, w, regime, out)
}

// sampleAt is the sample of a joint move that is nearest to a share of its way; samples
// are even in time, not along the way.
func (p *proof) sampleAt(w *stretch, share float64) int {
	from := &p.trace[w.from].q
	whole := apartIn(from, &p.trace[w.to].q)
	i := w.from
	for i < w.to && apartIn(from, &p.trace[i+1].q) <= share*whole {
		i++
	}
	if i < w.to && apartIn(from, &p.trace[i+1].q)-share*whole < share*whole-apartIn(from, &p.trace[i].q) {
		i++
	}
	return i
}

// piecewise is how many samples are looked at in one go, and how many beyond them so
// that the bend at its ends is known.
const piecewise = 64

// closestAlong finds the least room on a way of the tip, piece by piece: what was found
// before is the most that is looked for.
func (p *proof) closestAlong(s *collision.Scratch, w *stretch, regime collision.Regime, out closest) closest {
	index := p.distinct(w)
	for begin := 0; begin < len(index); begin += piecewise {
		end := min(len(index), begin+piecewise+1)
		qs := make([]kinematics.Q, end-begin)
		for i := range qs {
			qs[i] = p.trace[index[begin+i]].q
		}
		cubic := func(i int, share float64) kinematics.Q { return p.cubic(index, begin+i, share) }
		list, err := p.scene.Model.Between(s, qs, regime, collision.PathOptions{Limit: max(out.slack, 1e-3), At: cubic})
		if err != nil {
			out.err = err
			return out
		}
		for i := range list {
			slack, near := out.slack, list[i].Near
			if near.Pair >= 0 {
				slack = near.Slack()
			}
			if list[i].Lower <= 0 { // not proven between the samples
				slack = min(slack, list[i].Lower)
			}
			if slack < out.slack {
				out.slack, out.near, out.at, out.wanted = slack, near, index[begin+i], near.Wanted
			}
		}
	}
	return out
}

// distinct lists the samples of a stretch at which the arm stands otherwise than at the
// one before.
func (p *proof) distinct(w *stretch) (index []int) {
	for i := w.from; i <= w.to; i++ {
		if n := len(index); n == 0 || p.trace[index[n-1]].q != p.trace[i].q {
			index = append(index, i)
		}
	}
	return index
}

// cubic is where the joints are at a share of the way from a sample to the next: on
// the cubic through these and their neighbours, by the lengths of the straight ways
// between them.
func (p *proof) cubic(index []int, i int, share float64) (q kinematics.Q) {
	if i+1 >= len(index) {
		return p.trace[index[i]].q
	}
	from, to := max(0, i-1), min(len(index), i+3)
	var at [4]float64
	for k := from + 1; k < to; k++ {
		at[k-from] = at[k-from-1] + apartIn(&p.trace[index[k-1]].q, &p.trace[index[k]].q)
	}
	u := at[i-from] + share*(at[i+1-from]-at[i-from])
	for k := from; k < to; k++ {
		weight := 1.0 // Lagrange's
		for l := from; l < to; l++ {
			if l != k {
				weight *= (u - at[l-from]) / (at[k-from] - at[l-from])
			}
		}
		for j, x := range p.trace[index[k]].q {
			q[j] += weight * x
		}
	}
	return q
}

// apartIn is the straight way between joint values, rad and m alike.
func apartIn(a, b *kinematics.Q) float64 {
	sum := 0.0
	for j := range a {
		sum += (a[j] - b[j]) * (a[j] - b[j])
	}
	return math.Sqrt(sum)
}

// sideBySide runs n tasks on all processors. Each has its own place for its answer. A
// panic in one comes out here, where the program's edge can catch it.
func (p *proof) sideBySide(n int, task func(s *collision.Scratch, n int)) {
	var wait sync.WaitGroup
	var once sync.Once
	var panicked any
	next := make(chan int, n)
	for k := range n {
		next <- k
	}
	close(next)
	for range min(n, runtime.GOMAXPROCS(0)) {
		wait.Go(func() {
			defer func() {
				if x := recover(); x != nil {
					once.Do(func() { panicked = x })
				}
			}()
			s := p.scene.Model.Scratch()
			for k := range next {
				task(s, k)
			}
		})
	}
	wait.Wait()
	if panicked != nil {
		panic(panicked)
	}
}

// saidClear holds the trace's column of clearances, the distance of all that the arm
// moves from what stands about it, against the bodies: at every sample with the arc
// on, and at every tenth of the others.
func (p *proof) saidClear(m *meter, list []stretch) {
	at, err := p.folder.trace.columns("clearance_mm")
	if err != nil {
		m.fail(place{what: traceName}, "%v", err)
		return
	}
	var look []int
	for i := range p.trace {
		s := &p.trace[i]
		if i > 0 && s.q == p.trace[i-1].q {
			if row := p.folder.trace.rows; row[i][at[0]] != row[i-1][at[0]] {
				m.fail(p.atSample(i), "another clearance where the arm stands")
			}
			continue
		}
		if s.arc || i%10 == 0 {
			look = append(look, i)
		}
	}
	const chunk = 64
	phases, outside := p.phases(list), [3]collision.Regime{}
	for phase := range outside {
		outside[phase] = p.outside(p.regime(&stretch{phase: scene.Phase(phase)}))
	}
	off := make([]float64, len(look))
	p.sideBySide((len(look)+chunk-1)/chunk, func(s *collision.Scratch, n int) {
		p.scene.Model.Forget(s)
		for k := n * chunk; k < min(len(look), (n+1)*chunk); k++ {
			off[k] = p.offSaid(s, look[k], at[0], outside[phases[look[k]]])
		}
	})
	for k, i := range look {
		if m.near(off[k], sameRoom) {
			m.keep(off[k], sameRoom, p.atSample(i))
		}
	}
}

// sameRoom is how far a clearance of the trace may be from that of the bodies, m.
const sameRoom = 0.01e-3

// offSaid is how far the clearance that the trace says of sample i is from that of the
// bodies, m.
func (p *proof) offSaid(s *collision.Scratch, i, column int, r collision.Regime) float64 {
	said, err := number(p.folder.trace.rows[i][column])
	near, found := p.scene.Model.Least(s, &p.trace[i].q, r, math.Inf(1))
	if err != nil || math.IsNaN(said) == found {
		return math.Inf(1)
	}
	if !found {
		return 0
	}
	return math.Abs(said*unit.MM - near.Distance)
}

// phases are what the run does at each sample.
func (p *proof) phases(list []stretch) []scene.Phase {
	out := make([]scene.Phase, len(p.trace))
	for i := range out {
		out[i] = scene.InAir
	}
	for _, w := range list {
		for i := w.from; i <= w.to; i++ {
			if w.phase != scene.InAir {
				out[i] = w.phase
			}
		}
	}
	return out
}

// outside is a regime that asks for the plain distance of all that moves from what
// stands about it, as far as another one looks at it.
func (p *proof) outside(r collision.Regime) collision.Regime {
	bodies := p.scene.Model.Bodies()
	out := make(collision.Regime, len(r))
	for i, pair := range p.scene.Model.Pairs() {
		a, b := bodies[pair.A].Group, bodies[pair.B].Group
		if r[i] < 0 || a != collision.Cable && b != collision.Cable && !standing(a) && !standing(b) {
			out[i] = -1
		}
	}
	return out
}

// standing reports whether bodies of a group do not move on the base, or only with a
// turning table.
func standing(g collision.Group) bool {
	return g == collision.Part || g == collision.Fixture || g == collision.Floor || g == collision.Table
}
