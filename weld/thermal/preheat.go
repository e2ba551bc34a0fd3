package thermal

import (
	"fmt"
	"math"

	"seamwright/unit"
	"seamwright/weld"
)

// PreheatMethod is a way to a minimum preheat. They differ by design: for 20 mm
// of S355 method B gives 68 degrees C where AWS D1.1 gives 0. The zero value
// is "not stated".
type PreheatMethod uint8

// The methods.
const (
	MethodB  PreheatMethod = iota + 1 // EN 1011-2 method B, by CET
	SEW088                            // SEW 088, the forerunner of method B
	TableD11                          // prequalified table of AWS D1.1
)

var methodNames = [...]string{MethodB: "EN 1011-2 method B", SEW088: "SEW 088", TableD11: "the preheat table of AWS D1.1"}

// String returns the method's name, such as "EN 1011-2 method B".
func (m PreheatMethod) String() string {
	if m < MethodB || m > TableD11 {
		return "preheat method not stated"
	}
	return methodNames[m]
}

// Family returns the code family that the method belongs to.
func (m PreheatMethod) Family() weld.CodeFamily {
	switch m {
	case MethodB, SEW088:
		return weld.ISO
	case TableD11:
		return weld.AWS
	}
	return 0
}

// Preheat is a least preheat and interpass temperature.
type Preheat struct {
	Temperature float64      // least temperature before every run, degrees C
	Parts       PreheatParts // what it is the sum of, K; zero for a table
	Method      PreheatMethod
	ColdBelow   float64 // steel colder than this is warmed to WarmTo first, degrees C
	WarmTo      float64 // degrees C
	Source      weld.Source
}

// PreheatParts are what the composition, the thickness, the hydrogen and the
// heat input add to a preheat, K, as EN 1011-2 splits it (C.3 to C.6). The sum
// is the preheat in degrees C. Thickness, hydrogen and heat may be negative.
type PreheatParts struct {
	Carbon, Thickness, Hydrogen, Heat float64
}

// shopTemperature is the temperature of steel that stands in a heated shop,
// degrees C: a preheat up to here asks for dry steel that is not cold. From
// memory.
const shopTemperature = 20

// Needed reports whether the steel of a shop at 20 degrees C must be heated.
func (p Preheat) Needed() bool { return p.Temperature > shopTemperature }

// HeatTo returns the temperature (degrees C) to which steel of a given
// temperature (degrees C) is to be heated before the arc, or the steel's own
// where it is warm enough: the larger of the two, by definition, for steel
// of -40 to 600 degrees C.
func (p Preheat) HeatTo(steel float64) (float64, error) {
	if err := partSpan.Check(steel); err != nil {
		return 0, err
	}
	want := p.Temperature
	if steel < p.ColdBelow {
		want = max(want, p.WarmTo)
	}
	return max(steel, want), nil
}

// CETRequest is a joint whose preheat is wanted by its carbon equivalent.
type CETRequest struct {
	Family    weld.CodeFamily // of the job: these methods are of the ISO family
	Method    PreheatMethod   // MethodB or SEW088; zero is MethodB
	Steel     Equivalent      // CET of the plates, the higher of two
	Filler    Equivalent      // CET of the weld metal; zero where it is not known
	Thickness float64         // of the thicker plate, m
	Hydrogen  float64         // diffusible hydrogen, ml per 100 g (grams) of weld metal
	HeatInput float64         // Q, with the thermal efficiency k, J/m
	Yield     float64         // yield strength of the plates, Pa; 0 where it is not known
}

// The validity of method B: EN 1011-2 Annex C, read in public code.
const preheatMend = "EN 1011-2 method B holds only there: take the preheat from the procedure or the welding coordinator"

