package thermal

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// WaitRequest is a run after which the joint has to cool before the next.
type WaitRequest struct {
	HeatInput float64    // Q, with the thermal efficiency k, J/m
	Preheat   float64    // T0, temperature of the part before the run, degrees C
	Ceiling   float64    // temperature at which the next run may begin, degrees C
	Thickness float64    // d, plate thickness, m
	Shape     JointShape // what the run is laid on; says how the heat divides
	Metal     Metal      // zero is SteelGrong
}

// Wait is the time from the arc's passing a place until the next run may pass
// it. What the arc and the arm spend elsewhere meanwhile counts towards it.
type Wait struct {
	Time  float64 // in the plate as thick as it is, s
	Thick float64 // had the plate no far face, s; never longer than Time
	Thin  float64 // were the temperature the same through the thickness, s; never longer than Time
	Plate Plate   // what the plate counts as by then: thick or thin where that answer is within a tenth
	Depth float64 // how deep the heat would have spread by then, 2 sqrt(a t), m
	Share float64 // of the heat that the plate takes, against a run on plate, dimensionless
	// Spread is the shortest and the longest Time by the published sets of
	// constants for steel, s; not stated where the request names a metal.
	Spread weld.Range
	Source weld.Source
}

// sameAnswer is within what share two waits count as one, dimensionless.
const sameAnswer = 0.1

// InterpassWait returns how long the middle of a long run takes to cool to the
// ceiling, s, by conduction alone: the rise after an instantaneous line of heat
// on a plate,
//
//	T - T0 = s Q/(2 pi lambda t) [1 + 2 sum exp(-n^2 d^2/(a t))]
//
// which is Q/(2 pi lambda t) while the heat has not felt the far face (thick)
// and Q/(d sqrt(4 pi lambda rho c t)) once it is even through the thickness
// (thin). The share s is the shape factor F3 of EN 1011-2: two thirds in a tee,
// where three plates carry the heat and not two.
//
// The plate is taken as wide and the run as long; a small part has nowhere to
// send its heat and waits longer, and the whole part warms from run to run:
// give its temperature now as Preheat. Measure before the next run. It holds for
// ceilings 5 K and more above the part, heat inputs of 0.02 to 20 kJ/mm and plates of
// 0.5 to 300 mm.
//
// Source: conduction from Rosenthal's field for a fast source, and mirror
// images in both faces, from memory; the constants of the metal decide.
func InterpassWait(r WaitRequest) (Wait, error) {
	f, err := r.Shape.Factors()
	m := r.Metal.orGrong()
	if err == nil {
		err = r.check(m)
	}
	if err != nil {
		return Wait{}, fmt.Errorf("interpass wait: %w", err)
	}
	w := Wait{Share: f.F3.Value, Source: weld.Source{Mark: weld.Memory, Code: "conduction from a line of heat on a plate",
		Note: "constants of " + m.Name}}
	w.Time, w.Thick, w.Thin = r.solve(m, w.Share)
	if r.Metal == (Metal{}) {
		w.Spread = weld.Between(w.Time, w.Time)
		for _, set := range [...]MetalSet{SteelEasterling, SteelHot, SteelShip} {
			t, _, _ := r.solve(metals[set], w.Share)
			w.Spread = weld.Between(min(w.Spread.Low, t), max(w.Spread.High, t))
		}
	}
	w.Depth = 2 * math.Sqrt(m.Diffusivity()*w.Time)
	switch {
	case w.Time <= (1+sameAnswer)*w.Thick:
		w.Plate = ThickPlate
	case w.Time <= (1+sameAnswer)*w.Thin:
		w.Plate = ThinPlate
	default:
		w.Plate = FinitePlate
	}
	return w, nil
}

