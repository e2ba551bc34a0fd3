package section

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Penetration is how far a groove weld reaches into its joint.
type Penetration struct {
	Depth    float64 // joint penetration, caps not counted, m
	Unfused  float64 // root face left unmelted between the two sides or behind the one, m
	Complete bool    // nothing is left: complete joint penetration
}

var meltSense = weld.Sense{What: "penetration beyond the preparation", Low: 0, High: 20e-3, Unit: unit.Millimetres}

// Penetration returns how deep the weld goes when it melts the root face by
// front and back beyond the two sides of the preparation, m, 0 to 20 mm each;
// back is 0 for a weld from one side. Joint penetration is measured from the
// face to the deepest melted point without the cap (AWS A3.0, from memory);
// ISO 2553 calls it s. In a square groove all of the thickness is root face. A
// gap does not count: metal that runs through it is not fusion of its faces.
func (g Groove) Penetration(front, back float64) (Penetration, error) {
	what := fmt.Sprintf("penetration of a %v groove", g.Prep)
	if err := inRange(what, meltSense.Of(front), meltSense.Of(back)); err != nil {
		return Penetration{}, err
	}
	if g.Prep.Flare() {
		return Penetration{}, fmt.Errorf("%s: %w", what, InputError{ErrNotOfThisPrep, g.Prep.String(), "a groove with a root face", "see FlareThroat"})
	}
	face := g.frontRoot() - g.Back
	p := Penetration{Unfused: max(0, face-front-back)}
	p.Depth = g.Thickness - p.Unfused
	// Under 1 um is rounding, no unfused face.
	p.Complete = p.Unfused < 1e-6
	return p, nil
}

// DeepThroat returns the throat of a fillet that melts deeper than its root, m:
// throat and depth (m, 0 to 20 mm beyond the root, along the bisector) added, s
// in ISO 2553 (from memory). It counts only where trials have shown the depth
// (EN 1993-1-8, from memory).
func (f Fillet) DeepThroat(depth float64) (float64, error) {
	if err := inRange("deep throat", meltSense.Of(depth)); err != nil {
		return 0, err
	}
	return f.DesignThroat() + depth, nil
}

// aiscThroats names the table that PartialThroat reads.
var aiscThroats = weld.Source{Mark: weld.Read, Family: weld.AWS, Code: "AISC 360", Edition: "2010", Clause: "Table J2.1",
	Note: "seen in a public copy of the page; AWS D1.1 has the like"}

// shallower is what a narrow bevel loses, m (3 mm, 1/8 in), same table.
const shallower = 3e-3

// PartialThroat returns the throat of a partial-penetration groove weld that
// counts in design, m: the depth of the preparation for U, J and a V of 60
// degrees and more; for a bevel of 45 degrees and more the same with wire
// processes in flat and horizontal position, and 3 mm less for each side with
// covered electrodes or in vertical and overhead position. AISC 360-10 Table
// J2.1 (read), of the AWS family; position is one of 1G to 4G. What the table
// does not have is refused: other angles and processes, square and flare grooves.
func (g Groove) PartialThroat(p weld.Process, position weld.PositionName) (weld.Figure, error) {
	what := fmt.Sprintf("throat of a partial %v groove", g.Prep)
	wire := p.Planned()
	steep := position == weld.Vertical3G || position == weld.Overhead4G
	bevel := g.Prep == SingleBevel || g.Prep == DoubleBevel
	least := 60 * unit.Deg
	switch {
	case g.Prep == Square || g.Prep.Flare():
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrNotOfThisPrep, g.Prep.String(), "V, bevel, U and J", "show the throat by a trial"})
	case !wire && p != weld.CoveredElectrode:
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrNotOfThisCode, p.String(), "wire processes and covered electrodes", "open the table for other processes"})
	case !steep && position != weld.Flat1G && position != weld.Horizontal2G:
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrMixedFamilies, fmt.Sprintf("position %v", position), "1G, 2G, 3G, 4G", "name the position as AWS does; the table is of that family"})
	case bevel:
		least = 45 * unit.Deg
	}
	if !g.Prep.curved() && !weld.AtLeast(least).Contains(g.Angle) {
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrOutOfRange, "an angle of " + degrees(g.Angle), degrees(least) + " and more", "open the joint, or show the throat by a trial"})
	}
	loss := 0.0
	if bevel && (!wire || steep) {
		loss = shallower
	}
	throat := max(0, g.frontDepth()-loss)
	if g.Prep.Double() {
		throat += max(0, g.Back-loss)
	}
	return weld.Figure{Value: throat, Source: aiscThroats}, nil
}

// FlareThroat returns the throat that counts in design of a flare groove filled
// flush, m: 5/8 R (bevel) and 3/4 R (V) for gas-metal arc and gas-shielded
// flux-cored wires, 5/16 R and 5/8 R for covered electrodes, less what the fill
// is under flush. AISC 360-05 Table J2.2 (read). A flare bevel of a radius under
// 10 mm counts only with a fillet on top (the same) and is refused.
func (g Groove) FlareThroat(p weld.Process) (weld.Figure, error) {
	what := fmt.Sprintf("throat of a %v groove", g.Prep)
	shares := map[Prep][2]float64{FlareBevel: {5.0 / 8, 5.0 / 16}, FlareV: {3.0 / 4, 5.0 / 8}}
	share, ok := shares[g.Prep]
	if !ok {
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrNotOfThisPrep, g.Prep.String(), "flare V, flare bevel", "see PartialThroat"})
	}
	i := 0
	switch {
	case p.Planned():
	case p == weld.CoveredElectrode:
		i = 1
	default:
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrNotOfThisCode, p.String(), "wire processes and covered electrodes", "open the table for other processes"})
	}
	const leastRadius = 10e-3
	if g.Prep == FlareBevel && !weld.AtLeast(leastRadius).Contains(g.Radius) {
		return weld.Figure{}, fmt.Errorf("%s: %w", what, InputError{ErrOutOfRange, "a radius of " + millimetres(g.Radius), "10 mm and more", "count only a fillet laid over the flush fill"})
	}
	under := g.Radius - g.Thickness
	return weld.Figure{Value: max(0, share[i]*g.Radius-under), Source: weld.Source{Mark: weld.Read, Family: weld.AWS,
		Code: "AISC 360", Edition: "2005", Clause: "Table J2.2", Note: "seen in a public copy of the page"}}, nil
}
