// Package weave holds the side motion that a controller lays over the travel along
// a seam: what a document says of it, and where it has the wire at a time.
//
//	w, err := weave.New(weave.Weave{Amplitude: 2e-3, Frequency: 2})
//	left := w.Offset(0.1) // m
package weave

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/mathext"

	"seamwright/unit"
	"seamwright/weld"
	"seamwright/weld/section"
)

// ErrNoTimeToMove is the name of what is refused about dwells, beside
// section.ErrOutOfRange. Ask with errors.Is; the words are in section.InputError.
var ErrNoTimeToMove = errors.New("no time to move")

// Shape is how the wire goes from edge to edge. The zero value is Triangle.
type Shape uint8

// The shapes.
const (
	Triangle Shape = iota // steady from edge to edge, turning sharply
	Sine                  // slowing down into the edges
)

// String returns "triangle" or "sine".
func (s Shape) String() string {
	if s == Sine {
		return "sine"
	}
	return "triangle"
}

// ParseShape reads "triangle" or "sine", in any case.
func ParseShape(s string) (Shape, error) {
	switch strings.ToLower(strings.TrimSpace(s)) {
	case "triangle":
		return Triangle, nil
	case "sine":
		return Sine, nil
	}
	return 0, fmt.Errorf("weave %q: write triangle or sine", s)
}

// Weave is a side motion of the wire over the travel along the seam. Left and right
// are seen along the travel with the torch up. A cycle goes from the middle to the
// left edge, back through the middle to the right edge and back; it takes
// 1/Frequency, dwells included, so that the travel speed and the metal in each
// length of seam are those without it. Heat input counts the travel along the seam,
// never the speed of the wire across it: a weave does not lower it.
type Weave struct {
	Shape     Shape
	Amplitude float64 // from the middle to an edge, m
	Frequency float64 // cycles per second, Hz
	// Dwells are stands of the side motion, while the travel goes on, in s: at the
	// left edge, at each of the two crossings of the middle, at the right edge.
	DwellLeft, DwellCentre, DwellRight float64
	// Plane is the turn of the weave about the seam, rad: 0 weaves square to the
	// wire; positive lifts the left edge towards the torch.
	Plane float64
}

// The ranges of sense. Common practice, no source.
var (
	amplitudeSense = weld.Sense{What: "weave amplitude", Low: 0.1e-3, High: 20e-3, Unit: unit.Millimetres}
	frequencySense = weld.Sense{What: "weave frequency", Low: 0.05, High: 20, Unit: unit.Hertz}
	dwellSense     = weld.Sense{What: "weave dwell", Low: 0, High: 5, Unit: unit.Seconds}
	planeSense     = weld.Sense{What: "turn of the weave plane", Low: -math.Pi / 2, High: math.Pi / 2, Unit: unit.Degrees}
)

// New returns w checked: amplitude 0.1 to 20 mm, frequency 0.05 to 20 Hz, dwells
// 0 to 5 s that leave time to move, plane 90 degrees either way at most.
func New(w Weave) (Weave, error) {
	if w.Shape > Sine {
		return Weave{}, fmt.Errorf("weave: %w", refusal(section.ErrOutOfRange, fmt.Sprintf("shape %d", w.Shape), "triangle, sine", "name the shape"))
	}
	if err := weld.CheckAll(amplitudeSense.Of(w.Amplitude), frequencySense.Of(w.Frequency), dwellSense.Of(w.DwellLeft),
		dwellSense.Of(w.DwellCentre), dwellSense.Of(w.DwellRight), planeSense.Of(w.Plane)); err != nil {
		return Weave{}, fmt.Errorf("weave: %w: %w", section.ErrOutOfRange, err)
	}
	if !(w.quarter() > leastQuarter) {
		return Weave{}, fmt.Errorf("weave: %w", refusal(ErrNoTimeToMove, fmt.Sprintf("dwells of %.4g s", w.dwell()), fmt.Sprintf("less than the cycle, %.4g s", w.Period()), "shorten the dwells or lower the frequency"))
	}
	return w, nil
}

// leastQuarter is the least time from the middle to an edge, s: under a millisecond
// nothing moves.
const leastQuarter = 1e-3

// Period returns the time of a cycle, s.
func (w Weave) Period() float64 { return 1 / w.Frequency }

// dwell returns all dwells of a cycle, s.
func (w Weave) dwell() float64 { return w.DwellLeft + 2*w.DwellCentre + w.DwellRight }

// quarter returns the time from the middle to an edge or back, s.
func (w Weave) quarter() float64 { return (w.Period() - w.dwell()) / 4 }

// Advance returns the length of seam in a cycle, m, at a travel speed (m/s): v/f.
// Derived.
func (w Weave) Advance(travel float64) float64 { return travel / w.Frequency }

