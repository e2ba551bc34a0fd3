package deposit

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// Gauged is one place of a weld made with a settings set: how it was welded and
// what the gauge says.
type Gauged struct {
	Melt   Melt    // wire and feed as welded; its efficiency is not read
	Travel float64 // travel speed as welded, m/s
	Angle  float64 // included angle between the plates, rad

	LegBase, LegOther float64 // m
	Throat            float64 // gauged on the middle of the face, with its bulge, m; 0 where nobody gauged it
	Step              float64 // step of the gauge, m
}

// The ranges of sense of readings. Common practice, no source.
var (
	gaugeSteps = weld.Sense{What: "step of the gauge", Low: 0.01e-3, High: 2e-3, Unit: unit.Millimetres}
	throatSpan = weld.Sense{What: "throat", Low: 0.3e-3, High: 60e-3, Unit: unit.Millimetres}
)

// Learned is what readings changed.
type Learned struct {
	Before, After Belief
	// Surprise is the largest distance of a reading from what was believed, in
	// standard deviations, dimensionless.
	Surprise float64
}

// surpriseMost is the distance of a reading from belief, in standard
// deviations, beyond which it is taken for a slip. Chosen here: one honest
// reading in 15 000 is refused.
const surpriseMost = 4.0

// Learn updates a belief with readings, each weighed by the step of its gauge,
// the scatter from place to place and the doubt in the belief. All readings
// count or none.
//
// Legs give the flat-face area A = z1 z2 sin(angle)/2; by the metal balance A k
// v = eta Q. In logarithms that is ln(A v/Q) = ln eta - ln k, linear in the two
// unknowns, so the update is exact for normal errors (Kalman 1960, from memory;
// checked by integration). A gauged throat over the flat one gives k itself: the
// bulge h adds 2/3 f h to A, f the face width (parabola, within 3 %; DERIVED).
//
// Refused, in words: legs out of range or more than 2:1, a throat that these
// legs cannot have, metal below half or above twice what was believed, a reading
// beyond four standard deviations, and an efficiency above 1.
func Learn(b Belief, readings []Gauged) (Learned, error) {
	if err := b.Validate(); err != nil {
		return Learned{}, err
	}
	if len(readings) == 0 {
		return Learned{}, fmt.Errorf("learn: no readings; gauge at least one place")
	}
	e := newEstimate(b)
	out := Learned{Before: b}
	evidence := b.Evidence
	for i, g := range readings {
		y, err := g.logYield(b)
		if err != nil {
			return Learned{}, fmt.Errorf("learn: reading %d: %w", i+1, err)
		}
		noise := g.yieldNoise() + float64(b.scatter()*b.scatter())
		surprise := math.Abs(y-math.Log(b.Efficiency/b.FaceFactor)) / math.Sqrt(b.yieldVariance()+noise)
		if surprise > surpriseMost {
			return Learned{}, fmt.Errorf("learn: reading %d: its legs hold %.3g times the metal that this set has laid so far, %.1f standard deviations away; allowed: %g; gauge again, or begin anew if wire, gas or feeder changed",
				i+1, math.Exp(y)*b.FaceFactor/b.Efficiency, surprise, surpriseMost)
		}
		out.Surprise = max(out.Surprise, surprise)
		evidence = evidence.add(y)
		e.observe(1, -1, y, noise)
		if g.Throat != 0 {
			k, noise, err := g.faceFactor()
			if err != nil {
				return Learned{}, fmt.Errorf("learn: reading %d: %w", i+1, err)
			}
			e.observe(0, 1, math.Log(k), noise+float64(b.scatter()*b.scatter()))
		}
	}
	out.After = e.belief(evidence)
	if out.After.Efficiency > 1 {
		return Learned{}, fmt.Errorf("learn: the readings want %.3g of the wire in the weld; allowed: at most 1; check travel speed, wire feed and wire diameter as welded, and the gauge", out.After.Efficiency)
	}
	if err := out.After.Validate(); err != nil {
		return Learned{}, fmt.Errorf("learn: the readings lead out of range: %w", err)
	}
	return out, nil
}

