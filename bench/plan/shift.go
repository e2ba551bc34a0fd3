package plan

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync/atomic"

	"seamwright/geom/r3"
	"seamwright/geom/se3"
	"seamwright/robot/kinematics"
)

// footShift is a move of the arm's foot while the part stays: x and y (m) level,
// along the base frame's x and y as the floor sees them, height (m) up, yaw
// (rad) about the vertical through the foot.
type footShift struct{ x, y, height, yaw float64 }

// Extent of the search and what its steps weigh. A cart is rolled more easily
// than turned, and raised least easily. Own judgement.
const (
	shiftStep  = 50e-3 // m, level
	shiftMost  = 500e-3
	heightStep = 50e-3 // m
	heightMost = 100e-3
	yawStep    = 10 * math.Pi / 180
	yawMost    = 30 * math.Pi / 180
	yawWeight  = 0.5 // m for a radian
	riseWeight = 2.0 // m for a metre of height
	probeCount = 3   // places of a seam that are asked first
	shiftBatch = 32  // shifts looked at together
	// shiftWhole is how many shifts may let the arm have every probe and still not
	// the way along a seam before the search is given up: what stops the way is
	// then no matter of reach, as a joint that is wound up all round a part.
	shiftWhole  = 96
	finestShift = 10e-3
	// slowShifts is how many shifts are tried of an arm without a closed form,
	// where one that does not serve takes some 10 ms.
	slowShifts = 300
)

// weight is how much of a move the shift is, m.
func (s footShift) weight() float64 {
	return math.Hypot(s.x, s.y) + yawWeight*math.Abs(s.yaw) + riseWeight*math.Abs(s.height)
}

// newFromOld takes coordinates in the base frame where the arm stands to those
// in the base frame where it would stand; up is against gravity in the old. The
// base of a part on a turning table is the table's top: there the shift is one
// of the part, in that frame.
func (s footShift) newFromOld(up r3.Vec, onTable bool) se3.Pose {
	if onTable {
		return se3.Pose{R: se3.RotZ(s.yaw), P: r3.Vec{X: s.x, Y: s.y, Z: s.height}}
	}
	x := r3.Vec{X: 1}.Reject(up).Unit()
	level := se3.RotColumns(x, up.Cross(x), up)
	oldFromNew := se3.Pose{R: se3.RotAxis(up, s.yaw), P: level.Apply(r3.Vec{X: s.x, Y: s.y, Z: s.height})}
	return oldFromNew.Inv()
}

// say says the shift as it would be done with a tape: "120 mm towards the base
// frame's +x, turned 10 deg to the left".
func (s footShift) say(w words, frame string) string {
	var parts []string
	along := func(v float64, plus, minus string) {
		switch {
		case math.Abs(v) < finestShift/2:
		case v > 0:
			parts = append(parts, w.tape(v)+" "+plus)
		default:
			parts = append(parts, w.tape(-v)+" "+minus)
		}
	}
	along(s.x, "towards "+frame+" +x", "towards "+frame+" -x")
	along(s.y, "towards "+frame+" +y", "towards "+frame+" -y")
	along(s.height, "up", "down")
	if s.yaw != 0 {
		way := "left"
		if s.yaw < 0 {
			way = "right"
		}
		parts = append(parts, fmt.Sprintf("turned %.0f deg to the %s", math.Abs(s.yaw)*deg, way))
	}
	return strings.Join(parts, ", ")
}

// shiftGrid is how far and in what steps shifts are tried.
type shiftGrid struct {
	most, step             float64 // m, level
	heightMost, heightStep float64 // m
	yawMost, yawStep       float64 // rad
	count                  int     // of the least shifts, 0 for all
}

// shiftGrid is fine where a seam is looked through in a millisecond. Elsewhere
// the whole must come to an end as well, so that it is coarser.
func (m *maker) shiftGrid() shiftGrid {
	g := shiftGrid{shiftMost, shiftStep, heightMost, heightStep, yawMost, yawStep, 0}
	solver := m.plan.Cell.Solver
	if slowSearch(solver) {
		g.step, g.heightStep, g.yawStep = 2*shiftStep, 2*heightStep, 1.5*yawStep
	}
	if !solver.Family().ClosedForm() {
		g.yawStep, g.count = yawMost, slowShifts
	}
	if m.plan.Cell.Table != nil {
		g.heightMost = 0
	}
	return g
}

// list returns every shift that is tried, the least first.
func (g shiftGrid) list() []footShift {
	var list []footShift
	n, h, w := steps(g.most, g.step), steps(g.heightMost, g.heightStep), steps(g.yawMost, g.yawStep)
	for i := -n; i <= n; i++ {
		for j := -n; j <= n; j++ {
			for k := -h; k <= h; k++ {
				for l := -w; l <= w; l++ {
					list = append(list, footShift{float64(i) * g.step, float64(j) * g.step, float64(k) * g.heightStep, float64(l) * g.yawStep})
				}
			}
		}
	}
	slices.SortStableFunc(list, func(a, b footShift) int { return roughly(a.weight(), b.weight()) })
	list = list[1:] // without standing still
	if g.count > 0 {
		list = list[:min(g.count, len(list))]
	}
	return list
}

