package section

import (
	"fmt"
	"math"
	"strings"

	"seamwright/unit"
	"seamwright/weld"
)

// Prep is how the edges of a groove are prepared (words: AWS A3.0, ISO 9692-1).
// The zero value is "not stated".
type Prep uint8

// The preparations. Doubles are welded from both sides.
const (
	Square Prep = iota + 1
	SingleV
	DoubleV
	SingleBevel
	DoubleBevel
	SingleU
	DoubleU
	SingleJ
	DoubleJ
	FlareV     // between two round edges
	FlareBevel // between a round edge and a flat one
)

var prepWords = [...]string{"preparation not stated", "square", "single V", "double V", "single bevel",
	"double bevel", "single U", "double U", "single J", "double J", "flare V", "flare bevel"}

// String returns the trade's words, such as "single bevel".
func (p Prep) String() string {
	if int(p) >= len(prepWords) {
		return fmt.Sprintf("preparation %d", uint8(p))
	}
	return prepWords[p]
}

// ParsePrep reads words such as "single V" or "flare-bevel", in any case.
func ParsePrep(s string) (Prep, error) {
	fold := func(s string) string {
		return strings.NewReplacer(" ", "", "-", "", "_", "").Replace(strings.ToLower(s))
	}
	for i, w := range prepWords[1:] {
		if fold(w) == fold(s) {
			return Prep(i + 1), nil
		}
	}
	return 0, fmt.Errorf("preparation %q: write one of %s", s, strings.Join(prepWords[1:], ", "))
}

// Double reports whether both sides are prepared.
func (p Prep) Double() bool {
	return p == DoubleV || p == DoubleBevel || p == DoubleU || p == DoubleJ
}

// Flare reports whether the groove lies beside round edges.
func (p Prep) Flare() bool { return p == FlareV || p == FlareBevel }

// oneEdge reports whether only one of the two plates is prepared.
func (p Prep) oneEdge() bool {
	return p == SingleBevel || p == DoubleBevel || p == SingleJ || p == DoubleJ || p == FlareBevel
}

// curved reports whether the edges start with a root radius.
func (p Prep) curved() bool {
	return p == SingleU || p == DoubleU || p == SingleJ || p == DoubleJ
}

// Groove is a groove's section before welding. Build it with NewGroove, which
// checks it. Where only one edge is prepared it is the one at positive X.
type Groove struct {
	Prep Prep
	// Thickness is that of the plates, m. In a flare groove it is the height of
	// the fill above the line where the parts are closest, at most the radius,
	// which it equals where the groove is filled flush.
	Thickness float64
	Gap       float64 // root opening after tacking, m, 0 or more
	RootFace  float64 // unprepared part of the edge, m; 0 in square and flare grooves
	// Angle is the included angle of a V, and the angle of one prepared edge
	// from the plates' normal elsewhere (bevel angle), rad; 0 in square and
	// flare grooves.
	Angle  float64
	Radius float64 // root radius of U and J, radius of the round part of a flare, m
	// Back is how deep the back of a double preparation is prepared, m; 0 shares
	// the depth equally.
	Back float64
}

// The ranges of sense. Common practice, no source.
var (
	grooveGapSense = weld.Sense{What: "gap", Low: 0, High: 30e-3, Unit: unit.Millimetres}
	rootFaceSense  = weld.Sense{What: "root face", Low: 0, High: 300e-3, Unit: unit.Millimetres}
	includedVSense = weld.Sense{What: "included angle of the V", Low: 20 * unit.Deg, High: 120 * unit.Deg, Unit: unit.Degrees}
	bevelSense     = weld.Sense{What: "bevel angle", Low: 10 * unit.Deg, High: 60 * unit.Deg, Unit: unit.Degrees}
	curvedSense    = weld.Sense{What: "bevel angle above the root radius", Low: 0, High: 45 * unit.Deg, Unit: unit.Degrees}
	radiusSense    = weld.Sense{What: "root radius", Low: 1e-3, High: 30e-3, Unit: unit.Millimetres}
	flareSense     = weld.Sense{What: "radius of the round part", Low: 2e-3, High: 300e-3, Unit: unit.Millimetres}
	fillSense      = weld.Sense{What: "height of the fill", Low: 0.3e-3, High: 300e-3, Unit: unit.Millimetres}
	backSense      = weld.Sense{What: "depth of the back", Low: 0, High: 300e-3, Unit: unit.Millimetres}
)

// NewGroove returns g checked, with the back of a double preparation filled in,
// or an error that names what does not go together: a measure outside its range
// (V 20 to 120 degrees, bevel 10 to 60, U and J 0 to 45, gap up to 30 mm), a
// root face that leaves nothing to prepare, a root radius deeper than its side,
// a measure that the preparation does not have.
func NewGroove(g Groove) (Groove, error) {
	if err := g.senses(); err != nil {
		return Groove{}, err
	}
	if err := g.strangers(); err != nil {
		return Groove{}, err
	}
	if err := g.fits(); err != nil {
		return Groove{}, err
	}
	if g.Prep.Double() && g.Back == 0 {
		g.Back = (g.Thickness - g.RootFace) / 2
	}
	if err := g.radiusFits(); err != nil {
		return Groove{}, err
	}
	return g, nil
}

