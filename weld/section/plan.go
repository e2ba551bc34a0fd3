package section

import (
	"fmt"
	"math"
	"strconv"

	"seamwright/unit"
	"seamwright/weld"
)

// Role is what a pass is for. The zero value is "not stated".
type Role uint8

// The roles.
const (
	RootPass Role = iota + 1
	FillPass
	CapPass
)

// String returns "root", "fill" or "cap".
func (r Role) String() string {
	switch r {
	case RootPass:
		return "root"
	case FillPass:
		return "fill"
	case CapPass:
		return "cap"
	}
	return "role not stated"
}

// Pass is one run of the torch along the seam.
type Pass struct {
	Role  Role
	Layer int  // from 1, from the root outward
	Back  bool // welded from the back of a double preparation, after the front
	// Area is the metal that the pass lays, m2. Travel speed and heat follow
	// from it; nothing is added for melted plate.
	Area float64
	Bead Polygon // the metal in its place, on what was there before, m
	// Aim is where the wire points, m: the root, the toes of earlier beads.
	Aim Point
	// Work is the work angle, rad from the normal of the base plate (of the
	// back face for a pass from the back), positive to the open side, as
	// AWS A3.0 measures it.
	Work float64
	// Toes are the ends of the bead's face when it is laid, first on the side of
	// the base plate (of positive X), m. The next bead of the layer may cover half
	// of the face.
	Toes [2]Point
	// Thickness is that of the layer, m: from the line between its toes to the
	// same line of the layer below, or to the root.
	Thickness float64
}

// Width returns the distance between the toes of the bead, m.
func (p Pass) Width() float64 { return p.Toes[1].sub(p.Toes[0]).norm() }

// Plan is the passes that fill a section, in the order in which they are laid.
type Plan struct {
	Passes []Pass
	Needed float64   // metal that the section needs, m2
	Filled []Polygon // the section to be filled, caps included, m
	Root   Point     // the root, from which aims are measured, m
	Face   []Point   // what is open to the arc after the last pass of the front, m
	// Throat is the least distance of a fillet's finished face from the root, m; 0
	// for a groove, which Low speaks for.
	Throat float64
	// Low is the least height of the finished face over the line between the toes
	// of the last layer, m: the plates' face for a groove, the worse of its sides.
	// Negative is a valley that is not filled.
	Low float64
}

// Total returns the metal of all passes, m2.
func (p Plan) Total() float64 {
	sum := 0.0
	for _, q := range p.Passes {
		sum += q.Area
	}
	return sum
}

// Shift says how the torch of a pass is held from the root of the seam.
type Shift struct {
	Offset   float64 // across the base plate, positive to the open side, m
	Distance float64 // by which the contact tip is backed off along the wire, m
	// Ahead is how much further along the seam the root is to be taken so that
	// the wire tip itself comes where it is wanted, m; 0 for a torch square to
	// the seam.
	Ahead float64
}

// Shift returns how the torch of pass i (from 0) is held from the root of the seam
// for a travel angle (rad, push positive, under 80 degrees either way).
//
//	offset = x - y tan(work)    distance = y/(cos(work) cos(travel))
//	ahead = distance sin(travel)
//
// x and y are the aim from the root, along and out of the base plate, or of the face
// that is welded. Derived: the wire, drawn on from the aim, meets the base plate at
// the offset.
func (p Plan) Shift(i int, travel float64) (Shift, error) {
	if i < 0 || i >= len(p.Passes) {
		return Shift{}, fmt.Errorf("aim of a pass: %w", InputError{ErrOutsideSection, "pass " + strconv.Itoa(i+1), fmt.Sprintf("1 to %d", len(p.Passes)), "count the passes of the plan"})
	}
	if err := inRange("aim of a pass", travelAngleSense.Of(travel)); err != nil {
		return Shift{}, err
	}
	q := p.Passes[i]
	d := q.Aim.sub(p.Root)
	if q.Back {
		d.Y = -d.Y // out of the back face
	}
	distance := d.Y / (math.Cos(q.Work) * math.Cos(travel))
	return Shift{Offset: d.X - d.Y*math.Tan(q.Work), Distance: distance, Ahead: distance * math.Sin(travel)}, nil
}

var travelAngleSense = weld.Sense{What: "travel angle", Low: -80 * unit.Deg, High: 80 * unit.Deg, Unit: unit.Degrees}

// The ranges of sense. Common practice, no source.
var (
	passSense  = weld.Sense{What: "area of a pass", Low: 3e-6, High: 150e-6, Unit: unit.SquareMillimetres}
	layerSense = weld.Sense{What: "layer thickness", Low: 1e-3, High: 15e-3, Unit: unit.Millimetres}
	widthSense = weld.Sense{What: "bead width", Low: 3e-3, High: 40e-3, Unit: unit.Millimetres}
)

// Mirrored returns the plan of the other hand: the mirror image in the line that
// stands on the root, positive X on the other side.
func (p Plan) Mirrored() Plan {
	m := p
	m.Root, m.Face = p.Root.mirrored(), mirroredAll(p.Face)
	m.Filled, m.Passes = nil, nil
	for _, f := range p.Filled {
		m.Filled = append(m.Filled, mirroredAll(f))
	}
	for _, q := range p.Passes {
		q.Bead, q.Aim, q.Work = mirroredAll(q.Bead), q.Aim.mirrored(), -q.Work
		q.Toes = [2]Point{q.Toes[1].mirrored(), q.Toes[0].mirrored()}
		m.Passes = append(m.Passes, q)
	}
	return m
}

func (p Point) mirrored() Point { return Point{0 - p.X, p.Y} }

// mirroredAll mirrors an outline and turns its order, so that it runs round as
// before.
func mirroredAll[P ~[]Point](outline P) P {
	var out P
	for i := len(outline) - 1; i >= 0; i-- {
		out = append(out, outline[i].mirrored())
	}
	return out
}

// mostPasses is how many passes a plan may have: more, and a measure is wrong.
const mostPasses = 300

// adds checks what a plan promises: the beads sum to what is needed.
func (p Plan) adds() error {
	const slack = 1e-6 // share of the whole
	if got := p.Total(); math.Abs(got-p.Needed) > slack*p.Needed {
		return InputError{ErrDoesNotAddUp, squares(got), squares(p.Needed) + " within a millionth", "tell the maintainers: this is a fault of the planner"}
	}
	return nil
}

// squares prints an area (m2) in mm2.
func squares(m2 float64) string { return fmt.Sprintf("%.4g mm2", m2/unit.MM2) }