// Offset returns how far the wire is off the middle at a time (s) after the start of
// the pass, m, positive to the left of travel. Before the start it is 0.
func (w Weave) Offset(time float64) float64 {
	if !(time > 0) {
		return 0
	}
	t := math.Mod(time, w.Period())
	q := w.quarter()
	for _, part := range [...]struct{ lasts, from, to float64 }{
		{q, 0, 1}, {w.DwellLeft, 1, 1}, {q, 1, 0}, {w.DwellCentre, 0, 0},
		{q, 0, -1}, {w.DwellRight, -1, -1}, {q, -1, 0}, {w.DwellCentre, 0, 0},
	} {
		if t < part.lasts {
			return w.Amplitude * w.moved(part.from, part.to, t/part.lasts)
		}
		t -= part.lasts
	}
	return 0 // rounding at the end of a cycle
}

// moved returns where the wire is, in amplitudes, at the share f of a quarter.
func (w Weave) moved(from, to, f float64) float64 {
	switch {
	case from == to:
		return from
	case w.Shape == Triangle:
		return from + (to-from)*f
	case from == 0:
		return to * math.Sin(math.Pi/2*f)
	}
	return from * math.Cos(math.Pi/2*f)
}

// OffsetAt returns how far the wire is off the middle at an arc length (m) from the
// start of the pass, m, positive to the left, at a steady travel speed (m/s).
func (w Weave) OffsetAt(arc, travel float64) float64 { return w.Offset(arc / travel) }

// Turns returns the times (s) within a cycle, rising from 0, at which the wire turns,
// stops or starts: between them it goes steadily (triangle) or along a quarter of a
// sine. A dwell of no length is told once.
func (w Weave) Turns() []float64 {
	out := []float64{0}
	q, t := w.quarter(), 0.0
	for _, lasts := range []float64{q, w.DwellLeft, q, w.DwellCentre, q, w.DwellRight, q, w.DwellCentre} {
		if t += lasts; lasts > 0 && t < w.Period()*(1-1e-12) {
			out = append(out, t)
		}
	}
	return out
}

// LateralSpeed returns the mean and the highest speed across the seam while the wire
// moves from edge to edge, m/s. Derived; for a triangle with dwells at both edges 4 A
// f/(1 - 2 t f), the highest of a sine without dwells 2 pi A f.
func (w Weave) LateralSpeed() (mean, peak float64) {
	mean = w.Amplitude / w.quarter()
	if w.Shape == Sine {
		return mean, mean * math.Pi / 2
	}
	return mean, mean
}

// LateralAcceleration returns the highest acceleration across the seam, m/s2. For a
// sine it is A (pi/2)^2 over the square of a quarter's time, 4 pi^2 A f^2 without
// dwells. A triangle turns at once, which no arm can: the acceleration is that of
// rounding the turn over the last part (rounding, m) before the edge, v^2/(2
// rounding), and rounding must be above 0 and at most the amplitude. Derived.
func (w Weave) LateralAcceleration(rounding float64) (float64, error) {
	_, peak := w.LateralSpeed()
	if w.Shape == Sine {
		return peak * math.Pi / 2 / w.quarter(), nil
	}
	if !(rounding > 0 && rounding <= w.Amplitude) {
		return 0, fmt.Errorf("weave: %w", refusal(section.ErrOutOfRange, "turns rounded over "+millimetres(rounding), "above 0 mm and up to the amplitude, "+millimetres(w.Amplitude), "tell how much of the edge the arm may round off, or weave a sine"))
	}
	return peak * peak / (2 * rounding), nil
}

// PathRatio returns the length of the wire's path over the length of seam,
// dimensionless, at a travel speed (m/s, 0.2 to 100 mm/s).
//
// Each quarter goes v t along the seam and A across it: a triangle sqrt((v t)^2 +
// A^2), a sine (2/pi) sqrt(1 + k^2) E(k^2/(1 + k^2)) v t, k = pi A/(2 v t), E the
// complete elliptic integral of the second kind; a dwell goes v t. Without dwells a
// triangle gives sqrt(1 + (4A/lambda)^2). Derived.
func (w Weave) PathRatio(travel float64) (float64, error) {
	if err := weld.TravelSense().Check(travel); err != nil {
		return 0, fmt.Errorf("weave: %w: %w", section.ErrOutOfRange, err)
	}
	along := travel * w.quarter()
	quarter := math.Hypot(along, w.Amplitude)
	if w.Shape == Sine {
		k := math.Pi * w.Amplitude / (2 * along)
		quarter = 2 / math.Pi * math.Sqrt(1+k*k) * mathext.CompleteE(k*k/(1+k*k)) * along
	}
	return (4*quarter + w.dwell()*travel) / w.Advance(travel), nil
}

// WireSpeed returns the mean speed of the wire along its path, m/s, at a travel speed
// (m/s) of 0.2 to 100 mm/s: PathRatio times the travel, derived. It is no travel speed:
// heat input and metal count the latter.
func (w Weave) WireSpeed(travel float64) (float64, error) {
	ratio, err := w.PathRatio(travel)
	return ratio * travel, err
}

// refusal is an error in the words that all of these have.
func refusal(kind error, found, allowed, mend string) error {
	return section.InputError{Kind: kind, Found: found, Allowed: allowed, Mend: mend}
}

// millimetres prints a length (m) in mm.
func millimetres(m float64) string { return fmt.Sprintf("%.4g mm", m/unit.MM) }
