package accept

import (
	"fmt"

	"seamwright/unit"
	"seamwright/weld"
)

// Measure is what an inspector reads with a gauge or sees. The zero value is
// "not stated".
type Measure uint8

// What is read with a gauge.
const (
	LegBase       Measure = iota + 1 // leg on the base plate
	LegOther                         // leg on the other plate
	Throat                           // gauge on the middle of the face
	FaceWidth                        // toe to toe
	Convexity                        // height over the line from toe to toe
	Undercut                         // depth
	Overlap                          // reach of metal that is not fused
	Excess                           // weld metal over flush, of a groove
	RootExcess                       // metal through the root
	RootWidth                        // width of that metal
	Underfill                        // depth below flush, or of sagging
	RootHollow                       // concavity of the root
	ToeAngle                         // between weld face and plate, rad
	Misalignment                     // of plates across the joint
	RootGap                          // of a fillet joint
	SurfacePore                      // diameter of a single pore
	CraterDepth                      // of an end crater pipe
	PoreSum25                        // sum of diameters in the worst 25 mm
	PoreSum300                       // sum of diameters in the worst 300 mm
	ElementLength                    // of the weld, or of one stitch
	ElementPitch                     // centre to centre of stitches
)

// What is seen: the reading is the length found, 0 for none.
const (
	Crack Measure = iota + 50
	CraterCrack
	LackOfFusion
	BurnThrough
	StrayArc
	Spatter
	UnfilledCrater // crater not filled to the weld's size
)

// measureWord names a measure and the welds on which it is read.
type measureWord struct {
	name string
	kind weld.WeldKind // 0: any
}

var measureWords = map[Measure]measureWord{
	LegBase: {"leg on the base plate", weld.Fillet}, LegOther: {"leg on the other plate", weld.Fillet},
	Throat: {"throat", weld.Fillet}, FaceWidth: {"face width", 0}, Convexity: {"convexity", weld.Fillet},
	Undercut: {"undercut", 0}, Overlap: {"overlap", 0}, Excess: {"excess weld metal", weld.Groove},
	RootExcess: {"excess penetration", weld.Groove}, RootWidth: {"width of the excess penetration", weld.Groove},
	Underfill: {"underfill", weld.Groove}, RootHollow: {"root concavity", weld.Groove}, ToeAngle: {"toe angle", 0},
	Misalignment: {"misalignment", 0}, RootGap: {"root gap", weld.Fillet}, SurfacePore: {"surface pore", 0},
	CraterDepth: {"end crater pipe", 0}, PoreSum25: {"pores in 25 mm", 0}, PoreSum300: {"pores in 300 mm", 0},
	ElementLength: {"length", 0}, ElementPitch: {"pitch", 0},
	Crack: {"crack", 0}, CraterCrack: {"crater crack", 0}, LackOfFusion: {"lack of fusion", 0},
	BurnThrough: {"burn-through", weld.Groove}, StrayArc: {"stray arc", 0}, Spatter: {"spatter", 0}, UnfilledCrater: {"unfilled crater", 0},
}

// String returns the trade's words, such as "undercut".
func (m Measure) String() string {
	if w, ok := measureWords[m]; ok {
		return w.name
	}
	return "measure not stated"
}

// Seen reports whether m is seen, not gauged.
func (m Measure) Seen() bool { return m >= Crack && m <= UnfilledCrater }

// unit is the unit in which the measure is shown.
func (m Measure) unit() unit.Unit {
	if m == ToeAngle {
		return unit.Degrees
	}
	return unit.Millimetres
}

// Reading is one measurement or one look at one place of a weld.
type Reading struct {
	Measure Measure
	Value   float64 // m; rad for a toe angle; the length found, m, for what is seen
	// Step is the step of the gauge, in the unit of Value; not needed for what
	// is seen.
	Step float64
	// At is the distance from the weld start, m, where Placed; readings of one
	// place belong together.
	At     float64
	Placed bool
	// Extent is the length of weld that the reading holds for, m, from At on; 0
	// where nobody measured it.
	Extent float64
}

// Weld is the weld as drawn.
type Weld struct {
	Kind   weld.WeldKind
	Size   float64       // of a fillet, m
	SizeIs weld.SizeKind // leg or throat; AWS has legs only
	Angle  float64       // included angle between the plates of a fillet, rad; 0 for square
	// ButtThickness is the nominal thickness s of a groove weld, m; 0 for the
	// plate's own.
	ButtThickness float64
	Thickness     float64 // of the plate, the thinner where they differ, m
	Length        float64 // m; 0 where nobody measured it
	// Element and Pitch are the length of one stitch and centre to centre of
	// stitches as drawn, m; 0 for a continuous weld, whose Length is held.
	Element, Pitch float64
	UnequalLegs    bool // unequal legs are called for
	// AcrossTension says that a cyclically loaded weld runs across tension in a
	// primary member, AWS D1.1.
	AcrossTension bool
	// GirderEnd is the length at each end of a girder's web-to-flange weld on
	// which AWS D1.1 allows no undersize, twice the flange width, m; 0 for other
	// welds.
	GirderEnd float64
}