// senses holds every measure against its range.
func (g Groove) senses() error {
	if g.Prep == 0 || int(g.Prep) >= len(prepWords) {
		return fmt.Errorf("groove: %w", InputError{ErrNotStated, g.Prep.String(), strings.Join(prepWords[1:], ", "), "say how the edges are prepared"})
	}
	what := fmt.Sprintf("%v groove", g.Prep)
	thick := plateSense
	if g.Prep.Flare() {
		thick = fillSense
	}
	values := []weld.Sensed{thick.Of(g.Thickness), grooveGapSense.Of(g.Gap), rootFaceSense.Of(g.RootFace), backSense.Of(g.Back)}
	switch {
	case g.Prep == SingleV || g.Prep == DoubleV:
		values = append(values, includedVSense.Of(g.Angle))
	case g.Prep == SingleBevel || g.Prep == DoubleBevel:
		values = append(values, bevelSense.Of(g.Angle))
	case g.Prep.curved():
		values = append(values, curvedSense.Of(g.Angle), radiusSense.Of(g.Radius))
	case g.Prep.Flare():
		values = append(values, flareSense.Of(g.Radius))
	}
	return inRange(what, values...)
}

// strangers refuses measures that the preparation does not have, so that none
// is told in vain.
func (g Groove) strangers() error {
	for _, m := range []struct {
		name  string
		told  bool
		value string
	}{
		{"a root face", g.RootFace != 0 && (g.Prep == Square || g.Prep.Flare()), millimetres(g.RootFace)},
		{"an angle", g.Angle != 0 && (g.Prep == Square || g.Prep.Flare()), degrees(g.Angle)},
		{"a radius", g.Radius != 0 && !g.Prep.curved() && !g.Prep.Flare(), millimetres(g.Radius)},
		{"a depth of the back", g.Back != 0 && !g.Prep.Double(), millimetres(g.Back)},
	} {
		if m.told {
			return fmt.Errorf("%v groove: %w", g.Prep, InputError{ErrNotOfThisPrep, m.name + " of " + m.value, "none", "leave it out or name another preparation"})
		}
	}
	return nil
}

// fits holds root face, fill height and the depth of the back against the
// thickness.
func (g Groove) fits() error {
	what := fmt.Sprintf("%v groove", g.Prep)
	switch {
	case g.Prep.Flare() && g.Thickness > g.Radius:
		return fmt.Errorf("%s: %w", what, InputError{ErrOutsideSection, "a fill " + millimetres(g.Thickness) + " high", "up to the radius, " + millimetres(g.Radius), "a flare groove is flush at its radius; tell the rest as a cap"})
	case g.Prep == Square || g.Prep.Flare():
		if g.Prep == Square && g.Gap == 0 {
			return fmt.Errorf("%s: %w", what, InputError{ErrNothingToFill, "a gap of 0 mm", "more than 0 mm", "tell the gap, or prepare the edges; a closed square joint is sized by its cap and penetration"})
		}
	case g.RootFace >= g.Thickness:
		return fmt.Errorf("%s: %w", what, InputError{ErrRootFace, millimetres(g.RootFace), "less than the thickness, " + millimetres(g.Thickness), "measure the edge again, or name it a square groove"})
	case g.Back >= g.Thickness-g.RootFace && g.Back > 0:
		return fmt.Errorf("%s: %w", what, InputError{ErrTwoSides, "a back " + millimetres(g.Back) + " deep", "less than thickness less root face, " + millimetres(g.Thickness-g.RootFace), "make the back shallower, or name a single preparation"})
	}
	return nil
}

// radiusFits refuses a root radius whose arc is deeper than one of its sides.
func (g Groove) radiusFits() error {
	if !g.Prep.curved() {
		return nil
	}
	arc := g.edge().arcHeight()
	least := g.frontDepth()
	if g.Prep.Double() {
		least = min(least, g.Back)
	}
	if weld.AtMost(least).Contains(arc) {
		return nil
	}
	most := least / (1 - math.Sin(g.Angle))
	return fmt.Errorf("%v groove: %w", g.Prep, InputError{ErrRootRadius, millimetres(g.Radius), "up to " + millimetres(most) + " for a side " + millimetres(least) + " deep", "choose a smaller radius or a V"})
}

// millimetres prints a length (m) in mm.
func millimetres(m float64) string { return fmt.Sprintf("%.4g mm", m/unit.MM) }

// degrees prints an angle (rad) in degrees.
func degrees(rad float64) string { return fmt.Sprintf("%.4g deg", rad/unit.Deg) }