// shiftSearch looks for the least shift from which every pass of a job can be
// run with its approach and retreat.
type shiftSearch struct {
	maker   *maker
	up      r3.Vec
	onTable bool
	// still holds the search of every pass where the arm stands now; only read.
	still  []*postureSearch
	probes []probe
	// hard is the probe that failed last: most shifts fail at the same place.
	hard atomic.Int64
	// whole counts the shifts for which whole seams were searched. It is looked at
	// between batches only, so that the answer does not hang on their order.
	whole atomic.Int64
	// stands are what is tried of a seam by a slow search, only read, and served
	// which of them served from the shift that was found.
	stands [][]stand
	served []int
}

// probe is a place of a pass that is asked before the whole pass is.
type probe struct {
	pass  int // in order
	along float64
}

func (m *maker) newShiftSearch() *shiftSearch {
	all := m.passes()
	s := &shiftSearch{maker: m, up: m.plan.Cell.Up(&m.home), onTable: m.plan.Cell.Table != nil, served: make([]int, len(all))}
	for i, at := range all {
		search := m.searchOf(at)
		search.clear = nil // what stands about the foot would move with the search
		s.still = append(s.still, search)
		for k := range probeCount {
			s.probes = append(s.probes, probe{i, search.track.length * float64(k) / (probeCount - 1)})
		}
		if slowSearch(m.plan.Cell.Solver) {
			s.stands = append(s.stands, search.shiftStands())
		}
	}
	return s
}

// shiftFound is how a search for a shift ended.
type shiftFound uint8

const (
	noShift    shiftFound = iota // none of the whole grid will do
	foundShift                   // the least that does
	gaveUp                       // after shiftWhole whole searches
)

// findShift returns the least shift found, and how the search ended.
func (m *maker) findShift(ctx context.Context) (footShift, shiftFound, error) {
	s := m.newShiftSearch()
	list := m.shiftGrid().list()
	for len(list) > 0 && s.whole.Load() < shiftWhole {
		batch := list[:min(shiftBatch, len(list))]
		list = list[len(batch):]
		first, err := s.firstThatDoes(ctx, batch)
		if err != nil {
			return footShift{}, noShift, err
		}
		if first >= 0 {
			least, err := s.refine(ctx, batch[first])
			return least, foundShift, err
		}
	}
	if len(list) > 0 {
		return footShift{}, gaveUp, nil
	}
	return footShift{}, noShift, nil
}

// firstThatDoes returns the index of the first shift of a batch from which the
// whole job can be run, -1 for none. The batch is looked at on all processors.
func (s *shiftSearch) firstThatDoes(ctx context.Context, batch []footShift) (int, error) {
	does, served := make([]bool, len(batch)), make([][]int, len(batch))
	err := sideBySide(ctx, len(batch), func(ctx context.Context, i int) (err error) {
		served[i] = slices.Clone(s.served)
		does[i], err = s.does(ctx, batch[i], served[i])
		return err
	})
	if err != nil {
		return -1, err
	}
	first := slices.Index(does, true)
	if first >= 0 {
		s.served = served[first]
	}
	return first, nil
}

// does reports whether the whole job can be run from a shift; served holds the
// stands that a slow search begins with, and takes those that it ends with.
func (s *shiftSearch) does(ctx context.Context, shift footShift, served []int) (bool, error) {
	newFromOld := shift.newFromOld(s.up, s.onTable)
	if s.stands != nil {
		return s.doesSlowly(ctx, newFromOld, served)
	}
	var found kinematics.Solutions
	start := int(s.hard.Load())
	for k := range s.probes {
		p := (start + k) % len(s.probes)
		if !s.hasPosture(s.probes[p], newFromOld, &found) {
			s.hard.Store(int64(p))
			return false, nil
		}
	}
	s.whole.Add(1)
	for i := range s.still {
		search := *s.still[i]
		search.track = search.track.moved(newFromOld)
		motion, err := search.run(ctx)
		if err != nil || motion == nil {
			return false, err
		}
	}
	return true, nil
}

func (s *shiftSearch) hasPosture(p probe, newFromOld se3.Pose, found *kinematics.Solutions) bool {
	search := s.still[p.pass]
	tight := search.tight()
	for _, spin := range search.spins() {
		pose := newFromOld.Mul(search.track.pose(p.along, spin))
		s.maker.plan.Cell.Solve(pose, nil, found)
		for k := range found.N {
			if _, ok := search.nodeCost(&found.Q[k], spin, tight); ok {
				return true
			}
		}
	}
	return false
}

// refine takes a shift back towards standing still as far as it still does, in
// steps of finestShift along the line of the shift.
func (s *shiftSearch) refine(ctx context.Context, shift footShift) (footShift, error) {
	n := int(math.Max(math.Abs(shift.x), math.Abs(shift.y)) / finestShift)
	if s.stands != nil {
		return s.refineSlowly(ctx, shift, n)
	}
	for k := int(0.5 * float64(n)); k < n; k++ {
		less := shift.shorter(k, n)
		ok, err := s.does(ctx, less, nil)
		if err != nil || ok {
			return less, err
		}
	}
	return shift, nil
}

// shorter is the shift with k of n parts of its way on the level, in whole steps
// of finestShift.
func (s footShift) shorter(k, n int) footShift {
	f := float64(k) / float64(n)
	return footShift{math.Round(s.x*f/finestShift) * finestShift, math.Round(s.y*f/finestShift) * finestShift, s.height, s.yaw}
}