var (
	preheatCETs       = validity{"CET", 0.2, 0.5, 1, "% by mass", preheatMend}
	preheatPlates     = validity{"plate thickness", 10e-3, 90e-3, 1e-3, "mm", preheatMend}
	preheatHydrogens  = validity{"diffusible hydrogen", 1, 20, 1, "ml/100 g", preheatMend}
	preheatHeatInputs = validity{"heat input", 0.5e6, 4e6, 1e6, "kJ/mm", preheatMend}
	preheatYields     = validity{"yield strength", 50e6, 1000e6, 1e6, "MPa", preheatMend}
)

// fillerExcess is by how much a CET of the weld metal counts more than that of
// the plates, percent by mass. EN 1011-2, read in public code.
const fillerExcess = 0.03

// PreheatByCET returns the least preheat by method B of EN 1011-2,
//
//	Tp = 697 CET + 160 tanh(d/35) + 62 HD^0.35 + (53 CET - 32) Q - 328   degrees C
//
// with d in mm, HD in ml/100 g and Q in kJ/mm, or by SEW 088, which has 700 and
// 330. Of the plates' CET and the weld metal's plus 0.03 the larger counts. It
// holds for yield strengths to 1000 MPa, CET 0.2 to 0.5 %, d 10 to 90 mm, HD 1
// to 20, Q 0.5 to 4 kJ/mm, and stresses up to the yield strength; outside is a
// RangeError.
//
// Source: EN 1011-2 Annex C, equation C.8, with its validity, read in three
// independent public code files that agree; SEW 088 read in one of them.
func PreheatByCET(r CETRequest) (Preheat, error) {
	m := r.Method
	if m == 0 {
		m = MethodB
	}
	if (m == MethodB || m == SEW088) && r.Family != weld.ISO {
		return Preheat{}, &FamilyError{m.String(), weld.ISO, r.Family, "the job"}
	}
	CET, err := r.check(m)
	if err != nil {
		return Preheat{}, fmt.Errorf("preheat by %v: %w", m, err)
	}
	d, HD, Q := r.Thickness/unit.MM, r.Hydrogen, r.HeatInput/unit.KJPerMM
	parts := PreheatParts{
		Carbon:    750*CET - 150,
		Thickness: 160*math.Tanh(d/35) - 110,
		Hydrogen:  62*math.Pow(HD, 0.35) - 100,
		Heat:      (53*CET-32)*Q - 53*CET + 32,
	}
	out := Preheat{Method: m, ColdBelow: 0, WarmTo: shopTemperature, Source: weld.Source{Mark: weld.Read, Family: weld.ISO,
		Code: "EN 1011-2", Edition: "2001", Clause: "Annex C, equation C.8", Note: "as three public code files have it"}}
	if m == SEW088 {
		parts.Carbon += 3*CET - 2
		out.Source = weld.Source{Mark: weld.Read, Family: weld.ISO, Code: "SEW 088", Note: "as a public code file has it"}
	}
	out.Parts = parts
	out.Temperature = parts.Carbon + parts.Thickness + parts.Hydrogen + parts.Heat
	return out, nil
}

// check validates the request and returns the CET that counts, percent by mass.
func (r CETRequest) check(m PreheatMethod) (float64, error) {
	if m != MethodB && m != SEW088 {
		return 0, fmt.Errorf("%v does not work by CET; say %v or %v", m, MethodB, SEW088)
	}
	if err := r.Steel.want(CET); err != nil {
		return 0, fmt.Errorf("the plates: %w", err)
	}
	counts := r.Steel.Value
	if r.Filler != (Equivalent{}) {
		if err := r.Filler.want(CET); err != nil {
			return 0, fmt.Errorf("the weld metal: %w", err)
		}
		counts = max(counts, r.Filler.Value+fillerExcess)
	}
	if r.Yield != 0 {
		if err := preheatYields.check(r.Yield); err != nil {
			return 0, err
		}
	}
	return counts, within(preheatCETs.of(counts), preheatPlates.of(r.Thickness),
		preheatHydrogens.of(r.Hydrogen), preheatHeatInputs.of(r.HeatInput))
}
