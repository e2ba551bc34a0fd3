package section

import (
	"fmt"
	"math"

	"seamwright/weld"
)

// FilletPasses says how a fillet is to be laid.
type FilletPasses struct {
	Fillet Fillet
	// Convexity is metal over flat area, dimensionless, 1 to 1.5: the planning
	// factor k. See Convexity.
	Convexity float64
	// MaxArea is the most that one pass may lay, m2, 3 to 150 mm2: what the
	// settings lay at the slowest travel that heat and pool allow.
	MaxArea float64
	// MaxLeg is the largest leg that may be laid in one pass, m: see
	// MaxSinglePass and PracticalSinglePass.
	MaxLeg float64
	// MaxWidth is the widest face of a bead, m, 3 to 40 mm; 0 means SplitWidth.
	// The root is not held to it.
	MaxWidth float64
	// OtherFirst lays each layer from the other plate to the base plate: the
	// lower bead first where the base plate is on top.
	OtherFirst bool
}

// How far the work angle of the first and of the last bead of a layer leave the
// bisector, as shares of the included angle (of a right angle above it),
// dimensionless: at 90 degrees 45 for the root, 25 for the lowest bead, 55 for the
// highest. Common practice, no source.
const (
	lowerLean  = 20.0 / 90
	higherLean = 10.0 / 90
)

// SplitWidth is the width, m, above which a layer is split into beads: 12.7 mm,
// US Army TB 9-2510-242-40, 4.1.10 (read). AWS D1.1 has 16 mm for gas-metal arc in
// flat, horizontal and overhead position and 25 mm in vertical (from memory).
const SplitWidth = 12.7e-3

// PlanFillet returns the passes of a fillet.
//
// Number: one where the longer leg is at most MaxLeg and the metal at most
// MaxArea; otherwise the metal over the smaller of MaxArea and the metal of a
// fillet of MaxLeg, rounded up; all of one area. Layers: the root, then 2, 3, 4
// beads (fewer between plates that meet at less than 90 degrees, more at more),
// thinned out evenly where the number is another, in fewer layers or more passes
// where beads would be wider than MaxWidth or do not fit; after n of N passes the
// legs are those of the whole times sqrt(n/N). Beads lie on what is there: see Pass.
// Each layer is laid from the base plate outward, the lowest bead first, so that it
// is a shelf for the next (read, Modern Welding 2020, p. 228). Aims: the root; the
// toe of the layer below on the base plate for the first bead, that on the other
// plate for the last, the toe of the bead before for those between; the middle of
// the face for a bead that is a layer of its own. Work angles: see lowerLean.
//
// It refuses measures out of range, and beads that do not fit: a pass too small to
// reach from toe to toe.
func PlanFillet(r FilletPasses) (Plan, error) {
	plan, err := r.plan()
	if err != nil {
		return Plan{}, fmt.Errorf("passes of a fillet: %w", err)
	}
	return plan, nil
}

func (r FilletPasses) plan() (Plan, error) {
	if r.MaxWidth == 0 {
		r.MaxWidth = SplitWidth
	}
	if err := r.validate(); err != nil {
		return Plan{}, err
	}
	f := r.Fillet
	if r.OtherFirst {
		f.Leg1, f.Leg2 = f.Leg2, f.Leg1
	}
	needed := r.Convexity * f.Area()
	b, err := r.built(f, needed)
	if err != nil {
		return Plan{}, err
	}
	plan := Plan{Needed: needed, Passes: b.passes, Face: b.s.at, Low: b.low}
	outline, _, err := f.WithFactor(r.Convexity)
	if err != nil {
		return Plan{}, err
	}
	plan.Filled = []Polygon{outline}
	plan.Throat = newSurface(plan.Face).nearest(Point{})
	if r.OtherFirst {
		reflect(&plan, f.Angle)
	}
	return plan, plan.adds()
}

func (r FilletPasses) validate() error {
	convex := weld.Sense{What: "convexity factor", Low: 1, High: 1.5}
	if err := weld.CheckAll(angleSense.Of(r.Fillet.Angle), legSense.Of(r.Fillet.Leg1), legSense.Of(r.Fillet.Leg2),
		convex.Of(r.Convexity), passSense.Of(r.MaxArea), legSense.Of(r.MaxLeg), widthSense.Of(r.MaxWidth)); err != nil {
		return fmt.Errorf("%w: %w", ErrOutOfRange, err)
	}
	return nil
}

