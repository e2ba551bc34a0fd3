package deposit

import (
	"fmt"
	"math"
)

// Batch is the cost of making parts one way, in currency units.
type Batch struct {
	Once    float64 // for a batch of any size: set-up, fixture, teaching, in currency units
	PerPart float64 // for each part, in currency units
}

// Cost returns the cost of a number of parts, in currency units. DERIVED.
func (b Batch) Cost(parts int) float64 { return b.Once + float64(parts)*b.PerPart }

// Advantage says from which batch size one way of making parts is the cheaper.
// The zero value is no answer.
type Advantage uint8

// The answers.
const (
	Always   Advantage = iota + 1 // from the first part
	FromSize                      // from a batch size on
	UpToSize                      // up to a batch size
	Never                         // at no size
)

// String returns the answer in words.
func (a Advantage) String() string {
	return [...]string{"no answer", "from the first part", "from a batch size on", "up to a batch size", "at no batch size"}[min(a, Never)]
}

// BreakEven is from where on one way is no dearer than another.
type BreakEven struct {
	Advantage Advantage
	// Parts is the smallest batch for which it is no dearer (FromSize, Always: 1)
	// or the largest (UpToSize); 0 for Never.
	Parts int
	// PerPart is what each part saves, in currency units; negative where it costs
	// more.
	PerPart float64
}

// largestBatch bounds a batch: no shop makes more parts than that.
const largestBatch = 1e9

// BreakEvenOf compares a way of making parts with another: with n parts, Once
// and n times PerPart on either side, it is no dearer from n = (Once - Once')
// / (PerPart' - PerPart), rounded up. DERIVED. Costs are zero or more, in
// currency units.
func BreakEvenOf(way, other Batch) (BreakEven, error) {
	for _, cost := range []float64{way.Once, way.PerPart, other.Once, other.PerPart} {
		if !(cost >= 0) || math.IsInf(cost, 0) {
			return BreakEven{}, fmt.Errorf("break-even batch: a cost is %g; give costs that are 0 or more", cost)
		}
	}
	saving, ahead := other.PerPart-way.PerPart, way.Once-other.Once
	out := BreakEven{PerPart: saving}
	const rounding = 1e-9 // of a part
	size := ahead / saving
	switch {
	case way.Cost(1) <= other.Cost(1) && saving >= 0, saving < 0 && size >= largestBatch:
		out.Advantage, out.Parts = Always, 1
	case saving > 0 && size < largestBatch:
		out.Advantage, out.Parts = FromSize, int(math.Ceil(size-rounding))
	case saving < 0 && size+rounding >= 1 && size < largestBatch:
		out.Advantage, out.Parts = UpToSize, int(math.Floor(size+rounding))
	default:
		out.Advantage = Never
	}
	return out, nil
}
