package section

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// GroovePasses says how a groove is to be laid. Areas are of one pass, m2, 3 to 150
// mm2.
type GroovePasses struct {
	Groove Groove
	Cap    Reinforcement
	// MaxArea is the most that a fill pass may lay, and the root and the cap where
	// they are not told: what the settings lay at the slowest travel that heat
	// and pool allow.
	MaxArea  float64
	RootArea float64 // what the root pass lays; 0 for a share like the others
	CapArea  float64 // what a cap pass lays; 0 for a share like the others
	// MaxThickness is the thickest layer over the root, m, 1 to 15 mm; 0 means 6
	// mm, the largest fill pass of AWS D1.1 (see CodePassLimits).
	MaxThickness float64
	// MaxWidth is the width above which a layer is split into beads, m, 3 to 40
	// mm; 0 means 16 mm, AWS D1.1 for gas-metal arc in flat, horizontal and
	// overhead position (from memory).
	MaxWidth float64
}

// The defaults of GroovePasses, m.
const (
	usualThickness = 6e-3
	usualWidth     = 16e-3
)

// sideLean is by how much the first and the last bead of a split layer lean from
// the bisector so that the wire points at their edges, rad: 10 degrees, half the
// angle to the edge at most. Common practice, no source.
const sideLean = 10 * unit.Deg

// PlanGroove returns the passes of a groove: the root, fill layers, the cap; for a
// double preparation all of the front and then all of the back (shops change sides
// to keep the plates straight; the order is theirs to change).
//
// Number: what is left of section and cap after root and cap passes that are told,
// over MaxArea, rounded up, in equal shares; more where a layer would be thicker
// than MaxThickness or beads do not fit. A layer has as many beads as its width has
// MaxWidth, rounded up, more where it would be thinner than 1.5 mm. Layers fill to a
// level face in the mean; the beads of the cap reach over the mouth by half of
// Cap.Over on each side. Within a layer they are laid from positive X to negative.
// Aims: the root; the middle of the layer below for a bead that is a layer of its
// own; the toes of the layer below at the edges for the first and the last bead; the
// toe of the bead before for those between. Work angles: the bisector of the edges,
// see sideLean for split layers.
//
// The root of an open gap is laid as on a backing flush with the back face.
func PlanGroove(r GroovePasses) (Plan, error) {
	plan, err := r.plan()
	if err != nil {
		return Plan{}, fmt.Errorf("passes of a %v groove: %w", r.Groove.Prep, err)
	}
	return plan, nil
}

func (r GroovePasses) plan() (Plan, error) {
	if r.MaxThickness == 0 {
		r.MaxThickness = usualThickness
	}
	if r.MaxWidth == 0 {
		r.MaxWidth = usualWidth
	}
	if err := r.validate(); err != nil {
		return Plan{}, err
	}
	needed, err := r.Groove.Needed(r.Cap)
	if err != nil {
		return Plan{}, err
	}
	plan := Plan{Needed: needed.Total(), Filled: r.Groove.Outline(), Low: math.Inf(1)}
	for _, h := range r.Groove.halves(r.Cap) {
		if err := r.fill(&plan, h); err != nil {
			return Plan{}, err
		}
	}
	return plan, plan.adds()
}

func (r GroovePasses) validate() error {
	values := []weld.Sensed{passSense.Of(r.MaxArea), layerSense.Of(r.MaxThickness), widthSense.Of(r.MaxWidth)}
	for _, told := range []struct {
		what string
		area float64
	}{{"area of the root pass", r.RootArea}, {"area of a cap pass", r.CapArea}} {
		if told.area != 0 {
			sense := passSense
			sense.What = told.what
			values = append(values, sense.Of(told.area))
		}
	}
	if err := weld.CheckAll(values...); err != nil {
		return fmt.Errorf("%w: %w", ErrOutOfRange, err)
	}
	// A groove that NewGroove did not make may be anything.
	_, err := NewGroove(r.Groove)
	return err
}

// level is a layer to be laid: beads of one area (m2) up to a height (m), over the
// plates' face for the last.
type level struct {
	role  Role
	beads int
	area  float64
	top   float64
	last  bool
}

// beadsIn returns how many beads of a width of most (m) a width (m) takes.
func beadsIn(width, most float64) int { return max(1, int(math.Ceil(width/most-1e-9))) }

// fill lays one side of the groove and adds it to the plan, in as few passes as the
// area of one allows, more where layers would be too thick or beads do not fit.
func (r GroovePasses) fill(plan *Plan, h half) error {
	b := budget{r: r, h: h, section: h.g.Area(), capBeads: beadsIn(h.g.Mouth()+h.cap.Over, r.MaxWidth)}
	var err error
	if b.cap, err = h.g.CapArea(h.cap); err != nil {
		return err
	}
	b.shared = b.section + b.cap - r.RootArea - float64(b.capBeads)*r.CapArea
	if err := b.refuse(); err != nil {
		return err
	}
	n := int(math.Ceil(b.shared/r.MaxArea - 1e-9))
	if r.RootArea == 0 || r.CapArea == 0 {
		n = max(n, 1)
	}
	tries := 0
	for ; n <= mostPasses; n++ {
		if lone := n == 1 && r.RootArea == 0 && r.CapArea == 0; n > 0 && !lone && b.shared/float64(n) < passSense.Low {
			return InputError{ErrPassTooSmall, fmt.Sprintf("%d passes to share %s", n, squares(b.shared)), "at least " + squares(passSense.Low) + " each", "allow thicker or wider layers, or leave root and cap to be shared out"}
		}
		if levels, ok := b.share(n); ok {
			if err = layOn(plan, h, levels); err == nil {
				return nil
			}
			if tries++; tries > moreTries {
				return err
			}
		}
	}
	return InputError{ErrTooManyPasses, fmt.Sprintf("more than %d", mostPasses), fmt.Sprintf("up to %d", mostPasses), "raise MaxArea, or check the size"}
}