// The ranges of sense. Common practice, no source.
var (
	sizeSense      = weld.Sense{What: "size", Low: 0.3e-3, High: 60e-3, Unit: unit.Millimetres}
	plateSense     = weld.Sense{What: "plate thickness", Low: 0.5e-3, High: 300e-3, Unit: unit.Millimetres}
	lengthSense    = weld.Sense{What: "weld length", Low: 1e-3, High: 1000, Unit: unit.Metres}
	gaugeSense     = weld.Sense{What: "reading", Low: 0, High: 150e-3, Unit: unit.Millimetres}
	seenSense      = weld.Sense{What: "length found", Low: 0, High: 1000, Unit: unit.Millimetres}
	toeSense       = weld.Sense{What: "toe angle", Low: 0, High: 180 * unit.Deg, Unit: unit.Degrees}
	stepSense      = weld.Sense{What: "step of the gauge", Low: 0.01e-3, High: 2e-3, Unit: unit.Millimetres}
	tapeSense      = weld.Sense{What: "reading", Low: 0, High: 1000, Unit: unit.Millimetres}
	tapeStepSense  = weld.Sense{What: "step of the tape", Low: 0.1e-3, High: 10e-3, Unit: unit.Millimetres}
	angleStepSense = weld.Sense{What: "step of the gauge", Low: 0.1 * unit.Deg, High: 15 * unit.Deg, Unit: unit.Degrees}
	includedSense  = weld.IncludedAngleSense()
)

// check holds a reading against the weld.
func (r Reading) check(w Weld, family weld.CodeFamily) *Error {
	word, known := measureWords[r.Measure]
	sense, step := gaugeSense, stepSense
	switch {
	case !known:
		return &Error{UnknownMeasure, fmt.Sprintf("measure %d", r.Measure), "the measures of this package", "say what was read"}
	case word.kind != 0 && word.kind != w.Kind:
		return &Error{NotForKind, fmt.Sprintf("%v of a %v weld", r.Measure, w.Kind), fmt.Sprintf("it on a %v weld", word.kind), "check which weld was read"}
	case family == weld.AWS && r.Measure == Throat:
		return &Error{MixedCodes, "a throat reading for AWS D1.1, which judges fillets by the leg", "both legs", "read the legs; a concave face is for the inspector"}
	case r.Measure == ElementPitch && w.Pitch == 0:
		return &Error{NotForKind, "a pitch of a continuous weld", "it on stitches", "give the pitch of the drawing, or leave the reading out"}
	case r.Measure == ElementLength || r.Measure == ElementPitch:
		sense, step = tapeSense, tapeStepSense
	case r.Measure == ToeAngle:
		sense, step = toeSense, angleStepSense
	case r.Measure.Seen():
		sense = seenSense
	}
	if err := sense.Check(r.Value); err != nil {
		return &Error{OutOfSense, fmt.Sprintf("%v: %v", r.Measure, err), "the range named", "read again"}
	}
	if !r.Measure.Seen() {
		if err := step.Check(r.Step); err != nil {
			return &Error{NoStep, fmt.Sprintf("%v: %v", r.Measure, err), "the step of the gauge, which bounds every reading", "give it, such as 0.5 mm"}
		}
	}
	if r.Extent < 0 || r.At < 0 || w.Length > 0 && r.At+r.Extent > w.Length+slack {
		return &Error{OutsideWeld, fmt.Sprintf("%v at %s over %s", r.Measure, mm(r.At), mm(r.Extent)), "places from 0 to " + mm(w.Length), "measure from the weld start"}
	}
	return nil
}

// check holds the weld against the standard.
func (w Weld) check(s Standard) *Error {
	switch {
	case w.Kind != weld.Fillet && w.Kind != weld.Groove:
		return &Error{NoKind, w.Kind.String(), "fillet, groove", "say which weld it is"}
	case w.Kind == weld.Fillet && w.SizeIs != weld.Leg && w.SizeIs != weld.Throat:
		return &Error{NoSize, "a size that is " + w.SizeIs.String(), "leg, throat", "ask what the drawing means"}
	case w.Kind == weld.Fillet && s.Code == D11 && w.SizeIs == weld.Throat:
		return &Error{MixedCodes, "a throat as the size of a fillet to AWS D1.1", "the leg", "give the leg that the drawing calls"}
	case w.Thickness == 0:
		return &Error{NoThickness, "no plate thickness", "the thickness of the plate, the thinner where they differ", "measure it"}
	}
	values := []weld.Sensed{plateSense.Of(w.Thickness)}
	if w.Kind == weld.Fillet {
		values = append(values, sizeSense.Of(w.Size))
	}
	if w.Angle != 0 {
		values = append(values, includedSense.Of(w.Angle))
	}
	if w.ButtThickness != 0 {
		values = append(values, plateSense.Of(w.ButtThickness))
	}
	for _, length := range []float64{w.Length, w.GirderEnd, w.Element, w.Pitch} {
		if length != 0 {
			values = append(values, lengthSense.Of(length))
		}
	}
	if err := weld.CheckAll(values...); err != nil {
		return &Error{OutOfSense, err.Error(), "the range named", "give the number of the drawing"}
	}
	return nil
}

// slack is how far a figure may pass a limit by rounding alone, m: a
// nanometre.
const slack = 1e-9

// mm prints a length (m) in mm.
func mm(x float64) string { return fmt.Sprintf("%.4g mm", x/unit.MM) }

// SeenMeasures returns what is seen, not gauged, on a kind of weld.
func SeenMeasures(kind weld.WeldKind) []Measure {
	var out []Measure
	for m := Crack; m <= UnfilledCrater; m++ {
		if k := measureWords[m].kind; k == 0 || k == kind {
			out = append(out, m)
		}
	}
	return out
}