// moreTries is how many more passes are tried where the beads do not fit in the
// number that area and leg ask for.
const moreTries = 20

// built lays the fillet in as few passes as area and leg of one allow, more where
// they would be too wide or do not fit.
func (r FilletPasses) built(f Fillet, needed float64) (*builder, error) {
	least := r.number(needed)
	var fault error
	tries := 0
	for n := least; n <= mostPasses && tries <= moreTries; n++ {
		growth := min(math.Tan(f.Angle/2), 2)
		for _, slower := range []float64{1, 0.5, 0} {
			counts, ok := layersOf(f, n, slower*growth, r.MaxWidth)
			if !ok {
				continue
			}
			b := newBuilder(f)
			if fault = b.lay(counts, needed); fault == nil {
				return b, nil
			}
			tries++
		}
	}
	if fault != nil {
		return nil, fault
	}
	return nil, InputError{ErrTooManyPasses, fmt.Sprintf("%d or more", max(least, mostPasses+1)), fmt.Sprintf("up to %d", mostPasses), "raise MaxArea, MaxLeg and MaxWidth, or check the size"}
}

// number returns how many passes area and leg ask for at least.
func (r FilletPasses) number(needed float64) int {
	one := Fillet{r.Fillet.Angle, r.MaxLeg, r.MaxLeg}
	if max(r.Fillet.Leg1, r.Fillet.Leg2) <= r.MaxLeg && needed <= r.MaxArea {
		return 1
	}
	most := min(r.MaxArea, r.Convexity*one.Area())
	// A leg over the limit takes two passes at least, and rounding takes none.
	return max(2, int(math.Ceil(needed/most-1e-9)))
}

// layersOf returns the number of beads in each layer of n passes of the fillet,
// and false where no layering has a lone bead for the root and no wider beads over
// it than most (m). Each layer has growth beads more than the one below, evenly
// thinned out to make n; where that is too wide there are fewer layers. A growth of
// the tangent of half the included angle keeps the beads as wide for their thickness:
// 1, 2, 3... at right angles.
func layersOf(f Fillet, n int, growth, most float64) ([]int, bool) {
	if n == 1 {
		return []int{1}, true
	}
	layers := 2
	for upTo(layers, growth) < float64(n)-1e-9 {
		layers++
	}
	for ; layers > 1; layers-- {
		counts := thinned(n, layers, growth)
		if counts[0] == 1 && weld.AtMost(most).Contains(widest(counts, n, f.FaceWidth())) {
			return counts, true
		}
	}
	return nil, false
}

// upTo returns how many beads a number of layers have together, dimensionless,
// before rounding.
func upTo(layers int, growth float64) float64 {
	l := float64(layers)
	return l + growth*l*(l-1)/2
}

// thinned shares n passes out over layers that grow by growth beads each.
func thinned(n, layers int, growth float64) []int {
	counts := make([]int, 0, layers)
	done := 0
	for l := 1; l <= layers; l++ {
		next := int(math.Round(float64(n) * upTo(l, growth) / upTo(layers, growth)))
		if next = max(next, done+1); l == layers {
			next = n
		}
		counts = append(counts, next-done)
		done = next
	}
	return counts
}

// widest returns the width (m) of the widest beads over the root of n passes under
// a face of a width (m): after done passes it is the whole's times sqrt(done/n).
func widest(counts []int, n int, width float64) float64 {
	wide := 0.0
	done := counts[0]
	for _, c := range counts[1:] {
		done += c
		wide = max(wide, width*math.Sqrt(float64(done)/float64(n))/float64(c))
	}
	return wide
}

// builder lays the layers of a fillet.
type builder struct {
	f      Fillet
	margin float64 // m, plate beyond the toes
	s      surface
	toes   [2]Point // of the layer below
	throat float64  // m, from the root to the line between them
	low    float64  // m, see Plan.Low
	passes []Pass
	layers int
}