// budget is the metal of one side, m2.
type budget struct {
	r        GroovePasses
	h        half
	section  float64
	cap      float64
	shared   float64 // what is left after the passes that are told
	capBeads int
}

// refuse says what is wrong with the areas that are told.
func (b budget) refuse() error {
	all := b.section + b.cap
	switch told := all - b.shared; {
	case b.r.RootArea > b.section:
		return InputError{ErrPassTooLarge, "a root pass of " + squares(b.r.RootArea), "up to the section, " + squares(b.section), "lower the area of the root pass"}
	case b.r.RootArea > 0 && beadsIn(b.rootWidth(b.r.RootArea), b.r.MaxWidth) > 1:
		return InputError{ErrPassTooLarge, "a root pass " + millimetres(b.rootWidth(b.r.RootArea)) + " wide", "up to " + millimetres(b.r.MaxWidth), "lower the area of the root pass, or close the gap"}
	case b.shared < -1e-9*all:
		return InputError{ErrPassTooLarge, squares(told) + " told for root and cap", "up to section and cap, " + squares(all), "lower the areas of root and cap, or leave them to be shared out"}
	case b.r.CapArea > 0 && float64(b.capBeads)*b.r.CapArea < b.cap:
		return InputError{ErrPassTooSmall, fmt.Sprintf("cap passes of %s, %d side by side", squares(b.r.CapArea), b.capBeads), "together at least the cap, " + squares(b.cap), "raise the area of a cap pass or lower the cap"}
	}
	return nil
}

// rootWidth returns the width of the groove at the top of a root pass of an area
// (m2), m.
func (b budget) rootWidth(area float64) float64 {
	left, right := b.h.g.sides(b.h.level(area))
	return left + right
}

// tooWide reports whether beads of an area (m2) on what is filled (m2) are wider
// than allowed.
func (b budget) tooWide(filled, area float64, beads int) bool {
	left, right := b.h.g.sides(b.h.level(filled + float64(beads)*area))
	return beadsIn(left+right, b.r.MaxWidth) > beads
}

// share shares the metal out in n passes of one area, and says whether no layer is
// too thick or too wide for that.
func (b budget) share(n int) ([]level, bool) {
	area := b.shared / float64(max(n, 1))
	root, capArea := b.r.RootArea, b.r.CapArea
	if root == 0 && capArea == 0 && n == 1 { // one pass, root and cap in one
		return []level{{role: RootPass, beads: 1, area: area, last: true}}, b.capBeads == 1
	}
	capBeads := b.capBeads
	if capArea == 0 {
		capArea = area
		capBeads = max(capBeads, int(math.Ceil(b.cap/area-1e-9)))
		n -= capBeads
	}
	var out []level
	filled := 0.0
	add := func(role Role, beads int, area float64) bool {
		filled += float64(beads) * area
		l := level{role: role, beads: beads, area: area, top: b.h.level(filled)}
		out = append(out, l)
		below := b.h.bottom()
		if len(out) > 1 {
			below = out[len(out)-2].top
		}
		return len(out) == 1 || l.top-below <= b.r.MaxThickness
	}
	if root == 0 {
		if n--; n < 0 || b.rootWidth(area) > b.r.MaxWidth*(1+1e-9) {
			return nil, false
		}
		add(RootPass, 1, area)
	} else {
		add(RootPass, 1, root)
	}
	for n > 0 {
		beads := b.beads(filled, area, n)
		if n -= beads; b.tooWide(filled, area, beads) || !add(FillPass, beads, area) {
			return nil, false
		}
	}
	if n < 0 || b.h.g.Thickness-out[len(out)-1].top > b.r.MaxThickness {
		return nil, false
	}
	return append(out, level{role: CapPass, beads: capBeads, area: capArea, last: true}), true
}

// beads returns how many beads of an area (m2) lie side by side on what is filled
// (m2): as many as the width at their top takes, more where the layer would be
// thinner than thinnest; all of what is left where another layer would be short.
func (b budget) beads(filled, area float64, left int) int {
	below := b.h.level(filled)
	thick := func(n int) float64 { return b.h.level(filled+float64(n)*area) - below }
	n := 1
	for ; n < left; n++ {
		l, r := b.h.g.sides(b.h.level(filled + float64(n)*area))
		if beadsIn(l+r, b.r.MaxWidth) <= n && thick(n) >= thinnest {
			break
		}
	}
	if left-n < n && thick(left) <= b.r.MaxThickness {
		return left
	}
	return n
}

// thinnest is the thinnest fill layer that is laid as fewer, wider beads, m.
// Common practice, no source.
const thinnest = 1.5e-3
