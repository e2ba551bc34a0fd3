package kinematics

import (
	"cmp"
	"fmt"
	"math"
	"math/bits"
	"math/rand/v2"
)

// Steps of the grid of free values. Common practice, no source: fine enough to
// find a way, to be smoothed by SolveHeld.
const (
	turnStep  = 15 * math.Pi / 180 // rad
	slideStep = 0.1                // m
	// mostValues and mostChoices bound the grid: one joint's values, and all
	// together. Steps are widened to keep them.
	mostValues  = 49
	mostChoices = 1024
)

// option is one way of taking joints as free, and how good it is.
type option struct {
	set    uint16 // bit j: joint j is free
	within uint16
	family Family
	fit    fit
	inside int     // how many lie between solved joints
	volume float64 // mean size of the six joints' determinant
}

// newRedundant chooses the free joints, the first of a table among them, and
// builds the solvers of the grid.
func newRedundant(c *Chain, table int) (*Solver, error) {
	best, must := option{}, uint16(1)<<min(table, c.n-6)-1
	for set := uint16(1); set < 1<<c.n; set++ {
		if bits.OnesCount16(set) != c.n-6 || set&must != must {
			continue
		}
		if o, ok := c.judge(set); ok && (best.set == 0 || o.better(&best)) {
			best = o
		}
	}
	if best.set == 0 {
		return nil, fmt.Errorf("solver: found %d joints of which no six can move the flange every way; allowed: 6 to %d joints that can; check the joint origins and axes in the file, or choose other links", c.n, MaxJoints)
	}
	r := &redundancy{chain: c, heldSet: best.set, within: best.within, family: best.family}
	for j, n := 0, 0; j < c.n; j++ {
		if best.set>>j&1 == 0 {
			r.solved[n] = j
			n++
		}
	}
	r.lay()
	if len(r.choices) == 0 {
		return nil, fmt.Errorf("solver: found no value of the free joints at which the six others can be solved; allowed: ranges with such values; check the limits in the file")
	}
	return &Solver{chain: c, family: best.family, exact: r.choices[r.middle].six.exact, redundant: r}, nil
}

// better reports whether o is to be preferred: closed forms before General,
// free joints at the ends before those between, exact members before rounded
// ones, the faster family, and the larger determinant.
func (o *option) better(than *option) bool {
	order := cmp.Or(
		cmp.Compare(boolInt(!o.family.ClosedForm()), boolInt(!than.family.ClosedForm())),
		cmp.Compare(o.inside, than.inside),
		cmp.Compare(than.fit, o.fit),
		cmp.Compare(o.family, than.family),
	)
	if order == 0 {
		return o.volume > than.volume*(1+1e-9)
	}
	return order < 0
}

func boolInt(b bool) int {
	if b {
		return 1
	}
	return 0
}

// judge returns the option that takes the joints of set as free. ok is false
// where the six others cannot move the flange every way, or where they are
// General and change with a free joint between them.
func (c *Chain) judge(set uint16) (o option, ok bool) {
	o = option{set: set, family: 0, fit: exactly}
	rest := uint16(1)<<c.n - 1 - set
	first, last := bits.TrailingZeros16(rest), bits.Len16(rest)-1
	o.within = set & (1<<last - 1) &^ (1<<first - 1)
	o.inside = bits.OnesCount16(o.within)
	rng := rand.New(rand.NewPCG(7, uint64(set)))
	for _, share := range []float64{0.23, 0.51, 0.84} {
		var held Q
		for j := range c.n {
			held[j] = c.valueAt(j, share)
		}
		six := c.holding(set, o.within, &held)
		h := shape{family: General, fit: exactly}
		if !six.slidesAnywhere() {
			h = recognise(six, six.reversed())
		}
		o.family, o.fit = max(o.family, h.family), min(o.fit, h.fit)
		o.volume += six.meanVolume(rng)
	}
	length := c.leverLength()
	return o, o.volume > 1e-9*length*length*length && (o.family.ClosedForm() || o.inside == 0)
}

// meanVolume returns the mean size of the Jacobian's determinant, m3 for six
// turning joints.
func (c *Chain) meanVolume(rng *rand.Rand) float64 {
	const postures = 16
	sum := 0.0
	for range postures {
		var q Q
		for j := range c.n {
			q[j] = c.valueAt(j, rng.Float64())
		}
		sum += math.Abs(c.determinant(&q))
	}
	return sum / postures
}

// recogniseAs is recognise that takes the wanted family where the arm fits it,
// so that branches keep their meaning over a range of arms.
func recogniseAs(c, back *Chain, want Family) shape {
	h := recognise(c, back)
	if h.family == want || want == General || want == 0 {
		return h
	}
	base, mirrored := want.mirrored()
	list := shapesOf(c.lines[:6])
	if mirrored {
		list = shapesOf(back.lines[:6])
	}
	if s := list[base-SphericalWrist]; s.fit >= h.fit {
		s.family = want
		return s
	}
	return h
}

// lay fills in the free joints and the grid of their values with its solvers.
func (r *redundancy) lay() {
	var counts []int
	for widen := 1.0; ; widen *= 1.25 {
		r.free, counts = r.free[:0], counts[:0]
		total := 1
		for j := range r.chain.n {
			if r.heldSet>>j&1 == 0 {
				continue
			}
			f, n := r.chain.freeJoint(j, widen)
			r.free, counts, total = append(r.free, f), append(counts, n), total*n
		}
		if total <= mostChoices {
			break
		}
	}
	var shared *Solver
	nearest := math.Inf(1)
	for at := make([]int, len(counts)); at != nil; at = nextPlace(at, counts) {
		var held Q
		away := 0.0
		for i, f := range r.free {
			held[f.Joint] = min(f.Upper, f.Lower+float64(float64(at[i])*f.Step))
			away += math.Abs(float64(2*at[i]+1)/float64(counts[i]) - 1)
		}
		six := shared
		if six == nil {
			six = r.build(&held)
		}
		if six == nil {
			continue
		}
		if r.within == 0 {
			shared = six
		}
		if away < nearest {
			nearest, r.middle = away, len(r.choices)
		}
		r.choices = append(r.choices, choice{held, six})
	}
}

// freeJoint returns joint j as a free one with its step widened, and its number
// of values. A continuous joint does not repeat its first value a turn on.
func (c *Chain) freeJoint(j int, widen float64) (FreeJoint, int) {
	f := FreeJoint{Joint: j}
	f.Lower, f.Upper = c.rangeOf(j)
	step := turnStep * widen
	if c.joints[j].Kind == Prismatic {
		step = slideStep * widen
	}
	spans := max(1, min(mostValues-1, int(math.Ceil((f.Upper-f.Lower)/step-1e-9))))
	f.Step = (f.Upper - f.Lower) / float64(spans)
	switch {
	case f.Step == 0:
		return f, 1
	case c.joints[j].Kind == Continuous:
		return f, spans
	}
	return f, spans + 1
}

// nextPlace counts at up by one, the last digit first, or returns nil at the
// end.
func nextPlace(at, counts []int) []int {
	for i := len(at) - 1; i >= 0; i-- {
		if at[i]++; at[i] < counts[i] {
			return at
		}
		at[i] = 0
	}
	return nil
}
