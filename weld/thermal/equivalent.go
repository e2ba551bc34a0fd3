package thermal

import (
	"fmt"
	"math"
	"strings"

	"seamwright/weld"
)

// EquivalentKind is one of the carbon equivalents. They are different scales:
// 0.42 by one is not 0.42 by another. The zero value is "not stated".
type EquivalentKind uint8

// The carbon equivalents.
const (
	CEIIW EquivalentKind = iota + 1 // CE of the IIW, CEV on European certificates
	CET                             // of EN 1011-2 method B
	Pcm                             // of Ito and Bessyo, AWS D1.1 annex
	CEN                             // of Yurioka
)

var equivalentNames = [...]string{CEIIW: "CE (IIW)", CET: "CET", Pcm: "Pcm", CEN: "CEN"}

// String returns the name, such as "CET".
func (k EquivalentKind) String() string {
	if k < CEIIW || k > CEN {
		return "carbon equivalent not stated"
	}
	return equivalentNames[k]
}

// ParseEquivalentKind reads "CE", "CEV", "CE (IIW)", "CET", "Pcm" or "CEN".
func ParseEquivalentKind(s string) (EquivalentKind, error) {
	key := strings.ToLower(strings.TrimSpace(s))
	if key == "ce" || key == "cev" {
		return CEIIW, nil
	}
	for k := CEIIW; k <= CEN; k++ {
		if key == strings.ToLower(equivalentNames[k]) {
			return k, nil
		}
	}
	return 0, fmt.Errorf("carbon equivalent %q is not known; write one of: %s", s, strings.Join(equivalentNames[CEIIW:], ", "))
}

// Equivalent is a carbon equivalent with its scale. The zero value is "not
// stated".
type Equivalent struct {
	Kind    EquivalentKind
	Value   float64 // percent by mass
	Outside error   // a RangeError where the formula was not made for the composition; nil where it was
	Source  weld.Source
}

// String returns the scale and the value, such as "CET 0.315".
func (e Equivalent) String() string {
	if e.Kind == 0 {
		return e.Kind.String()
	}
	return fmt.Sprintf("%v %.3f", e.Kind, e.Value)
}

var givenEquivalents = validity{"carbon equivalent", 0.02, 1.5, 1, "% by mass", "check the value; 0.42 % is 0.42"}

// GivenEquivalent returns a carbon equivalent that somebody read off a
// certificate, percent by mass, 0.02 to 1.5, with the mark weld.Given.
func GivenEquivalent(k EquivalentKind, value float64) (Equivalent, error) {
	if k < CEIIW || k > CEN {
		return Equivalent{}, fmt.Errorf("%v; say one of: %s", k, strings.Join(equivalentNames[CEIIW:], ", "))
	}
	if err := givenEquivalents.check(value); err != nil {
		return Equivalent{}, fmt.Errorf("%v: %w", k, err)
	}
	return Equivalent{Kind: k, Value: value, Source: weld.Source{Mark: weld.Given, Code: "certificate"}}, nil
}

// Equivalent returns a carbon equivalent of the composition, percent by mass.
//
//	CE (IIW) = C + Mn/6 + (Cr+Mo+V)/5 + (Ni+Cu)/15        C from 0.12, CE 0.30 to 0.70
//	CET      = C + (Mn+Mo)/10 + (Cr+Cu)/20 + Ni/40         C 0.05 to 0.32, Mn 0.5 to 1.9, and others
//	Pcm      = C + Si/30 + (Mn+Cu+Cr)/20 + Ni/60 + Mo/15 + V/10 + 5 B     C to 0.18
//	CEN      = C + A [Si/24 + Mn/6 + Cu/15 + Ni/20 + (Cr+Mo+V+Nb)/5 + 5 B]    all
//	           A = 0.75 + 0.25 tanh(20 (C - 0.12))
//
// A sum can be formed for any steel, and certificates print it; where the
// composition is outside the range in which it tells hardening, Outside says
// so, and what builds on it here refuses it. A composition that makes no sense
// is a RangeError.
//
// Source: all four read in a steel maker's help text, CE (IIW), CET and Pcm
// also in public code that quotes EN 1011-2.
func (c Composition) Equivalent(k EquivalentKind) (Equivalent, error) {
	if err := c.Validate(); err != nil {
		return Equivalent{}, err
	}
	e := Equivalent{Kind: k}
	switch k {
	case CEIIW:
		e.Value, e.Source = c.iiw(), readFormula(0, "carbon equivalent of the IIW")
		e.Outside = within(iiwCarbon.of(c.C), iiwValue.of(e.Value))
	case CET:
		e.Value, e.Source = c.cet(), readFormula(weld.ISO, "EN 1011-2")
		e.Outside = c.withinCET()
	case Pcm:
		e.Value, e.Source = c.pcm(), readFormula(0, "Pcm of Ito and Bessyo")
		e.Outside = pcmCarbon.check(c.C)
	case CEN:
		e.Value, e.Source = c.cen(), readFormula(0, "CEN of Yurioka")
	default:
		return Equivalent{}, fmt.Errorf("%v; say one of: %s", k, strings.Join(equivalentNames[CEIIW:], ", "))
	}
	return e, nil
}

func (c Composition) cen() float64 {
	A := 0.75 + 0.25*math.Tanh(20*(c.C-0.12))
	return c.C + A*(c.Si/24+c.Mn/6+c.Cu/15+c.Ni/20+(c.Cr+c.Mo+c.V+c.Nb)/5+5*c.B)
}

// want returns an error unless e is on scale k and its formula holds there.
func (e Equivalent) want(k EquivalentKind) error {
	if e.Kind != k {
		return fmt.Errorf("a %v is wanted and %v was given; the scales are never exchanged: compute the %v from the composition", k, e, k)
	}
	if e.Outside != nil {
		return fmt.Errorf("%v is outside its range: %w", e, e.Outside)
	}
	return nil
}
