package thermal

import (
	"fmt"
	"math"

	"seamwright/geom/r3"
	"seamwright/weld"
)

// FieldRequest is a run whose temperatures are wanted.
type FieldRequest struct {
	Power     float64 // q, heat that reaches the plate: k times volts times amps, W
	Travel    float64 // v, along the seam, m/s
	Preheat   float64 // T0, temperature of the plate far away, degrees C
	Plate     Plate   // how heat spreads; FinitePlate serves every thickness
	Thickness float64 // d, m; not read for ThickPlate
	Metal     Metal   // zero is SteelGrong
}

// Field is the temperature around an arc that moves steadily along a straight
// run, long after the start and far from any edge: D. Rosenthal's solution for
// a point of heat on the surface (thick and finite plate) or a line of heat
// through the plate (thin). Build it with NewField; it is a small value that
// never changes, so many goroutines may share it.
//
// Places are m in a frame that travels with the arc: X ahead along the travel,
// Y to the side, Z into the plate, the arc at the origin.
//
// It holds outside the molten pool: at the source itself the formula is
// infinite, and within the pool its values mean only "molten". Constants do
// not change with temperature, and surfaces lose no heat.
type Field struct {
	q, v, t0 float64 // W, m/s, degrees C
	d        float64 // m
	kappa    float64 // v/(2a), 1/m
	plate    Plate
	metal    Metal
}

// The ranges of sense of a field's power, W. Common practice, no source.
var heatPowers = validity{"heat power", 100, 60e3, 1e3, "kW", "give k times volts times amps, in watts"}

// NewField returns the field of a run, or an error naming the input that makes
// no sense.
func NewField(r FieldRequest) (Field, error) {
	m := r.Metal.orGrong()
	err := m.Validate()
	if err == nil {
		err = heatPowers.check(r.Power)
	}
	if err == nil {
		err = travelSpan.Check(r.Travel)
	}
	if err == nil {
		err = partSpan.Check(r.Preheat)
	}
	if err == nil && (r.Plate < ThickPlate || r.Plate > FinitePlate) {
		err = fmt.Errorf("%v; say thick, thin or finite", r.Plate)
	}
	if err == nil && r.Plate != ThickPlate {
		err = plateSpan.Check(r.Thickness)
	}
	if err == nil && m.Melting <= r.Preheat {
		err = &RangeError{"melting temperature", meltings.print(m.Melting), meltings.print(r.Preheat) + " and more, the part's temperature",
			"check the constants of the metal and the preheat"}
	}
	if err != nil {
		return Field{}, fmt.Errorf("temperature field: %w", err)
	}
	return Field{q: r.Power, v: r.Travel, t0: r.Preheat, d: r.Thickness,
		kappa: r.Travel / (2 * m.Diffusivity()), plate: r.Plate, metal: m}, nil
}

// Metal returns the constants that the field uses.
func (f Field) Metal() Metal { return f.metal }

// Source returns where the formulas stand.
func (f Field) Source() weld.Source {
	return weld.Source{Mark: weld.Memory, Code: "D. Rosenthal, moving heat source",
		Note: "constants of " + f.metal.Name + "; steady run, no loss at the surfaces"}
}

// Temperature returns the temperature at a place (m), degrees C: infinite at
// the source, meaningless inside the pool. In a thin plate Z is not read; in a
// finite one it is 0 to the thickness.
//
//	thick:  T - T0 = q/(2 pi lambda R) exp(-v (xi+R)/(2a)),        R^2 = xi^2 + y^2 + z^2
//	thin:   T - T0 = q/(2 pi lambda d) exp(-v xi/(2a)) K0(v r/(2a)),  r^2 = xi^2 + y^2
//	finite: the thick field and its mirror images in both faces
//
// Source: D. Rosenthal, moving heat source (thick, thin), and O. Grong (mirror
// images), from memory; thick and thin also read in public code and in a
// university's virtual laboratory.
func (f Field) Temperature(at r3.Vec) float64 { return f.t0 + f.rise(at) }

// rise returns T - T0, K.
func (f Field) rise(at r3.Vec) float64 {
	across := math.Hypot(at.X, at.Y)
	switch f.plate {
	case ThinPlate:
		return f.q / (2 * math.Pi * f.metal.Conductivity * f.d) * f.line(at.X, across, f.kappa)
	case FinitePlate:
		return f.q / (2 * math.Pi * f.metal.Conductivity) * f.between(at.X, across, at.Z)
	}
	return f.q / (2 * math.Pi * f.metal.Conductivity) * f.point(at.X, math.Hypot(across, at.Z))
}

// point returns exp(-kappa (xi+R))/R of a point source, 1/m.
func (f Field) point(xi, R float64) float64 { return math.Exp(-f.kappa*(xi+R)) / R }

// line returns exp(-kappa xi) K0(k r) of a line source, dimensionless, for a
// decay k (1/m) of at least kappa. Scaled so that neither factor overflows.
func (f Field) line(xi, r, k float64) float64 {
	return math.Exp(-f.kappa*xi-k*r) * scaledK0(k*r)
}

// smallTerm ends the two series of a finite plate, as a share of the sum, and
// negligible is its negative logarithm, both dimensionless.
const (
	smallTerm  = 1e-13
	negligible = 30
)

// between returns the sum of a point source and its images, 1/m, by whichever
// of two series needs fewer terms: images at every second thickness, or the
// thin plate's line source and its overtones through the thickness. By
// Poisson's summation they are the same function.
func (f Field) between(xi, r, z float64) float64 {
	R, k := math.Hypot(r, z), f.kappa
	reach := R + negligible/k
	images := math.Sqrt(reach*reach-R*R) / (2 * f.d)
	overtones := math.Inf(1)
	if r > 0 {
		decay := k + negligible/r
		overtones = math.Sqrt(decay*decay-k*k) * f.d / math.Pi
	}
	if overtones < images {
		return f.overtones(xi, r, z)
	}
	return f.images(xi, r, z)
}

// images sums the point source and its mirror images at depth 2 n d.
func (f Field) images(xi, r, z float64) float64 {
	sum := f.point(xi, math.Hypot(r, z))
	for n := 1.0; ; n++ {
		pair := f.point(xi, math.Hypot(r, z-2*n*f.d)) + f.point(xi, math.Hypot(r, z+2*n*f.d))
		sum += pair
		if !(pair > smallTerm*sum) || math.IsInf(sum, 1) {
			return sum
		}
	}
}

// overtones sums K0 of the thin plate and twice cos(n pi z/d) times that of the
// n-th overtone, whose decay is hypot(kappa, n pi/d).
func (f Field) overtones(xi, r, z float64) float64 {
	sum := f.line(xi, r, f.kappa)
	for n := 1.0; ; n++ {
		wave := n * math.Pi / f.d
		term := 2 * f.line(xi, r, math.Hypot(f.kappa, wave))
		sum += term * math.Cos(wave*z)
		if !(term > smallTerm*sum) {
			return sum / f.d
		}
	}
}