// logYield checks a reading and returns the logarithm of its flat-face area over
// the wire area fed.
func (g Gauged) logYield(b Belief) (float64, error) {
	g.Melt.Efficiency = b.Efficiency
	if err := g.Melt.Validate(); err != nil {
		return 0, err
	}
	err := weld.CheckAll(travelSpan.Of(g.Travel), angles.Of(g.Angle), legSpan.Of(g.LegBase), legSpan.Of(g.LegOther), gaugeSteps.Of(g.Step))
	if err != nil {
		return 0, err
	}
	if short, long := min(g.LegBase, g.LegOther), max(g.LegBase, g.LegOther); long > 2*short {
		return 0, fmt.Errorf("legs %.3g mm and %.3g mm; allowed: up to 2:1; mend the aim first, then gauge again", g.LegBase/unit.MM, g.LegOther/unit.MM)
	}
	y := math.Log(g.flatArea() * g.Travel / g.Melt.WireFlow())
	if ratio := math.Exp(y) * b.FaceFactor / b.Efficiency; ratio < 0.5 || ratio > 2 {
		return 0, fmt.Errorf("its legs hold %.3g times the metal that was planned; allowed: 0.5 to 2; check that the reading is of this seam and these settings", ratio)
	}
	return y, nil
}

// flatArea is the area under a flat face, m2.
func (g Gauged) flatArea() float64 { return g.LegBase * g.LegOther * math.Sin(g.Angle) / 2 }

// stepVariance is the variance of a gauge of this step, m2: readings fall
// evenly within half a step on either side.
func (g Gauged) stepVariance() float64 { return g.Step * g.Step / 12 }

// yieldNoise is the variance of the logarithm of the area from the gauge.
func (g Gauged) yieldNoise() float64 {
	v := g.stepVariance()
	return v/(g.LegBase*g.LegBase) + v/(g.LegOther*g.LegOther)
}

// faceFactor returns k from the gauged throat, and the variance of its
// logarithm.
func (g Gauged) faceFactor() (k, variance float64, err error) {
	if err := throatSpan.Check(g.Throat); err != nil {
		return 0, 0, err
	}
	d, s := g.LegBase-g.LegOther, math.Sin(g.Angle/2) // law of cosines without loss
	face := math.Sqrt(d*d + 4*g.LegBase*g.LegOther*s*s)
	area := g.flatArea()
	flat := 2 * area / face
	perHeight := 2.0 / 3 * face / area // of k
	k = 1 + perHeight*(g.Throat-flat)
	if err := convexities.Check(k); err != nil {
		return 0, 0, fmt.Errorf("a throat of %.3g mm on legs of %.3g mm and %.3g mm, whose flat throat is %.3g mm; allowed: a face factor of %g to %g, this is %.3g; gauge the throat on the middle of the face",
			g.Throat/unit.MM, g.LegBase/unit.MM, g.LegOther/unit.MM, flat/unit.MM, convexities.Low, convexities.High, k)
	}
	// Throat and flat throat both come from the gauge: 1 + 1/2 of its variance.
	rel := perHeight / k
	return k, rel * rel * 1.5 * g.stepVariance(), nil
}

// estimate is a normal estimate of ln eta and ln k.
type estimate struct {
	eta, k     float64 // means
	ee, kk, ek float64 // covariance
}

func newEstimate(b Belief) estimate {
	return estimate{
		eta: math.Log(b.Efficiency), k: math.Log(b.FaceFactor),
		ee: b.EfficiencySpread * b.EfficiencySpread, kk: b.FaceSpread * b.FaceSpread,
		ek: b.Correlation * b.EfficiencySpread * b.FaceSpread,
	}
}

// observe takes in a reading y = a ln eta + b ln k with a variance.
func (e *estimate) observe(a, b, y, variance float64) {
	// Covariance of the unknowns with the reading, and the reading's own.
	pe, pk := float64(a*e.ee)+float64(b*e.ek), float64(a*e.ek)+float64(b*e.kk)
	s := float64(a*pe) + float64(b*pk) + variance
	r := (y - float64(a*e.eta) - float64(b*e.k)) / s
	e.eta += float64(pe * r)
	e.k += float64(pk * r)
	e.ee -= float64(pe*pe) / s
	e.kk -= float64(pk*pk) / s
	e.ek -= float64(pe*pk) / s
}

// belief turns the estimate back.
func (e estimate) belief(ev Evidence) Belief {
	se, sk := math.Sqrt(max(e.ee, 0)), math.Sqrt(max(e.kk, 0))
	b := Belief{Efficiency: math.Exp(e.eta), FaceFactor: math.Exp(e.k), EfficiencySpread: se, FaceSpread: sk, Evidence: ev}
	if se > 0 && sk > 0 {
		b.Correlation = min(1, max(-1, e.ek/(se*sk)))
	}
	return b
}