func newBuilder(f Fillet) *builder {
	b := &builder{f: f, margin: max(f.Leg1, f.Leg2)}
	toe1, toe2 := f.toes()
	b.s = newSurface([]Point{toe1.along(b.margin/f.Leg1, toe1), {}, toe2.along(b.margin/f.Leg2, toe2)})
	return b
}

// lay lays all layers of beads in counts, which share what is needed (m2).
func (b *builder) lay(counts []int, needed float64) error {
	total, done := 0, 0
	for _, n := range counts {
		total += n
	}
	for _, n := range counts {
		done += n
		if err := b.layer(math.Sqrt(float64(done)/float64(total)), n, needed/float64(total)); err != nil {
			return err
		}
	}
	b.roles()
	return nil
}

// layer lays n beads of an area (m2) up to legs of a share of the whole.
func (b *builder) layer(share float64, n int, area float64) error {
	head, tail := b.margin+(1-share)*b.f.Leg1, b.margin+(1-share)*b.f.Leg2
	areas := make([]float64, n)
	for i := range areas {
		areas[i] = area
	}
	b.layers++
	got := lay(b.s, head, tail, areas)
	if !got.fits {
		return InputError{ErrNoBeadFits, fmt.Sprintf("%d beads of %s in layer %d", n, squares(area), b.layers), "beads that reach from toe to toe", "change the area of a pass, or lower the convexity factor"}
	}
	small := Fillet{b.f.Angle, share * b.f.Leg1, share * b.f.Leg2}
	throat := 2 * small.Area() / small.FaceWidth()
	for i, f := range got.faces {
		p := Pass{Layer: b.layers, Area: area, Bead: f.outline(got.grounds[i]), Toes: [2]Point{f.from.Point, f.to.Point}, Thickness: throat - b.throat}
		p.Aim, p.Work = b.aim(got, i), b.work(i, n)
		b.passes = append(b.passes, p)
	}
	b.s, b.throat, b.low = got.after, throat, got.low
	b.toes = [2]Point{got.faces[0].from.Point, got.faces[n-1].to.Point}
	return nil
}

// roles names the passes: the first is the root, those of the last layer are the
// cap.
func (b *builder) roles() {
	for i := range b.passes {
		p := &b.passes[i]
		switch {
		case i == 0:
			p.Role = RootPass
		case p.Layer == b.layers:
			p.Role = CapPass
		default:
			p.Role = FillPass
		}
	}
}

// aim returns where bead i of a layer is pointed at.
func (b *builder) aim(l layer, i int) Point {
	switch last := len(l.faces) - 1; {
	case b.layers == 1:
		return Point{}
	case last == 0:
		return middle(l.grounds[0], l.faces[0])
	case i == 0:
		return b.toes[0]
	case i == last:
		return b.toes[1]
	default:
		return l.faces[i-1].to.Point
	}
}

// middle returns the place of the ground half way along between a bead's toes.
func middle(ground surface, f face) Point {
	return ground.spot((f.from.run + f.to.run) / 2).Point
}

// work returns the work angle of bead i of n in a layer, rad.
func (b *builder) work(i, n int) float64 {
	bisector := math.Pi/2 - b.f.Angle/2
	if n == 1 {
		return bisector
	}
	open := min(b.f.Angle, math.Pi/2)
	return bisector + open*(-lowerLean+(lowerLean+higherLean)*float64(i)/float64(n-1))
}

// reflect mirrors a plan in the bisector of a fillet with an included angle
// (rad): what lay on the base plate lies on the other.
func reflect(p *Plan, angle float64) {
	sin, cos := math.Sincos(angle)
	over := func(q Point) Point { return Point{cos*q.X + sin*q.Y, sin*q.X - cos*q.Y} }
	reversed := func(in []Point) []Point {
		out := make([]Point, len(in))
		for i, q := range in {
			out[len(in)-1-i] = over(q)
		}
		return out
	}
	for i := range p.Passes {
		q := &p.Passes[i]
		q.Bead, q.Aim = reversed(q.Bead), over(q.Aim)
		q.Toes = [2]Point{over(q.Toes[1]), over(q.Toes[0])}
		q.Work = math.Pi - angle - q.Work
	}
	for i := range p.Filled {
		p.Filled[i] = reversed(p.Filled[i])
	}
	p.Face = reversed(p.Face)
}
