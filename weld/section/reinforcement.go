package section

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Reinforcement is the metal of a groove weld above the plates' face.
type Reinforcement struct {
	Height float64 // at the middle, m; 0 for a flush weld
	// Over is how much wider the cap is than the mouth of the groove, both
	// sides together, m; 2 to 4 mm are usual (from memory).
	Over float64
}

var (
	reinforcementSense = weld.Sense{What: "cap height", Low: 0, High: 15e-3, Unit: unit.Millimetres}
	overSense          = weld.Sense{What: "width of the cap beyond the mouth", Low: 0, High: 20e-3, Unit: unit.Millimetres}
)

// UsualReinforcement returns the usual cap of a butt weld: 1.5 mm high, 2 mm
// wider than the mouth (from memory; ISO 5817 limits the height by the width).
func UsualReinforcement() Reinforcement { return Reinforcement{Height: 1.5e-3, Over: 2e-3} }

// CapArea returns the area of a cap over the front face, m2: 2/3 w h, w the
// mouth and r.Over, height 0 to 15 mm, a parabola. Formula from memory (planning
// rule of the trade); a round cap of the same height is up to 3 % larger below
// a fifth of the width, see the function CapArea.
func (g Groove) CapArea(r Reinforcement) (float64, error) {
	if err := inRange("cap", reinforcementSense.Of(r.Height), overSense.Of(r.Over)); err != nil {
		return 0, err
	}
	return capOver(g.Mouth()+r.Over, r.Height)
}

// capOver returns the area of a cap of a width and a height (m), m2.
func capOver(width, height float64) (float64, error) {
	if height > mostConvex*width {
		return 0, fmt.Errorf("cap: %w", InputError{ErrOutOfRange, "a height of " + millimetres(height), "up to half the width, " + millimetres(mostConvex*width), "lower the cap or widen it"})
	}
	return 2.0 / 3 * width * height, nil
}

// capSteps is the number of straight steps of a drawn cap; the polygon is then
// smaller than the parabola by 1/capSteps^2, 0.02 %.
const capSteps = 64

// CapOutline returns the outline of a cap over the front face, empty for a
// flush weld.
func (g Groove) CapOutline(r Reinforcement) (Polygon, error) {
	if _, err := g.CapArea(r); err != nil || r.Height == 0 {
		return nil, err
	}
	left, right := g.sides(g.Thickness)
	return parabola(Point{right + r.Over/2, g.Thickness}, Point{-left - r.Over/2, g.Thickness}, r.Height, capSteps), nil
}

// parabola returns the segment over the chord from p to q with its height (m)
// to the right of the way from p to q, counter-clockwise.
func parabola(p, q Point, height float64, steps int) Polygon {
	d := q.sub(p)
	out := Point{d.Y / d.norm(), -d.X / d.norm()}
	face := make(Polygon, 0, steps+1)
	for i := 0; i <= steps; i++ {
		f := float64(i) / float64(steps)
		face = append(face, p.between(q, f).along(4*height*f*(1-f), out))
	}
	return face
}

// Needed is the metal that a groove weld needs.
type Needed struct {
	Groove float64 // up to the plates' faces, m2
	Cap    float64 // over the front face, m2
	Back   float64 // over the back face, m2
}

// Total returns the sum, m2.
func (n Needed) Total() float64 { return n.Groove + n.Cap + n.Back }

// Needed returns the metal (m2) that the groove needs with a cap on the front,
// and on the back where the preparation is double.
func (g Groove) Needed(r Reinforcement) (Needed, error) {
	front, err := g.CapArea(r)
	if err != nil {
		return Needed{}, fmt.Errorf("%v groove: %w", g.Prep, err)
	}
	n := Needed{Groove: g.Area(), Cap: front}
	if g.Prep.Double() {
		if n.Back, err = capOver(g.BackMouth()+r.Over, r.Height); err != nil {
			return Needed{}, fmt.Errorf("back of a %v groove: %w", g.Prep, err)
		}
	}
	return n, nil
}
