package distort

import (
	"fmt"
	"math"

	"seamwright/unit"
)

// Seam is a weld along a part, whose place in an order is wanted.
type Seam struct {
	Area     float64 // of the section of the weld metal, m2: how thick the weld is
	Y, Z     float64 // from the neutral axes of the part's section to the weld, m
	From, To float64 // its ends along the part, m, in either order
}

// End is an end of a part that is held, welded in or clamped, so that only the
// other can move. The zero value is a part whose ends are both free.
type End uint8

// The ends.
const (
	BothFree End = iota
	LowHeld      // the end of smaller places along the part is held
	HighHeld     // the end of larger places along the part is held
)

// OrderRequest is a part whose seams want an order.
type OrderRequest struct {
	Seams    []Seam
	Held     End
	BackStep float64 // longest piece welded in one go, each against the way forward, m; 0 for none
}

// Reason is why a seam comes when it does.
type Reason uint8

// The reasons.
const (
	ThickFirst   Reason = iota + 1 // the part is in balance: the thickest of the seams that are left
	Balances                       // brings the part nearest to balance of the seams that are left
	NoneBalances                   // none that is left brings it nearer: the thickest of them
)

// String returns the reason in words.
func (r Reason) String() string {
	switch r {
	case ThickFirst:
		return "in balance so far: the thickest that is left"
	case Balances:
		return "brings the part nearest to balance"
	case NoneBalances:
		return "none that is left brings the part nearer to balance: the thickest of them"
	}
	return "reason not stated"
}

// Run is a piece of a seam welded in one go.
type Run struct {
	From, To float64 // along the part in the sense of travel, m
}

// Turned is a seam in its place in the order.
type Turned struct {
	Seam   int // index in the request
	Reason Reason
	Runs   []Run // in the order in which they are welded
	// Moment is what is not balanced when the seam is done, about both neutral
	// axes together: the length of the sum of area times length times offset, m2 times m2.
	Moment float64
}

// Order is a proposed order of seams.
type Order struct {
	Seams []Turned
	Worst float64 // largest Moment on the way, m2 times m2
	Given float64 // largest moment on the way in the order of the request, m2 times m2
	Left  float64 // moment when all is welded, whatever the order, m2 times m2
	// OneSided says that more than half of all moments is not balanced in the
	// end: no order helps there, and the part is set or braced against the bow.
	OneSided bool
}

// OrderIsThumb says what an Order is worth, in the words to show beside it.
const OrderIsThumb = "an order by rules of thumb, not a prediction: balance about the neutral axis, thick first, centre out, towards the free end; " +
	"the qualified procedure and whoever knows the part decide"

// balanced is the share of the largest single moment up to which a part counts
// as in balance, and evenly the share within which two seams count as alike,
// both dimensionless. Common practice, no source.
const (
	balanced = 0.05
	evenly   = 0.01
)

// ProposeOrder returns an order of the seams that keeps the moments of their
// shrinkage about the neutral axes small on the way, by rules of thumb that
// workshop articles give (read) and that are put together here as follows.
//
// As long as the part is in balance, the thickest seam that is left comes next,
// of equal ones the nearest to the neutral axis. Out of balance, the seam comes
// that brings it nearest. Among equals the one nearest to the middle comes first,
// or nearest to the end that is held; then the one given first. A seam is welded
// from the held end to the free one; with both ends free it is welded from the
// middle outwards, in two halves where it crosses the middle. With BackStep each
// run is cut into equal pieces no longer than that, and each is welded against
// the way in which they follow one another.
//
// Every seam shrinks as its area; a moment is area times length times offset.
// The order of passes and layers within a seam, heat and reach are not looked
// at.
func ProposeOrder(r OrderRequest) (Order, error) {
	if err := r.check(); err != nil {
		return Order{}, fmt.Errorf("order of seams: %w", err)
	}
	p := newPart(r)
	out := Order{Seams: make([]Turned, 0, len(r.Seams))}
	for _, m := range p.moments {
		p.now = p.now.plus(m)
		out.Given = max(out.Given, p.now.size())
	}
	out.Left = p.now.size()
	out.OneSided = out.Left > p.total/2
	p.now = pair{}
	for range r.Seams {
		i, why := p.next()
		p.now = p.now.plus(p.moments[i])
		p.done[i] = true
		out.Worst = max(out.Worst, p.now.size())
		out.Seams = append(out.Seams, Turned{Seam: i, Reason: why, Runs: p.runs(r.Seams[i]), Moment: p.now.size()})
	}
	return out, nil
}

func (r OrderRequest) check() error {
	if len(r.Seams) == 0 {
		return fmt.Errorf("no seam is given; give at least one")
	}
	if len(r.Seams) > mostSeams {
		return &InputError{"number of seams", fmt.Sprint(len(r.Seams)), fmt.Sprintf("1 to %d", mostSeams), "split the part into assemblies"}
	}
	if r.Held > HighHeld {
		return fmt.Errorf("held end %d is not known; say both free, low end held or high end held", r.Held)
	}
	if r.BackStep != 0 {
		if err := backSteps.check(r.BackStep); err != nil {
			return err
		}
	}
	for i, s := range r.Seams {
		err := sensible(areas.of(s.Area), offsets.of(s.Y), offsets.of(s.Z), places.of(s.From), places.of(s.To),
			lengths.of(math.Abs(s.To-s.From)))
		if err != nil {
			return fmt.Errorf("seam %d: %w", i+1, err)
		}
	}
	return nil
}

// mostSeams is more seams than one part has: the search takes their square.
const mostSeams = 2000

var backSteps = span{"back-step", 10 * unit.MM, 5, unit.MM, "mm"}