// RiseAfter returns how much warmer than the part the weld still is a time (s, above 0)
// after the arc has passed, K, by the conduction of InterpassWait, whose source it
// shares, and with a loss of heat from both faces, W/(m2 K), 0 to 200:
//
//	(T - T0) exp(-2 h t/(d rho c))
//
// h loss, d thickness: exact once the heat is even through the thickness, and too
// slow to matter before. Still air and radiation take 10 to 25 W/(m2 K) between 100
// and 250 degrees C (from memory). Rises of several runs add up. The request's
// Ceiling is not read. Soon after the arc the answer means only "molten".
func (r WaitRequest) RiseAfter(time, loss float64) (float64, error) {
	f, err := r.Shape.Factors()
	m := r.Metal.orGrong()
	if err == nil {
		err = m.Validate()
	}
	if err == nil {
		err = weld.CheckAll(heatSpan.Of(r.HeatInput), plateSpan.Of(r.Thickness), partSpan.Of(r.Preheat))
	}
	if err == nil && !(loss >= 0 && loss <= 200) {
		err = &RangeError{"loss from a face", fmt.Sprintf("%g W/(m2 K)", loss), "0 to 200 W/(m2 K)", "give 0 for conduction alone"}
	}
	if err == nil && !(time > 0 && !math.IsInf(time, 1)) {
		err = &RangeError{"time after the arc", fmt.Sprintf("%g s", time), "above 0 s", "ask for a time when the arc has passed"}
	}
	if err != nil {
		return 0, fmt.Errorf("temperature after a run: %w", err)
	}
	theta, _ := imageSum(r.Thickness * r.Thickness / m.Diffusivity() / time)
	kept := math.Exp(-2 * loss * time / (r.Thickness * m.HeatCapacity))
	return kept * theta * f.F3.Value * r.HeatInput / (2 * math.Pi * m.Conductivity * time), nil
}

// Words explains the wait in one sentence, for the plate's thickness (m).
func (w Wait) Words(thickness float64) string {
	times := fmt.Sprintf("%.3g s (thick plate %.3g s, thin plate %.3g s)", w.Time, w.Thick, w.Thin)
	switch w.Plate {
	case ThickPlate:
		return fmt.Sprintf("%s: the heat spreads %.3g mm deep by then and hardly feels the far face at %.3g mm, so the plate counts as thick",
			times, w.Depth/unit.MM, thickness/unit.MM)
	case ThinPlate:
		return fmt.Sprintf("%s: the heat would spread %.3g mm deep by then and the plate is %.3g mm, so it is even through the thickness and the plate counts as thin",
			times, w.Depth/unit.MM, thickness/unit.MM)
	}
	return fmt.Sprintf("%s: the heat would spread %.3g mm deep by then and the plate is %.3g mm, so the plate is neither thick nor thin and the far face sends some heat back",
		times, w.Depth/unit.MM, thickness/unit.MM)
}

func (r WaitRequest) check(m Metal) error {
	if err := m.Validate(); err != nil {
		return err
	}
	if err := weld.CheckAll(heatSpan.Of(r.HeatInput), plateSpan.Of(r.Thickness), partSpan.Of(r.Preheat)); err != nil {
		return err
	}
	return validity{"interpass ceiling", r.Preheat + leastFall, min(600, m.Melting), 1, "degC",
		"the part does not cool below the temperature it has away from the weld: raise the ceiling or let the whole part cool"}.check(r.Ceiling)
}

// leastFall is the least difference between a ceiling and the part, K: nearer,
// the wait would grow without bound and surfaces would matter more than
// conduction.
const leastFall = 5

// solve returns the wait and its two limits, s.
func (r WaitRequest) solve(m Metal, share float64) (time, thick, thin float64) {
	strength := share * r.HeatInput / (2 * math.Pi * m.Conductivity * (r.Ceiling - r.Preheat)) // s: rise = ceiling at theta/t = 1/strength
	a := m.Diffusivity()
	crossing := r.Thickness * r.Thickness / a // s, in which heat crosses the plate
	thick = strength
	thin = math.Pi * strength * strength / crossing
	// The rise falls with time, slower than 1/t and faster than 1/sqrt t, and
	// log against log it is convex, so Newton's steps from a time that is too
	// short never pass the answer.
	time = max(thick, thin)
	for range 60 {
		theta, slope := imageSum(crossing / time)
		step := math.Log(theta*strength/time) / slope
		time *= math.Exp(step)
		if math.Abs(step) < 1e-13 {
			break
		}
	}
	return time, thick, thin
}

// imageSum returns theta(s) = 1 + 2 sum exp(-n^2 s), dimensionless, and the
// slope -d ln(theta(c/t)/t) / d ln t at s = c/t, between 1/2 and 1. Below pi
// the sum is carried over by Poisson to sqrt(pi/s) theta(pi^2/s), so that four
// terms always do.
func imageSum(s float64) (theta, slope float64) {
	direct := s >= math.Pi
	p := s
	if !direct {
		p = math.Pi * math.Pi / s
	}
	sum, moment := 1.0, 0.0 // moment is p times the derivative of the sum, negated
	for n := 1.0; n <= 4; n++ {
		term := 2 * math.Exp(-n*n*p)
		sum += term
		moment += n * n * p * term
	}
	if direct {
		return sum, 1 - moment/sum
	}
	return math.Sqrt(math.Pi/s) * sum, 0.5 + moment/sum
}
